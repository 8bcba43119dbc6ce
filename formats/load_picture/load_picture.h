// Pictures of a load, for the person who packs the car: A4, printable in grey.
#pragma once

#include <string>

#include "core/load/load_plan.h"

namespace outbye {

// Step by step, a few things a panel, seen from behind and above on the right: what is there already is white, what
// goes in now is hatched and numbered as in the list. `car` is written in the heading.
std::string load_steps_svg(const LoadTask& task, const Load& load, LoadSpaceId space, const std::string& car);

// Plans from above, one a layer: what stands at that height, with what is under it in outline. Seat-back at the top,
// tailgate at the bottom, so that the left of the picture is the left of the car.
std::string load_layers_svg(const LoadTask& task, const Load& load, LoadSpaceId space, const std::string& car);

}  // namespace outbye
