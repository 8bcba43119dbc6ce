// The best additive worth of one day after another, when each day is known in advance: cheap enough for thousands of
// days.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "core/crewing/crewing_task.h"
#include "core/crewing/meet_flow.h"

namespace outbye {

// One day as a crew would know it in advance. Seconds after an origin of the caller's, one an option.
struct DayTimes {
  std::span<const double> ready_by;   // set up by then: full worth (the horse's arrival)
  std::span<const double> there_by;   // in by then: part_worth (the horse's departure)
  std::span<const double> gone;       // the car packs from then on (the horse's departure)
  std::span<const double> car_ready;  // one a car
  double drive_factor{1.0};           // all drives, times Drive::time (so drive_allowance must be in it)
};

// Worth of the best choice of meets on one day after another, penalties and limits of cars (driving, fuel, water, ends
// that differ, only_car) left out: never less than the best feasible worth of that day plus its penalty. Exact when
// none of those binds. Meets are taken in order of there_by; with `gone` below there_by that order is no loss for one
// horse, whose meets never change places. Nothing is allocated after the first day.
class DayFlow {
 public:
  // `must` is not enforced (a relaxation), `never` is. `origin` is what the seconds of the days count from: opening
  // hours and back_by are turned into them. Limits of openings hold as in rule 4 of fixed_time.h.
  DayFlow(const CrewingTask& task, Instant origin);
  double best_worth(const DayTimes& day);
  // Options met on the last day (one flag an option).
  const std::vector<char>& is_met();

 private:
  void put_in_order(const DayTimes& day);
  double worth_after(double leave, std::size_t from, std::size_t q, double factor) const;
  double arc_worth(std::size_t p, std::size_t q, double factor) const;

  struct Opening {
    double from, to;
  };
  struct Fixed {  // of an option, whatever the day
    std::size_t option;
    std::size_t place;
    double setup, pack, worth;
    std::vector<Opening> open;
  };
  std::size_t places_{};
  double part_worth_{};
  std::vector<double> drive_;  // seconds at the limits, place by place; very large: no way
  std::vector<Fixed> fixed_;
  struct Car {
    std::size_t start, end;
    bool has_end;
    double back_by;
  };
  std::vector<Car> cars_;
  // Room for a day, by position in its order.
  std::vector<std::size_t> order_;
  std::vector<double> arc_, start_, opens_;
  std::vector<double> ready_by_, there_by_, gone_, leave_, setup_, worth_;
  std::vector<std::size_t> place_;
  std::vector<char> can_end_;
  std::vector<char> is_met_;
  std::vector<double> best_;
  std::vector<std::size_t> next_;
  std::size_t first_{};
  PathFlow flow_;
  std::size_t nodes_{};
};

}  // namespace outbye
