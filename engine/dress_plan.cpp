#include "engine/dress_plan.h"

#include <algorithm>
#include <utility>

#include "core/base/text.h"
#include "core/crewing/check_report.h"
#include "engine/decided_plan.h"
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

Result<void> check_ride(const Ride& ride) {
  if (ride.days < 64 || ride.days > 1'000'000) {
    return bad_input("days", "must be 64 to 1000000 simulated days, not " + std::to_string(ride.days));
  }
  return {};
}

// Do the indices of errands and routes name something that is there? core/crewing looks after the stops themselves.
Result<void> check_errands(const RidePlan& answer) {
  const ErrandPlan& errands = answer.errands;
  const auto is_errand = [&answer](std::size_t errand) { return errand < answer.ride.errands.size(); };
  for (const CarErrands& car : errands.cars) {
    if (car.car.value >= answer.plan.days.size()) return bad_input("errands", "name a car that the ride does not have");
    const std::size_t stops = at(answer.plan.days, car.car).stops.size();
    for (const ErrandStop& stop : car.stops) {
      if (!is_errand(stop.errand)) return bad_input("errands", "name an errand that the ride does not have");
      if (stop.after_stop && *stop.after_stop >= stops) return bad_input("errands", "follow a stop that is not there");
    }
    for (const LaterStop& later : car.later) {
      if (later.stop >= stops) return bad_input("errands", "make a stop later that is not there");
    }
  }
  for (const LeftOutErrand& left : errands.left_out) {
    if (!is_errand(left.errand)) return bad_input("errands", "leave out one that the ride does not have");
  }
  return {};
}

}  // namespace

Result<RideTask> ride_task(const RideInputs& inputs, CourseReport survey, std::vector<PlaceReport> places,
                           DriveTable drives, const Progress& progress) {
  if (auto ok = check_ride(inputs.ride); !ok) return tl::unexpected(ok.error());
  auto rules = ride_rules(inputs);
  if (!rules) return tl::unexpected(rules.error());
  RideTask made;
  RidePlan& answer = made.answer;
  answer.rules = std::move(*rules);
  answer.ride = with_defaults(inputs.ride, survey.course, made.filled_in);
  tell(progress, "working out the heat", 0.08);
  auto heat = day_heat(answer.ride, survey.course);
  if (!heat) return tl::unexpected(heat.error());
  made.heat = std::move(*heat);
  tell(progress, "simulating days", 0.1);
  Places joined;
  joined.drives = std::move(drives);
  auto task = crewing_task(answer.ride, survey.course, joined, made.heat);
  if (!task) return tl::unexpected(task.error());
  answer.task = std::move(*task);
  answer.survey = std::move(survey);
  answer.places = std::move(places);
  return made;
}

Result<RidePlan> with_forecasts(RideTask made) {
  RidePlan answer = std::move(made.answer);
  for (std::uint32_t h = 0; h < answer.task.horses.size(); ++h) {
    const auto of_horse = forecasts(answer, HorseId{h});
    answer.passes.insert(answer.passes.end(), of_horse.begin(), of_horse.end());
    auto effects =
        pace_effects(answer.survey.course, horse_pace(answer.ride, answer.survey.course, HorseId{h}, made.heat),
                     met_events(answer.task, answer.plan, HorseId{h}));
    if (!effects) return tl::unexpected(effects.error());
    answer.effects.push_back(std::move(*effects));
  }
  answer.welfare = welfare_of(answer, std::move(made.heat));
  if (answer.rules) answer.rule_findings = plan_findings(answer, *answer.rules);
  return answer;
}

DecidedPlan decided_plan(const RideInputs& inputs, const RidePlan& plan) {
  DecidedPlan decided;
  decided.ride = inputs.ride;
  decided.survey = plan.survey;
  decided.places = plan.places;
  decided.drives = plan.task.drives;
  for (const RuleBook& book : inputs.rule_books) {
    const bool is_named = inputs.ride.rules && same_name(inputs.ride.rules->book, book.id);
    if (is_named && decided.rule_books.empty()) decided.rule_books.push_back(book);
  }
  decided.plan = plan.plan;
  decided.errands = plan.errands;
  decided.routes = plan.routes;
  decided.warnings = plan.warnings;
  decided.assumptions = plan.assumptions;
  return decided;
}

Result<RidePlan> dressed_plan(DecidedPlan decided) {
  const RideInputs inputs{std::move(decided.ride), {}, {}, nullptr, std::nullopt, std::move(decided.rule_books)};
  const std::size_t places = decided.places.size();
  if (decided.drives.size() != places || places != 1 + decided.survey.course.crew_points.size() +
                                                       inputs.ride.refills.size() + inputs.ride.errands.size()) {
    return bad_input("places",
                     "are not one for the venue, each crew point, refill and errand, with a row of drives each");
  }
  if (!inputs.ride.loops.empty() && inputs.ride.loops.size() != decided.survey.course.loops.size()) {
    return bad_input("loops", "are not as many as the course has");
  }
  auto made = ride_task(inputs, std::move(decided.survey), std::move(decided.places), std::move(decided.drives), {});
  if (!made) return tl::unexpected(made.error());
  made->answer.plan = std::move(decided.plan);
  made->answer.errands = std::move(decided.errands);
  CheckReport report;
  if (!check_names(made->answer.task, made->answer.plan, report)) {
    return bad_input("plan of " + report.reasons.front().where, report.reasons.front().what);
  }
  const auto weakest = made->answer.plan.weakest;
  if (weakest && weakest->value >= made->answer.task.options.size()) {
    return bad_input("plan", "names a weakest meet that is not among the options");
  }
  if (auto ok = check_errands(made->answer); !ok) return tl::unexpected(ok.error());
  auto answer = with_forecasts(std::move(*made));
  if (!answer) return answer;
  answer->routes = std::move(decided.routes);
  answer->warnings = std::move(decided.warnings);
  answer->assumptions = std::move(decided.assumptions);
  return answer;
}

}  // namespace outbye
