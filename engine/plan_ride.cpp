#include <algorithm>

#include "core/crewing/plan_crew.h"
#include "engine/rule_facts.h"
#include "engine/tasks.h"
#include "engine/welfare.h"

namespace outbye {
namespace {

// One flag an event of this horse: does the plan meet it?
std::vector<bool> met_events(const CrewingTask& task, const CrewPlan& plan, HorseId horse) {
  std::vector<bool> is_met(at(task.horses, horse).events.size(), false);
  for (const auto& day : plan.days) {
    for (const auto& stop : day.stops) {
      if (!stop.stop.option) continue;
      const MeetOption& option = at(task.options, *stop.stop.option);
      if (option.horse == horse) is_met[option.event] = true;
    }
  }
  return is_met;
}

std::vector<PassForecast> forecasts(const RidePlan& answer, HorseId horse) {
  const HorseDays& days = at(answer.task.horses, horse);
  const auto is_met = met_events(answer.task, answer.plan, horse);
  const auto arrival = arrivals(days, is_met);
  std::vector<double> departure = arrival;
  for (std::size_t e = 0; e < days.events.size(); ++e) {
    if (days.events[e].kind == RideEvent::Kind::pass && !is_met[e]) continue;
    for (std::size_t d = 0; d < days.days; ++d) departure[e * days.days + d] += days.stand[e * days.days + d];
  }
  const Course& course = answer.survey.course;
  std::vector<PassForecast> passes;
  for (std::size_t e = 0; e < days.events.size(); ++e) {
    const RideEvent& event = days.events[e];
    PassForecast forecast;
    forecast.horse = horse;
    forecast.event = event;
    forecast.name = event_place(answer.ride, course, event);
    forecast.loop_along = event.pass ? at(course.passes, *event.pass).along : at(course.loops, event.loop).length;
    forecast.due = window_of(days, arrival, e);
    forecast.out = window_of(days, departure, e);
    forecast.is_met = is_met[e];
    passes.push_back(std::move(forecast));
  }
  return passes;
}

// The drive into each stop over the roads; nothing without roads or where no driving is needed.
std::vector<std::vector<std::optional<Route>>> routes_of(const RidePlan& answer, const RoadGraph* roads) {
  std::vector<std::vector<std::optional<Route>>> routes;
  for (const auto& day : answer.plan.days) {
    std::vector<std::optional<Route>> of_car;
    PlaceId here = at(answer.task.cars, day.car).start;
    for (const auto& stop : day.stops) {
      const PlaceReport& from = at(answer.places, here);
      const PlaceReport& to = at(answer.places, stop.place);
      const bool drives = roads != nullptr && here != stop.place && from.snap && to.snap;
      of_car.push_back(drives ? fastest_route(*roads, *from.snap, *to.snap) : std::nullopt);
      here = stop.place;
    }
    routes.push_back(std::move(of_car));
  }
  return routes;
}

Result<void> check_ride(const Ride& ride) {
  if (ride.days < 64 || ride.days > 1'000'000) {
    return bad_input("days", "must be 64 to 1000000 simulated days, not " + std::to_string(ride.days));
  }
  return {};
}

}  // namespace

Result<RidePlan> plan_surveyed(const RideInputs& inputs, CourseReport survey, Places places, const Progress& progress) {
  if (auto ok = check_ride(inputs.ride); !ok) return tl::unexpected(ok.error());
  auto rules = ride_rules(inputs);
  if (!rules) return tl::unexpected(rules.error());
  RidePlan answer;
  answer.assumptions = inputs.ride.assumptions;
  const auto assume = [&answer](const std::vector<std::string>& more) {
    answer.assumptions.insert(answer.assumptions.end(), more.begin(), more.end());
  };
  assume(survey.assumptions);
  assume(places.assumptions);
  std::vector<std::string> filled_in;
  answer.ride = with_defaults(inputs.ride, survey.course, filled_in);
  assume(filled_in);
  assume(welfare_assumptions(answer.ride));
  tell(progress, "working out the heat", 0.08);
  auto heat = day_heat(answer.ride, survey.course);
  if (!heat) return tl::unexpected(heat.error());
  tell(progress, "simulating days", 0.1);
  auto task = crewing_task(answer.ride, survey.course, places, *heat);
  if (!task) return tl::unexpected(task.error());
  answer.task = std::move(*task);
  answer.survey = std::move(survey);
  answer.places = std::move(places.reports);
  if (is_cancelled(progress)) return cancelled("plan");
  const auto tell_share = [&progress](const std::string& step, double share) {
    tell(progress, step, 0.2 + 0.7 * share);
  };
  auto plan = plan_crew(answer.task, {tell_share, progress.is_cancelled});
  if (!plan) return tl::unexpected(plan.error());
  answer.plan = std::move(*plan);
  auto errands = plan_errands(answer.task, answer.plan.days, errands_of(answer.ride, answer.survey.course));
  if (!errands) return tl::unexpected(errands.error());
  answer.errands = std::move(*errands);
  answer.warnings = answer.survey.course.warnings;
  answer.warnings.insert(answer.warnings.end(), places.warnings.begin(), places.warnings.end());
  answer.warnings.insert(answer.warnings.end(), answer.plan.warnings.begin(), answer.plan.warnings.end());
  for (std::uint32_t h = 0; h < answer.task.horses.size(); ++h) {
    const auto of_horse = forecasts(answer, HorseId{h});
    answer.passes.insert(answer.passes.end(), of_horse.begin(), of_horse.end());
    auto effects = pace_effects(answer.survey.course, horse_pace(answer.ride, answer.survey.course, HorseId{h}, *heat),
                                met_events(answer.task, answer.plan, HorseId{h}));
    if (!effects) return tl::unexpected(effects.error());
    answer.effects.push_back(std::move(*effects));
  }
  answer.welfare = welfare_of(answer, std::move(*heat));
  if (auto intakes = unused_intakes(answer); !intakes.empty()) {
    answer.warnings.insert(answer.warnings.end(), intakes.begin(), intakes.end());
  }
  if (*rules) {
    answer.rule_findings = plan_findings(answer, **rules);
    answer.rules = std::move(*rules);
  }
  if (is_cancelled(progress)) return cancelled("plan");
  tell(progress, "finding the roads", 0.95);
  answer.routes = routes_of(answer, inputs.roads);
  return answer;
}

Result<RidePlan> plan_ride(const RideInputs& inputs, const Progress& progress) {
  tell(progress, "surveying the course", 0.0);
  auto survey = survey_course(inputs);
  if (!survey) return tl::unexpected(survey.error());
  if (is_cancelled(progress)) return cancelled("plan");
  tell(progress, "finding the drives", 0.05);
  auto places = find_places(inputs, *survey);
  if (!places) return tl::unexpected(places.error());
  return plan_surveyed(inputs, std::move(*survey), std::move(*places), progress);
}

}  // namespace outbye
