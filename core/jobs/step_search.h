// The shortest schedule of one step: a narrow pass (step_pass.h) finds some schedule, then the step is searched best
// first (best_first.h), from its beginning and from its end, since which of the two is easier is not known before.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "core/jobs/step_pass.h"

namespace outbye {

struct StepAnswer {
  std::optional<std::size_t> model;  // of the models given; nothing: no schedule was found
  std::vector<StepStart> starts;
  std::int32_t end{INT32_MAX};
  std::int32_t bound{};  // no schedule ends earlier
  std::uint64_t nodes{};
};

// The shortest schedule over all models (ways to crew the step), with about `limit` nodes; each model has tasks. At
// least one schedule is found whatever the limit.
StepAnswer shortest_step(const std::vector<const StepModel*>& models, std::uint64_t limit);

}  // namespace outbye
