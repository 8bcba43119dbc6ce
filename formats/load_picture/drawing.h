// What both pictures of a load share: numbers of steps, hatching, labels. Internal to this folder.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "core/load/load_plan.h"
#include "formats/picture/svg.h"

namespace outbye {

constexpr double page_width = 794;  // A4 upright, in units of 1/96 inch
constexpr double page_height = 1123;
constexpr double small_text = 12;  // 9 points: nothing is smaller
constexpr double small_pitch = 14.5;

// A thing of one space, in the order of loading.
struct DrawnThing {
  int step{};
  LoadItemId item;
  LoadBox box;
  LoadStep words;
};
std::vector<DrawnThing> things_in(const LoadTask& task, const Load& load, LoadSpaceId space);

// A parallelogram on the paper.
struct Face {
  Spot corner;
  Spot along;   // from the corner
  Spot across;  // from the corner
};
Spot on_face(const Face& face, double u, double v);  // 0..1 each
std::vector<Spot> outline(const Face& face);
bool covers(const Face& face, Spot at);

// Lines across a face, `gap` units apart; `both` for cross-hatching.
void hatch(Svg& svg, const Face& face, double gap, bool both, std::string_view attributes);

// A number in a ring, dark for what is new.
void number_mark(Svg& svg, Spot at, int step, bool is_new, double size);

extern const char* const load_style;

// "12.5 kg"
std::string kg(Kilograms mass);

// Text cut into lines of at most `columns`, at most `lines` of them; the last is shortened.
std::vector<std::string> text_lines(const std::string& text, std::size_t columns, std::size_t lines);

// The heading of a page; returns where the drawing may begin.
double draw_heading(Svg& svg, const std::string& title, const std::vector<std::string>& lines);

// Pages that are drawn one at a time, each from (0, 0), as single pictures or one below the other.
struct Pages {
  std::string title;
  std::string description;
  std::size_t count{1};
  std::function<void(Svg&, std::size_t page)> draw;
};
std::vector<std::string> one_by_one(const Pages& pages);
std::string one_below_the_other(const Pages& pages);

}  // namespace outbye
