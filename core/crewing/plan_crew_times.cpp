#include "core/crewing/plan_crew_times.h"

#include <algorithm>
#include <cmath>

#include "core/base/quantile.h"

namespace outbye {
namespace {

using Kind = PlannedStop::Kind;

Instant whole_seconds(Instant at) { return Instant{Seconds{std::round(at.time_since_epoch().count())}}; }

// What the policy says about one car's stops, in the order of its orders.
std::vector<const PolicyStop*> stops_of(const Policy& policy, CarId car) {
  std::vector<const PolicyStop*> stops;
  for (auto s = policy.first_stop[car.value]; s; s = policy.stops[*s].next) stops.push_back(&policy.stops[*s]);
  return stops;
}

class CarTimetable {
 public:
  CarTimetable(const ValuationDays& days, const CarOrders& orders, const FixedTimes& times,
               const std::vector<Window>& due, const std::vector<FixedStop>& fixed, const std::vector<StopOdds>& odds,
               const Policy& policy)
      : days_(days),
        task_(days.task()),
        car_(at(task_.cars, orders.car)),
        times_(times),
        due_(due),
        fixed_(fixed),
        odds_(odds),
        policy_(policy),
        own_(stops_of(policy, orders.car)) {
    day_.car = orders.car;
    for (const PlannedStop& stop : orders.stops) add(stop);
    set_departures();
    for (std::size_t i = 0; i < day_.stops.size(); ++i) set_onward(i);
    set_way_home();
  }
  CarDay day() && { return std::move(day_); }

 private:
  Instant instant(double seconds) const { return times_.origin + Seconds{seconds}; }
  const MeetOption& option_of(const TimedStop& t) const { return at(task_.options, *t.stop.option); }

  void add(const PlannedStop& stop) {
    const std::size_t i = day_.stops.size();
    TimedStop t;
    t.stop = stop;
    const PlaceId from = i == 0 ? car_.start : day_.stops[i - 1].place;
    t.place = stop.kind == Kind::meet     ? at(task_.options, *stop.option).place
              : stop.kind == Kind::refill ? task_.refills[*stop.refill].place
                                          : from;
    if (t.place != from) t.drive = *task_.drives.drive(from, t.place);
    t.drive_planned = task_.settings.drive_allowance * t.drive.time;
    t.depart = instant(fixed_[i].depart);
    t.arrive = instant(fixed_[i].arrive);
    t.ready = instant(fixed_[i].ready);
    t.leave = instant(fixed_[i].leave);
    if (stop.kind == Kind::meet) {
      t.due = at(due_, *stop.option);
      t.chance_ready = odds_[i].ready;
      t.chance_there = odds_[i].there;
    }
    day_.stops.push_back(t);
  }

  // Lateness at departure from stop i that makes the next meet with the wanted confidence, as an instant of the
  // median day.
  std::optional<Instant> wanted_departure(std::size_t i) const {
    const PolicyStop& p = *own_[i];
    if (p.wanted == never) return std::nullopt;
    const auto wanted = Seconds{static_cast<double>(p.wanted)};
    if (!p.is_relative) return days_.epoch() + wanted;
    for (std::size_t k = i + 1; k-- > 0;) {
      if (day_.stops[k].stop.kind == Kind::meet)
        return instant(at(times_.arrival, *day_.stops[k].stop.option)) + wanted;
    }
    return std::nullopt;
  }

  // A car that would stand ready for more than `longest_wait` drives off later, but never later than its leave-by.
  void set_departures() {
    for (std::size_t i = 0; i < day_.stops.size(); ++i) {
      TimedStop& t = day_.stops[i];
      if (t.stop.kind != Kind::meet || own_[i]->stays) continue;
      const MeetOption& option = option_of(t);
      Instant latest =
          instant(at(times_.arrival, *t.stop.option)) - task_.settings.longest_wait - option.setup - t.drive_planned;
      std::optional<Instant> cap;
      if (i > 0) {
        cap = wanted_departure(i - 1);
      } else {
        cap = days_.epoch() + Seconds{static_cast<double>(policy_.start[day_.car.value])};
      }
      if (cap) latest = std::min(latest, *cap - Seconds{i > 0 ? 1.0 : 0.0});
      if (latest <= t.depart) continue;
      Seconds later = latest - t.depart;
      // A break taken while standing there must stay one.
      const Seconds standing = t.leave - t.arrive;
      if (car_.longest_driving.count() > 0 && standing >= car_.break_length)
        later = std::min(later, standing - car_.break_length);
      if (later.count() <= 0) continue;
      t.depart += later;
      t.arrive += later;
      t.ready = std::max(t.ready, t.arrive + option.setup);
    }
    for (TimedStop& t : day_.stops) {
      t.depart = whole_seconds(t.depart);
      t.arrive = whole_seconds(t.arrive);
      t.ready = whole_seconds(t.ready);
      t.leave = whole_seconds(t.leave);
      if (t.stop.kind != Kind::meet) continue;
      t.due = {whole_seconds(t.due.p10), whole_seconds(t.due.p50), whole_seconds(t.due.p90)};
      t.slack = t.due.p50 - t.ready;
    }
  }

  void set_onward(std::size_t i) {
    TimedStop& t = day_.stops[i];
    std::size_t next = i + 1;
    while (next < day_.stops.size() && day_.stops[next].stop.kind != Kind::meet) ++next;
    if (next == day_.stops.size()) return;
    t.next_meet = day_.stops[next].stop.option;
    // Stops between cost their drives and durations.
    std::optional<Instant> by = wanted_departure(next - 1);
    for (std::size_t k = next - 1; by && k > i; --k) {
      *by -= Seconds{static_cast<double>(own_[k]->duration)} + day_.stops[k].drive_planned;
    }
    if (by) t.leave_by = whole_seconds(*by);
    for (std::optional<std::size_t> f = own_[i]->fallback; f; f = policy_.stops[*f].next) {
      if (policy_.stops[*f].stop.kind != Kind::meet) continue;
      t.fallback = policy_.stops[*f].stop.option;
      break;
    }
  }

  void set_way_home() {
    for (const TimedStop& t : day_.stops) {
      day_.driven += t.drive.length;
      day_.driving += t.drive_planned;
    }
    if (day_.stops.empty() || !car_.end) return;
    const TimedStop& last = day_.stops.back();
    if (last.place != *car_.end) {
      day_.home = task_.drives.drive(last.place, *car_.end);
    } else {
      day_.home = Drive{};
    }
    const Seconds planned = task_.settings.drive_allowance * day_.home->time;
    day_.driven += day_.home->length;
    day_.driving += planned;
    day_.back = whole_seconds(last.leave + planned);
  }

  const ValuationDays& days_;
  const CrewingTask& task_;
  const CrewCar& car_;
  const FixedTimes& times_;
  const std::vector<Window>& due_;
  const std::vector<FixedStop>& fixed_;
  const std::vector<StopOdds>& odds_;
  const Policy& policy_;
  std::vector<const PolicyStop*> own_;
  CarDay day_;
};

}  // namespace

std::vector<bool> met_options(const CrewingTask& task, const CrewOrders& orders) {
  std::vector<bool> is_met(task.options.size(), false);
  for (const CarOrders& day : orders) {
    for (const PlannedStop& stop : day.stops) {
      if (stop.kind == Kind::meet && stop.option && stop.option->value < is_met.size())
        is_met[stop.option->value] = true;
    }
  }
  return is_met;
}

FixedTimes typical_times(const ValuationDays& days, const std::vector<bool>& is_met) {
  const CrewingTask& task = days.task();
  FixedTimes times;
  times.origin = days.epoch();
  times.arrival.resize(task.options.size());
  times.departure.resize(task.options.size());
  std::vector<std::vector<double>> held;  // [horse][event]: stood before it
  for (const HorseDays& horse : task.horses) held.emplace_back(horse.events.size() + 1, 0.0);
  for (std::size_t o = 0; o < task.options.size(); ++o) {
    const MeetOption& option = task.options[o];
    const bool is_pass = at(task.horses, option.horse).events[option.event].kind == RideEvent::Kind::pass;
    if (is_met[o] && is_pass)
      held[option.horse.value][option.event + 1] =
          static_cast<double>(days.typical().horses[option.horse.value].stand[option.event]);
  }
  for (std::vector<double>& horse : held) {
    for (std::size_t e = 1; e < horse.size(); ++e) horse[e] += horse[e - 1];
  }
  for (std::size_t o = 0; o < task.options.size(); ++o) {
    const MeetOption& option = task.options[o];
    const DaySet::Horse& horse = days.typical().horses[option.horse.value];
    times.arrival[o] = static_cast<double>(horse.base[option.event]) + held[option.horse.value][option.event];
    times.departure[o] = times.arrival[o] + static_cast<double>(horse.stand[option.event]);
  }
  return times;
}

Passings passings(const CrewingTask& task, const std::vector<bool>& is_met) {
  Passings result;
  result.median.origin = task.horses.front().origin;
  result.median.arrival.resize(task.options.size());
  result.median.departure.resize(task.options.size());
  result.due.resize(task.options.size());
  std::vector<double> column;
  for (std::size_t h = 0; h < task.horses.size(); ++h) {
    const HorseDays& horse = task.horses[h];
    std::vector<bool> stops(horse.events.size(), false);
    for (std::size_t o = 0; o < task.options.size(); ++o) {
      if (is_met[o] && task.options[o].horse.value == h) stops[task.options[o].event] = true;
    }
    const std::vector<double> arrival = arrivals(horse, stops);
    const double shift = (horse.origin - result.median.origin).count();
    for (std::size_t o = 0; o < task.options.size(); ++o) {
      if (task.options[o].horse.value != h) continue;
      const std::size_t from = task.options[o].event * horse.days;
      const auto begin = arrival.begin() + static_cast<std::ptrdiff_t>(from);
      column.assign(begin, begin + static_cast<std::ptrdiff_t>(horse.days));
      result.median.arrival[o] = quantile(column, 0.5) + shift;
      if (is_met[o]) {
        result.due[o] = {horse.origin + Seconds{quantile(column, 0.1)},
                         result.median.origin + Seconds{result.median.arrival[o]},
                         horse.origin + Seconds{quantile(column, 0.9)}};
      }
      column.assign(begin, begin + static_cast<std::ptrdiff_t>(horse.days));
      for (std::size_t d = 0; d < horse.days; ++d) column[d] += horse.stand[from + d];
      result.median.departure[o] = quantile(column, 0.5) + shift;
    }
  }
  return result;
}

std::vector<CarDay> timetable(const ValuationDays& days, const CrewOrders& orders, const Passings& passings,
                              const FixedValue& fixed, const Valuation& value) {
  std::vector<CarDay> result;
  for (std::size_t k = 0; k < orders.size(); ++k) {
    result.push_back(
        CarTimetable(days, orders[k], passings.median, passings.due, fixed.cars[k], value.odds[k], value.policy).day());
  }
  return result;
}

}  // namespace outbye
