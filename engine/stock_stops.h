// The stops of a car as stock sees them. Internal to engine.
#pragma once

#include <vector>

#include "core/stock/stock.h"
#include "engine/stock.h"

namespace outbye {

// By car, by stop, by day: whether the car was there for its horse (meets), as the plan values its orders. At most
// `days` days. Errors: none for a plan of plan_ride(); those of make_policy() else.
Result<std::vector<std::vector<std::vector<std::uint8_t>>>> met_by_day(const RidePlan& plan, std::size_t days);

// Rests are not stops. `has_electrolyte`: some container holds it, so likes for it are served from there.
std::vector<StockStop> stock_stops(const RidePlan& plan, const CarDay& day,
                                   const std::vector<std::vector<std::uint8_t>>& met, bool has_electrolyte,
                                   const StockOptions& options);

}  // namespace outbye
