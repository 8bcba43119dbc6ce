// Orders a step away from others: a meet dropped, taken in, moved to another car or exchanged, the rest of two cars'
// days swapped, a needless refill or rest left out.
#pragma once

#include <vector>

#include "core/crewing/fixed_time.h"
#include "core/crewing/plan.h"

namespace outbye {

// Not all are feasible. `times` order the meets of a car (rule 6 of fixed_time.h).
std::vector<CrewOrders> neighbours(const CrewingTask& task, const FixedTimes& times, const CrewOrders& orders);

}  // namespace outbye
