// What changes at a stop when the day does: the horse comes early, or a helper is missing. As short as can be, as
// planned; then, instead of the fairest, whoever can keeps the tasks that they had.
#pragma once

#include <string>
#include <vector>

#include "core/jobs/schedule_stop.h"

namespace outbye {

struct StopChange {
  CrewStop stop;  // as it is now: without the tasks left out
  StopSchedule schedule;
  std::vector<TaskId> left_out;      // tasks of the old stop, the least necessary first
  std::vector<std::string> words;    // the few things that matter, a sentence each
  std::vector<std::string> details;  // every difference, a line each
};

// The horse comes at `horse_at`, earlier than planned. Tasks before the horse are left out, least necessary first,
// until the rest is done by then; what is necessary is kept, and then the words say how long the horse waits.
Result<StopChange> when_horse_is_early(const CrewStop& stop, const StopSchedule& planned, Seconds horse_at,
                                       const StopSearchLimits& limits = {});

// `missing` is not there. Tasks that nobody else can do are left out unless necessary (then: impossible, with the skill
// that is missing); if none of the others can hold the horse, the rider holds it on foot.
Result<StopChange> when_helper_is_missing(const CrewStop& stop, const StopSchedule& planned, HelperId missing,
                                          const StopSearchLimits& limits = {});

}  // namespace outbye
