// What nobody could beat: the mean over days of the best that crews could have done had they known each day in advance.
//
// Day by day it is the exact optimum of a relaxation: drives, stands and arrivals are the day's own; every horse is as
// late as meets of other cars could make it; driving a detour is never slower than the day's shortest way; set-up and
// packing take the least that any option of the place asks; fuel, water, breaks, `must`, `only_car` and the way home
// are not asked for. One horse and up to two cars: by dynamic programming over the last meet of each car, gaps
// included. Otherwise without the gaps' penalty, by a sum over cars (see value_bound.cpp).
#pragma once

#include <cstddef>
#include <vector>

#include "core/base/result.h"
#include "core/crewing/value_days.h"

namespace outbye {

struct HindsightBound {
  std::vector<float> by_day;  // of the first days
  bool counts_gaps{};         // the penalty of gaps is in it
};

// Of the first `most_days` days (all if fewer).
HindsightBound bound_with_hindsight(const ValuationDays& days, std::size_t most_days);

}  // namespace outbye
