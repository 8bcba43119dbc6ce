#include "formats/plan_json/plan_json.h"

#include <algorithm>
#include <cmath>

#include "formats/plan_json/cautions.h"
#include "formats/plan_json/welfare_json.h"

namespace outbye {
namespace {

const char* word(RideEvent::Kind kind) {
  switch (kind) {
    case RideEvent::Kind::pass:
      return "pass";
    case RideEvent::Kind::gate:
      return "gate";
    case RideEvent::Kind::finish:
      break;
  }
  return "finish";
}

const char* word(PlannedStop::Kind kind) {
  switch (kind) {
    case PlannedStop::Kind::meet:
      return "meet";
    case PlannedStop::Kind::refill:
      return "refill";
    case PlannedStop::Kind::rest:
      break;
  }
  return "rest";
}

Json min_of(Seconds duration) { return rounded(in_minutes(duration), 2); }
Json km_of(Metres length) { return rounded(in_kilometres(length), 3); }

// What a meet option is about: which horse, which passing.
Json about(const RidePlan& plan, MeetOptionId id) {
  const MeetOption& option = at(plan.task.options, id);
  Json json{{"label", option.label}};
  if (option.horse.value < plan.ride.horses.size()) json["horse"] = at(plan.ride.horses, option.horse).name;
  json["kind"] = word(option.kind);
  if (option.horse.value < plan.task.horses.size()) {
    const auto& events = at(plan.task.horses, option.horse).events;
    if (option.event < events.size()) {
      const RideEvent& event = events[option.event];
      json["loop"] = event.loop.value + 1;
      if (event.pass) json["nth_in_loop"] = at(plan.survey.course.passes, *event.pass).nth_in_loop;
    }
  }
  json["ride_km"] = km_of(option.ride_along);
  return json;
}

Json route_of(const Route& route) {
  Json turns = Json::array();
  for (const auto& turn : route.turns) {
    turns.push_back(Json{{"text", describe(turn)},
                         {"road", turn.road},
                         {"length_km", km_of(turn.length)},
                         {"time_min", min_of(turn.time)},
                         {"position", json_of(turn.position)}});
  }
  return turns;
}

Json stop_of(const RidePlan& plan, const TimedStop& stop, const std::optional<Route>* route) {
  const Clock& clock = plan.ride.clock;
  Json json{{"kind", word(stop.stop.kind)}};
  if (stop.place.value < plan.places.size()) json["place"] = at(plan.places, stop.place).name;
  if (stop.stop.option) json["meet"] = about(plan, *stop.stop.option);
  if (stop.stop.refill && *stop.stop.refill < plan.task.refills.size()) {
    json["refill"] = plan.task.refills[*stop.stop.refill].label;
  }
  json["drive"] = Json{{"length_km", km_of(stop.drive.length)},
                       {"at_limits_min", min_of(stop.drive.time)},
                       {"planned_min", min_of(stop.drive_planned)}};
  json["depart"] = iso8601(stop.depart, clock);
  json["arrive"] = iso8601(stop.arrive, clock);
  json["ready"] = iso8601(stop.ready, clock);
  json["leave"] = iso8601(stop.leave, clock);
  if (stop.stop.kind == PlannedStop::Kind::meet) {
    json["due"] = json_of(stop.due, clock);
    json["slack_min"] = min_of(stop.slack);
    json["chance_ready"] = rounded(stop.chance_ready, 4);
    json["chance_there"] = rounded(stop.chance_there, 4);
    json["worth_points"] = rounded(stop.worth, 4);
  }
  if (stop.leave_by) json["leave_by"] = iso8601(*stop.leave_by, clock);
  if (stop.next_meet) json["next_meet"] = about(plan, *stop.next_meet);
  if (stop.fallback) json["fallback"] = about(plan, *stop.fallback);
  if (route != nullptr && route->has_value()) json["turns"] = route_of(**route);
  return json;
}

Json errands_of_car(const RidePlan& plan, CarId car) {
  const Clock& clock = plan.ride.clock;
  Json errands = Json::array();
  for (const CarErrands& of_car : plan.errands.cars) {
    if (of_car.car != car) continue;
    for (const ErrandStop& stop : of_car.stops) {
      Json json{{"name", plan.ride.errands[stop.errand].name},
                {"drive", Json{{"length_km", km_of(stop.drive.length)}, {"at_limits_min", min_of(stop.drive.time)}}},
                {"depart", iso8601(stop.depart, clock)},
                {"arrive", iso8601(stop.arrive, clock)},
                {"start", iso8601(stop.start, clock)},
                {"leave", iso8601(stop.leave, clock)},
                {"latest_start", iso8601(stop.latest_start, clock)}};
      if (stop.after_stop) json["after_stop"] = *stop.after_stop;
      errands.push_back(std::move(json));
    }
  }
  return errands;
}

Json errands_of(const RidePlan& plan) {
  Json left_out = Json::array();
  for (const LeftOutErrand& errand : plan.errands.left_out) {
    left_out.push_back(Json{{"name", plan.ride.errands[errand.errand].name}, {"why", errand.why}});
  }
  return Json{{"worth_points", rounded(plan.errands.worth, 4)},
              {"upper_bound_points", rounded(plan.errands.upper_bound, 4)},
              {"is_proven", plan.errands.is_proven},
              {"what_is_exact", plan.errands.what_is_exact},
              {"left_out", std::move(left_out)}};
}

Json cars_of(const RidePlan& plan) {
  Json cars = Json::array();
  for (std::size_t c = 0; c < plan.plan.days.size(); ++c) {
    const CarDay& day = plan.plan.days[c];
    Json stops = Json::array();
    for (std::size_t s = 0; s < day.stops.size(); ++s) {
      const bool has_route = c < plan.routes.size() && s < plan.routes[c].size();
      stops.push_back(stop_of(plan, day.stops[s], has_route ? &plan.routes[c][s] : nullptr));
    }
    Json car{{"name", at(plan.task.cars, day.car).name},
             {"driven_km", km_of(day.driven)},
             {"driving_min", min_of(day.driving)},
             {"stops", std::move(stops)}};
    if (Json errands = errands_of_car(plan, day.car); !errands.empty()) car["errands"] = std::move(errands);
    if (day.back) car["back"] = iso8601(*day.back, plan.ride.clock);
    cars.push_back(std::move(car));
  }
  return cars;
}

// The car that meets an event of a horse; empty when none does.
std::string met_by(const RidePlan& plan, HorseId horse, std::size_t event) {
  for (const auto& day : plan.plan.days) {
    for (const auto& stop : day.stops) {
      if (!stop.stop.option) continue;
      const MeetOption& option = at(plan.task.options, *stop.stop.option);
      if (option.horse == horse && option.event == event) return at(plan.task.cars, day.car).name;
    }
  }
  return "";
}

Json passes_of(const RidePlan& plan) {
  Json passes = Json::array();
  std::size_t event = 0;  // of this horse: passes come by horse, then in order of the ride
  std::optional<HorseId> horse;
  for (std::size_t p = 0; p < plan.passes.size(); ++p) {
    const PassForecast& pass = plan.passes[p];
    if (horse != pass.horse) event = 0;
    horse = pass.horse;
    Json json = Json::object();
    if (pass.horse.value < plan.ride.horses.size()) json["horse"] = at(plan.ride.horses, pass.horse).name;
    json["kind"] = word(pass.event.kind);
    json["name"] = pass.name;
    json["loop"] = pass.event.loop.value + 1;
    if (pass.event.pass) json["nth_in_loop"] = at(plan.survey.course.passes, *pass.event.pass).nth_in_loop;
    json["loop_km"] = km_of(pass.loop_along);
    json["ride_km"] = km_of(pass.event.ride_along);
    json["due"] = json_of(pass.due, plan.ride.clock);
    json["out"] = json_of(pass.out, plan.ride.clock);
    json["is_met"] = pass.is_met;
    if (const std::string car = met_by(plan, pass.horse, event++); !car.empty()) json["met_by"] = car;
    if (p < plan.welfare.passes.size()) add_welfare(json, plan.welfare.passes[p]);
    passes.push_back(std::move(json));
  }
  return passes;
}

Json effects_of(const RidePlan& plan) {
  Json list = Json::array();
  for (std::size_t h = 0; h < plan.effects.size(); ++h) {
    for (const auto& effect : plan.effects[h]) {
      Json json = Json::object();
      if (h < plan.ride.horses.size()) json["horse"] = plan.ride.horses[h].name;
      json["loop"] = effect.loop.value + 1;
      json["riding_min"] = min_of(effect.riding);
      json["hills_min"] = min_of(effect.hills);
      json["going_min"] = min_of(effect.going);
      json["heat_min"] = min_of(effect.heat);
      json["stops_min"] = min_of(effect.stops);
      json["gate_min"] = min_of(effect.gate);
      json["hills_within_min"] = min_of(effect.hills_within);
      list.push_back(std::move(json));
    }
  }
  return list;
}

Json value_of(const PlanValue& value) {
  return Json{{"worth_points", rounded(value.worth, 4)},
              {"standard_error_points", rounded(value.standard_error, 4)},
              {"upper_bound_points", rounded(value.upper_bound, 4)},
              {"upper_bound_error_points", rounded(value.upper_bound_error, 4)},
              {"gap_points", rounded(value.gap, 4)},
              {"median_times_worth_points", rounded(value.fixed_worth, 4)},
              {"median_times_bound_points", rounded(value.fixed_bound, 4)},
              {"is_exact_at_median_times", value.is_fixed_exact},
              {"what_is_exact", value.what_is_exact}};
}

Json places_of(const RidePlan& plan) {
  Json places = Json::array();
  for (const auto& place : plan.places) {
    Json json{{"name", place.name}, {"position", json_of(place.position)}};
    if (place.snap_distance) json["to_road_m"] = rounded(place.snap_distance->value, 1);
    if (!place.road.empty()) json["road"] = place.road;
    if (!place.unreachable.empty()) json["unreachable"] = place.unreachable;
    places.push_back(std::move(json));
  }
  return places;
}

Json what_ifs_of(const std::vector<WhatIfAnswer>& what_ifs) {
  Json list = Json::array();
  for (const auto& answer : what_ifs) {
    Json json{{"question", answer.question}};
    if (answer.plan) {
      json["worth_points"] = rounded(answer.plan->plan.value.worth, 4);
      json["worth_change_points"] = rounded(answer.worth_change, 4);
      json["changes"] = answer.changes;
      json["cars"] = cars_of(*answer.plan);
    } else {
      json["problem"] = Json{{"where", answer.plan.error().where}, {"what", answer.plan.error().what}};
    }
    list.push_back(std::move(json));
  }
  return list;
}

}  // namespace

Json rounded(double value, int decimals) {
  if (!std::isfinite(value)) return nullptr;
  const double unit = std::pow(10.0, decimals);
  const double result = std::round(value * unit) / unit;
  if (result == std::floor(result) && std::fabs(result) < 1e15) return static_cast<std::int64_t>(result);
  return result;
}

Json json_of(const Window& window, const Clock& clock) {
  return Json{
      {"p10", iso8601(window.p10, clock)}, {"p50", iso8601(window.p50, clock)}, {"p90", iso8601(window.p90, clock)}};
}

Json json_of(const Position& position) {
  return Json{{"lat", rounded(position.latitude, 7)}, {"lon", rounded(position.longitude, 7)}};
}

Json json_of(const Warnings& warnings) {
  Json list = Json::array();
  for (const auto& warning : warnings) list.push_back(Json{{"where", warning.where}, {"what", warning.what}});
  return list;
}

Json json_of(const Course& course) {
  Json loops = Json::array();
  for (const auto& loop : course.loops) {
    loops.push_back(Json{{"name", loop.name},
                         {"length_km", km_of(loop.length)},
                         {"climb_m", rounded(loop.climb.value, 0)},
                         {"descent_m", rounded(loop.descent.value, 0)},
                         {"without_height_km", km_of(loop.profile.unknown)},
                         {"points", loop.points.size()}});
  }
  Json points = Json::array();
  for (const auto& point : course.crew_points) {
    Json json{{"name", point.name}, {"position", json_of(point.position)}};
    if (!point.note.empty()) json["note"] = point.note;
    points.push_back(std::move(json));
  }
  Json passes = Json::array();
  for (const auto& pass : course.passes) {
    Json json{{"crew_point", at(course.crew_points, pass.crew_point).name},
              {"loop", pass.loop.value + 1},
              {"nth_in_loop", pass.nth_in_loop},
              {"loop_km", km_of(pass.along)},
              {"ride_km", km_of(pass.ride_along)},
              {"to_course_m", rounded(pass.distance.value, 1)}};
    if (pass.found_along) json["found_km"] = km_of(*pass.found_along);
    passes.push_back(std::move(json));
  }
  return Json{{"length_km", km_of(course.length)},
              {"loops", std::move(loops)},
              {"crew_points", std::move(points)},
              {"passes", std::move(passes)}};
}

Json plan_json(const RidePlan& plan, const std::vector<WhatIfAnswer>& what_ifs) {
  const Ride& ride = plan.ride;
  Json horses = Json::array();
  for (const auto& horse : ride.horses) {
    Json json{{"name", horse.name}};
    if (!horse.rider.empty()) json["rider"] = horse.rider;
    if (!horse.number.empty()) json["number"] = horse.number;
    horses.push_back(std::move(json));
  }
  Json json{{"format", "outbye plan"},
            {"version", plan_json_version},
            {"ride", Json{{"name", ride.name},
                          {"start", iso8601(ride.start, ride.clock)},
                          {"time_zone", ride.clock.zone},
                          {"venue", ride.venue},
                          {"horses", std::move(horses)},
                          {"simulated_days", ride.days},
                          {"seed", ride.seed.value},
                          {"confidence", rounded(ride.crewing.confidence, 4)}}},
            {"course", json_of(plan.survey.course)},
            {"places", places_of(plan)},
            {"cars", cars_of(plan)},
            {"passes", passes_of(plan)},
            {"effects", effects_of(plan)},
            {"welfare", json_of(plan.welfare, ride)},
            {"value", value_of(plan.plan.value)}};
  if (plan.rules) {
    json["rules"] = json_of(*plan.rules);
    json["rules"]["findings"] = json_of(plan.rule_findings);
  }
  if (plan.plan.weakest) json["weakest_link"] = about(plan, *plan.plan.weakest);
  if (!plan.ride.errands.empty()) json["errands"] = errands_of(plan);
  json["what_ifs"] = what_ifs_of(what_ifs);
  Warnings warnings = plan.warnings;
  for (const auto& warning : plan.plan.warnings) {
    if (std::find(warnings.begin(), warnings.end(), warning) == warnings.end()) warnings.push_back(warning);
  }
  json["warnings"] = json_of(warnings);
  json["assumptions"] = plan.assumptions;
  json["cautions"] = crew_cautions();
  return json;
}

std::string write_plan_json(const RidePlan& plan, const std::vector<WhatIfAnswer>& what_ifs) {
  return pretty_json(plan_json(plan, what_ifs));
}

}  // namespace outbye
