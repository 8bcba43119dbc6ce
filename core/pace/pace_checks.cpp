#include "core/pace/pace_checks.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "core/base/text.h"
#include "core/pace/loop_clock.h"

namespace outbye {
namespace {

constexpr double fastest = 40.0;       // km/h; a gallop (FACTS 5.2: 40 to 48 km/h)
constexpr double beyond_loop = 500.0;  // metres that a going section may end after the loop, as written in round km
constexpr double least_within_length = 500.0;  // metres
constexpr double most_within_length = 1.0e6;
constexpr double longest_loop = 48.0 * 3600.0;

std::string name_of(const Loop& loop, std::size_t index) {
  std::string name = "loop " + std::to_string(index + 1);
  if (!loop.name.empty() && loop.name != name) name += " (" + loop.name + ")";
  return name;
}

std::string shown(double value, int decimals = 2) {
  return std::isfinite(value) ? fixed(value, decimals) : "not a number";
}

std::string km(Metres along) { return shown(in_kilometres(along), 2) + " km"; }

// Negated comparisons, so that not-a-number is refused too.
Result<void> check_time(const std::string& where, const UncertainTime& time, Seconds longest) {
  if (!(time.median >= Seconds{0} && time.median <= longest)) {
    return bad_input(where, "has a median of " + shown(in_minutes(time.median), 1) + " min; give 0 to " +
                                shown(in_minutes(longest), 0) + " min");
  }
  if (!(time.log_sd >= 0 && time.log_sd <= 2)) {
    return bad_input(where, "has a spread of " + shown(time.log_sd) + "; give 0 (exact) to 2, usually 0.2 to 0.5");
  }
  return {};
}

Result<void> check_going(const std::string& where, const Loop& loop, const std::vector<GoingSection>& sections) {
  for (std::size_t i = 0; i < sections.size(); ++i) {
    const auto& section = sections[i];
    const std::string here =
        where + ", going section " + std::to_string(i + 1) + (section.what.empty() ? "" : " (" + section.what + ")");
    if (!(section.factor > 0 && section.factor <= 1.5)) {
      return bad_input(here, "has a speed factor of " + shown(section.factor) +
                                 "; give more than 0 and at most 1.5 (1 is hard track, 0.7 deep sand)");
    }
    if (!(section.from.value >= 0 && section.from < section.to)) {
      return bad_input(here, "runs from " + km(section.from) + " to " + km(section.to) +
                                 "; it must start at 0 km or later and end after it starts");
    }
    if (!(section.from < loop.length && section.to.value <= loop.length.value + beyond_loop)) {
      return bad_input(here, "runs from " + km(section.from) + " to " + km(section.to) + ", but the loop is " +
                                 km(loop.length) + " long; count the kilometres from the start of the loop");
    }
  }
  std::vector<std::size_t> order(sections.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return sections[a].from < sections[b].from; });
  for (std::size_t i = 1; i < order.size(); ++i) {
    const auto& before = sections[order[i - 1]];
    const auto& after = sections[order[i]];
    if (after.from < before.to) {
      return bad_input(where + ", going section " + std::to_string(order[i] + 1),
                       "starts at " + km(after.from) + ", before going section " + std::to_string(order[i - 1] + 1) +
                           " ends at " + km(before.to) + "; sections must not overlap");
    }
  }
  return {};
}

Result<void> check_loop(const std::string& where, const Loop& loop, const LoopPace& pace) {
  if (!(loop.length.value > 0)) return bad_input(where, "has no length; check its track");
  if (!(pace.speed.value > 0 && pace.speed.value <= fastest)) {
    return bad_input(where, "has a speed of " + shown(pace.speed.value) +
                                " km/h; give more than 0 and at most 40 km/h (novices ride about 10 to 12)");
  }
  if (!(pace.heat_factor > 0 && pace.heat_factor <= 1.2)) {
    return bad_input(where, "has a heat factor of " + shown(pace.heat_factor) +
                                "; give more than 0 and at most 1.2 (1 is cool, 0.9 a tenth slower)");
  }
  if (auto bad = check_going(where, loop, pace.going); !bad) return bad;
  if (auto bad = check_time(where + ", recovery at the gate", pace.recovery, std::chrono::hours{2}); !bad) return bad;
  if (!(pace.hold >= Seconds{0} && pace.hold <= std::chrono::hours{6})) {
    return bad_input(where, "has a hold of " + shown(in_minutes(pace.hold), 1) + " min; give 0 to 360 min");
  }
  const auto& profile = loop.profile;
  if (!profile.gradient.empty()) {
    // Lengths of samples must add up to the loop, or hills would stand in the wrong places.
    const double covered = profile.step.value * static_cast<double>(profile.gradient.size());
    if (!(profile.step.value > 0) || std::fabs(covered - loop.length.value) > 2.0 * profile.step.value) {
      return bad_input(where, "has gradients for " + km({covered}) + ", but is " + km(loop.length) +
                                  " long; build its profile again");
    }
    for (const double gradient : profile.gradient) {
      if (!std::isfinite(gradient)) return bad_input(where, "has a gradient that is not a number; check its heights");
    }
  }
  const Seconds total = LoopClock(loop, pace).total();
  if (!(total.count() <= longest_loop)) {
    return impossible(where, "would take " + shown(total.count() / 3600.0, 0) +
                                 " h, more than two days; raise its speed or its heat and going factors");
  }
  return {};
}

}  // namespace

Result<void> check_pace(const Course& course, const HorsePace& pace) {
  if (course.loops.empty()) return bad_input("course", "has no loops; give at least one");
  if (pace.loops.size() != course.loops.size()) {
    return bad_input("pace", "is given for " + std::to_string(pace.loops.size()) + " loops, but the course has " +
                                 std::to_string(course.loops.size()) + "; give one speed a loop");
  }
  if (pace.stops.size() != course.passes.size()) {
    return bad_input("stops", "are given for " + std::to_string(pace.stops.size()) + " passes, but the course has " +
                                  std::to_string(course.passes.size()) + "; give one stop a pass");
  }
  if (!std::isfinite(pace.start.time_since_epoch().count())) return bad_input("start", "is not a time; give one");
  if (auto bad = check_time("start delay", pace.start_delay, std::chrono::hours{24}); !bad) return bad;
  for (std::size_t i = 0; i < course.loops.size(); ++i) {
    if (auto bad = check_loop(name_of(course.loops[i], i), course.loops[i], pace.loops[i]); !bad) return bad;
  }
  for (std::size_t i = 0; i < course.passes.size(); ++i) {
    const auto& pass = course.passes[i];
    const std::string where =
        "stop at " +
        (pass.crew_point.value < course.crew_points.size() ? at(course.crew_points, pass.crew_point).name
                                                           : "pass " + std::to_string(i + 1)) +
        ", loop " + std::to_string(pass.loop.value + 1);
    if (auto bad = check_time(where, pace.stops[i], std::chrono::hours{6}); !bad) return bad;
  }
  const auto& spread = pace.spread;
  const struct {
    const char* name;
    double value;
  } spreads[] = {{"ride", spread.ride}, {"loop", spread.loop}, {"within", spread.within}};
  for (const auto& [name, value] : spreads) {
    if (!(value >= 0 && value <= 1)) {
      return bad_input(std::string("spread '") + name + "'",
                       "is " + shown(value) + "; give 0 (none) to 1, as a share of the time: 0.08 is 8 %");
    }
  }
  if (!(spread.within_length.value >= least_within_length && spread.within_length.value <= most_within_length)) {
    return bad_input("spread 'within_length'", "is " + km(spread.within_length) + "; give 0.5 to 1000 km");
  }
  return {};
}

}  // namespace outbye
