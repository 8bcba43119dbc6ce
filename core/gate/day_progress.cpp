#include "core/gate/day_progress.h"

#include <algorithm>

#include "core/base/text.h"
#include "core/gate/remaining_day.h"
#include "core/rules/rule_set.h"

namespace outbye {
namespace {

std::string place_of(std::size_t i) { return "loop " + std::to_string(i + 1); }
std::string kmh(KmPerHour speed) { return fixed(speed.value, 1) + " km/h"; }

std::optional<Problem> order_problem(const RideDay& day) {
  if (day.loops.empty()) return Problem{Problem::Kind::bad_input, "day", "has no loop; give at least one"};
  std::optional<Instant> before;
  bool is_complete = true;  // what came before is
  for (std::size_t i = 0; i < day.loops.size(); ++i) {
    const DayLoop& loop = day.loops[i];
    const auto refuse = [&](std::string what) {
      return Problem{Problem::Kind::bad_input, place_of(i), std::move(what)};
    };
    if (!(loop.length > Metres{0.0})) return refuse("has no length; give its kilometres");
    if (loop.gate.arrival && !loop.out) return refuse("has an arrival but no time of going out; give both");
    if (loop.out && !is_complete) return refuse("is begun before the arrival from the loop before it is known");
    if (loop.out && before && *loop.out < *before) return refuse("goes out before the arrival from the loop before it");
    if (loop.gate.arrival && *loop.gate.arrival <= *loop.out) return refuse("arrives before it has gone out");
    is_complete = loop.gate.arrival.has_value();
    before = loop.gate.arrival;
  }
  return std::nullopt;
}

LoopProgress progress_of(const DayLoop& loop, GateState gate) {
  LoopProgress progress;
  progress.gate = std::move(gate);
  if (!loop.out || progress.gate.phase == GatePhase::riding) return progress;
  progress.loop_speed = loop.length / (*loop.gate.arrival - *loop.out);
  if (progress.gate.in_time) progress.phase_speed = loop.length / (*progress.gate.in_time - *loop.out);
  if (progress.gate.clock_stop) progress.riding = *progress.gate.clock_stop - *loop.out;
  return progress;
}

class Day {
 public:
  Day(const RuleLevel& level, const RideDay& day, Instant now) : level_(level), day_(day), now_(now) {}

  DayProgress progress() {
    for (const auto& loop : day_.loops) length_ += loop.length;
    add_loops();
    rest_ = remaining_day(day_, progress_.loops, now_);
    progress_.remaining = rest_.length;
    progress_.late_departures = rest_.late;
    find_needed();
    find_allowed();
    if (level_.max_speed && progress_.allowed.value_or(KmPerHour{1e9}) > level_.max_speed->value) {
      progress_.loop_cap = level_.max_speed->value;
    }
    progress_.outlook = outlook();
    add_cautions();
    add_notes();
    return std::move(progress_);
  }

 private:
  void add_loops() {
    for (std::size_t i = 0; i < day_.loops.size(); ++i) {
      const DayLoop& loop = day_.loops[i];
      GateVisit visit = loop.gate;
      visit.gate = static_cast<std::uint32_t>(i + 1);
      visit.is_finish = i + 1 == day_.loops.size();
      if (!visit.is_finish) visit.left = day_.loops[i + 1].out;
      const auto progress = progress_of(loop, gate_state(loop.rules, visit, now_));
      if (progress.riding) {
        progress_.ridden += loop.length;
        progress_.riding += *progress.riding;
        progress_.elapsed = *progress.gate.clock_stop - *day_.loops.front().out;
      }
      progress_.loops.push_back(progress);
    }
    if (progress_.riding > Seconds{0.0}) progress_.average = progress_.ridden / progress_.riding;
  }

  // The slow side: keeps the greater of two needs; `left` is what the remaining loops may take.
  void need(Seconds left, std::string what_for) {
    const Seconds used = rest_.is_out ? now_ - rest_.next_out : Seconds{0.0};
    if (rest_.length > Metres{0.0} ? left <= used : left < Seconds{0.0}) {
      is_too_slow_ = true;
      progress_.needed_for = std::move(what_for);
      progress_.needed.reset();
      return;
    }
    if (is_too_slow_ || !(rest_.length > Metres{0.0})) return;
    const KmPerHour speed = rest_.length / left;
    if (progress_.needed && *progress_.needed >= speed) return;
    progress_.needed = speed;
    progress_.needed_for = std::move(what_for);
  }

  void find_needed() {
    if (level_.min_speed) {
      const Seconds allowed = length_ / level_.min_speed->value;
      need(allowed - rest_.riding - rest_.late - rest_.recoveries,
           "the slowest speed of " + kmh(level_.min_speed->value));
    }
    const auto limit = elapsed_limit(level_, length_);
    if (!limit) return;
    const Instant start = rest_.start.value_or(rest_.next_out);
    if (rest_.start) progress_.latest_finish = start + *limit;
    const auto last = progress_.loops.back().gate.clock_stop;
    need(rest_.length > Metres{0.0} ? start + *limit - rest_.next_out - rest_.stays
                                    : start + *limit - last.value_or(now_),
         "the time limit of " + duration_words(*limit));
  }

  // The fast side: the remaining loops must take at least so long.
  void find_allowed() {
    std::optional<Seconds> shortest = speed_window(level_, length_).earliest;
    if (level_.min_time) shortest = std::max(level_.min_time->value, shortest.value_or(Seconds{0.0}));
    if (!shortest) return;
    const Seconds left = *shortest - rest_.riding - rest_.recoveries;
    if (left <= Seconds{0.0}) return;
    if (rest_.length > Metres{0.0}) {
      progress_.allowed = rest_.length / left;
    } else {
      is_too_fast_ = progress_.loops.back().riding.has_value();
    }
  }

  DayOutlook outlook() const {
    if (is_too_slow_) return DayOutlook::too_slow;
    if (is_too_fast_) return DayOutlook::too_fast;
    const bool is_limited =
        level_.min_speed || level_.max_speed || level_.time_limit || level_.min_elapsed_speed || level_.min_time;
    if (!is_limited) return DayOutlook::no_limits;
    if (!(rest_.length > Metres{0.0})) {
      return progress_.loops.back().riding ? DayOutlook::done : DayOutlook::open;
    }
    if (progress_.allowed && level_.min_speed && *progress_.allowed < level_.min_speed->value) {
      return DayOutlook::too_fast;
    }
    if (progress_.allowed && progress_.needed && *progress_.needed > *progress_.allowed) return DayOutlook::clash;
    return DayOutlook::open;
  }

  void add_cautions() {
    for (std::size_t i = 0; i < progress_.loops.size(); ++i) {
      const auto& speed = progress_.loops[i].loop_speed;
      if (!speed || !level_.max_speed || *speed <= level_.max_speed->value) continue;
      progress_.warnings.push_back(
          {place_of(i),
           "ridden at " + kmh(*speed) + "; the fastest speed here is " + kmh(level_.max_speed->value) +
               (level_.is_novice ? ": ride slower from here, and ask the officials how a novice's fast loop counts"
                                 : ": ask whether it counts for each loop or for the ride")});
    }
    if (!level_.min_rider_weight) return;
    const std::string least = fixed(level_.min_rider_weight->value.value, 1) + " kg (with tack, without bridle)";
    if (!day_.rider_weight) {
      progress_.warnings.push_back({"rider", "must weigh at least " + least + ": weigh before the start"});
    } else if (*day_.rider_weight < level_.min_rider_weight->value) {
      progress_.warnings.push_back(
          {"rider", "weighs " + fixed(day_.rider_weight->value, 1) + " kg, but must weigh at least " + least});
    }
  }

  void add_notes() {
    const bool is_last = !(rest_.length > Metres{0.0});
    if (!is_last && rest_.stays > Seconds{0.0}) {
      progress_.notes.push_back("gates to come are counted with " + duration_words(rest_.stays) +
                                " of recovery and hold in all");
    }
    if (!is_last && rest_.hold_unknown) progress_.notes.emplace_back("a hold is not in the rules and is counted as 0");
    if (rest_.late > Seconds{0.0}) {
      progress_.notes.push_back("left " + duration_words(rest_.late) +
                                " behind the out-times: where the riding clock runs from the out-time, this is riding");
    }
    if (level_.max_speed && progress_.needed && *progress_.needed > level_.max_speed->value) {
      progress_.notes.push_back("the needed speed is above " + kmh(level_.max_speed->value) +
                                ": where the fastest speed counts for each loop, it cannot be kept");
    }
  }

  const RuleLevel& level_;
  const RideDay& day_;
  Instant now_;
  Metres length_{};
  RemainingDay rest_;
  bool is_too_slow_{};
  bool is_too_fast_{};
  DayProgress progress_;
};

}  // namespace

Result<DayProgress> day_progress(const RuleLevel& level, const RideDay& day, Instant now) {
  if (auto wrong = order_problem(day)) return tl::make_unexpected(std::move(*wrong));
  return Day(level, day, now).progress();
}

}  // namespace outbye
