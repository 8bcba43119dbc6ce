// What the weather does to one day: how warm it is along the course when the horse is there, how much slower that makes
// each loop, and how much more a meet counts. Internal to engine.
#pragma once

#include <vector>

#include "core/welfare/heat_load.h"
#include "engine/use_cases.h"

namespace outbye {

// Per horse. Empty vectors: nothing is known of the weather, and every factor is 1.
struct DayHeat {
  std::vector<std::vector<double>> speed_factors;  // [horse][loop], of speed
  std::vector<std::vector<double>> worth_factors;  // [horse][event], of a meet's worth
  std::vector<Metres> since_water;                 // [event], since sure water: start, gate, water on the course
  std::vector<std::vector<CourseHeat>> along;      // [horse], each 2 km and at each loop's end
};

double speed_factor(const DayHeat& heat, HorseId horse, LoopId loop);
double worth_factor(const DayHeat& heat, HorseId horse, std::size_t event);

// Position on a loop: its first point at or beyond `along`; clamped to its ends.
Position position_along(const Loop& loop, Metres along);
// Where an event happens on the course.
Position event_position(const Course& course, const RideEvent& event);

// The load at the median times of arrival, without stops at passes (the plan is not made yet) and with the heat's own
// slowing in them, found by three rounds. `ride` has its defaults. Errors: as expected_arrivals.
Result<DayHeat> day_heat(const Ride& ride, const Course& course);

}  // namespace outbye
