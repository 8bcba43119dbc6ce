// Who does what at each stop of a plan: schedules, cards of the whole day, and what changes when the horse comes early
// or a helper is missing. Only meets (passes, gates, finish) are stops here; refills and rests are not. Times within a
// stop are seconds after the car has stopped.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/jobs/check_stop_schedule.h"
#include "core/jobs/schedule_stop.h"
#include "core/jobs/stop_cards.h"
#include "core/jobs/stop_changes.h"
#include "core/jobs/usual_stops.h"
#include "engine/use_cases.h"

namespace outbye {

// One meet of one car.
struct StopJobs {
  std::string name;  // "Ford loop 1", "gate loop 2"
  CarId car;
  MeetOptionId option;
  UsualStop what;
  Instant arrive;  // of the car: 0 in the schedule
  Window due;      // the horse
  Seconds setup{};
  Seconds pack{};
  std::optional<Seconds> planned_stop;  // how long the horse stands by the plan (median); nothing at the finish
  std::vector<std::size_t> people;      // of RideJobs::people: the helpers of `stop`, in order; at most 4
  std::optional<Problem> problem;       // then nothing below is filled in: these people cannot do it
  CrewStop stop;
  StopSchedule schedule;
  std::vector<StopCard> cards;              // one a helper of `stop`, then the rider's
  std::optional<StopChange> early;          // the horse at due.p10; nothing when that is no earlier than due.p50
  std::vector<Result<StopChange>> missing;  // one a helper of `stop`
  std::vector<std::string> warnings;        // in sentences
  std::vector<std::string> notes;           // what the rules ask, in sentences
};

struct RideJobs {
  std::vector<RideHelper> people;  // of the ride, or those assumed
  std::vector<CarId> car_of;       // one a person
  std::vector<Seconds> work;       // one a person: over the whole day
  std::vector<StopJobs> stops;     // in the order in which the cars come in
  std::vector<std::string> assumptions;
};

// Never fails as a whole: a stop that its people cannot do has a `problem`, and the day goes on without it.
RideJobs jobs_of(const RidePlan& plan, const StopSearchLimits& limits = {});

// How long the horse stands: what is made as short as possible.
Seconds serving_time(const StopSchedule& schedule);

// A stop as short as this is done in that way (common practice, no source): below 40 s bottles are handed up in motion,
// from 3.5 min on the horse drinks in peace.
StopKind stop_kind_for(Seconds planned_stop);

// "gate loop 1: car in 10:02, horse due 10:31": the heading of a stop's picture.
std::string stop_heading(const StopJobs& stop, const Clock& clock);

}  // namespace outbye
