#include "core/pace/loop_clock.h"
#include "core/pace/pace.h"
#include "core/pace/pace_checks.h"

namespace outbye {

std::vector<RideEvent> ride_events(const Course& course) {
  std::vector<RideEvent> events;
  events.reserve(course.passes.size() + course.loops.size());
  Metres before{};  // all earlier loops
  for (std::size_t l = 0; l < course.loops.size(); ++l) {
    const LoopId loop{static_cast<std::uint32_t>(l)};
    for (std::size_t p = 0; p < course.passes.size(); ++p) {
      if (course.passes[p].loop != loop) continue;
      events.push_back(
          {RideEvent::Kind::pass, loop, PassId{static_cast<std::uint32_t>(p)}, course.passes[p].ride_along});
    }
    before += course.loops[l].length;
    const bool is_last = l + 1 == course.loops.size();
    events.push_back({is_last ? RideEvent::Kind::finish : RideEvent::Kind::gate, loop, std::nullopt, before});
  }
  return events;
}

Result<std::vector<Instant>> expected_arrivals(const Course& course, const HorsePace& pace,
                                               const std::vector<bool>& is_met) {
  if (auto checked = check_pace(course, pace); !checked) return tl::make_unexpected(checked.error());
  const auto events = ride_events(course);
  if (is_met.size() != events.size()) {
    return bad_input("meets", "are given for " + std::to_string(is_met.size()) + " events, but the ride has " +
                                  std::to_string(events.size()) + "; give one flag an event");
  }
  std::vector<Instant> result;
  result.reserve(events.size());
  std::size_t e = 0;
  Instant out = pace.start + pace.start_delay.median;  // of the loop, later by each stop on it
  for (std::size_t l = 0; l < course.loops.size(); ++l) {
    const LoopClock clock(course.loops[l], pace.loops[l]);
    for (; e < events.size() && events[e].loop.value == l; ++e) {
      if (events[e].pass) {
        result.push_back(out + clock.at(at(course.passes, *events[e].pass).along));
        if (is_met[e]) out += at(pace.stops, *events[e].pass).median;
      } else {
        result.push_back(out + clock.total());
        out = result.back() + pace.loops[l].recovery.median + pace.loops[l].hold;
      }
    }
  }
  return result;
}

}  // namespace outbye
