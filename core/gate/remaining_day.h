// What is still to be ridden and what time it has, for day_progress. Inside this folder.
#pragma once

#include "core/gate/day_progress.h"

namespace outbye {

// The day with what is known at `now`, loop by loop.
struct RemainingDay {
  Metres length{};       // loops before their arrival
  Seconds riding{};      // done, and what the loop at the gate is expected to come to
  Seconds recoveries{};  // expected at the gates to come, where the clock counts them
  Seconds late{};        // departures behind the out-time, the one running now included
  Seconds stays{};       // at the gates to come: expected recovery and hold
  Instant next_out;      // of the first of the remaining loops, as it was or is expected
  bool is_out{};         // on that loop now
  bool hold_unknown{};   // at a gate to come
  std::optional<Instant> start;
};

RemainingDay remaining_day(const RideDay& day, const std::vector<LoopProgress>& loops, Instant now);

bool counts_recovery(const GateRules& rules, bool is_finish);

}  // namespace outbye
