#include "formats/day_drawing/course_drawing.h"

#include <algorithm>
#include <cmath>

#include "core/roads/route.h"
#include "formats/picture/day_shape.h"
#include "formats/picture/map_frame.h"

namespace outbye {
namespace {

constexpr Metres line_tolerance{5};
constexpr Metres height_step{200};
constexpr Metres mark_step{1000};

Json line_drawn(const std::vector<Position>& line) {
  if (line.size() < 2) return Json::array();
  const MapFrame frame(line, {0, 0, 1000, 1000}, 0);
  std::vector<Spot> spots;
  for (const auto& position : line) spots.push_back(frame.spot(position));
  Json drawn = Json::array();
  for (const std::size_t i : kept_when_simplified(spots, line_tolerance.value * frame.units_per_metre())) {
    drawn.push_back(position_drawn(line[i]));
  }
  return drawn;
}

// Between the points of the loop, on a straight line.
Position position_at(const Loop& loop, Metres along) {
  const auto after = std::lower_bound(loop.points.begin(), loop.points.end(), along,
                                      [](const CoursePoint& point, Metres a) { return point.along < a; });
  if (after == loop.points.begin()) return loop.points.front().position;
  if (after == loop.points.end()) return loop.points.back().position;
  const CoursePoint& before = *(after - 1);
  const double share = (along - before.along).value / (after->along - before.along).value;
  double east = after->position.longitude - before.position.longitude;
  if (std::fabs(east) > 180) east -= std::copysign(360.0, east);
  return {before.position.latitude + share * (after->position.latitude - before.position.latitude),
          before.position.longitude + share * east};
}

// The label of a pass as a meet has it: of the first horse that is met there, else of the first horse.
std::string label_of(const RidePlan& plan, PassId pass) {
  std::string label;
  for (const bool only_met : {true, false}) {
    for (const auto& option : plan.task.options) {
      const RideEvent& event = at(plan.task.horses, option.horse).events[option.event];
      if (event.pass != pass) continue;
      if (label.empty() && !only_met) label = option.label;
      for (const auto& forecast : plan.passes) {
        if (only_met && forecast.is_met && forecast.horse == option.horse && forecast.event.pass == pass) {
          return option.label;
        }
      }
    }
  }
  return label;
}

}  // namespace

Json km_drawn(Metres along) { return std::round(along.value) / 1e3; }

Json position_drawn(Position place) {
  return Json::array({std::round(1e6 * place.longitude) / 1e6, std::round(1e6 * place.latitude) / 1e6});
}

Json loops_drawn(const RidePlan& plan) {
  Json loops = Json::array();
  Metres before{};
  for (const auto& loop : plan.survey.course.loops) {
    std::vector<Position> line;
    for (const auto& point : loop.points) line.push_back(point.position);
    Json marks = Json::array();
    for (Metres along = mark_step; along < loop.length && !loop.points.empty(); along += mark_step) {
      marks.push_back(Json{{"km", km_drawn(before + along)}, {"position", position_drawn(position_at(loop, along))}});
    }
    Json heights = Json::array();
    const auto& profile = loop.profile;
    const auto stride = static_cast<std::size_t>(std::max(1.0, std::round(height_step.value / profile.step.value)));
    for (std::size_t i = 0; i < profile.elevation.size(); ++i) {
      const bool is_last = i + 1 == profile.elevation.size();
      if ((i % stride != 0 && !is_last) || !profile.elevation[i]) continue;
      const Metres along = is_last ? loop.length : static_cast<double>(i) * profile.step;
      heights.push_back(Json{{"km", km_drawn(before + along)}, {"m", std::round(profile.elevation[i]->value)}});
    }
    loops.push_back(Json{{"name", loop.name},
                         {"from_km", km_drawn(before)},
                         {"to_km", km_drawn(before + loop.length)},
                         {"line", line_drawn(line)},
                         {"km_marks", std::move(marks)},
                         {"heights", std::move(heights)}});
    before += loop.length;
  }
  return loops;
}

Json points_drawn(const RidePlan& plan) {
  const Course& course = plan.survey.course;
  Json points = Json::array();
  for (std::uint32_t c = 0; c < course.crew_points.size(); ++c) {
    const CrewPoint& point = course.crew_points[c];
    Json passes = Json::array();
    for (std::uint32_t p = 0; p < course.passes.size(); ++p) {
      const Pass& pass = course.passes[p];
      if (pass.crew_point != CrewPointId{c}) continue;
      passes.push_back(Json{{"label", label_of(plan, PassId{p})},
                            {"loop", pass.loop.value + 1},
                            {"nth_in_loop", pass.nth_in_loop},
                            {"ride_km", km_drawn(pass.ride_along)},
                            {"position", position_drawn(pass.position)}});
    }
    const bool has_place = 1 + c < plan.places.size();
    const Position parking = has_place ? plan.places[1 + c].position : point.position;
    points.push_back(Json{{"name", point.name},
                          {"position", position_drawn(point.position)},
                          {"parking", position_drawn(parking)},
                          {"is_closed", c < plan.ride.crew_points.size() && plan.ride.crew_points[c].is_closed},
                          {"passes", std::move(passes)}});
  }
  return points;
}

Json drives_drawn(const RidePlan& plan, std::size_t car, const RoadGraph* roads) {
  Json drives = Json::array();
  const CarDay& day = plan.plan.days[car];
  PlaceId here = at(plan.task.cars, day.car).start;
  const auto drive_to = [&](PlaceId there, std::size_t stop, const std::optional<Route>* known) {
    if (there == here || here.value >= plan.places.size() || there.value >= plan.places.size()) return;
    const PlaceReport& from = at(plan.places, here);
    const PlaceReport& to = at(plan.places, there);
    here = there;
    std::optional<Route> route = known != nullptr ? *known : std::nullopt;
    if (!route && roads != nullptr && from.snap && to.snap) route = fastest_route(*roads, *from.snap, *to.snap);
    Json line = route ? line_drawn(route->geometry) : Json::array();
    if (line.empty()) line = Json::array({position_drawn(from.position), position_drawn(to.position)});
    drives.push_back(Json{{"stop", stop}, {"line", std::move(line)}});
  };
  const auto run_errands = [&](std::optional<std::size_t> after, std::size_t stop) {
    bool has_gone = false;
    for (const auto& of_car : plan.errands.cars) {
      if (of_car.car != day.car) continue;
      for (const auto& errand : of_car.stops) {
        if (errand.after_stop != after) continue;
        drive_to(errand_row(plan, errand.errand), stop, nullptr);
        has_gone = true;
      }
    }
    return has_gone;
  };
  bool is_away = run_errands(std::nullopt, 0);
  for (std::size_t s = 0; s < day.stops.size(); ++s) {
    const bool has_route = !is_away && car < plan.routes.size() && s < plan.routes[car].size();
    drive_to(day.stops[s].place, s, has_route ? &plan.routes[car][s] : nullptr);
    is_away = run_errands(s, s + 1);
  }
  const CrewCar& of_task = at(plan.task.cars, day.car);
  if (of_task.end && day.back) drive_to(*of_task.end, day.stops.size(), nullptr);
  return drives;
}

}  // namespace outbye
