// Accepts or refuses a schedule of a stop; shares no code with the search. Does not judge whether it is the shortest.
#pragma once

#include <string>
#include <vector>

#include "core/jobs/schedule_stop.h"

namespace outbye {

// What is wrong, in words; empty when the schedule can be carried out as written and its totals are right.
std::vector<std::string> check_stop_schedule(const CrewStop& stop, const StopSchedule& schedule);

}  // namespace outbye
