// How a changed stop differs from the planned one, in words: first the few things that matter, grouped, then all.
#pragma once

#include <string>
#include <vector>

#include "core/jobs/stop_changes.h"

namespace outbye {

// What is left of a planned stop.
struct RestOfStop {
  CrewStop stop;
  std::vector<TaskId> old;        // what each task was in the planned stop
  std::vector<HelperId> helpers;  // and each helper
};

// Within a step whoever can stand in for each other changes places, so that as much work as possible stays with those
// who had it. Nothing starts or ends at another time.
void keep_people(const StopSchedule& planned, const RestOfStop& rest, StopSchedule& schedule);

// Fills in `words` and `details`; the rest of `change` is there.
void say_changes(const CrewStop& before, const StopSchedule& planned, const RestOfStop& rest, StopChange& change);

std::string minutes_and_seconds(Seconds time);  // "3:05 min"

}  // namespace outbye
