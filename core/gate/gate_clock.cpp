#include "core/gate/gate_clock.h"

#include <algorithm>
#include <cstdio>

#include "core/base/text.h"

namespace outbye {
namespace {

template <class T>
std::optional<T> value_of(const Rule<T>& rule) {
  return rule ? std::optional<T>(rule->value) : std::nullopt;
}

std::string bpm(BeatsPerMinute pulse) { return fixed(pulse.value, 0) + " bpm"; }

// One visit at work: the rules and the pulses that count, in the order of time.
class Visit {
 public:
  Visit(const GateRules& rules, const GateVisit& visit, Instant now) : rules_(rules), visit_(visit), now_(now) {}

  GateState state() {
    if (!visit_.arrival || *visit_.arrival > now_) return state_;
    arrival_ = *visit_.arrival;
    pulses_ = visit_.pulses;
    std::erase_if(pulses_, [&](const GatePulse& pulse) { return pulse.at > now_; });
    std::stable_sort(pulses_.begin(), pulses_.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
    note_early_pulses();
    set_limits();
    present();
    if (visit_.in_time && *visit_.in_time <= now_) take_recorded_in_time();
    set_last_pulse();
    set_phase();
    set_out_time();
    set_departure();
    warn_of_slow_recovery();
    return state_;
  }

 private:
  void warn(std::string what) { state_.warnings.push_back({place(), std::move(what)}); }
  void assume(std::string what) { state_.assumptions.push_back(std::move(what)); }
  std::string place() const { return visit_.is_finish ? "finish" : "gate " + std::to_string(visit_.gate); }

  void note_early_pulses() {
    const auto before = std::erase_if(pulses_, [&](const GatePulse& pulse) { return pulse.at < arrival_; });
    if (before > 0) warn("pulses from before the arrival are left out; is the arrival right?");
  }

  void set_limits() {
    const auto within = value_of(rules_.present_within);
    const auto after = value_of(rules_.present_after);
    state_.earliest_presentation = arrival_ + after.value_or(Seconds{0.0});
    if (within) state_.latest_presentation = arrival_ + *within;
    state_.is_appointment = after && within && *after == *within;
    if (state_.is_appointment) assume("presented at one moment: how far from it counts is for the officials to say");
    if (!within && !rules_.present_at_once) assume("no presentation limit in these rules: ask the officials");
    if (!rules_.pulse_limit) assume("no pulse limit in these rules: only what the officials said counts as accepted");
    state_.attempts_left = value_of(rules_.attempts);
  }

  bool is_too_late(Instant at) const {
    return !state_.is_appointment && state_.latest_presentation && at > *state_.latest_presentation;
  }
  bool has_attempt() const { return !state_.attempts_left || *state_.attempts_left > 0; }

  // By the arithmetic alone.
  bool would_be_accepted(const GatePulse& pulse) const {
    return is_down(rules_, pulse.pulse) && !is_too_late(pulse.at) && has_attempt();
  }

  void compare_with_officials(const GatePulse& pulse, bool by_clock) {
    if (!pulse.accepted || *pulse.accepted == by_clock) return;
    if (*pulse.accepted) {
      const std::string why = is_too_late(pulse.at) ? "after the latest presentation"
                              : !has_attempt()      ? "with no presentation left"
                              : !rules_.pulse_limit ? ""
                                                    : "with " + bpm(pulse.pulse) + " against " + limit_words();
      if (!why.empty()) warn("accepted by the officials " + why + ": check the card");
    } else {
      warn("not accepted by the officials with " + bpm(pulse.pulse) + ", which " + limit_words() +
           " lets pass: ask what it was for");
    }
  }

  std::string limit_words() const {
    if (!rules_.pulse_limit) return "no limit";
    const bool below = rules_.pulse_must_be_below && rules_.pulse_must_be_below->value;
    return "the limit of " + std::string(below ? "below " : "") + bpm(rules_.pulse_limit->value);
  }

  void present() {
    for (const auto& pulse : pulses_) {
      if (!pulse.presented) continue;
      const bool is_early = !state_.is_appointment && pulse.at < *state_.earliest_presentation;
      if (is_early && !pulse.accepted) {
        warn("presented before the rules allow it: not counted here; ask the officials");
        continue;
      }
      const bool by_clock = would_be_accepted(pulse);
      compare_with_officials(pulse, by_clock);
      ++state_.attempts_used;
      if (state_.attempts_left && *state_.attempts_left > 0) --*state_.attempts_left;
      if (pulse.accepted.value_or(by_clock)) {
        state_.in_time = pulse.at;
        return;
      }
      if (state_.attempts_used == 1 && rules_.present_again_within) {
        const Instant again = pulse.at + rules_.present_again_within->value;
        state_.latest_presentation = std::min(again, state_.latest_presentation.value_or(again));
      }
    }
  }

  void take_recorded_in_time() {
    if (*visit_.in_time < arrival_) {
      warn("the in-time written down is before the arrival and is left out");
      return;
    }
    state_.in_time = visit_.in_time;
    if (is_too_late(*visit_.in_time)) warn("in-time after the latest presentation: check the card");
  }

  void set_last_pulse() {
    for (const auto& pulse : pulses_) {
      if (state_.in_time && pulse.at > *state_.in_time) break;
      state_.last_pulse = pulse;
    }
    state_.last_is_down = state_.last_pulse && is_down(rules_, state_.last_pulse->pulse);
  }

  void set_phase() {
    if (state_.in_time) {
      state_.phase = visit_.is_finish ? GatePhase::finished : GatePhase::holding;
      state_.recovery = *state_.in_time - arrival_;
    } else if (!has_attempt()) {
      state_.phase = GatePhase::no_attempts_left;
    } else if (is_too_late(now_)) {
      state_.phase = GatePhase::out_of_time;
    } else {
      state_.phase = now_ < *state_.earliest_presentation ? GatePhase::waiting : GatePhase::recovering;
      if (state_.latest_presentation) state_.time_left = *state_.latest_presentation - now_;
      state_.at_once = rules_.present_at_once && rules_.present_at_once->value && state_.attempts_used == 0;
    }
    if (state_.phase == GatePhase::out_of_time) state_.time_left = *state_.latest_presentation - now_;
    // Silent rules: a loop ends at in-time, the ride at the line.
    const auto silent = visit_.is_finish ? ClockStops::at_line : ClockStops::at_in_time;
    const auto stops = value_of(rules_.clock_stops);
    if (!stops) {
      assume(visit_.is_finish ? "riding time is taken to end at the line" : "riding time is taken to end at in-time");
    }
    state_.clock_stop = stops.value_or(silent) == ClockStops::at_line ? std::optional(arrival_) : state_.in_time;
  }

  // Never before the in-time: a hold from arrival may be over while the horse is still to be accepted.
  std::optional<Instant> hold_end(Instant in_time) const {
    if (!state_.hold) return std::nullopt;
    const bool from_arrival = rules_.hold_from && rules_.hold_from->value == HoldFrom::arrival;
    return std::max(in_time, (from_arrival ? arrival_ : in_time) + *state_.hold);
  }

  void set_out_time() {
    if (visit_.is_finish) return;
    state_.hold = value_of(rules_.hold);
    if (!state_.hold) assume("no hold in these rules: the out-time is for the officials to give");
    if (state_.hold && !rules_.hold_from) assume("the hold is taken to run from in-time");
    if (state_.in_time) {
      state_.out_time = hold_end(*state_.in_time);
      if (!state_.out_time) return;
      state_.to_out_time = *state_.out_time - now_;
      if (*state_.out_time <= now_) state_.phase = GatePhase::hold_over;
    } else if (state_.phase == GatePhase::recovering) {
      state_.out_time_if_now = hold_end(now_);
    }
  }

  void set_departure() {
    if (!visit_.left || *visit_.left > now_ || visit_.is_finish) return;
    state_.phase = GatePhase::left;
    state_.to_out_time.reset();
    if (!state_.in_time) warn("left without an in-time in the log: go to the officials at once if it is not a slip");
    if (!state_.out_time) return;
    const Seconds behind = *visit_.left - *state_.out_time;
    if (behind >= Seconds{0.0}) {
      state_.late_departure = behind;
    } else {
      state_.early_departure = -behind;
      warn("left " + duration_words(-behind) + " before the out-time: turn back and ask the officials at once");
    }
  }

  // Where the rules let no horse be presented for a while, the in-time says nothing of its recovery; its pulses do: it
  // took at least until the last count that was still too high.
  std::optional<Seconds> recovery_so_far() const {
    if (!rules_.present_after) return state_.recovery ? *state_.recovery : now_ - arrival_;
    std::optional<Seconds> last_high;
    for (const auto& pulse : pulses_) {
      if (!rules_.pulse_limit || is_down(rules_, pulse.pulse)) break;
      last_high = pulse.at - arrival_;
    }
    return last_high;
  }

  void warn_of_slow_recovery() {
    if (visit_.is_finish || (state_.phase == GatePhase::left && !state_.in_time)) return;
    const auto recovery = recovery_so_far();
    if (!recovery) return;
    if (auto warning = slow_recovery_warning(visit_.gate, *recovery)) state_.warnings.push_back(std::move(*warning));
  }

  const GateRules& rules_;
  const GateVisit& visit_;
  Instant now_;
  Instant arrival_;
  std::vector<GatePulse> pulses_;
  GateState state_;
};

}  // namespace

GateState gate_state(const GateRules& rules, const GateVisit& visit, Instant now) {
  return Visit(rules, visit, now).state();
}

std::optional<BeatsPerMinute> greatest_accepted(const GateRules& rules) {
  if (!rules.pulse_limit) return std::nullopt;
  const bool below = rules.pulse_must_be_below && rules.pulse_must_be_below->value;
  return below ? rules.pulse_limit->value - BeatsPerMinute{1.0} : rules.pulse_limit->value;
}

bool is_down(const GateRules& rules, BeatsPerMinute pulse) {
  if (!rules.pulse_limit) return false;
  const bool below = rules.pulse_must_be_below && rules.pulse_must_be_below->value;
  return below ? pulse < rules.pulse_limit->value : pulse <= rules.pulse_limit->value;
}

std::optional<Warning> slow_recovery_warning(std::uint32_t gate, Seconds recovery) {
  if (gate < 1 || gate > 4) return std::nullopt;  // the study looked at four
  const Seconds longest = gate <= 2 ? minutes(11.0) : minutes(13.0);
  if (recovery <= longest) return std::nullopt;
  return Warning{"gate " + std::to_string(gate),
                 "recovery " + duration_words(recovery) + ", longer than " + duration_words(longest) +
                     ": 7 of 10 such horses were eliminated at the next gate in a published study (PLoS ONE 2015, "
                     "to 64 bpm); ask the vet, consider retiring"};
}

}  // namespace outbye
