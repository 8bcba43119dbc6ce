#include "core/gate/remaining_day.h"

#include <algorithm>

namespace outbye {
namespace {

Seconds expected_recovery(const DayLoop& loop) {
  const Seconds earliest = loop.rules.present_after ? loop.rules.present_after->value : Seconds{0.0};
  return std::max(loop.expected_recovery, earliest);
}

// From arrival to out-time, with the recovery given.
Seconds stay(const GateRules& rules, Seconds recovery) {
  const Seconds hold = rules.hold ? rules.hold->value : Seconds{0.0};
  const bool from_arrival = rules.hold_from && rules.hold_from->value == HoldFrom::arrival;
  return from_arrival ? std::max(recovery, hold) : recovery + hold;
}

}  // namespace

bool counts_recovery(const GateRules& rules, bool is_finish) {
  if (!rules.clock_stops) return !is_finish;
  return rules.clock_stops->value == ClockStops::at_in_time;
}

RemainingDay remaining_day(const RideDay& day, const std::vector<LoopProgress>& loops, Instant now) {
  RemainingDay rest;
  rest.next_out = now;
  const auto& first_out = day.loops.front().out;
  if (first_out && *first_out <= now) rest.start = first_out;
  for (std::size_t i = 0; i < loops.size(); ++i) {
    const DayLoop& loop = day.loops[i];
    const GateState& gate = loops[i].gate;
    const bool is_finish = i + 1 == loops.size();
    const bool has_left_on_it = loop.out && *loop.out <= now;
    if (gate.phase == GatePhase::riding) {
      if (has_left_on_it) {
        rest.is_out = true;
        rest.next_out = *loop.out;
      }
      rest.length += loop.length;
      if (counts_recovery(loop.rules, is_finish)) rest.recoveries += expected_recovery(loop);
      if (!is_finish) {
        rest.stays += stay(loop.rules, expected_recovery(loop));
        rest.hold_unknown = rest.hold_unknown || !loop.rules.hold;
      } else if (counts_recovery(loop.rules, true)) {
        rest.stays += expected_recovery(loop);
      }
      continue;
    }
    // Arrived. Not in yet: the recovery is expected as before, or lasts until now if that is later.
    const Instant in_time = gate.in_time.value_or(std::max(now, *loop.gate.arrival + expected_recovery(loop)));
    if (has_left_on_it) {
      rest.riding +=
          loops[i].riding.value_or((counts_recovery(loop.rules, is_finish) ? in_time : *loop.gate.arrival) - *loop.out);
    }
    rest.late += gate.late_departure.value_or(Seconds{0.0});
    if (gate.phase == GatePhase::left) continue;
    const Instant out = *loop.gate.arrival + stay(loop.rules, in_time - *loop.gate.arrival);
    rest.next_out = std::max(now, out);
    if (!is_finish && loop.rules.hold) rest.late += std::max(Seconds{0.0}, now - out);
    if (!is_finish && !loop.rules.hold) rest.hold_unknown = true;
  }
  return rest;
}

}  // namespace outbye
