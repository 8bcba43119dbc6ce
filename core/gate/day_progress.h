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
  GateVisit gate;                           // at its end; `gate`, `is_finish` and `left` are set from the day
  GateRules rules;                          // of that gate, or of the finish
  Seconds expected_recovery{minutes(6.0)};  // for a gate to come
};

struct RideDay {
  std::vector<DayLoop> loops;
  std::optional<Kilograms> rider_weight;  // with tack, without bridle
};

struct LoopProgress {
  GateState gate;
  std::optional<Seconds> riding;         // by the convention of the clock
  std::optional<KmPerHour> loop_speed;   // length / (arrival - out)
  std::optional<KmPerHour> phase_speed;  // length / (in-time - out): counts the recovery
};

enum class DayOutlook {
  open,          // there are speeds that keep every limit
  done,          // every loop is ridden, within the limits
  too_slow,      // the slowest speed or the time limit can no longer be kept
  too_fast,      // above the fastest speed even if the rest is ridden at the slowest speed allowed
  limits_clash,  // what the slow limit needs is more than what the fast limit allows
  no_limits,     // the rules set neither
};

struct DayProgress {
  std::vector<LoopProgress> loops;
  Metres ridden{};                   // loops whose riding time is known
  Metres remaining{};                // the others, whole: where a horse is within its loop is not known
  Seconds riding{};                  // over `ridden`
  std::optional<Seconds> elapsed;    // from the start to the end of the last loop ridden, or to its in-time
  Seconds late_departures{};         // behind the out-times; in `elapsed`, not in `riding`
  std::optional<KmPerHour> average;  // ridden / riding
  DayOutlook outlook{DayOutlook::no_limits};
  // Average over the remaining loops, from going out on each to its arrival.
  std::optional<KmPerHour> needed;       // at least
  std::optional<KmPerHour> allowed;      // at most; nothing: any speed
  std::string needed_for;                // "the slowest speed of 8.0 km/h", "the time limit of 12:00"
  std::optional<Instant> latest_finish;  // by the time limit or the slowest elapsed speed
  Warnings warnings;                     // novice cautions, loops above the fastest speed, weight
  std::vector<std::string> notes;        // what was counted: holds and recoveries to come
};

// The slow side counts late departures as riding, the fast side does not: bodies differ, and either way round the limit
// is kept. Errors: bad_input for no loop, a length of 0, times out of order.
Result<DayProgress> day_progress(const RuleLevel& level, const RideDay& day, Instant now);

}  // namespace outbye
