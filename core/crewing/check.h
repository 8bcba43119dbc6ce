// The independent checker: may this plan be shown to anyone? It knows the task and the plan and nothing of how plans
// are made; it shares no code with search or valuing. The rules are those written in fixed_time.h. Times of a plan are
// whole seconds, so two seconds of rounding are allowed.
#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/crewing/crewing_task.h"
#include "core/crewing/plan.h"

namespace outbye {

// Every reason to refuse the plan, in plain words with car and stop; empty: accepted.
std::vector<Problem> check_plan(const CrewingTask& task, const CrewPlan& plan);

}  // namespace outbye
