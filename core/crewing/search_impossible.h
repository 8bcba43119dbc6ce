// Why meets that must be served cannot be, and what to relax.
#pragma once

#include "core/base/result.h"
#include "core/crewing/crewing_task.h"
#include "core/crewing/fixed_time.h"

namespace outbye {

// For a task whose musts were found not to fit together. Names one meet that fails by itself, with the reason (wishes
// that contradict, shut, no way by car, too late by so many minutes, or the limit of a car that stands in the way), or
// else the fewest found that fail together. `is_proven`: the search was complete; if not, the answer says so.
Problem why_impossible(const CrewingTask& task, const FixedTimes& times, bool is_proven);

}  // namespace outbye
