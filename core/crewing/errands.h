// Which errands (ice, a shop, a farrier) fit into the free time of a planned day without making any meet late.
// A meet needs its crew ready `margin` before the horse may come: the early end of its window (due.p10), or the median
// if so set. No stop becomes later than that, or than planned where the plan is tighter already. Meets, refills and
// rests keep their place in the day; refills and rests also their times. Leaving times are the plan's: on the day an
// errand is for dropping when its `latest_start` has gone by.
// Free time is before the first stop, between stops, and after the last if the car has a `back_by`. A car without stops
// runs errands only if it has a `back_by`.
//
// Exact for one car (orienteering.h, the stops as mandatory nodes) but for fuel range and the driver's break: an errand
// that would break one is dropped, and the answer is then proven only if it still reaches the bound. Several cars take
// errands in turn, the one that can do most first; the split is proven only when it reaches the bound. Of the ways to
// run the same errands a short one is taken: moving one errand or swapping two would not save driving.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/crewing/crewing_task.h"
#include "core/crewing/orienteering.h"
#include "core/crewing/plan.h"

namespace outbye {

struct Errand {
  std::string label;
  PlaceId place;
  Seconds duration{minutes(10)};        // >= 0
  double worth{0.5};                    // 0 .. 1e6, counted in millionths
  std::vector<Interval<Instant>> open;  // the errand must fit into one; empty: always
};

struct ErrandSettings {
  Seconds margin{minutes(10)};    // ready this long before the horse may come (common practice, no source)
  bool counts_early_horse{true};  // the horse may come at due.p10; false: at due.p50
  OrienteeringLimits limits{};    // of each solution of one car
};

// Times are whole seconds, drives with the allowance and rounded up.
struct ErrandStop {
  std::size_t errand{};                   // index into the errands asked for
  std::optional<std::size_t> after_stop;  // index into CarDay::stops; nothing: before the first
  Drive drive;                            // into the errand, at the limits
  Instant depart;                         // leaves the place before
  Instant arrive;
  Instant start;  // later than arrive if it must open first
  Instant leave;
  Instant latest_start;  // starting later than this makes the next stop late, or finds the place shut
};

// A stop of the plan that is reached later because of errands.
struct LaterStop {
  std::size_t stop{};  // index into CarDay::stops
  Instant depart;
  Instant arrive;
  Instant latest_arrive;  // what errands were allowed; never before `arrive`
};

struct CarErrands {
  CarId car;
  std::vector<ErrandStop> stops;
  std::vector<LaterStop> later;
  double worth{};
  double upper_bound{};  // of what this car could do with the errands it was offered
  bool is_proven{};      // no choice of them is worth more
};

struct LeftOutErrand {
  enum class Reason {
    worthless,     // worth 0
    no_way,        // no drive there and back
    too_far,       // no gap is long enough, even always open: `short_by` at best
    closed,        // a gap is long enough, but not while it is open: `short_by` at best if it opens at all
    crowded_out,   // fits alone, but others are worth more
    out_of_range,  // would break the fuel range or the driver's break
  };
  std::size_t errand{};
  Reason reason{};
  std::optional<Seconds> short_by;
  std::string why;  // for people: "too far: 7 min short between CP1 and CP3 (car A)"
};

struct ErrandPlan {
  std::vector<CarErrands> cars;  // one a day given, in that order
  std::vector<LeftOutErrand> left_out;
  double worth{};
  double upper_bound{};
  bool is_proven{};
  std::string what_is_exact;  // one sentence for people
};

// `days`: of cars of the task, each at most once, stops in order. Errors (bad_input): a place, car or index that is not
// there, a worth or duration out of range, more than 128 stops and errands together for a car.
Result<ErrandPlan> plan_errands(const CrewingTask& task, const std::vector<CarDay>& days,
                                const std::vector<Errand>& errands, const ErrandSettings& settings = {});

}  // namespace outbye
