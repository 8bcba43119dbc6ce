// What the day asks of horse and crew at each pass of a plan: heat, light, water. Internal to engine.
#pragma once

#include "engine/day_heat.h"
#include "engine/use_cases.h"

namespace outbye {

// `plan` has its passes; `heat` was worked out for it.
RideWelfare welfare_of(const RidePlan& plan, DayHeat heat);

// What the ride file says was drunk or given where no horse passes.
Warnings unused_intakes(const RidePlan& plan);

// What was taken for granted of the weather and the horses, in sentences.
std::vector<std::string> welfare_assumptions(const Ride& ride);

}  // namespace outbye
