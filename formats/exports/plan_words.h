// Names and times of a plan in the words that sheets and exports share.
#pragma once

#include <optional>
#include <string>

#include "engine/use_cases.h"

namespace outbye {

// "07:30"; on another day than the start "Sun 00:12".
std::string time_words(Instant at, const RidePlan& plan);
// "07:28-07:37": 8 of 10 simulated days.
std::string span_words(const Window& window, const RidePlan& plan);
// "Saturday 13 June 2026"
std::string date_words(Instant at, const Clock& clock);
// "1:05 h" from an hour up, else "25 min".
std::string duration_in_words(Seconds duration);

// "Ford, loop 2", "Ford, loop 2, 2nd pass", "Vet gate 1, Hay Barn", "Finish, Hay Barn".
std::string meet_words(const RidePlan& plan, MeetOptionId option);
std::string pass_words(const RidePlan& plan, const PassForecast& pass);
// "Juno (41)"; "the horse" without a name.
std::string horse_in_words(const RidePlan& plan, HorseId horse);
// "Loop 2 Blue", or the name alone when it says the number itself.
std::string loop_words(const RidePlan& plan, LoopId loop);
// What a car stops for: a meet, "refill: Tap Green", "rest".
std::string stop_words(const RidePlan& plan, const TimedStop& stop);
std::string place_words(const RidePlan& plan, PlaceId place);
std::string car_words(const RidePlan& plan, CarId car);

// The row of RidePlan::passes (and of its welfare) that a meet is about. Nothing in a plan made by hand without it.
std::optional<std::size_t> forecast_row(const RidePlan& plan, MeetOptionId option);
// The car that meets a pass.
std::optional<CarId> met_by(const RidePlan& plan, std::size_t forecast);
// What the ride file says of a place; null for venue, refills and errands.
const RideCrewPoint* crew_point_of(const RidePlan& plan, PlaceId place);

// The drive into a stop as it lies on the ground; empty without roads, and where the car stays.
const Route* drive_into(const RidePlan& plan, std::size_t day, std::size_t stop);
// The limit for leaving towards this stop: leave-by of the stop before, when it is about this meet.
const TimedStop* limit_for(const CarDay& day, std::size_t stop);

}  // namespace outbye
