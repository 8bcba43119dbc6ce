// Courses drawn in a line of a test: loops of a given length, with crew points where the test says. For tests only.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/course/course.h"
#include "core/pace/pace.h"

namespace outbye {

// One loop of `length` on level ground, with a pass of crew point k at each of `passes`.
struct DrawnLoop {
  Metres length{};
  std::vector<Metres> passes{};
  std::vector<double> gradient{};  // one a 25 m, or empty: level
};

inline Course draw_course(const std::vector<DrawnLoop>& loops) {
  Course course;
  for (std::size_t l = 0; l < loops.size(); ++l) {
    Loop loop;
    loop.name = "loop " + std::to_string(l + 1);
    loop.length = loops[l].length;
    loop.points = {{{50, 1}, {}, {}}, {{50, 1}, loop.length, {}}};
    loop.profile.gradient = loops[l].gradient;
    for (std::size_t k = 0; k < loops[l].passes.size(); ++k) {
      while (course.crew_points.size() <= k) {
        course.crew_points.push_back({"CP" + std::to_string(course.crew_points.size() + 1), {50, 1}, ""});
      }
      Pass pass;
      pass.loop = LoopId{static_cast<std::uint32_t>(l)};
      pass.crew_point = CrewPointId{static_cast<std::uint32_t>(k)};
      pass.along = loops[l].passes[k];
      pass.ride_along = course.length + pass.along;
      course.passes.push_back(pass);
    }
    course.length += loop.length;
    course.loops.push_back(std::move(loop));
  }
  return course;
}

// Gradients for `length` of course at `g`, one a 25 m.
inline std::vector<double> slope_of(Metres length, double g) {
  return std::vector<double>(static_cast<std::size_t>(length.value / 25.0), g);
}

inline std::vector<double> joined(std::vector<double> a, const std::vector<double>& b) {
  a.insert(a.end(), b.begin(), b.end());
  return a;
}

// 12 km/h, stops of 3 min, all spreads as they are by default.
inline HorsePace usual_pace(const Course& course) {
  HorsePace pace;
  pace.start = Instant{std::chrono::sys_days{std::chrono::year{2026} / 6 / 13}} + std::chrono::hours{6};
  pace.loops.resize(course.loops.size());
  pace.stops.assign(course.passes.size(), UncertainTime{minutes(3.0), 0.35});
  return pace;
}

// No chance anywhere.
inline HorsePace certain(HorsePace pace) {
  pace.spread = {0.0, 0.0, 0.0, pace.spread.within_length};
  pace.start_delay.log_sd = 0;
  for (auto& loop : pace.loops) loop.recovery.log_sd = 0;
  for (auto& stop : pace.stops) stop.log_sd = 0;
  return pace;
}

inline std::vector<bool> meet_all(const Course& course) { return std::vector<bool>(ride_events(course).size(), true); }
inline std::vector<bool> meet_none(const Course& course) {
  return std::vector<bool>(ride_events(course).size(), false);
}

}  // namespace outbye
