#include <algorithm>
#include <optional>

#include "core/crewing/errands_day.h"

namespace outbye::errand_day {
namespace {

constexpr double rounding = 1e-6;

struct Drawn {
  std::vector<Ticks> starts;
  Ticks driving{};
};

// The times of an order of stops and errands, or nothing if it makes a stop late or finds a place shut.
std::optional<Drawn> drawn(const CrewingTask& task, const Day& day, const std::vector<Errand>& errands,
                           const std::vector<std::size_t>& order) {
  const std::size_t stops = day.points.size();
  Drawn out;
  PlaceId place = day.car->start;
  Ticks free = 0;
  bool is_from_stop = true;
  for (const std::size_t item : order) {
    const PlaceId to = item < stops ? day.points[item].place : errands[item - stops].place;
    const Ticks way = planned_drive(task, place, to);
    if (way < 0 && !(is_from_stop && item < stops)) return std::nullopt;
    out.driving += std::max<Ticks>(way, 0);
    const Ticks arrive = free + way;
    place = to;
    if (item < stops) {
      // From stop to stop the plan is followed as it is.
      if (!is_from_stop && arrive > day.points[item].latest) return std::nullopt;
      out.starts.push_back(day.points[item].latest);
      free = day.points[item].leave;
    } else {
      std::optional<Ticks> start;
      for (const auto& w : start_windows(errands[item - stops], day.origin, {0, day.back_by})) {
        if (arrive <= w.to) start = std::min(start.value_or(w.to), std::max(arrive, w.from));
      }
      if (!start) return std::nullopt;
      out.starts.push_back(*start);
      free = *start + whole_duration(errands[item - stops]);
    }
    is_from_stop = item < stops;
  }
  if (day.end) {
    const Ticks way = planned_drive(task, place, *day.end);
    if (!is_from_stop && (way < 0 || free + way > day.back_by)) return std::nullopt;
    out.driving += std::max<Ticks>(way, 0);
  } else if (!is_from_stop && (free > day.back_by || !day.goes_on_after_last)) {
    return std::nullopt;
  }
  return out;
}

}  // namespace

// Does the day keep within fuel range and driving time? The rules are 10 and 11 of fixed_time.h.
bool keeps_range(const CrewingTask& task, const Day& day, const std::vector<Errand>& errands, const Choice& choice) {
  const CrewCar& car = *day.car;
  PlaceId place = car.start;
  double free = 0;
  double standing_since = 0;
  double driving = 0;
  double used = 0;
  const auto drive_to = [&](PlaceId to) {
    const auto& drive = task.drives.drive(place, to);
    if (to == place || !drive) return true;
    const double time = drive->time.count() * task.settings.drive_allowance;
    if (free - standing_since >= car.break_length.count() - rounding) driving = 0;
    driving += time;
    used += drive->length.value;
    standing_since = free + time;
    place = to;
    return (car.longest_driving.count() <= 0 || driving <= car.longest_driving.count() + rounding) &&
           (car.fuel_range.value <= 0 || used <= car.fuel_range.value + rounding);
  };
  const std::size_t stops = day.points.size();
  for (std::size_t k = 0; k < choice.order.size(); ++k) {
    const std::size_t item = choice.order[k];
    if (!drive_to(item < stops ? day.points[item].place : errands[item - stops].place)) return false;
    if (item < stops) {
      free = static_cast<double>(day.points[item].leave);
      if (day.points[item].is_fuel) used = 0;
    } else {
      free = static_cast<double>(choice.starts[k] + whole_duration(errands[item - stops]));
    }
  }
  return !day.end || drive_to(*day.end);
}

Choice with_less_driving(const CrewingTask& task, const Day& day, const std::vector<Errand>& errands, Choice choice) {
  const std::size_t stops = day.points.size();
  const auto first = drawn(task, day, errands, choice.order);
  if (!first) return choice;
  Ticks driving = first->driving;
  const bool must_keep = keeps_range(task, day, errands, choice);
  const auto is_better = [&](const std::vector<std::size_t>& order, Choice& best, Ticks& least) {
    auto other = drawn(task, day, errands, order);
    if (!other || other->driving >= least) return;
    Choice candidate = choice;
    candidate.order = order;
    candidate.starts = std::move(other->starts);
    if (must_keep && !keeps_range(task, day, errands, candidate)) return;
    least = other->driving;
    best = std::move(candidate);
  };
  while (true) {
    Choice best = choice;
    Ticks least = driving;
    for (std::size_t a = 0; a < choice.order.size(); ++a) {
      if (choice.order[a] < stops) continue;
      std::vector<std::size_t> rest = choice.order;
      rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(a));
      for (std::size_t b = 0; b <= rest.size(); ++b) {
        std::vector<std::size_t> order = rest;
        order.insert(order.begin() + static_cast<std::ptrdiff_t>(b), choice.order[a]);
        is_better(order, best, least);
      }
      for (std::size_t b = a + 1; b < choice.order.size(); ++b) {
        if (choice.order[b] < stops) continue;
        std::vector<std::size_t> order = choice.order;
        std::swap(order[a], order[b]);
        is_better(order, best, least);
      }
    }
    if (least >= driving) return choice;
    choice = std::move(best);
    driving = least;
  }
}

}  // namespace outbye::errand_day
