// The answer: what each car does all day, and how much the whole is worth.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/crewing/crewing_task.h"

namespace outbye {

// What the search decides: for each car the order of its stops. Everything else follows by valuing it.
struct PlannedStop {
  enum class Kind { meet, refill, rest } kind{Kind::meet};
  std::optional<MeetOptionId> option;  // for a meet
  std::optional<std::size_t> refill;   // for a refill: index into CrewingTask::refills
  // rest: the break of CrewCar::break_length, taken where the car stands before it drives on to the next stop
  friend bool operator==(const PlannedStop&, const PlannedStop&) = default;
};
struct CarOrders {
  CarId car;
  std::vector<PlannedStop> stops;
  friend bool operator==(const CarOrders&, const CarOrders&) = default;
};
using CrewOrders = std::vector<CarOrders>;  // one a car, in order of CarId

// One stop with its times, whole seconds: what happens when every horse comes and goes at its median over the simulated
// days (with the stands of this plan) and every drive takes its planned time. So the instants of a car follow from one
// another, and the horses' windows are the days' own.
struct TimedStop {
  PlannedStop stop;
  PlaceId place;
  Drive drive;              // into this stop, at the limits; 0 when the car stays where it stands
  Seconds drive_planned{};  // with the allowance
  Instant depart;           // leaves the place before
  Instant arrive;
  Instant ready;  // set up (meet), filled (refill), rested (rest)
  Instant leave;  // wheels turning
  // For meets:
  Window due;                             // the horse's arrival
  Seconds slack{};                        // due.p50 - ready; negative: there, but not set up in time
  double chance_ready{};                  // fully set up before the horse
  double chance_there{};                  // there before the horse leaves, set up or not (includes chance_ready)
  std::optional<Instant> leave_by;        // latest departure that makes the next meet with the wanted confidence
  std::optional<MeetOptionId> next_meet;  // the meet that leave_by is about
  std::optional<MeetOptionId> fallback;   // where to drive instead when the next meet is lost
  double worth{};                         // what the plan would lose without this meet (over the first 1,024 days)
};
struct CarDay {
  CarId car;
  std::vector<TimedStop> stops;
  Metres driven{};                // with the way home
  Seconds driving{};              // planned, with the way home
  std::optional<Drive> home{};    // from the last stop, at the limits, when the car has an end
  std::optional<Instant> back{};  // there, planned
};

struct PlanValue {
  double worth{};  // expected, over the simulated days
  double standard_error{};
  double upper_bound{};        // no crew could expect more, even if it knew each day in advance
  double upper_bound_error{};  // standard error of that bound
  double gap{};                // upper_bound - worth
  double fixed_worth{};        // of this plan with every time at its median
  double fixed_bound{};        // exact optimum of that, or a bound; 0 for orders that were given
  bool is_fixed_exact{};       // fixed_worth is proven optimal for the median times
  std::string what_is_exact;   // one sentence for people
};

struct CrewPlan {
  std::vector<CarDay> days;
  PlanValue value;
  std::optional<MeetOptionId> weakest;  // the meet least likely to be ready
  Warnings warnings;
};

}  // namespace outbye
