// What a day looks like, as values that every drawing of it shares: when it begins and ends, the line of each horse,
// what each car does from when to when, light and heat. Instants, and metres of the ride.
#pragma once

#include <vector>

#include "core/base/interval.h"
#include "core/welfare/heat_band.h"
#include "core/welfare/sun.h"
#include "engine/use_cases.h"

namespace outbye {

// From the first departure or window to the last. A car that sets off hours before does not squeeze the ride: the day
// begins two hours before the first horse at most.
Interval<Instant> shown_day(const RidePlan& plan);

// The window of the time at one kilometre. Where the horse stands (at gates, and at passes that are met) there are two
// of the same kilometre: when it comes and when it leaves.
struct HorseKnot {
  Metres along{};
  Window at;
};
struct HorseGate {  // medians
  Metres along{};
  LoopId loop;
  Instant in;        // arrival
  Instant accepted;  // in-time
  Instant out;
};
struct HorseLine {
  std::vector<HorseKnot> knots;  // along ascends
  std::vector<HorseGate> gates;  // without the finish
};
HorseLine horse_line(const RidePlan& plan, HorseId horse);

enum class CarDoes { drive, setup, wait, meet, pack, refill, rest, errand, free };
struct CarSpan {
  CarDoes does{};
  Instant from;
  Instant to;
  Metres from_along{};
  Metres to_along{};
  std::size_t stop{};  // index into CarDay::stops; one past the last for the way home
};
// What happens at one stop, on the median day. Spans follow one another; where the horse comes before the crew is
// ready, set-up goes on after that.
std::vector<CarSpan> stop_spans(const RidePlan& plan, const TimedStop& stop, std::size_t index, Metres along);
// The whole day of a car, with its errands and the way home. Refills, rests and errands lie off the course and are put
// where the car was last; drives lead from the kilometre of one meet to that of the next.
std::vector<CarSpan> car_spans(const RidePlan& plan, const CarDay& day);

// The place of an errand: the last rows of the places, in the ride's order.
PlaceId errand_row(const RidePlan& plan, std::size_t errand);

// Where a horse is on the median day; at the venue before the start and after the finish.
Position place_of_horse(const RidePlan& plan, const HorseLine& line, Instant at);

struct LightSpan {
  Interval<Instant> when;
  Light light{Light::day};
};
// To the minute; without the hours of daylight.
std::vector<LightSpan> dark_spans(Position place, Interval<Instant> when);

struct HeatSpan {
  Interval<Instant> when;
  HeatBand band{};
};
// By quarter hours where the first horse is then. Nothing while the weather is not known.
std::vector<HeatSpan> heat_spans(const RidePlan& plan, Interval<Instant> when);

}  // namespace outbye
