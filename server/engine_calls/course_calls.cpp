// The course, the plan and the heat.
#include "formats/answer_json/answer_json.h"
#include "formats/day_drawing/day_drawing.h"
#include "formats/plan_json/plan_json.h"
#include "server/engine_calls/engine_calls.h"

namespace outbye {
namespace {

Answer<ReadyRide> ready_ride(EngineCalls& engine, const RideQuestion& question, WithRoads with_roads) {
  const auto document = document_in(question, "ride");
  if (!document) return tl::make_unexpected(document.error());
  auto ride = read_ride(*document);
  if (!ride) return tl::make_unexpected(ride.error());
  return engine.inputs().ready(std::move(*ride), question.files, with_roads, progress_of(question));
}

}  // namespace

Answer<Json> check_ride_call(EngineCalls& engine, const RideQuestion& question) {
  const auto ready = ready_ride(engine, question, WithRoads::yes);
  if (!ready) return tl::make_unexpected(ready.error());
  const auto answer = check_course(ready->inputs, ready->warnings);
  if (!answer) return tl::make_unexpected(in_names_of(question.files, {answer.error()}));
  return check_json(ready->inputs.ride.name, *answer);
}

Answer<Json> plan_ride_call(EngineCalls& engine, const RideQuestion& question) {
  const auto made = plan_of(engine, question, "ride");
  if (!made) return tl::make_unexpected(made.error());
  const RidePlan& plan = (*made)->plan;
  Json reply{{"plan", plan_json(plan, {})}, {"drawing", day_drawing_json(plan, (*made)->ready.inputs.roads)}};
  if (const auto asked = question.request.find("before"); asked != question.request.end() && !asked->is_null()) {
    // What changed since a ride that had no plan is the plan itself.
    if (const auto before = plan_of(engine, question, "before")) {
      reply["changes"] = plan_changes_json((*before)->plan, plan);
    }
  }
  return reply;
}

Answer<Json> heat_call(EngineCalls& engine, const RideQuestion& question) {
  const auto ready = ready_ride(engine, question, WithRoads::no);
  if (!ready) return tl::make_unexpected(ready.error());
  const auto survey = survey_course(ready->inputs);
  if (!survey) return tl::make_unexpected(in_names_of(question.files, {survey.error()}));
  const Ride& ride = ready->inputs.ride;
  if (ride.weather.empty()) {
    return trouble(Trouble::Kind::bad_input, "weather",
                   "is not known yet; type in the hours of the forecast, or add a table of them");
  }
  HeatHours hours{ride.weather, survey->venue, ride.clock, {}};
  for (const auto& hour : ride.weather) hours.loads.push_back(heat_load(hour, survey->venue, hour.at, ride.heat));
  return heat_json(hours, false);
}

}  // namespace outbye
