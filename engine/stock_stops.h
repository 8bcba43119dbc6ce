// The stops of a car as stock sees them. Internal to engine.
#pragma once

#include <vector>

#include "core/stock/stock.h"
#include "engine/stock.h"

namespace outbye {

// By car, by stop, by day: whether the car was there for its horse (meets), as the plan values its orders. At most
// `days` days. Errors: none for a plan of plan_ride(); those of make_policy() else.
Result<std::vector<std::vector<std::vector<std::uint8_t>>>> met_by_day(const RidePlan& plan, std::size_t days);

// Rests are not stops; errands for ice are (ice_errands()). `has_electrolyte`: some container holds it, so likes for it
// are served from there. `car`: row of plan.plan.days.
std::vector<StockStop> stock_stops(const RidePlan& plan, std::size_t car,
                                   const std::vector<std::vector<std::uint8_t>>& met, bool has_electrolyte,
                                   const StockOptions& options);

// Names of the errands of a car that bring ice: those that say so, or whose name has the word in it ("Ice from the
// shop").
std::vector<std::string> ice_errands(const RidePlan& plan, std::size_t car);

}  // namespace outbye
