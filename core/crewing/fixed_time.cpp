#include "core/crewing/fixed_time.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <tuple>

#include "core/base/text.h"

namespace outbye {
namespace {

constexpr double rounding = 1e-6;

double planned(const CrewingTask& task, const Drive& drive) {
  return drive.time.count() * task.settings.drive_allowance;
}

double after_origin(Instant at, const FixedTimes& times) { return (at - times.origin).count(); }

std::string minutes_text(double seconds) { return fixed(seconds / 60.0, 1) + " min"; }

// A car on its way through its day; the rules are numbered as in the header.
class CarWalk {
 public:
  CarWalk(const CrewingTask& task, const FixedTimes& times, CarId car_id)
      : task_(task), times_(times), car_id_(car_id), car_(at(task.cars, car_id)) {
    place_ = car_.start;
    free_ = after_origin(car_.ready_from, times);
    standing_since_ = free_;
    stock_ = car_.water_capacity.value;
  }

  // Each step returns false and says why when a rule is broken.
  bool step(const PlannedStop& planned_stop) {
    out_ = FixedStop{};
    out_.stop = planned_stop;
    switch (planned_stop.kind) {
      case PlannedStop::Kind::meet:
        return meet(planned_stop);
      case PlannedStop::Kind::refill:
        return refill(planned_stop);
      case PlannedStop::Kind::rest:
        return rest();
    }
    return false;
  }
  const FixedStop& stop() const { return out_; }
  const std::string& why_not() const { return why_not_; }

  bool finish() {
    if (!car_.end) return home_by(free_);
    if (!drive_to(*car_.end, "the end")) return false;
    return home_by(free_);
  }

 private:
  bool fail(const std::string& label, const std::string& what) {
    why_not_ = car_.name + " at " + label + ": " + what;
    return false;
  }

  bool home_by(double when) {
    if (!car_.back_by) return true;
    const double late = when - after_origin(*car_.back_by, times_);
    if (late <= rounding) return true;
    return fail("the end", "back " + minutes_text(late) + " after the car must be back");
  }

  // Rules 2, 10, 11. Moves the car; afterwards free_ is its arrival.
  bool drive_to(PlaceId to, const std::string& label) {
    out_.depart = free_;
    if (to == place_) {
      out_.arrive = free_;
      return true;
    }
    const std::optional<Drive>& drive = task_.drives.drive(place_, to);
    if (!drive) return fail(label, "no way by car");
    const double time = planned(task_, *drive);
    if (free_ - standing_since_ >= car_.break_length.count() - rounding) driving_ = 0;
    driving_ += time;
    if (car_.longest_driving.count() > 0 && driving_ > car_.longest_driving.count() + rounding) {
      return fail(label, "driven " + minutes_text(driving_) + " without a break");
    }
    used_ += drive->length.value;
    if (car_.fuel_range.value > 0 && used_ > car_.fuel_range.value + rounding) {
      return fail(label, "out of fuel range by " + fixed((used_ - car_.fuel_range.value) / 1000.0, 1) + " km");
    }
    free_ += time;
    standing_since_ = free_;
    place_ = to;
    out_.arrive = free_;
    return true;
  }

  // Rule 4: the start of the earliest opening that holds `leave` and, if given, the whole from `since`.
  static std::optional<double> opening_of(const std::vector<Interval<Instant>>& open, double leave,
                                          const FixedTimes& times) {
    if (open.empty()) return -1e300;
    std::optional<double> from;
    for (const auto& interval : open) {
      const double begins = after_origin(interval.from, times);
      if (begins <= leave + rounding && leave <= after_origin(interval.to, times) + rounding) {
        from = from ? std::min(*from, begins) : begins;
      }
    }
    return from;
  }

  bool meet(const PlannedStop& planned_stop) {
    const MeetOptionId id = *planned_stop.option;
    const MeetOption& option = at(task_.options, id);
    const double arrival = at(times_.arrival, id);
    const double departure = at(times_.departure, id);
    if (option.demand == MeetOption::Demand::never) return fail(option.label, "is never to be met");
    if (option.only_car && *option.only_car != car_id_) return fail(option.label, "is for another car only");
    if (last_any_ && !comes_before(task_, times_, *last_any_, id)) {
      return fail(option.label, "the horse is gone before the meet before it ends");
    }
    const auto opening = opening_of(option.open, departure + option.pack.count(), times_);
    if (!opening) return fail(option.label, "shut when the car would pack up");
    const bool stays = last_meet_ && at(task_.options, *last_meet_).place == option.place &&
                       *opening <= at(times_.departure, *last_meet_) + rounding;
    double in;
    if (stays) {  // rule 5
      out_.depart = out_.arrive = at(times_.departure, *last_meet_);
      in = out_.ready = out_.arrive;
    } else {
      if (!drive_to(option.place, option.label)) return false;
      in = std::max(free_, *opening);
      out_.ready = in + option.setup.count();
    }
    if (out_.ready <= arrival + rounding) {
      out_.readiness = 1.0;
    } else if (in <= departure + rounding) {
      out_.readiness = task_.settings.part_worth;
    } else {
      return fail(option.label, "too late by " + minutes_text(in - departure));
    }
    if (!option.has_water && car_.water_capacity.value > 0) {  // rule 9
      stock_ -= option.water.value;
      if (stock_ < -rounding) return fail(option.label, "short of water by " + fixed(-stock_, 1) + " litres");
    }
    if (option.has_water) stock_ = car_.water_capacity.value;
    free_ = out_.leave = departure + option.pack.count();
    place_ = option.place;
    last_meet_ = last_any_ = id;
    return true;
  }

  bool refill(const PlannedStop& planned_stop) {
    const RefillPlace& refill = task_.refills[*planned_stop.refill];
    last_meet_.reset();
    if (!drive_to(refill.place, refill.label)) return false;
    std::optional<double> begin;
    if (refill.open.empty()) begin = free_;
    for (const auto& interval : refill.open) {
      const double from = std::max(free_, after_origin(interval.from, times_));
      if (from + refill.duration.count() > after_origin(interval.to, times_) + rounding) continue;
      begin = begin ? std::min(*begin, from) : from;
    }
    if (!begin) return fail(refill.label, "shut by then");
    free_ = out_.ready = out_.leave = *begin + refill.duration.count();
    if (refill.fuel) used_ = 0;
    if (refill.water) stock_ = car_.water_capacity.value;
    return true;
  }

  bool rest() {
    last_meet_.reset();
    out_.depart = out_.arrive = free_;
    free_ = out_.ready = out_.leave = free_ + car_.break_length.count();
    return true;
  }

  const CrewingTask& task_;
  const FixedTimes& times_;
  CarId car_id_;
  const CrewCar& car_;
  PlaceId place_;
  double free_{};
  double standing_since_{};
  double driving_{};
  double used_{};
  double stock_{};
  std::optional<MeetOptionId> last_meet_;  // the stop before was this meet
  std::optional<MeetOptionId> last_any_;   // the meet before, whatever was between
  FixedStop out_;
  std::string why_not_;
};

bool indices_are_good(const CrewingTask& task, const PlannedStop& stop) {
  switch (stop.kind) {
    case PlannedStop::Kind::meet:
      return stop.option && stop.option->value < task.options.size();
    case PlannedStop::Kind::refill:
      return stop.refill && *stop.refill < task.refills.size();
    case PlannedStop::Kind::rest:
      return true;
  }
  return false;
}

FixedValue refused(std::string why) {
  FixedValue value;
  value.why_not = std::move(why);
  return value;
}

}  // namespace

bool comes_before(const CrewingTask& task, const FixedTimes& times, MeetOptionId first, MeetOptionId second) {
  const auto key = [&](MeetOptionId id) {
    const MeetOption& option = at(task.options, id);
    return std::tuple(at(times.departure, id), at(times.arrival, id), option.event, -option.worth, option.horse, id);
  };
  return key(first) < key(second);
}

double gap_cost(const CrewingSettings& settings, Metres gap) {
  return settings.gap_penalty * std::max(0.0, in_kilometres(gap - settings.water_interval));
}

double gap_penalty(const CrewingTask& task, const std::vector<bool>& is_met) {
  double total = 0;
  for (std::size_t h = 0; h < task.horses.size(); ++h) {
    const std::vector<RideEvent>& events = task.horses[h].events;
    std::vector<bool> helps(events.size(), false);
    for (std::size_t o = 0; o < task.options.size(); ++o) {
      if (is_met[o] && task.options[o].horse.value == h) helps[task.options[o].event] = true;
    }
    Metres last{0.0};
    for (std::size_t e = 0; e < events.size(); ++e) {
      const bool ends = e + 1 == events.size();
      if (!helps[e] && !ends && events[e].kind == RideEvent::Kind::pass) continue;
      total += gap_cost(task.settings, events[e].ride_along - last);
      last = events[e].ride_along;
    }
  }
  return total;
}

FixedValue evaluate_fixed(const CrewingTask& task, const FixedTimes& times, const CrewOrders& orders) {
  assert(times.arrival.size() == task.options.size() && times.departure.size() == task.options.size());
  FixedValue value;
  std::vector<bool> is_met(task.options.size(), false);
  std::vector<bool> has_car(task.cars.size(), false);
  for (const CarOrders& day : orders) {
    if (day.car.value >= task.cars.size() || has_car[day.car.value])
      return refused("a car that is not there, or twice");
    has_car[day.car.value] = true;
    std::vector<FixedStop>& stops = value.cars.emplace_back();
    if (day.stops.empty()) continue;
    const std::string& name = at(task.cars, day.car).name;
    if (day.stops.front().kind == PlannedStop::Kind::rest) return refused(name + ": the first stop is a rest");
    CarWalk walk(task, times, day.car);
    for (const PlannedStop& stop : day.stops) {
      if (!indices_are_good(task, stop)) return refused(name + ": a stop that is not there");
      if (!walk.step(stop)) return refused(walk.why_not());
      stops.push_back(walk.stop());
      if (stop.kind != PlannedStop::Kind::meet) continue;
      if (is_met[stop.option->value]) return refused(at(task.options, *stop.option).label + ": met twice");
      is_met[stop.option->value] = true;
      value.additive += at(task.options, *stop.option).worth * walk.stop().readiness;
    }
    if (!walk.finish()) return refused(walk.why_not());
  }
  for (std::size_t o = 0; o < task.options.size(); ++o) {
    if (task.options[o].demand == MeetOption::Demand::must && !is_met[o]) {
      return refused(task.options[o].label + ": must be met and is not");
    }
  }
  value.is_feasible = true;
  value.penalty = gap_penalty(task, is_met);
  value.worth = value.additive - value.penalty;
  return value;
}

}  // namespace outbye
