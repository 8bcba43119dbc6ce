// How the clock of a vet gate stands: by when to present, in-time, hold, out-time. The rules come in as values
// (GateRules, whose numbers differ by body and day), the log of the visit comes in as a value, the present comes in as
// `now`; a correction is the same call with the corrected log. It is a clock: whether the horse is accepted is for the
// vet. Seconds are kept; federations differ in how they round.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/clock.h"
#include "core/base/physical_units.h"
#include "core/base/result.h"
#include "core/base/units.h"
#include "core/rules/rule_book.h"

namespace outbye {

// A pulse counted at the gate.
struct GatePulse {
  Instant at;
  BeatsPerMinute pulse{};
  bool presented{};              // to the officials: counts as an attempt; false: counted by the crew
  std::optional<bool> accepted;  // what the officials said; nothing: taken from the limit
};

struct GateVisit {
  std::uint32_t gate{1};  // 1 the first
  bool is_finish{};       // the last inspection: no hold
  std::optional<Instant> arrival;
  std::vector<GatePulse> pulses;   // in any order
  std::optional<Instant> in_time;  // as the officials wrote it down: wins over the pulses
  std::optional<Instant> left;     // when the horse did go out again
};

enum class GatePhase {
  riding,            // has not arrived
  waiting,           // the rules do not let it be presented yet
  recovering,        // to be presented
  holding,           // accepted, the hold runs
  hold_over,         // by the clock; the gate still has to release the horse
  finished,          // accepted at the last inspection
  left,              // out on the next loop
  out_of_time,       // not accepted by the latest presentation
  no_attempts_left,  // every presentation failed
};

struct GateState {
  GatePhase phase{GatePhase::riding};
  std::optional<Instant> earliest_presentation;
  std::optional<Instant> latest_presentation;
  std::optional<Seconds> time_left;  // to the latest presentation; negative: gone. While one is to come
  bool is_appointment{};             // earliest and latest are one moment: how far off counts is for the officials
  bool at_once{};                    // the rules want the pulse counted on arrival and the first count is to come
  std::optional<Instant> in_time;
  std::optional<Seconds> recovery;    // arrival to in-time
  std::optional<Instant> clock_stop;  // the riding time of the loop ends here
  std::optional<Seconds> hold;
  std::optional<Instant> out_time;         // end of the hold: not before it
  std::optional<Seconds> to_out_time;      // negative: it is past; until the horse has left
  std::optional<GatePulse> last_pulse;     // after arrival, before in-time
  bool last_is_down{};                     // to the limit, by the count in the log
  std::optional<Instant> out_time_if_now;  // the same if it were accepted at `now`; while it may be presented
  std::uint32_t attempts_used{};
  std::optional<std::uint32_t> attempts_left;
  std::optional<Seconds> late_departure;   // behind the out-time, when it has left; 0 or more
  std::optional<Seconds> early_departure;  // ahead of it, above 0
  Warnings warnings;
  std::vector<std::string> assumptions;  // what the rules leave open and how it was read
};

// Inclusive: a presentation at the latest presentation is in time. Pulses after `now` are ignored (the log of a day can
// be replayed). What officials said of a presentation wins over the arithmetic, with a warning where the two differ.
GateState gate_state(const GateRules& rules, const GateVisit& visit, Instant now);

// The greatest pulse that counts as down; a pulse is counted in whole beats, so "below 64" is 63. Nothing: no limit.
std::optional<BeatsPerMinute> greatest_accepted(const GateRules& rules);
bool is_down(const GateRules& rules, BeatsPerMinute pulse);  // false without a limit

// A recovery longer than 11 min at gates 1 and 2 or 13 min at gates 3 and 4 went with elimination at the next gate in 7
// of 10 horses. Speed and cardiac recovery variables predict elimination, PLoS ONE 2015 (to 64 bpm, 7,032 starts).
std::optional<Warning> slow_recovery_warning(std::uint32_t gate, Seconds recovery);

// For people, to the second where it is not a whole minute, so that no deadline is rounded: "10:52", "10:52:40".
std::string clock_words(Instant at, const Clock& clock);
// "15 min", "9 min 30 s", "1 h 05 min"; without a sign.
std::string duration_words(Seconds duration);

// What to do next, for people: "Present by 10:52: 15 min left." One sentence each, the first the most urgent.
std::vector<std::string> next_steps(const GateState& state, const Clock& clock);

}  // namespace outbye
