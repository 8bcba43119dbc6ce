// The day so far and what is left of it: speeds of the loops by the convention of the clock, riding and elapsed time,
// and the speed still needed and still allowed on the loops to come so that the ride stays within its speeds and its
// time. Seconds are kept throughout; rounding is for those who show them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/base/units.h"
#include "core/gate/gate_clock.h"
#include "core/rules/rule_book.h"

namespace outbye {

struct DayLoop {
  std::string name;
  Metres length{};                          // above 0
  std::optional<Instant> out;               // when the horse went out on it
  GateVisit gate;                           // at its end; its `gate`, `is_finish` and `left` are taken from the day
  GateRules rules;                          // of that gate, or of the finish
  Seconds expected_recovery{minutes(6.0)};  // for a gate to come
};

struct RideDay {
  std::vector<DayLoop> loops;
  std::optional<Kilograms> rider_weight;  // with tack, without bridle
};

struct LoopProgress {
  GateState gate;
  std::optional<Seconds> riding;         // from out to where the rules stop the clock
  std::optional<KmPerHour> loop_speed;   // length / (arrival - out)
  std::optional<KmPerHour> phase_speed;  // length / (in-time - out): counts the recovery
};

enum class DayOutlook {
  no_limits,  // the rules set neither speed nor time
  open,       // there are speeds that keep every limit
  done,       // every loop is ridden, within the limits
  too_slow,   // the slowest speed or the time limit can no longer be kept
  too_fast,   // above the fastest speed, even if the rest is ridden at the slowest speed allowed
  clash,      // what the slow limits need is more than what the fast ones allow
};

struct DayProgress {
  std::vector<LoopProgress> loops;
  Metres ridden{};     // loops whose riding time is known
  Metres remaining{};  // loops before their arrival, whole: where the horse is within its loop is not known
  Seconds riding{};    // over `ridden`
  std::optional<KmPerHour> average;  // ridden / riding
  std::optional<Seconds> elapsed;  // from the start to where the clock stopped on the last loop ridden, holds included
  Seconds late_departures{};       // behind the out-times; in `elapsed`, not in `riding`
  DayOutlook outlook{DayOutlook::no_limits};
  // Average over the remaining loops, each from out to arrival.
  std::optional<KmPerHour> needed;   // at least
  std::string needed_for;            // "the slowest speed of 8.0 km/h", "the time limit of 12 h 00 min"
  std::optional<KmPerHour> allowed;  // at most; nothing: any speed
  std::optional<KmPerHour>
      loop_cap;  // the fastest speed, where `allowed` is above it or any: it may count for each loop
  std::optional<Instant> latest_finish;  // by the time limit or the slowest elapsed speed
  Warnings warnings;                     // loops above the fastest speed, least weight, novice cautions
  std::vector<std::string> notes;        // what was counted
};

// Needed speeds count late departures as riding and allowed speeds do not, because bodies differ: either way round the
// limit is kept. Times after `now` are not looked at. Errors: bad_input for a day without loops, a length of 0, times
// out of order.
Result<DayProgress> day_progress(const RuleLevel& level, const RideDay& day, Instant now);

// For people: what is ridden, and the speeds still needed (rounded up) and allowed (rounded down). One sentence each.
std::vector<std::string> describe(const DayProgress& day, const Clock& clock);

}  // namespace outbye
