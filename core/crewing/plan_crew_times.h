// Typical times for many orders, and the timetable of the chosen ones.
#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/crewing/fixed_time.h"
#include "core/crewing/plan.h"
#include "core/crewing/value.h"
#include "core/crewing/value_days.h"

namespace outbye {

// One flag an option.
std::vector<bool> met_options(const CrewingTask& task, const CrewOrders& orders);

// Fixed times from the columns' medians: the median of a sum taken as the sum of medians. A few seconds off medians(),
// a thousand times faster.
FixedTimes typical_times(const ValuationDays& days, const std::vector<bool>& is_met);

// When horses come and go on the days, when they stop at the options marked: medians and windows as window_of() gives
// them (between neighbouring ranks in proportion), so that a plan and a forecast of the same passes agree.
struct Passings {
  FixedTimes median;
  std::vector<Window> due;  // an option; only of those that are met
};
Passings passings(const CrewingTask& task, const std::vector<bool>& is_met);

// Stops with their times, windows, odds, leave-bys and fallbacks; worth of each meet left at 0. `fixed` must be the
// feasible value of the orders at the medians of the days, `value` theirs on the days.
std::vector<CarDay> timetable(const ValuationDays& days, const CrewOrders& orders, const Passings& passings,
                              const FixedValue& fixed, const Valuation& value);

}  // namespace outbye
