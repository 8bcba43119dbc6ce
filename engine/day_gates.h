// The clock of the vet gate that each horse stands at, from the rules of the ride and what was noted. It is a clock:
// what becomes of the horse is for the vet.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/gate/gate_clock.h"
#include "core/gate/recovery.h"
#include "engine/use_cases.h"

namespace outbye {

struct DayState;

struct GateNow {
  HorseId horse;
  std::size_t event{};  // of the horse's day
  std::string label;    // "gate loop 2"
  bool is_finish{};
  GateState state;
  std::optional<RecoveryForecast> recovery;  // while the pulse is to come down and the rules name a limit
  std::vector<std::string> steps;            // what to do next, the most urgent first
};

// Gates that a horse has come to and not left, as noted up to `state.now`. In order of the horses.
std::vector<GateNow> gates_now(const RidePlan& plan, const DayState& state);

// As the ride's rules have it, with the plan's hold where they are silent.
GateRules rules_of_gate(const RidePlan& plan, LoopId loop, bool is_finish);

}  // namespace outbye
