#include "formats/day_drawing/day_drawing.h"

#include <algorithm>
#include <cmath>

#include "formats/day_drawing/course_drawing.h"
#include "formats/picture/day_shape.h"
#include "formats/picture/marks.h"
#include "formats/plan_json/welfare_json.h"

namespace outbye {
namespace {

Json seconds(Instant at) { return std::llround(at.time_since_epoch().count()); }
Json seconds(const std::optional<Instant>& at) { return at ? seconds(*at) : Json(nullptr); }

std::string horse_name(const RidePlan& plan, HorseId horse) {
  return horse.value < plan.ride.horses.size() ? at(plan.ride.horses, horse).name : "";
}

const char* word(CarDoes does) {
  switch (does) {
    case CarDoes::drive:
      return "drive";
    case CarDoes::setup:
      return "setup";
    case CarDoes::wait:
      return "wait";
    case CarDoes::meet:
      return "meet";
    case CarDoes::pack:
      return "pack";
    case CarDoes::refill:
      return "refill";
    case CarDoes::rest:
      return "rest";
    case CarDoes::errand:
      return "errand";
    case CarDoes::free:
      break;
  }
  return "free";
}

Json horses_of(const RidePlan& plan) {
  Json horses = Json::array();
  for (std::uint32_t h = 0; h < plan.task.horses.size(); ++h) {
    const HorseLine line = horse_line(plan, HorseId{h});
    Json knots = Json::array(), gates = Json::array();
    for (const auto& knot : line.knots) {
      knots.push_back(Json{{"km", km_drawn(knot.along)},
                           {"p10_s", seconds(knot.at.p10)},
                           {"p50_s", seconds(knot.at.p50)},
                           {"p90_s", seconds(knot.at.p90)}});
    }
    for (const auto& gate : line.gates) {
      gates.push_back(Json{{"km", km_drawn(gate.along)},
                           {"loop", gate.loop.value + 1},
                           {"in_s", seconds(gate.in)},
                           {"accepted_s", seconds(gate.accepted)},
                           {"out_s", seconds(gate.out)}});
    }
    horses.push_back(
        Json{{"name", horse_name(plan, HorseId{h})}, {"knots", std::move(knots)}, {"gates", std::move(gates)}});
  }
  return horses;
}

Json cars_of(const RidePlan& plan, const RoadGraph* roads) {
  Json cars = Json::array();
  for (std::size_t c = 0; c < plan.plan.days.size(); ++c) {
    const CarDay& day = plan.plan.days[c];
    Json spans = Json::array();
    for (const auto& span : car_spans(plan, day)) {
      const Json from = seconds(span.from), to = seconds(span.to);
      if (to == from) continue;  // less than a second
      spans.push_back(Json{{"kind", word(span.does)},
                           {"from_s", from},
                           {"to_s", to},
                           {"from_km", km_drawn(span.from_along)},
                           {"to_km", km_drawn(span.to_along)},
                           {"stop", span.stop}});
    }
    cars.push_back(Json{{"name", at(plan.task.cars, day.car).name},
                        {"spans", std::move(spans)},
                        {"drives", drives_drawn(plan, c, roads)}});
  }
  return cars;
}

Json meets_of_plan(const RidePlan& plan) {
  Json meets = Json::array();
  for (const auto& day : plan.plan.days) {
    for (std::size_t s = 0; s < day.stops.size(); ++s) {
      const TimedStop& stop = day.stops[s];
      if (!stop.stop.option) continue;
      const MeetOption& option = at(plan.task.options, *stop.stop.option);
      meets.push_back(Json{{"label", option.label},
                           {"car", at(plan.task.cars, day.car).name},
                           {"horse", horse_name(plan, option.horse)},
                           {"stop", s},
                           {"km", km_drawn(option.ride_along)},
                           {"due_s", seconds(stop.due.p50)},
                           {"ready_s", seconds(stop.ready)},
                           {"leave_by_s", seconds(stop.leave_by)},
                           {"chance_ready", std::round(1e4 * stop.chance_ready) / 1e4},
                           {"odds", odds_in_words(stop.chance_ready)}});
    }
  }
  return meets;
}

Json offsets_of(const Clock& clock) {
  Json offsets = Json::array();
  for (const auto& change : clock.changes) {
    offsets.push_back(Json{{"from_s", seconds(change.from)}, {"offset_s", 60 * change.offset.count()}});
  }
  if (offsets.empty()) offsets.push_back(Json{{"from_s", 0}, {"offset_s", 0}});
  return offsets;
}

}  // namespace

std::string odds_in_words(double chance_ready) {
  if (chance_ready >= 0.95) return "all but sure";
  if (chance_ready >= 0.8) return "likely";
  return chance_ready >= 0.5 ? "even" : "unlikely";
}

Json day_drawing_json(const RidePlan& plan, const RoadGraph* roads) {
  const Interval<Instant> shown = shown_day(plan);
  Json dark = Json::array(), heat = Json::array();
  for (const auto& span : dark_spans(plan.survey.venue, shown)) {
    dark.push_back(Json{{"from_s", seconds(span.when.from)},
                        {"to_s", seconds(span.when.to)},
                        {"kind", span.light == Light::dark ? "night" : "twilight"}});
  }
  for (const auto& span : heat_spans(plan, shown)) {
    heat.push_back(
        Json{{"from_s", seconds(span.when.from)}, {"to_s", seconds(span.when.to)}, {"band", word(span.band)}});
  }
  return Json{{"version", day_drawing_version},
              {"from_s", seconds(shown.from)},
              {"to_s", seconds(shown.to)},
              {"length_km", km_drawn(plan.survey.course.length)},
              {"time_zone_offsets", offsets_of(plan.ride.clock)},
              {"venue", Json{{"name", plan.ride.venue}, {"position", position_drawn(plan.survey.venue)}}},
              {"loops", loops_drawn(plan)},
              {"points", points_drawn(plan)},
              {"horses", horses_of(plan)},
              {"cars", cars_of(plan, roads)},
              {"meets", meets_of_plan(plan)},
              {"dark", std::move(dark)},
              {"heat", std::move(heat)}};
}

Json plan_changes_json(const RidePlan& before, const RidePlan& after) {
  const PlanChanges changes = changes_between(before, after);
  Json gained = Json::array(), lost = Json::array(), chances = Json::array();
  for (const auto& meet : changes.meets) {
    if (!meet.before) gained.push_back(meet.label);
    if (!meet.after) lost.push_back(meet.label);
    if (meet.before && meet.after) {
      chances.push_back(Json{{"label", meet.label},
                             {"before", std::round(1e4 * *meet.before) / 1e4},
                             {"after", std::round(1e4 * *meet.after) / 1e4}});
    }
  }
  return Json{{"worth_change_points", std::round(1e4 * changes.worth) / 1e4},
              {"sentences", changes.sentences},
              {"meets_gained", std::move(gained)},
              {"meets_lost", std::move(lost)},
              {"chances", std::move(chances)},
              {"driven_change_km", std::round(changes.driven.value) / 1e3}};
}

}  // namespace outbye
