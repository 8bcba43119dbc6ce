// Inside of errands: one car's day as fixed points in time with free time between, and the errands that fit into it.
#pragma once

#include <optional>
#include <vector>

#include "core/crewing/errands.h"

namespace outbye::errand_day {

// Whole seconds after `origin` (the car's ready_from, rounded up).
struct FixedPoint {
  PlaceId place;
  Ticks latest{};  // the car must be there by then
  Ticks leave{};   // and is free again then
  bool is_fuel{};  // fills the tank
};

struct Day {
  const CrewCar* car{};
  Instant origin;
  std::vector<FixedPoint> points;  // one a stop
  Ticks back_by{};
  std::optional<PlaceId> end;  // where the day ends; nothing: wherever the car is
  bool goes_on_after_last{};   // errands may come after the last stop
  bool is_usable{};            // false: no stops and no back_by
};

Day day_of(const CrewingTask& task, const CarDay& car_day, const ErrandSettings& settings);

// With the allowance, rounded up to whole seconds; OrienteeringProblem::no_way if there is none.
Ticks planned_drive(const CrewingTask& task, PlaceId from, PlaceId to);

// Whole seconds after origin at which the errand may be started, before any other limit; `always` if it is never shut.
std::vector<Interval<Ticks>> start_windows(const Errand& errand, Instant origin, Interval<Ticks> always);
Ticks whole_duration(const Errand& errand);
std::int64_t in_millionths(double worth);

// The free time after `point` (nothing: before the first), from where and when to where and when.
struct Gap {
  std::optional<std::size_t> after;
  PlaceId from;
  Ticks begins{};
  std::optional<PlaceId> to;  // nothing: anywhere
  Ticks ends{};
};
std::vector<Gap> gaps(const Day& day);

// Would this errand alone, in this gap at this time, keep within fuel range and the driver's break?
bool alone_keeps_range(const CrewingTask& task, const Day& day, const std::vector<Errand>& errands, std::size_t errand,
                       const Gap& gap, Ticks start);

struct Choice {
  std::vector<std::size_t> order;  // errands and stops in order: errand e as `stops + e`
  std::vector<Ticks> starts;       // of each
  std::int64_t score{};            // millionths
  std::int64_t bound{};
};

// The best errands among those `offered`, for this car alone. Fails only if the day itself is out of the solver's
// range.
Result<Choice> choose(const CrewingTask& task, const Day& day, const std::vector<Errand>& errands,
                      const std::vector<bool>& offered, const ErrandSettings& settings);

// The same errands in an order and in gaps that need less driving, as far as moving one errand or swapping two helps.
Choice with_less_driving(const CrewingTask& task, const Day& day, const std::vector<Errand>& errands, Choice choice);

// Fuel range and driver's break (rules 10 and 11 of fixed_time.h).
bool keeps_range(const CrewingTask& task, const Day& day, const std::vector<Errand>& errands, const Choice& choice);

CarErrands timed(const CrewingTask& task, CarId car, const Day& day, const std::vector<Errand>& errands,
                 const Choice& choice);

}  // namespace outbye::errand_day
