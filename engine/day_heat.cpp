#include "engine/day_heat.h"

#include <algorithm>

#include "engine/tasks.h"

namespace outbye {
namespace {

constexpr Metres step{2000.0};

// Where along the ride the horse certainly finds water: start, gates, and water on the course.
std::vector<Metres> sure_water(const Ride& ride, const Course& course) {
  std::vector<Metres> at_km{Metres{0}};
  std::vector<Metres> start_of{Metres{0}};
  for (const auto& loop : course.loops) {
    start_of.push_back(start_of.back() + loop.length);
    at_km.push_back(start_of.back());
  }
  for (const auto& water : ride.waters) {
    if (water.loop >= 1 && water.loop <= course.loops.size()) at_km.push_back(start_of[water.loop - 1] + water.along);
  }
  std::sort(at_km.begin(), at_km.end());
  return at_km;
}

std::vector<Metres> since_water(const Ride& ride, const Course& course, const std::vector<RideEvent>& events) {
  const auto water = sure_water(ride, course);
  std::vector<Metres> since;
  for (const auto& event : events) {
    const auto after = std::lower_bound(water.begin(), water.end(), event.ride_along);  // the first not before it
    since.push_back(after == water.begin() ? Metres{0} : event.ride_along - *std::prev(after));
  }
  return since;
}

// Median time at a place of a loop: events bracket it, and between two of them speed is taken as even.
Instant time_at(const std::vector<RideEvent>& events, const std::vector<Instant>& arrival, LoopId loop,
                Instant loop_out, Metres loop_start, Metres along) {
  Instant from = loop_out;
  Metres from_along{0};
  for (std::size_t e = 0; e < events.size(); ++e) {
    if (events[e].loop != loop) continue;
    const Metres to_along = events[e].ride_along - loop_start;
    if (along <= to_along) {
      const double share = to_along > from_along ? (along - from_along) / (to_along - from_along) : 1.0;
      return from + share * (arrival[e] - from);
    }
    from = arrival[e];
    from_along = to_along;
  }
  return from;
}

struct Sampled {
  std::vector<CourseHeat> along;
  std::vector<double> factors;  // of speed, one a loop
};

Sampled sample(const Ride& ride, const Course& course, const HorsePace& pace, const std::vector<RideEvent>& events,
               const std::vector<Instant>& arrival) {
  Sampled sampled;
  Instant out = pace.start + pace.start_delay.median;
  Metres loop_start{0};
  for (std::uint32_t l = 0; l < course.loops.size(); ++l) {
    const Loop& loop = course.loops[l];
    double sum = 0;
    std::size_t known = 0;
    for (Metres along{0}; along < loop.length + step; along += step) {
      const Metres here = std::min(along, loop.length);
      const Instant when = time_at(events, arrival, LoopId{l}, out, loop_start, here);
      const auto weather = weather_at(ride.weather, when);
      if (!weather) continue;
      CourseHeat point{LoopId{l}, here, when, heat_load(*weather, position_along(loop, here), when, ride.heat)};
      sum += heat_speed_factor(point.load.band, ride.heat);
      ++known;
      sampled.along.push_back(std::move(point));
    }
    sampled.factors.push_back(known == 0 ? 1.0 : sum / static_cast<double>(known));
    for (std::size_t e = 0; e < events.size(); ++e) {
      if (events[e].loop == LoopId{l} && !events[e].pass) {
        out = arrival[e] + pace.loops[l].recovery.median + pace.loops[l].hold;
      }
    }
    loop_start += loop.length;
  }
  return sampled;
}

}  // namespace

double speed_factor(const DayHeat& heat, HorseId horse, LoopId loop) {
  return heat.speed_factors.empty() ? 1.0 : heat.speed_factors[horse.value][loop.value];
}

double worth_factor(const DayHeat& heat, HorseId horse, std::size_t event) {
  return heat.worth_factors.empty() ? 1.0 : heat.worth_factors[horse.value][event];
}

Position position_along(const Loop& loop, Metres along) {
  const auto after = std::lower_bound(loop.points.begin(), loop.points.end(), along,
                                      [](const CoursePoint& point, Metres at) { return point.along < at; });
  if (after == loop.points.begin()) return loop.points.front().position;
  if (after == loop.points.end()) return loop.points.back().position;
  return after->position;  // points are close: weather does not change over a field
}

Position event_position(const Course& course, const RideEvent& event) {
  const Loop& loop = at(course.loops, event.loop);
  return event.pass ? at(course.passes, *event.pass).position : position_along(loop, loop.length);
}

Result<DayHeat> day_heat(const Ride& ride, const Course& course) {
  DayHeat heat;
  const auto events = ride_events(course);
  heat.since_water = since_water(ride, course, events);
  for (std::uint32_t h = 0; h < ride.horses.size(); ++h) {
    heat.speed_factors.emplace_back(course.loops.size(), 1.0);
    heat.along.emplace_back();
    std::vector<Instant> arrival;
    for (int round = 0; round < 3; ++round) {
      const HorsePace pace = horse_pace(ride, course, HorseId{h}, heat);
      auto expected = expected_arrivals(course, pace, std::vector<bool>(events.size(), false));
      if (!expected) return tl::unexpected(expected.error());
      arrival = std::move(*expected);
      if (ride.weather.empty()) break;
      Sampled sampled = sample(ride, course, pace, events, arrival);
      heat.along[h] = std::move(sampled.along);
      if (!ride.heat_slows) break;
      heat.speed_factors[h] = std::move(sampled.factors);
    }
    heat.worth_factors.emplace_back();
    for (std::size_t e = 0; e < events.size(); ++e) {
      // At a gate water stands ready whoever comes.
      const double thirst = events[e].pass ? std::min(1.0, heat.since_water[e] / ride.crewing.water_interval) : 0.0;
      double factor = 1.0 + ride.worth_of_water * thirst;
      if (const auto weather = weather_at(ride.weather, arrival[e])) {
        factor *= weight_factor(heat_load(*weather, event_position(course, events[e]), arrival[e], ride.heat).band,
                                ride.heat);
      }
      heat.worth_factors[h].push_back(factor);
    }
  }
  return heat;
}

}  // namespace outbye
