// How good a meet stands, as a word, a number and a shape, and the meets of a plan in the order in which they are
// drawn.
#pragma once

#include <string>
#include <vector>

#include "engine/use_cases.h"
#include "formats/picture/svg.h"

namespace outbye {

// By the chance of being ready before the horse: from 0.9, from 0.7, from 0.4, below; or not planned.
enum class Standing { sure, likely, open, doubtful, unmet };
Standing standing_of(double chance);
std::string words_for(Standing standing);  // "sure (90 % and more)"

// "93 %"; ">99 %" and "<1 %" rather than a certainty nobody has.
std::string percent(double chance);

// A shape for each standing, about 10 units across: full, half and empty square, crossed diamond, small ring.
void draw_mark(Svg& svg, Spot at, Standing standing);

struct Meet {
  CarId car;
  const MeetOption* option{};
  const TimedStop* stop{};
};
// By car, then in the order of its day. Points into the plan.
std::vector<Meet> meets_of(const RidePlan& plan);

// Line pattern number i: "" (solid), then dashes that stay apart in grey. Repeats after eight.
std::string dashes(std::size_t i);
// A dark colour for loop or horse i, readable on white. With dashes(i), apart for 64 loops.
std::string ink(std::size_t i);

}  // namespace outbye
