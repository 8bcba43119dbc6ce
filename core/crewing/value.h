// What crew orders are worth: the mean over simulated days on which horses, drives and crews do what they can with
// what they know. All orders are valued on the same days and the same drives (common random numbers).
// Worth as in fixed_time.h: worth x readiness, less the penalty of gaps. On one day without chance it is the worth of
// evaluate_fixed() there (floats: within 1e-4).
#pragma once

#include <cstddef>
#include <vector>

#include "core/base/result.h"
#include "core/crewing/plan.h"
#include "core/crewing/value_days.h"
#include "core/crewing/value_policy.h"

namespace outbye {

struct StopOdds {
  double ready{};  // share of days on which the car was set up before the horse came
  double there{};  // ... was there before the horse left
};

struct Valuation {
  double worth{};
  double standard_error{};
  std::vector<float> by_day;                // worth of each day
  std::vector<std::vector<StopOdds>> odds;  // [car of the orders][stop]; 0 for refills and rests
  Policy policy;
};

// Only the first `most_days` days when that is fewer. Errors: as make_policy().
Result<Valuation> value_orders(ValuationDays& days, const CrewOrders& orders,
                               std::size_t most_days = static_cast<std::size_t>(-1));

// Mean and standard error of a - b, day by day. Sizes must be equal.
struct Difference {
  double mean{};
  double standard_error{};
};
Difference paired_difference(const std::vector<float>& a, const std::vector<float>& b);

}  // namespace outbye
