#include "formats/picture/marks.h"

#include <cmath>

#include "core/base/text.h"

namespace outbye {

Standing standing_of(double chance) {
  if (chance >= 0.9) return Standing::sure;
  if (chance >= 0.7) return Standing::likely;
  if (chance >= 0.4) return Standing::open;
  return Standing::doubtful;
}

std::string words_for(Standing standing) {
  switch (standing) {
    case Standing::sure:
      return "sure (90\u00a0% or more)";
    case Standing::likely:
      return "likely (70 to 90\u00a0%)";
    case Standing::open:
      return "open (40 to 70\u00a0%)";
    case Standing::doubtful:
      return "doubtful (below 40\u00a0%)";
    case Standing::unmet:
      return "not met";
  }
  return "";
}

std::string percent(double chance) {
  const double rounded = std::floor(100 * chance + 0.5);
  if (rounded >= 100) return ">99\u00a0%";
  if (rounded <= 0) return "<1\u00a0%";
  return fixed(rounded, 0) + "\u00a0%";
}

void draw_mark(Svg& svg, Spot at, Standing standing) {
  constexpr double r = 4.5;
  const Box square{at.x - r, at.y - r, at.x + r, at.y + r};
  switch (standing) {
    case Standing::sure:
      svg.rectangle(square, "class=\"mark full\"");
      return;
    case Standing::likely:
      svg.rectangle(square, "class=\"mark\"");
      svg.shape("M" + pair({square.left, square.bottom}) + "L" + pair({square.right, square.bottom}) + ' ' +
                    pair({square.right, square.top}) + "Z",
                "class=\"full\"");
      return;
    case Standing::open:
      svg.rectangle(square, "class=\"mark\"");
      return;
    case Standing::doubtful:
      svg.shape("M" + pair({at.x, at.y - 6}) + "L" + pair({at.x + 6, at.y}) + ' ' + pair({at.x, at.y + 6}) + ' ' +
                    pair({at.x - 6, at.y}) + "Z M" + pair({at.x - 3, at.y - 3}) + "L" + pair({at.x + 3, at.y + 3}) +
                    " M" + pair({at.x - 3, at.y + 3}) + "L" + pair({at.x + 3, at.y - 3}),
                "class=\"mark\"");
      return;
    case Standing::unmet:
      svg.circle(at, 3.2, "class=\"mark\"");
      return;
  }
}

std::vector<Meet> meets_of(const RidePlan& plan) {
  std::vector<Meet> meets;
  for (const auto& day : plan.plan.days) {
    for (const auto& stop : day.stops) {
      if (!stop.stop.option) continue;
      meets.push_back({day.car, &at(plan.task.options, *stop.stop.option), &stop});
    }
  }
  return meets;
}

std::string dashes(std::size_t i) {
  static constexpr const char* patterns[] = {"",          "9 4",  "2.5 3",       "12 3 2.5 3",
                                             "5 2.5 5 6", "16 5", "8 3 2 3 2 3", "1.5 5"};
  return patterns[i % std::size(patterns)];
}

std::string ink(std::size_t i) {
  static constexpr const char* inks[] = {"#17505f", "#a2471b", "#5a3575", "#4c6a16",
                                         "#8c1f45", "#2b57a0", "#6b4a10", "#3a3a3a"};
  return inks[(i + 3 * (i / std::size(inks))) % std::size(inks)];  // where dashes repeat, colours do not
}

}  // namespace outbye
