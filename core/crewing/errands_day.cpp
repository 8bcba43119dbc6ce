#include "core/crewing/errands_day.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace outbye::errand_day {
namespace {

constexpr double rounding = 1e-6;

// An opening without end may be written as a very late instant: cut off where whole numbers still hold it.
constexpr double far = 1e12;
Ticks whole_up(Seconds s) { return static_cast<Ticks>(std::ceil(std::clamp(s.count(), -far, far) - rounding)); }
Ticks whole_down(Seconds s) { return static_cast<Ticks>(std::floor(std::clamp(s.count(), -far, far) + rounding)); }

// When the car must be at a stop: as planned, or as late as leaves the margin, whichever is later.
Ticks latest_arrival(const CrewingTask& task, const TimedStop& stop, Instant origin, const ErrandSettings& settings) {
  Instant latest = stop.arrive;
  if (stop.stop.kind == PlannedStop::Kind::meet) {
    const Seconds setup = at(task.options, *stop.stop.option).setup;
    const Instant horse = settings.counts_early_horse ? stop.due.p10 : stop.due.p50;
    latest = std::max({latest, stop.ready - setup, horse - settings.margin - setup});
  } else if (stop.stop.kind == PlannedStop::Kind::refill) {
    latest = std::max(latest, stop.ready - task.refills[*stop.stop.refill].duration);
  }
  return whole_down(latest - origin);
}

Choice without_errands(const Day& day) {
  Choice choice;
  for (std::size_t k = 0; k < day.points.size(); ++k) {
    choice.order.push_back(k);
    choice.starts.push_back(day.points[k].latest);
  }
  return choice;
}

Result<Choice> solve(const CrewingTask& task, const Day& day, const std::vector<Errand>& errands,
                     const std::vector<bool>& offered, const ErrandSettings& settings) {
  const std::size_t stops = day.points.size();
  std::vector<std::size_t> items;  // as in Choice::order
  for (std::size_t k = 0; k < stops; ++k) items.push_back(k);
  for (std::size_t e = 0; e < errands.size(); ++e) {
    if (offered[e]) items.push_back(stops + e);
  }
  OrienteeringProblem problem;
  problem.back_by = day.back_by;
  const std::size_t n = items.size() + 2;
  problem.start = n - 2;
  problem.end = n - 1;
  problem.nodes.resize(n);
  problem.travel.assign(n * n, OrienteeringProblem::no_way);
  const auto place_of = [&](std::size_t i) {
    if (i == problem.start) return day.car->start;
    return items[i] < stops ? day.points[items[i]].place : errands[items[i] - stops].place;
  };
  for (std::size_t i = 0; i < items.size(); ++i) {
    OrienteeringNode& node = problem.nodes[i];
    if (i < stops) {  // the car may come earlier and stand by
      const FixedPoint& point = day.points[i];
      node = {{{point.latest, point.latest}}, point.leave - point.latest, 0, true};
    } else {
      const Errand& errand = errands[items[i] - stops];
      node = {start_windows(errand, day.origin, {0, day.back_by}), whole_duration(errand), in_millionths(errand.worth),
              false};
    }
  }
  for (std::size_t i = 0; i + 1 < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) {
      if (i == j || j == problem.start) continue;
      Ticks& way = problem.travel[i * n + j];
      const bool is_point = i < stops || i == problem.start;
      const std::size_t next = i == problem.start ? 0 : i + 1;  // only meant for points
      if (j == problem.end) {
        if (stops > 0 && is_point && i + 1 != stops) continue;
        if (!day.goes_on_after_last && !is_point) continue;
        way = day.end ? planned_drive(task, place_of(i), *day.end) : 0;
        // The plan as it stands is taken to be possible.
        if (is_point) way = std::min(way < 0 ? day.back_by : way, day.back_by - (stops > 0 ? day.points[i].leave : 0));
      } else if (j < stops && is_point) {
        if (j != next) continue;
        const Ticks free = i == problem.start ? 0 : day.points[i].leave;
        way = planned_drive(task, place_of(i), place_of(j));
        way = std::min(way < 0 ? day.points[j].latest : way, day.points[j].latest - free);
      } else {
        way = planned_drive(task, place_of(i), place_of(j));
      }
    }
  }
  const auto answer = solve_orienteering(problem, settings.limits);
  if (!answer && answer.error().kind == Problem::Kind::impossible) {
    // The plan alone is a route, so this is the effort limit: no errands, and nothing known of what could be.
    Choice none = without_errands(day);
    for (const OrienteeringNode& node : problem.nodes) none.bound += node.score;
    return none;
  }
  if (!answer) return tl::unexpected(answer.error());
  Choice choice;
  for (std::size_t k = 1; k + 1 < answer->route.size(); ++k) {
    choice.order.push_back(items[answer->route[k]]);
    choice.starts.push_back(answer->service_start[k]);
  }
  choice.score = answer->score;
  choice.bound = answer->upper_bound;
  return choice;
}

}  // namespace

Ticks planned_drive(const CrewingTask& task, PlaceId from, PlaceId to) {
  const auto& drive = task.drives.drive(from, to);
  if (!drive) return OrienteeringProblem::no_way;
  return whole_up(task.settings.drive_allowance * drive->time);
}

std::int64_t in_millionths(double worth) { return static_cast<std::int64_t>(std::llround(1e6 * worth)); }

Ticks whole_duration(const Errand& errand) { return whole_up(errand.duration); }

std::vector<Interval<Ticks>> start_windows(const Errand& errand, Instant origin, Interval<Ticks> always) {
  if (errand.open.empty()) return {always};
  std::vector<Interval<Ticks>> windows;
  for (const auto& open : errand.open) {
    const Interval<Ticks> window{whole_up(open.from - origin), whole_down(open.to - origin) - whole_duration(errand)};
    if (!window.is_empty()) windows.push_back(window);
  }
  return windows;
}

Day day_of(const CrewingTask& task, const CarDay& car_day, const ErrandSettings& settings) {
  Day day;
  day.car = &at(task.cars, car_day.car);
  day.origin = Instant{Seconds{std::ceil(day.car->ready_from.time_since_epoch().count() - rounding)}};
  day.end = day.car->end;
  Ticks free = 0;
  PlaceId place = day.car->start;
  for (const TimedStop& stop : car_day.stops) {
    FixedPoint point;
    point.place = place = stop.place;
    // Medians are rounded one by one: where they contradict each other the later one counts.
    point.latest = std::max(latest_arrival(task, stop, day.origin, settings), free);
    point.leave = std::max(whole_up(stop.leave - day.origin), point.latest);
    point.is_fuel = stop.stop.kind == PlannedStop::Kind::refill && task.refills[*stop.stop.refill].fuel;
    free = point.leave;
    day.points.push_back(point);
  }
  day.goes_on_after_last = day.car->back_by.has_value();
  day.is_usable = !day.points.empty() || day.goes_on_after_last;
  day.back_by = free;
  if (day.goes_on_after_last) {
    const Ticks home = day.end ? std::max<Ticks>(planned_drive(task, place, *day.end), 0) : 0;
    day.back_by = std::max(whole_down(*day.car->back_by - day.origin), free + home);
  } else {
    day.end.reset();
  }
  return day;
}

std::vector<Gap> gaps(const Day& day) {
  std::vector<Gap> out;
  Gap gap{std::nullopt, day.car->start, 0, std::nullopt, 0};
  for (std::size_t k = 0; k < day.points.size(); ++k) {
    gap.to = day.points[k].place;
    gap.ends = day.points[k].latest;
    out.push_back(gap);
    gap = {k, day.points[k].place, day.points[k].leave, std::nullopt, 0};
  }
  if (day.goes_on_after_last) {
    gap.to = day.end;
    gap.ends = day.back_by;
    out.push_back(gap);
  }
  return out;
}

bool alone_keeps_range(const CrewingTask& task, const Day& day, const std::vector<Errand>& errands, std::size_t errand,
                       const Gap& gap, Ticks start) {
  Choice choice = without_errands(day);
  if (!keeps_range(task, day, errands, choice)) return true;  // not the errand's fault
  const auto place = static_cast<std::ptrdiff_t>(gap.after ? *gap.after + 1 : 0);
  choice.order.insert(choice.order.begin() + place, day.points.size() + errand);
  choice.starts.insert(choice.starts.begin() + place, start);
  return keeps_range(task, day, errands, choice);
}

Result<Choice> choose(const CrewingTask& task, const Day& day, const std::vector<Errand>& errands,
                      const std::vector<bool>& offered, const ErrandSettings& settings) {
  auto first = solve(task, day, errands, offered, settings);
  if (!first) return first;
  // A plan that breaks the rules by itself is not held against the errands.
  if (!keeps_range(task, day, errands, without_errands(day))) return first;
  const std::int64_t bound = first->bound;
  const std::size_t stops = day.points.size();
  std::vector<bool> left = offered;
  Choice now = *first;
  while (!keeps_range(task, day, errands, now)) {
    // The best of what one errand less makes possible; failing that, without the one worth least.
    std::optional<Choice> best;
    std::optional<std::size_t> least;
    for (const std::size_t item : now.order) {
      if (item < stops) continue;
      const std::size_t e = item - stops;
      if (!least || errands[e].worth < errands[*least].worth) least = e;
      left[e] = false;
      const auto other = solve(task, day, errands, left, settings);
      left[e] = true;
      if (!other) return other;
      if (keeps_range(task, day, errands, *other) && (!best || other->score > best->score)) best = *other;
    }
    if (best) {
      now = *best;
      break;
    }
    left[*least] = false;
    const auto other = solve(task, day, errands, left, settings);
    if (!other) return other;
    now = *other;
  }
  now.bound = bound;
  return now;
}

CarErrands timed(const CrewingTask& task, CarId car, const Day& day, const std::vector<Errand>& errands,
                 const Choice& choice) {
  CarErrands out;
  out.car = car;
  const std::size_t stops = day.points.size();
  const auto instant = [&](Ticks t) { return day.origin + Seconds{static_cast<double>(t)}; };
  std::optional<std::size_t> last_stop;
  bool is_after_errand = false;
  PlaceId place = day.car->start;
  Ticks free = 0;
  for (std::size_t k = 0; k < choice.order.size(); ++k) {
    const std::size_t item = choice.order[k];
    if (item < stops) {
      const FixedPoint& point = day.points[item];
      if (is_after_errand) {
        const Ticks arrive = free + planned_drive(task, place, point.place);
        out.later.push_back({item, instant(free), instant(arrive), instant(point.latest)});
      }
      is_after_errand = false;
      last_stop = item;
      place = point.place;
      free = point.leave;
      continue;
    }
    const Errand& errand = errands[item - stops];
    ErrandStop stop;
    stop.errand = item - stops;
    stop.after_stop = last_stop;
    stop.drive = *task.drives.drive(place, errand.place);
    stop.depart = instant(free);
    stop.arrive = instant(free + planned_drive(task, place, errand.place));
    stop.start = instant(choice.starts[k]);
    free = choice.starts[k] + whole_duration(errand);
    stop.leave = instant(free);
    out.stops.push_back(stop);
    out.worth += errand.worth;
    place = errand.place;
    is_after_errand = true;
  }
  // From the back: how late may each errand start so that what follows is still in time?
  Ticks latest = day.back_by;
  std::optional<PlaceId> next = day.end;
  std::size_t e = out.stops.size();
  for (std::size_t k = choice.order.size(); k-- > 0;) {
    const std::size_t item = choice.order[k];
    if (item < stops) {
      latest = day.points[item].latest;
      next = day.points[item].place;
      continue;
    }
    const Errand& errand = errands[item - stops];
    const Ticks onward = next ? planned_drive(task, errand.place, *next) : 0;
    const Ticks in_time = latest - onward - whole_duration(errand);
    latest = choice.starts[k];
    for (const auto& w : start_windows(errand, day.origin, {0, day.back_by})) {
      if (w.from <= in_time) latest = std::max(latest, std::min(w.to, in_time));
    }
    out.stops[--e].latest_start = instant(latest);
    next = errand.place;
  }
  return out;
}

}  // namespace outbye::errand_day
