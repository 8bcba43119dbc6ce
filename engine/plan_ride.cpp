#include "core/crewing/plan_crew.h"
#include "engine/dress_plan.h"
#include "engine/tasks.h"
#include "engine/welfare.h"

namespace outbye {
namespace {

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

}  // namespace

Result<RidePlan> plan_surveyed(const RideInputs& inputs, CourseReport survey, Places places, const Progress& progress) {
  std::vector<std::string> assumptions = inputs.ride.assumptions;
  const auto assume = [&assumptions](const std::vector<std::string>& more) {
    assumptions.insert(assumptions.end(), more.begin(), more.end());
  };
  assume(survey.assumptions);
  assume(places.assumptions);
  auto made = ride_task(inputs, std::move(survey), std::move(places.reports), std::move(places.drives), progress);
  if (!made) return tl::unexpected(made.error());
  RidePlan& planned = made->answer;
  assume(made->filled_in);
  assume(welfare_assumptions(planned.ride));
  if (is_cancelled(progress)) return cancelled("plan");
  const auto tell_share = [&progress](const std::string& step, double share) {
    tell(progress, step, 0.2 + 0.7 * share);
  };
  auto plan = plan_crew(planned.task, {tell_share, progress.is_cancelled});
  if (!plan) return tl::unexpected(plan.error());
  planned.plan = std::move(*plan);
  auto errands = plan_errands(planned.task, planned.plan.days, errands_of(planned.ride, planned.survey.course));
  if (!errands) return tl::unexpected(errands.error());
  planned.errands = std::move(*errands);
  auto answer = with_forecasts(std::move(*made));
  if (!answer) return answer;
  answer->assumptions = std::move(assumptions);
  answer->warnings = answer->survey.course.warnings;
  const auto warn = [&answer](const Warnings& more) {
    answer->warnings.insert(answer->warnings.end(), more.begin(), more.end());
  };
  warn(places.warnings);
  warn(answer->plan.warnings);
  warn(unused_intakes(*answer));
  if (is_cancelled(progress)) return cancelled("plan");
  tell(progress, "finding the roads", 0.95);
  answer->routes = routes_of(*answer, inputs.roads);
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
