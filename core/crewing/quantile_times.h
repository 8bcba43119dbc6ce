// Fixed times taken from simulated days: medians, or early and late quantiles for cautious plans.
#pragma once

#include <vector>

#include "core/crewing/crewing_task.h"
#include "core/crewing/fixed_time.h"

namespace outbye {

// Each arrival's and departure's `quantile` (0..1, nearest rank) over the simulated days, when the horses stop at the
// options marked in `is_met` (one flag an option). 0.5: medians.
FixedTimes quantile_times(const CrewingTask& task, const std::vector<bool>& is_met, double quantile);
FixedTimes medians(const CrewingTask& task, const std::vector<bool>& is_met);

}  // namespace outbye
