#include "formats/plan_gpx/plan_gpx.h"

#include <set>

#include "core/base/text.h"

namespace outbye {
namespace {

std::string window_words(const Window& window, const Clock& clock) {
  return hours_minutes(window.p50, clock) + " (" + hours_minutes(window.p10, clock) + "-" +
         hours_minutes(window.p90, clock) + ")";
}

std::string note_of(const RidePlan& plan, const std::string& crew_point) {
  for (const auto& point : plan.survey.course.crew_points) {
    if (point.name == crew_point) return point.note;
  }
  return "";
}

std::string horse_words(const RidePlan& plan, HorseId horse) {
  if (plan.ride.horses.size() < 2 || horse.value >= plan.ride.horses.size()) return "";
  return at(plan.ride.horses, horse).name + " ";
}

OutWaypoint meet_waypoint(const RidePlan& plan, const TimedStop& stop, const std::string& car, std::size_t number) {
  const Clock& clock = plan.ride.clock;
  const MeetOption& option = at(plan.task.options, *stop.stop.option);
  const PlaceReport& place = at(plan.places, stop.place);
  OutWaypoint point;
  // The number first: devices sort waypoints by name.
  point.name = (number < 10 ? "0" : "") + std::to_string(number) + " " + option.label;
  point.comment = horse_words(plan, option.horse) + "due " + window_words(stop.due, clock) + ", be ready " +
                  hours_minutes(stop.ready, clock);
  point.description = car + ": " + point.comment + ", chance " + fixed(100.0 * stop.chance_ready, 0) + " %";
  if (stop.leave_by && stop.next_meet) {
    point.comment += ", leave by " + hours_minutes(*stop.leave_by, clock);
    point.description +=
        "; leave by " + hours_minutes(*stop.leave_by, clock) + " for " + at(plan.task.options, *stop.next_meet).label;
    if (stop.fallback) point.description += ", later go to " + at(plan.task.options, *stop.fallback).label;
  }
  if (const std::string note = note_of(plan, place.name); !note.empty()) point.description += ". " + note;
  point.symbol = option.kind == RideEvent::Kind::pass ? "Flag, Blue" : "Flag, Green";
  point.type = "meet";
  point.position = place.position;
  point.time = stop.due.p50;
  return point;
}

OutWaypoint other_waypoint(const RidePlan& plan, const TimedStop& stop, const std::string& car, std::size_t number) {
  const bool is_refill = stop.stop.kind == PlannedStop::Kind::refill;
  OutWaypoint point;
  point.name = (number < 10 ? "0" : "") + std::to_string(number) + " " +
               (is_refill ? plan.task.refills[*stop.stop.refill].label : "rest at " + at(plan.places, stop.place).name);
  point.comment =
      "from " + hours_minutes(stop.arrive, plan.ride.clock) + " to " + hours_minutes(stop.ready, plan.ride.clock);
  point.description = car + ": " + point.comment;
  point.symbol = is_refill ? "Drinking Water" : "Parking Area";
  point.type = is_refill ? "refill" : "rest";
  point.position = at(plan.places, stop.place).position;
  return point;
}

std::string drive_words(const TimedStop& stop) {
  return fixed(in_kilometres(stop.drive.length), 1) + " km, " + fixed(in_minutes(stop.drive_planned), 0) +
         " min as planned";
}

OutRoute drive_route(const Route& route, const std::string& name, const std::string& description) {
  OutRoute out{name, description, {}};
  for (const auto& turn : route.turns) {
    OutWaypoint point;
    point.name = describe(turn);
    point.position = turn.position;
    out.points.push_back(std::move(point));
  }
  // A route without its turns is still a way there: start and end.
  if (out.points.size() < 2 && route.geometry.size() > 1) {
    out.points.clear();
    for (const auto& position : {route.geometry.front(), route.geometry.back()}) {
      OutWaypoint point;
      point.position = position;
      out.points.push_back(std::move(point));
    }
  }
  return out;
}

OutTrack drive_track(const Route& route, const std::string& name, const std::string& description) {
  OutTrack out{name, description, {{}}};
  for (const auto& position : route.geometry) out.segments.front().push_back({position, {}, {}});
  return out;
}

OutTrack course_track(const Loop& loop) {
  OutTrack out{loop.name, "Course, " + fixed(in_kilometres(loop.length), 1) + " km", {{}}};
  for (const auto& point : loop.points) out.segments.front().push_back({point.position, point.elevation, {}});
  return out;
}

}  // namespace

GpxOutput plan_gpx(const RidePlan& plan, const PlanGpxOptions& options) {
  GpxOutput out;
  out.name = plan.ride.name.empty() ? "Crew plan" : plan.ride.name + ": crew plan";
  out.description = "Planned meets, start " + iso8601(plan.ride.start, plan.ride.clock) +
                    ". Windows: 10 to 90 of 100 simulated days. The rules of the day and the officials win.";
  std::set<std::string> met;
  for (std::size_t c = 0; c < plan.plan.days.size(); ++c) {
    const CarDay& day = plan.plan.days[c];
    if (options.only_car && day.car != *options.only_car) continue;
    const std::string& car = at(plan.task.cars, day.car).name;
    for (std::size_t s = 0; s < day.stops.size(); ++s) {
      const TimedStop& stop = day.stops[s];
      const bool is_meet = stop.stop.kind == PlannedStop::Kind::meet;
      out.waypoints.push_back(is_meet ? meet_waypoint(plan, stop, car, s + 1) : other_waypoint(plan, stop, car, s + 1));
      if (plan.plan.days.size() > 1) out.waypoints.back().name += " " + car;
      if (is_meet) met.insert(at(plan.places, stop.place).name);
      if (c >= plan.routes.size() || s >= plan.routes[c].size() || !plan.routes[c][s]) continue;
      const Route& route = *plan.routes[c][s];
      if (route.geometry.size() < 2) continue;
      const std::string name = car + " to " + out.waypoints.back().name;
      if (options.drives_as_routes) out.routes.push_back(drive_route(route, name, drive_words(stop)));
      if (options.drives_as_tracks) out.tracks.push_back(drive_track(route, name, drive_words(stop)));
    }
  }
  if (options.points_not_met) {
    for (const auto& point : plan.survey.course.crew_points) {
      if (met.count(point.name) > 0) continue;
      OutWaypoint waypoint;
      waypoint.name = point.name;
      waypoint.description = "Crew point, not met in this plan";
      waypoint.symbol = "Flag, Red";
      waypoint.type = "crew point";
      waypoint.position = point.position;
      out.waypoints.push_back(std::move(waypoint));
    }
  }
  if (options.course) {
    for (const auto& loop : plan.survey.course.loops) out.tracks.push_back(course_track(loop));
  }
  return out;
}

}  // namespace outbye
