// Crew orders with every time fixed: the horses pass when they are expected, every drive takes its planned time.
// This header is the specification of a feasible plan; search, value and the independent checker all follow it.
//
// Times are seconds after FixedTimes::origin. Option o has the horse's arrival a(o) and departure d(o) >= a(o): when it
// goes on (pass: arrival + stand; gate: out-time; finish: d = a). Each event of a horse has at most one option, and d
// ascends in the order of the ride. A planned drive takes Drive::time x drive_allowance.
//
// A car, one stop after another:
//  1. It begins at `start`, free to drive from `ready_from`, rested, with full tank and full water.
//  2. A drive between two places must be in the table. Between stops at one place nothing is driven.
//  3. It may wait anywhere, in a lay-by beside a place if the place is shut, so being early is never a fault.
//     `longest_wait` only shifts when the car drives on; it makes nothing infeasible.
//  4. Meet. The car gets in at A = max(free + drive, `from` of the opening), where one interval of `open` must hold
//     [A, d + pack] whole (no intervals: always open; the earliest `from` counts).
//       A + setup <= a: ready, readiness 1;  else A <= d: there, readiness part_worth;  else infeasible.
//     Setting up ends when the horse goes, so the car is free again at d + pack however late it came. Whatever is left
//     of the hold at a gate belongs to the meet.
//  5. Staying. Two meets in succession at one place, with no stop between them and one interval of the second's `open`
//     that holds [d(first), d(second) + pack]: the kit stays up, there is no packing and no setting up between them,
//     and the crew turns to the second horse when the first has gone: ready at d(first), so readiness 1 if
//     d(first) <= a(second), else part_worth if d(first) <= d(second), else infeasible. If the opening does not hold
//     it, the car packs, leaves and comes back by rule 4. The first meet's own opening must hold its d + pack also when
//     the car stays.
//  6. A car takes meets in ascending d; of equal d the smaller a first, then the event nearer the start, the larger
//     worth, the smaller horse, the smaller id.
//  7. Refill. It begins at the earliest instant from free + drive on from which `duration` fits into one interval of
//     `open`, and the car is free at its end. It fills the tank if `fuel`, the water if `water`.
//  8. Rest. The car is free break_length later; it needs no opening. A rest is never the first stop.
//  9. Water (water_capacity > 0): a meet takes `water` from the stock, which must not fall below 0. At an option with
//     `has_water` nothing is taken and the car leaves full.
// 10. Fuel (fuel_range > 0): the lengths driven since the start or the last refuelling stay <= fuel_range.
// 11. Breaks (longest_driving > 0): planned driving since the last break stays <= longest_driving. Standing from the
// end
//     of a drive to the start of the next one is a break if it lasts >= break_length: the car drives at once when it is
//     free and stands where it arrives, so at a meet it stands from free + drive (in a lay-by, if shut) to d + pack.
// 12. After the last stop, if `end` is given the car drives there (rules 10 and 11 hold on the way) and arrives no
// later
//     than `back_by`, if given. Without `end` it is free after its last stop by `back_by`. The last stop is a meet or a
//     refill or a rest; a car without stops is not used, and nothing is asked of it.
// 13. An option is met at most once over all cars; `must` is met, `never` is not; `only_car` by no other car.
// Comparisons of times, litres and metres allow 1e-6 of rounding.
//
// Worth = sum over meets of worth x readiness
//         - gap_penalty x sum over horses of the kilometres beyond water_interval between successive helps.
// Helps of a horse are its start (0 m), its met options (ready or there), and every gate, met or not (there is water at
// a gate); the last event of its day ends the last gap.
#pragma once

#include <string>
#include <vector>

#include "core/crewing/crewing_task.h"
#include "core/crewing/plan.h"

namespace outbye {

// When the horse comes to and leaves each option. Seconds after origin; size: options of the task.
struct FixedTimes {
  Instant origin;
  std::vector<double> arrival;
  std::vector<double> departure;
};

struct FixedStop {
  PlannedStop stop;
  double depart{};     // leaves the place before
  double arrive{};     // end of the drive (rule 11)
  double ready{};      // meet: set up, at the earliest (rule 5: d of the meet before); refill, rest: done
  double leave{};      // free to drive on
  double readiness{};  // meets: 1, part_worth; else 0
};

struct FixedValue {
  bool is_feasible{};
  std::string why_not;  // the first rule broken, with car and label
  double worth{};       // additive - penalty; 0 if infeasible
  double additive{};
  double penalty{};
  std::vector<std::vector<FixedStop>> cars;  // as orders
};

// Errors are in the value: is_feasible and why_not. `orders` may leave out cars that are not used.
FixedValue evaluate_fixed(const CrewingTask& task, const FixedTimes& times, const CrewOrders& orders);

// Rule 6, for two options.
bool comes_before(const CrewingTask& task, const FixedTimes& times, MeetOptionId first, MeetOptionId second);

// The penalty of horses for the options that are met (one flag an option).
double gap_penalty(const CrewingTask& task, const std::vector<bool>& is_met);

// Worth of a horse's gap from one help to the next, without gates between them.
double gap_cost(const CrewingSettings& settings, Metres gap);

}  // namespace outbye
