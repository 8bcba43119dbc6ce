// One pass over a step: tasks are started in the order of time, layer after layer of states with the same number of
// tasks; a state that another one with the same tasks beats in every respect is dropped, and one whose bound is not
// below the end that is asked for as well. Layers are cut to a width; a pass in which nothing was cut has seen all.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "core/jobs/step_model.h"

namespace outbye {

struct StepStart {
  std::size_t task{};  // of the model
  StepWay way;
  std::int32_t start{};
};

using Places = std::array<std::uint8_t, most_helpers>;

// A task that is begun on the way to a state, by helpers of the state before it.
struct StepMove {
  std::uint8_t task{};
  std::uint8_t way{};
  Places from{0, 1, 2, 3};  // helper h of the state after it is helper from[h] of the one before
};
// What the moves from the beginning start, and when, with everyone's own place again.
std::vector<StepStart> starts_along(const StepModel& model, const std::vector<StepMove>& moves);

struct PassLimits {
  std::int32_t enough{INT32_MAX};  // only schedules that end before are looked for
  std::size_t width{4};            // of a layer
  std::uint64_t nodes{UINT64_MAX};
};

struct PassAnswer {
  bool is_found{};
  std::vector<StepStart> starts;  // when found
  std::int32_t end{INT32_MAX};
  bool is_complete{};             // nothing was cut
  std::int32_t bound{INT32_MAX};  // complete and not found: no schedule ends earlier
  std::uint64_t nodes{};
};

PassAnswer step_pass(const StepModel& model, const PassLimits& limits);

}  // namespace outbye
