// Who of the crew is where: people, their cars, and which cars stand at a place. Internal to engine.
#pragma once

#include <string>
#include <vector>

#include "engine/jobs.h"

namespace outbye {

// Fills in people, car_of, work (none yet) and what was assumed.
void put_people_in_cars(const RidePlan& plan, RideJobs& jobs);

// Does this car stand at the place the whole time, and serve no other horse meanwhile?
bool stands_by(const RidePlan& plan, CarId car, PlaceId place, Interval<Instant> time);

// The people for a stop, those of its own car first; at a gate or the finish also those of cars that stand by. More
// than four in the car: the four who have worked least so far over their shares.
std::vector<std::size_t> people_at(const RidePlan& plan, const RideJobs& jobs, CarId car, const TimedStop& stop,
                                   bool is_at_venue);

// As the scheduling sees a person, with the work of the day so far.
Helper helper_of(const RideJobs& jobs, std::size_t person);

}  // namespace outbye
