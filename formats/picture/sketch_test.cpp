#include "formats/picture/sketch.h"

#include <algorithm>
#include <cmath>

namespace outbye {
namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double degrees_per_metre = 1 / 111'195.0;

// A loop out of the venue and back, bent to and fro, in its own direction of the compass.
std::vector<Position> petal(const PlanSketch& sketch, std::size_t loop) {
  const double direction = 2 * pi * static_cast<double>(loop) / static_cast<double>(sketch.loops) + 0.4;
  const double radius = sketch.loop_length.value / (2 * pi) / 1.12;
  std::vector<Position> line;
  for (int i = 0; i <= 720; ++i) {
    const double a = 2 * pi * i / 720.0;
    const double r = radius * (1 + 0.10 * std::sin(5 * a) + 0.05 * std::sin(11 * a));
    const double east = radius * std::sin(direction) - r * std::sin(direction + a) * (1 + 0.10 * std::sin(5 * a) * 0);
    const double north = radius * std::cos(direction) - r * std::cos(direction + a);
    line.push_back({sketch.venue.latitude + north * degrees_per_metre,
                    sketch.venue.longitude + east * degrees_per_metre / std::cos(sketch.venue.latitude * pi / 180)});
  }
  line.back() = line.front();
  return line;
}

}  // namespace

RidePlan sketch_plan(const PlanSketch& sketch) {
  RidePlan plan;
  Ride& ride = plan.ride;
  ride.name = "Three Valleys Ride";
  ride.start = Instant{std::chrono::sys_days{std::chrono::year{2026} / 6 / 13}} + std::chrono::hours{6};
  ride.clock = {"+01:00", {{Instant{}, std::chrono::minutes{60}}}};
  ride.venue = "Hay Barn";
  for (std::size_t h = 0; h < sketch.horses; ++h) {
    ride.horses.push_back({});
    ride.horses.back().name = h == 0 ? "Bracken" : "Sorrel";
  }
  Course& course = plan.survey.course;
  plan.survey.venue = sketch.venue;
  plan.places.push_back({ride.venue, sketch.venue, {}, "", {}, ""});
  for (std::size_t l = 0; l < sketch.loops; ++l) {
    Loop loop;
    loop.name = l == 0 ? "Red loop" : l == 1 ? "Blue loop" : "";
    loop.length = sketch.loop_length;
    loop.climb = {310.0 + 90.0 * static_cast<double>(l)};
    const auto line = petal(sketch, l);
    for (std::size_t i = 0; i < line.size(); ++i) {
      loop.points.push_back(
          {line[i], loop.length * (static_cast<double>(i) / static_cast<double>(line.size() - 1)), {}});
    }
    for (std::size_t p = 0; p < sketch.passes_per_loop; ++p) {
      const double share = (static_cast<double>(p) + 0.7) / (static_cast<double>(sketch.passes_per_loop) + 0.4);
      const auto i = static_cast<std::size_t>(share * 720.0);
      Pass pass;
      pass.loop = LoopId{static_cast<std::uint32_t>(l)};
      pass.crew_point = CrewPointId{static_cast<std::uint32_t>(course.crew_points.size())};
      pass.along = loop.points[i].along;
      pass.ride_along = course.length + pass.along;
      pass.position = line[i];
      const std::string name = sketch.point_name + ' ' + std::to_string(course.crew_points.size() + 1);
      course.crew_points.push_back({name, line[i], ""});
      plan.places.push_back({name, line[i], {}, "", {}, ""});
      course.passes.push_back(pass);
    }
    course.length += loop.length;
    course.loops.push_back(loop);
  }
  CrewingTask& task = plan.task;
  const auto events = ride_events(course);
  for (std::uint32_t h = 0; h < sketch.horses; ++h) {
    HorsePace pace;
    pace.start = ride.start + minutes(25.0 * h);
    pace.loops.resize(sketch.loops);
    pace.stops.assign(course.passes.size(), UncertainTime{minutes(3), 0.35});
    task.horses.push_back(simulate_days(course, pace, 512, Seed{h + 1}).value());
    for (std::size_t e = 0; e < events.size(); ++e) {
      MeetOption option;
      option.horse = HorseId{h};
      option.event = e;
      option.kind = events[e].kind;
      option.ride_along = events[e].ride_along;
      option.place = events[e].pass ? PlaceId{1 + at(course.passes, *events[e].pass).crew_point.value} : PlaceId{0};
      task.options.push_back(option);
    }
  }
  for (std::uint32_t c = 0; c < sketch.cars; ++c) {
    CrewCar car;
    car.name = c == 0 ? "Old Estate" : "Van";
    task.cars.push_back(car);
  }
  // Each horse's events in turn among the cars; with two horses each car follows one. One event in five is left out.
  std::vector<std::vector<bool>> is_met(sketch.horses, std::vector<bool>(events.size(), false));
  for (std::uint32_t c = 0; c < sketch.cars; ++c) {
    CarDay day;
    day.car = CarId{c};
    const std::uint32_t h = c % static_cast<std::uint32_t>(sketch.horses);
    const HorseDays& days = task.horses[h];
    Instant free = ride.start - minutes(30);
    for (std::size_t e = 0; e < events.size(); ++e) {
      if (e % 5 == 3 || (sketch.horses < sketch.cars && e % sketch.cars != c)) continue;
      const Window due = window_of(days, days.base, e);
      TimedStop stop;
      stop.stop.option = MeetOptionId{static_cast<std::uint32_t>(h * events.size() + e)};
      stop.place = task.options[h * events.size() + e].place;
      stop.depart = free;
      stop.drive_planned = minutes(9.0 + static_cast<double>(e % 4));
      stop.arrive = stop.depart + stop.drive_planned;
      stop.ready = stop.arrive + minutes(4);
      stop.due = due;
      const bool is_gate = events[e].kind == RideEvent::Kind::gate;
      stop.leave = std::max(due.p50 + minutes(is_gate ? 20 : 3), stop.ready) + minutes(3);
      stop.slack = due.p50 - stop.ready;
      std::size_t ready = 0;
      for (std::size_t d = 0; d < days.days; ++d) {
        if (days.origin + Seconds{days.base[e * days.days + d]} >= stop.ready) ++ready;
      }
      stop.chance_ready = static_cast<double>(ready) / static_cast<double>(days.days);
      stop.chance_there = std::min(1.0, stop.chance_ready + 0.1);
      if (e + 1 < events.size()) stop.leave_by = stop.leave + minutes(5);
      free = stop.leave;
      is_met[h][e] = true;
      day.driven += kilometres(7);
      day.stops.push_back(stop);
    }
    plan.plan.days.push_back(day);
  }
  for (std::uint32_t h = 0; h < sketch.horses; ++h) {
    const HorseDays& days = task.horses[h];
    for (std::size_t e = 0; e < events.size(); ++e) {
      PassForecast forecast;
      forecast.horse = HorseId{h};
      forecast.event = events[e];
      forecast.name =
          events[e].pass ? at(course.crew_points, at(course.passes, *events[e].pass).crew_point).name : ride.venue;
      forecast.due = window_of(days, days.base, e);
      std::vector<double> out = days.base;
      for (std::size_t i = 0; i < out.size(); ++i) out[i] += days.stand[i];
      forecast.out = window_of(days, out, e);
      forecast.is_met = is_met[h][e];
      plan.passes.push_back(forecast);
    }
  }
  return plan;
}

}  // namespace outbye
