// The crew plan: searched at median times, chosen on the simulated days, timed, explained and checked.
#pragma once

#include "core/base/progress.h"
#include "core/base/result.h"
#include "core/crewing/crewing_task.h"
#include "core/crewing/plan.h"

namespace outbye {

// Errors: bad_input (the task does not fit together), impossible (which constraint to relax), cancelled. A plan that
// the checker (check.h) refuses is never returned: that would be our own mistake, and the problem says so. The same
// task gives the same bytes.
Result<CrewPlan> plan_crew(const CrewingTask& task, const Progress& progress = {});

// The same for orders that are given: for comparisons. Cars without orders may be left out.
// Errors: bad_input; impossible when the orders cannot be kept at median times (why).
Result<CrewPlan> value_given_orders(const CrewingTask& task, const CrewOrders& orders);

}  // namespace outbye
