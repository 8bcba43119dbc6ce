// Who does what at a meet and what to get out of the car for it, as told on the day. Internal to engine.
#pragma once

#include <string>
#include <vector>

#include "engine/day.h"

namespace outbye {

// Of the work that comes next: getting ready before she is there, serving, clearing. A meet that is not this car's in
// the plan has none.
std::vector<DayDuty> duties_at(const DayModel& model, MeetOptionId meet, CarId car, NextAction::Kind kind);

// Water and ice by the plan's welfare, then kit that is needed at such a stop, when kit was planned.
std::vector<std::string> get_out_at(const RidePlan& plan, const DayModel& model, MeetOptionId meet);

}  // namespace outbye
