// Who does what and when: the shortest stop, then the fairest. Exact: branch and bound, with a proof or the word that
// there is none. Times in whole seconds after the car has stopped.
//
// Shortest: every step of the routine takes as little time as its tasks and the people allow. Fairest among those: the
// most worked helper (work of the day so far and of this stop, over the wanted share) works as little as possible, then
// the least worked one as much as possible. Holding the horse is work.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "core/jobs/stop_task.h"

namespace outbye {

struct ScheduledTask {
  TaskId task;
  std::uint32_t mode{};  // of StopTask::modes
  Seconds start{};
  Seconds end{};
  std::vector<HelperId> hands;  // one a hand of the mode, in its order
};

struct StopSchedule {
  std::vector<ScheduledTask> tasks;  // by start, then by task
  std::optional<HelperId> holder;    // holds the horse from serve_start to serve_end
  std::vector<HelperId> at_horse;    // the helpers who may work at the horse, ascending
  Seconds ready{};                   // everything before the horse is done
  Seconds serve_start{};             // max(ready, horse_at)
  Seconds serve_end{};               // the horse may go
  Seconds end{};                     // everything is cleared: the makespan
  std::vector<Seconds> work;         // one a helper: at this stop, holding included
  Seconds bound{};                   // no schedule ends earlier
  bool is_shortest_proven{};         // end == bound
  bool is_fairest_proven{};          // no schedule of the same lengths is fairer
  std::uint64_t nodes{};             // searched
};

struct StopSearchLimits {
  std::uint64_t shortest_nodes{200000};  // search nodes for the shortest stop, all steps together
  std::uint64_t fairest_nodes{40000};    // and for the fairest
};

// Errors: bad_input or impossible as check_stop; impossible when the helpers' skills do not suffice together with
// whoever holds the horse. The answer does not depend on the clock.
Result<StopSchedule> schedule_stop(const CrewStop& stop, const StopSearchLimits& limits = {});

// The stop as the next one should see it: work added to what each helper carries.
void carry_work(const StopSchedule& schedule, std::vector<Helper>& helpers);

}  // namespace outbye
