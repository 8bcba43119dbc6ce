#include <cmath>
#include <cstdint>

#include "core/base/text.h"
#include "core/gate/gate_clock.h"

namespace outbye {
namespace {

std::string two_digits(std::int64_t n) { return (n < 10 ? "0" : "") + std::to_string(n); }

// "15 min left", "gone 40 s ago"
std::string left_words(Seconds left) {
  return left < Seconds{0.0} ? "gone " + duration_words(left) + " ago" : duration_words(left) + " left";
}

std::string attempts_words(std::uint32_t n) {
  return std::to_string(n) + (n == 1 ? " presentation left." : " presentations left.");
}

std::string out_time_words(Instant out, const Clock& clock) {
  return "out-time by the clock: " + clock_words(out, clock) + " (leave only after the gate has released the horse)";
}

void recovering_steps(const GateState& state, const Clock& clock, std::vector<std::string>& steps) {
  if (state.at_once) {
    steps.push_back("Present at once: the pulse is counted on arrival.");
  }
  if (state.last_is_down) {
    steps.push_back("The last count in the log, " + fixed(state.last_pulse->pulse.value, 0) + " bpm at " +
                    clock_words(state.last_pulse->at, clock) + ", is down to the limit.");
  }
  if (state.latest_presentation && state.time_left) {
    const std::string at = clock_words(*state.latest_presentation, clock);
    if (!state.is_appointment) {
      steps.push_back("Present by " + at + ": " + left_words(*state.time_left) + ".");
    } else {
      steps.push_back("Present at " + at + ": " + left_words(*state.time_left) + ".");
    }
  } else if (!state.at_once) {
    steps.emplace_back("Present when the pulse is down; by when, ask the officials.");
  }
  if (state.attempts_left) steps.push_back(attempts_words(*state.attempts_left));
  if (state.out_time_if_now) {
    steps.push_back("Were it accepted now, " + out_time_words(*state.out_time_if_now, clock) + ".");
  }
}

}  // namespace

std::string clock_words(Instant at, const Clock& clock) {
  const std::string exact = hours_minutes_seconds(at, clock);
  return exact.substr(exact.size() - 2) == "00" ? exact.substr(0, exact.size() - 3) : exact;
}

std::string duration_words(Seconds duration) {
  const auto s = static_cast<std::int64_t>(std::llround(std::abs(duration.count())));
  if (s >= 3600) {
    const std::string seconds = s % 60 == 0 ? "" : " " + two_digits(s % 60) + " s";
    return std::to_string(s / 3600) + " h " + two_digits(s / 60 % 60) + " min" + seconds;
  }
  if (s < 60) return std::to_string(s) + " s";
  return std::to_string(s / 60) + " min" + (s % 60 == 0 ? "" : " " + std::to_string(s % 60) + " s");
}

std::vector<std::string> next_steps(const GateState& state, const Clock& clock) {
  std::vector<std::string> steps;
  switch (state.phase) {
    case GatePhase::riding:
      steps.emplace_back("Not arrived yet: write the arrival down to the second, the gate's clock starts with it.");
      break;
    case GatePhase::waiting:
      steps.push_back("Present at " + clock_words(*state.earliest_presentation, clock) +
                      (state.is_appointment ? "." : " at the earliest."));
      if (state.latest_presentation && !state.is_appointment) {
        steps.push_back("Present by " + clock_words(*state.latest_presentation, clock) + ".");
      }
      break;
    case GatePhase::recovering:
      recovering_steps(state, clock, steps);
      break;
    case GatePhase::holding:
    case GatePhase::hold_over:
      if (!state.out_time) {
        steps.emplace_back("Ask the officials for the out-time: these rules give no hold.");
      } else {
        std::string words = out_time_words(*state.out_time, clock) + ": ";
        words.front() = 'O';
        steps.push_back(words + left_words(*state.to_out_time) + ".");
      }
      break;
    case GatePhase::finished:
      steps.push_back("In-time at the last inspection: " + clock_words(*state.in_time, clock) +
                      ". Stay by until the vet has released the horse.");
      break;
    case GatePhase::left:
      steps.emplace_back("Out on the next loop.");
      if (state.late_departure && *state.late_departure > Seconds{0.0}) {
        steps.push_back("Left " + duration_words(*state.late_departure) + " behind the out-time.");
      }
      break;
    case GatePhase::out_of_time:
      steps.push_back("The latest presentation was " + clock_words(*state.latest_presentation, clock) +
                      ": out of time by the clock. Go to the officials now; they decide.");
      break;
    case GatePhase::no_attempts_left:
      steps.emplace_back("No presentation left. Go to the officials and the vet now; they decide.");
      break;
  }
  return steps;
}

}  // namespace outbye
