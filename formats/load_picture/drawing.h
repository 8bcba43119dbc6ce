// What both pictures of a load share: numbers of steps, hatching, labels. Internal to this folder.
#pragma once

#include <string>
#include <vector>

#include "core/load/load_plan.h"
#include "formats/picture/svg.h"

namespace outbye {

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

// The heading of a sheet; returns where the drawing may begin.
double draw_heading(Svg& svg, double width, const std::string& title, const std::vector<std::string>& lines);

}  // namespace outbye
