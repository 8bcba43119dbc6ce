// What is worked out before and after a crew plan is chosen. Internal to engine.
#pragma once

#include "engine/day_heat.h"
#include "engine/use_cases.h"

namespace outbye {

// A ride ready to be planned: defaults filled in, days simulated.
struct RideTask {
  RidePlan answer;  // ride, survey, places, task and rules are there
  DayHeat heat;
  std::vector<std::string> filled_in;  // by defaults, in sentences
};
Result<RideTask> ride_task(const RideInputs& inputs, CourseReport survey, std::vector<PlaceReport> places,
                           DriveTable drives, const Progress& progress);

// Forecasts, effects, welfare and rule findings of `task.answer`, whose plan and errands are there.
Result<RidePlan> with_forecasts(RideTask task);

}  // namespace outbye
