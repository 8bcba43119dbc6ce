// The shortest schedule of one step. Tasks are started in the order of time, layer after layer of states with the same
// number of tasks; a state that another one with the same tasks beats in every respect is dropped, and one whose bound
// is not below the best known end as well. Layers are cut to a width that grows from pass to pass; a pass in which
// nothing had to be cut proves its answer, and so does an answer that meets the bound.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "core/jobs/step_model.h"

namespace outbye {

struct StepStart {
  std::size_t task{};  // of the model
  StepWay way;
  std::int32_t start{};
};

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
