// The moments of a car's day to be reminded of. Internal to engine.
#pragma once

#include <vector>

#include "engine/day.h"

namespace outbye {

// By time, all after now. `next`: all but its alarms.
std::vector<DayAlarm> alarms_of(const RidePlan& plan, const DayAnswer& answer, const NextAction& next);

}  // namespace outbye
