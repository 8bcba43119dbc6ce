// Gates as the tests draw them: "10:36" is that clock time, UTC, on one day.
#pragma once

#include <string>
#include <string_view>

#include "core/gate/gate_clock.h"

namespace outbye {

// "10:36" or "10:36:30" on 2026-06-13, UTC; hours above 23 are of the next day.
inline Instant at(std::string_view text) {
  const auto number = [&](std::size_t from) { return 10.0 * (text[from] - '0') + (text[from + 1] - '0'); };
  const double seconds = text.size() > 5 ? number(6) : 0.0;
  return Instant{Seconds{1'781'308'800.0 + 3600.0 * number(0) + 60.0 * number(3) + seconds}};
}

template <class T>
Ruled<T> ruled(T value) {
  return {value, Mark::event, "test"};
}

// Gate into hold: 64 bpm within 20 min, hold from in-time.
inline GateRules gate_into_hold(Seconds hold = minutes(30)) {
  GateRules rules;
  rules.pulse_limit = ruled(BeatsPerMinute{64});
  rules.present_within = ruled(minutes(20));
  rules.attempts = ruled(std::uint32_t{2});
  rules.hold = ruled(hold);
  rules.hold_from = ruled(HoldFrom::in_time);
  rules.clock_stops = ruled(ClockStops::at_in_time);
  return rules;
}

// Set speed: the clock stops at the line, presented 30 min later, out an hour after arrival.
inline GateRules set_speed_gate() {
  GateRules rules;
  rules.pulse_limit = ruled(BeatsPerMinute{64});
  rules.present_after = ruled(minutes(30));
  rules.hold = ruled(minutes(60));
  rules.hold_from = ruled(HoldFrom::arrival);
  rules.clock_stops = ruled(ClockStops::at_line);
  return rules;
}

// The pulse counted on arrival; over the limit, presented again once within 10 min.
inline GateRules at_once_gate() {
  GateRules rules;
  rules.pulse_limit = ruled(BeatsPerMinute{60});
  rules.present_at_once = ruled(true);
  rules.attempts = ruled(std::uint32_t{2});
  rules.present_again_within = ruled(minutes(10));
  return rules;
}

inline GatePulse counted(std::string_view time, double pulse) { return {at(time), {pulse}, false, std::nullopt}; }
inline GatePulse presented(std::string_view time, double pulse) { return {at(time), {pulse}, true, std::nullopt}; }

inline GateVisit visit_of(std::string_view arrival, std::vector<GatePulse> pulses = {}) {
  GateVisit visit;
  visit.arrival = at(arrival);
  visit.pulses = std::move(pulses);
  return visit;
}

// What to do next, a line each.
inline std::string all_steps(const GateState& state, const Clock& clock = {}) {
  std::string text;
  for (const auto& step : next_steps(state, clock)) text += step + "\n";
  return text;
}

}  // namespace outbye
