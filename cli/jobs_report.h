// The jobs of a day as text.
#pragma once

#include <string>

#include "cli/console.h"
#include "engine/jobs.h"

namespace outbye {

// All stops in a table, the work of the day, what to mind.
std::string jobs_overview(const RidePlan& plan, const RideJobs& jobs, const Style& style);

// One stop: who does what when, drawn in letters, and what changes; `all`: every difference.
std::string stop_text(const RidePlan& plan, const StopJobs& stop, bool all, const Style& style);

// The whole day of one person (of RideJobs::people), or of the rider.
std::string person_text(const RidePlan& plan, const RideJobs& jobs, std::size_t person, const Style& style);
std::string rider_text(const RidePlan& plan, const RideJobs& jobs, const Style& style);

// Every stop of a person, without that person.
std::string without_text(const RideJobs& jobs, std::size_t person, bool all, const Style& style);

// "2:05-3:00" after the car has stopped; "+0:10-0:50" after the crew begins to serve the horse, for all from then on.
std::string stop_span(const StopSchedule& schedule, Seconds from, Seconds until);
inline constexpr const char* span_words =
    "Times are minutes and seconds after the car has stopped; with +, after the crew begins to serve the horse.";

// "2:05", minutes and seconds.
std::string minutes_seconds(Seconds time);

}  // namespace outbye
