#include <cmath>

#include "core/rules/findings.h"

namespace outbye {
namespace {

// Books give lengths in whole kilometres (100-119, then 120-139) and organisers measure by wheel or map: only half a
// kilometre and more outside counts.
constexpr Metres whole_kilometre{500.0};

bool is_outside(Metres length, const Interval<Metres>& window, double tolerance) {
  return length <= window.from * (1.0 - tolerance) - whole_kilometre ||
         length >= window.to * (1.0 + tolerance) + whole_kilometre;
}

// What is ridden in all loops, with the recoveries at the gates where they count as riding.
struct Ridden {
  Metres length{};
  Seconds time{};
  KmPerHour speed() const { return length / time; }
};

// Nothing when the speed of a loop is unknown.
std::optional<Ridden> all_loops(const RuleSet& rules, const RideFacts& ride) {
  if (ride.loops.empty()) return std::nullopt;
  Ridden sum;
  for (std::size_t i = 0; i < ride.loops.size(); ++i) {
    const LoopFacts& loop = ride.loops[i];
    if (!loop.speed || loop.speed->value <= 0.0 || loop.length.value <= 0.0) return std::nullopt;
    sum.length += loop.length;
    sum.time += loop.length / *loop.speed;
    const bool is_last = i + 1 == ride.loops.size();
    const auto stops =
        (is_last ? finish_rules(rules) : gate_rules(rules, static_cast<std::uint32_t>(i + 1))).clock_stops;
    if (!stops || stops->value == ClockStops::at_line) continue;
    if (!is_last && i < ride.gates.size() && ride.gates[i].recovery) sum.time += *ride.gates[i].recovery;
    if (is_last && ride.finish && ride.finish->recovery) sum.time += *ride.finish->recovery;
  }
  return sum;
}

void check_lengths(const RuleLevel& level, const RideFacts& ride, Findings& findings) {
  const auto length = length_of(ride);
  if (length && level.distance) {
    const double tolerance = level.distance_tolerance ? level.distance_tolerance->value : 0.0;
    if (is_outside(*length, level.distance->value, tolerance)) {
      std::string says =
          "the course measures " + in_words(*length) + ", the level wants " + in_words(level.distance->value);
      if (tolerance > 0.0) says += ", give or take " + in_words(tolerance);
      findings.not_kept("ride", says, *level.distance);
    }
  } else if (length) {
    findings.ask("ride",
                 "which distances belong to this level? The book gives none; the course measures " + in_words(*length));
  }
  if (!ride.loops.empty() && level.loops) {
    const auto count = static_cast<std::uint32_t>(ride.loops.size());
    if (!level.loops->value.contains(count)) {
      findings.not_kept(
          "ride",
          in_words(count) + (count == 1 ? " loop" : " loops") + ", the level wants " + in_words(level.loops->value),
          *level.loops);
    }
  }
  if (!level.loop_length) return;
  for (std::size_t i = 0; i < ride.loops.size(); ++i) {
    if (!is_outside(ride.loops[i].length, level.loop_length->value, 0.0)) continue;
    findings.not_kept(
        "loop " + std::to_string(i + 1),
        "the loop measures " + in_words(ride.loops[i].length) + ", a loop has " + in_words(level.loop_length->value),
        *level.loop_length);
  }
}

// The speeds that differ beyond what is shown: 14.999 km/h is 15 km/h.
bool is_slower(KmPerHour a, KmPerHour b) { return a.value < b.value - 0.005; }

std::string planned_words(const Ridden& ridden) {
  return "the ride is planned at " + in_words(ridden.speed()) + " (" + clock_words(ridden.time) + " for " +
         in_words(ridden.length) + ")";
}

// Too slow or too fast: as planned, else on one day in ten.
void check_speed_limit(const Ruled<KmPerHour>& rule, bool is_slowest, Metres length,
                       const std::optional<Ridden>& ridden, const RideFacts& ride, Findings& findings) {
  const auto fails = [&](KmPerHour speed) {
    return is_slowest ? is_slower(speed, rule.value) : is_slower(rule.value, speed);
  };
  const std::string word = is_slowest ? "slower" : "faster";
  const std::string allowed =
      "; not " + word + " than " + in_words(rule.value) + " (" + clock_words(length / rule.value) + ")";
  if (ridden && fails(ridden->speed())) {
    findings.not_kept("ride", planned_words(*ridden) + allowed, rule);
    return;
  }
  if (!ride.speed_range) return;
  const KmPerHour extreme = is_slowest ? ride.speed_range->from : ride.speed_range->to;
  if (!fails(extreme)) return;
  findings.note("ride", "on one day in ten the ride is " + word + " than " + in_words(extreme) + allowed, rule);
}

void check_ride_speed(const RuleSet& rules, const RideFacts& ride, Metres length, Findings& findings) {
  const RuleLevel& level = rules.level;
  const auto ridden = all_loops(rules, ride);
  if (level.min_speed) check_speed_limit(*level.min_speed, true, length, ridden, ride, findings);
  if (level.max_speed) check_speed_limit(*level.max_speed, false, length, ridden, ride, findings);
  if (level.min_time && ridden && ridden->time < level.min_time->value) {
    findings.not_kept("ride", planned_words(*ridden) + "; not in less than " + in_words(level.min_time->value),
                      *level.min_time);
  }
  if (!level.min_speed || !level.max_speed) return;
  const SpeedWindow window = speed_window(level, length);
  findings.note("ride",
                in_words(length) + " at " + in_words(level.min_speed->value) + " to " +
                    in_words(level.max_speed->value) + " is a riding time of " + clock_words(*window.earliest) +
                    " to " + clock_words(*window.latest),
                *level.min_speed);
}

// Speed rules hold for the whole ride; a loop outside is to be known, because another has to make up for it.
void check_loop_speeds(const RuleLevel& level, const RideFacts& ride, Findings& findings) {
  for (std::size_t i = 0; i < ride.loops.size(); ++i) {
    const LoopFacts& loop = ride.loops[i];
    if (!loop.speed) continue;
    const std::string where = "loop " + std::to_string(i + 1);
    const std::string planned = "planned at " + in_words(*loop.speed) + "; over the ride not ";
    if (level.min_speed && is_slower(*loop.speed, level.min_speed->value)) {
      findings.note(where, planned + "slower than " + in_words(level.min_speed->value), *level.min_speed);
    }
    if (level.max_speed && is_slower(level.max_speed->value, *loop.speed)) {
      findings.note(where, planned + "faster than " + in_words(level.max_speed->value), *level.max_speed);
    }
  }
}

template <class T>
void check_elapsed_against(const Ruled<T>& rule, Seconds limit, const RideFacts& ride, Findings& findings) {
  const std::string latest = "the latest finish is " + clock_words(limit) + " after the start, holds included";
  if (ride.elapsed && *ride.elapsed > limit) {
    findings.not_kept("finish", "planned " + clock_words(*ride.elapsed) + " after the start; " + latest, rule);
    return;
  }
  if (ride.elapsed_range && ride.elapsed_range->to > limit) {
    findings.note("finish",
                  "on one day in ten it takes longer than " + clock_words(ride.elapsed_range->to) + "; " + latest,
                  rule);
    return;
  }
  findings.note("finish", latest, rule);
}

void check_time_limit(const RuleLevel& level, const RideFacts& ride, Metres length, Findings& findings) {
  const auto limit = elapsed_limit(level, length);
  if (limit && level.time_limit && *limit == level.time_limit->value) {
    check_elapsed_against(*level.time_limit, *limit, ride, findings);
  } else if (limit) {
    check_elapsed_against(*level.min_elapsed_speed, *limit, ride, findings);
  } else if (!level.min_speed) {
    findings.ask("ride", "which slowest speed or time limit holds? The book gives none");
  }
}

void check_rider_and_novice(const RuleLevel& level, const RideFacts& ride, Findings& findings) {
  if (level.min_rider_weight) {
    const std::string least = "at least " + in_words(level.min_rider_weight->value) + " with tack and without bridle";
    if (!ride.rider_weight) {
      findings.note("rider", "the weight is not given; " + least + ", also when weighed after the ride",
                    *level.min_rider_weight);
    } else if (*ride.rider_weight < level.min_rider_weight->value) {
      findings.not_kept("rider", in_words(*ride.rider_weight) + ", but " + least, *level.min_rider_weight);
    }
  }
  if (ride.horse_is_novice && !level.is_novice) {
    findings.ask("horse", "has a novice horse the qualifying rides that this level wants?");
  }
  if (!level.is_novice && !ride.horse_is_novice) return;
  if (level.max_speed) {
    findings.note("horse",
                  "novices are held to at most " + in_words(level.max_speed->value) +
                      ": coming in early fails like coming in late",
                  *level.max_speed);
  } else {
    findings.ask("horse", "which fastest speed holds for a novice? The book gives none");
  }
  if (!level.min_rider_weight) findings.ask("rider", "is there a least rider weight for a novice? The book gives none");
}

}  // namespace

void check_ride_rules(const RuleSet& rules, const RideFacts& ride, Findings& findings) {
  const RuleLevel& level = rules.level;
  check_lengths(level, ride, findings);
  if (const auto length = length_of(ride); length && length->value > 0.0) {
    check_ride_speed(rules, ride, *length, findings);
    check_loop_speeds(level, ride, findings);
    check_time_limit(level, ride, *length, findings);
  }
  check_rider_and_novice(level, ride, findings);
}

}  // namespace outbye
