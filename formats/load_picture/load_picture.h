// Pictures of a load, for the person who packs the car: A4 upright, printable in grey, no text below 9 points.
#pragma once

#include <string>
#include <vector>

#include "core/load/load_plan.h"

namespace outbye {

// Step by step, at most three things a panel and twelve a page, seen from behind and above on the right: what is there
// already is outlined, what goes in now is hatched and numbered as in the list, with its name below. `car` is written
// in the heading. One picture a page; nothing loaded: one page that says so.
std::vector<std::string> load_steps_pages(const LoadTask& task, const Load& load, LoadSpaceId space,
                                          const std::string& car);

// Plans from above, one a layer: what stands at that height, with what is under it in outline and the names beside it.
// Seat-back at the top, tailgate at the bottom, so that the left of the picture is the left of the car.
std::vector<std::string> load_layers_pages(const LoadTask& task, const Load& load, LoadSpaceId space,
                                           const std::string& car);

// The same pages one below the other in one picture, for a screen.
std::string load_steps_svg(const LoadTask& task, const Load& load, LoadSpaceId space, const std::string& car);
std::string load_layers_svg(const LoadTask& task, const Load& load, LoadSpaceId space, const std::string& car);

// The pictures of a load: steps and layers of each space that has anything in it, and of the boot anyway.
struct LoadPicture {
  std::string kind;   // "steps", "layers"
  std::string space;  // "", "-roof-box": behind the car's name
  std::vector<std::string> pages;
};
enum class LoadPages { one_by_one, one_below_the_other };  // for paper, for a screen
std::vector<LoadPicture> load_pictures(const LoadTask& task, const Load& load, const std::string& car, LoadPages as);

}  // namespace outbye
