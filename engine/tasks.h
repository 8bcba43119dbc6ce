// From a ride, its course and its places to what the pace model and the crew planner are asked. Internal to engine.
#pragma once

#include <vector>

#include "core/crewing/crewing_task.h"
#include "engine/day_heat.h"
#include "engine/places.h"
#include "engine/use_cases.h"

namespace outbye {

// The ride with one loop, horse and car at least, every loop named; what was filled in is said.
Ride with_defaults(const Ride& ride, const Course& course, std::vector<std::string>& assumptions);

// Name of where an event happens: the crew point, or the venue.
std::string event_place(const Ride& ride, const Course& course, const RideEvent& event);

HorsePace horse_pace(const Ride& ride, const Course& course, HorseId horse, const DayHeat& heat);

// `ride` has its defaults. What a wish says a meet is worth is taken as it is; else heat and thirst raise it.
// Errors: speeds and spreads out of range, wishes that fit nothing, unknown places.
Result<CrewingTask> crewing_task(const Ride& ride, const Course& course, const Places& places, const DayHeat& heat);

// The ride's errands, in its order.
std::vector<Errand> errands_of(const Ride& ride, const Course& course);

// plan_ride from where the course is surveyed and the drives are known: what-ifs start here.
Result<RidePlan> plan_surveyed(const RideInputs& inputs, CourseReport survey, Places places, const Progress& progress);

}  // namespace outbye
