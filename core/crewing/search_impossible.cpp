#include "core/crewing/search_impossible.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "core/base/text.h"
#include "core/crewing/meet_model.h"
#include "core/crewing/solve_orders.h"

namespace outbye {
namespace {

std::string in_words(double seconds) { return fixed(std::max(1.0, std::ceil(seconds / 60.0 - 1e-9)), 0) + " min"; }

// Can these musts all be met, nothing else being asked?
bool can_serve(const CrewingTask& task, const FixedTimes& times, const std::vector<std::size_t>& musts) {
  CrewingTask only = task;
  only.settings.gap_penalty = 0;
  for (MeetOption& option : only.options) {
    if (option.demand == MeetOption::Demand::must) option.demand = MeetOption::Demand::free;
  }
  for (const std::size_t o : musts) only.options[o].demand = MeetOption::Demand::must;
  const MeetModel model(only, times, meet_times(times));
  const Solved solved = solve_orders(model, Effort{});
  std::size_t met = 0;
  for (const CarOrders& day : solved.orders) {
    for (const PlannedStop& stop : day.stops) {
      if (stop.option && std::find(musts.begin(), musts.end(), stop.option->value) != musts.end()) ++met;
    }
  }
  return met == musts.size();
}

// Shut, so that no interval holds the car from the horse's leaving at the latest to wheels turning.
std::string shut(const FixedTimes& times, const MeetOption& option, std::size_t o) {
  const double leave = times.departure[o] + option.pack.count();
  double opens_late = 1e300, shuts_early = 1e300;
  for (const auto& interval : option.open) {
    const double from = (interval.from - times.origin).count();
    const double to = (interval.to - times.origin).count();
    if (from <= times.departure[o] && leave <= to) return {};
    if (from > times.departure[o]) opens_late = std::min(opens_late, from - times.departure[o]);
    if (to < leave) shuts_early = std::min(shuts_early, leave - to);
  }
  if (option.open.empty()) return {};
  if (shuts_early <= opens_late) {
    return "shuts " + in_words(shuts_early) + " before the car could be packed and gone; relax its opening hours";
  }
  return "opens " + in_words(opens_late) + " after the horse has left; relax its opening hours";
}

// The car that comes nearest to being in time, straight from its start or after a meet that no must forbids.
std::string too_late(const CrewingTask& task, const FixedTimes& times, const MeetOption& option, std::size_t o) {
  double least = 1e300;
  std::string nearest;
  bool is_way = false;
  for (std::size_t c = 0; c < task.cars.size(); ++c) {
    const CrewCar& car = task.cars[c];
    if (option.only_car && option.only_car->value != c) continue;
    const auto& drive = task.drives.drive(car.start, option.place);
    if (!drive && car.start != option.place) continue;
    is_way = true;
    const double time = car.start == option.place ? 0.0 : drive->time.count() * task.settings.drive_allowance;
    const double late = (car.ready_from - times.origin).count() + time - times.departure[o];
    if (late < least) least = late, nearest = car.name;
  }
  if (!is_way) return "no car has a way there by road; move the crew point, or give a drive time to it";
  if (least <= 1e-6) return {};
  return nearest + ", the nearest car, is too late by " + in_words(least) +
         " even straight from its start; let it be ready " + in_words(least) + " earlier or start nearer";
}

// The limit of the cars without which the musts could be served.
std::string limit_in_the_way(const CrewingTask& task, const FixedTimes& times, const std::vector<std::size_t>& musts) {
  struct Relaxation {
    const char* what;
    void (*apply)(CrewingTask&);
  };
  static constexpr Relaxation relaxations[] = {
      {"the driver's break (longest_driving)",
       [](CrewingTask& t) {
         for (CrewCar& car : t.cars) car.longest_driving = Seconds{0};
       }},
      {"the fuel range (or add a pump)",
       [](CrewingTask& t) {
         for (CrewCar& car : t.cars) car.fuel_range = Metres{0};
       }},
      {"the water a car carries (or add a tap)",
       [](CrewingTask& t) {
         for (CrewCar& car : t.cars) car.water_capacity = Litres{0};
       }},
      {"the time a car must be back by",
       [](CrewingTask& t) {
         for (CrewCar& car : t.cars) car.back_by.reset();
       }},
      {"the place where a car must end",
       [](CrewingTask& t) {
         for (CrewCar& car : t.cars) car.end.reset(), car.back_by.reset();
       }},
      {"the opening hours",
       [](CrewingTask& t) {
         for (MeetOption& option : t.options) option.open.clear();
       }},
      {"the wish for one car only",
       [](CrewingTask& t) {
         for (MeetOption& option : t.options) option.only_car.reset();
       }},
  };
  for (const Relaxation& relaxation : relaxations) {
    CrewingTask relaxed = task;
    relaxation.apply(relaxed);
    if (can_serve(relaxed, times, musts)) return relaxation.what;
  }
  return {};
}

}  // namespace

Problem why_impossible(const CrewingTask& task, const FixedTimes& times, bool is_proven) {
  const auto said = [](std::string where, std::string what) {
    return Problem{Problem::Kind::impossible, std::move(where), std::move(what)};
  };
  std::vector<std::size_t> musts;
  for (std::size_t o = 0; o < task.options.size(); ++o) {
    if (task.options[o].demand == MeetOption::Demand::must) musts.push_back(o);
  }
  for (const std::size_t o : musts) {
    const MeetOption& option = task.options[o];
    if (task.cars.empty()) return said(option.label, "must be met, and there is no car; add one");
    if (const std::string why = shut(times, option, o); !why.empty())
      return said(option.label, "must be met, but " + why);
    if (can_serve(task, times, {o})) continue;
    if (const std::string why = limit_in_the_way(task, times, {o}); !why.empty()) {
      return said(option.label, "must be met, but no car can; it could if you relax " + why);
    }
    if (const std::string why = too_late(task, times, option, o); !why.empty()) {
      return said(option.label, "must be met, but " + why + ", or do not ask for it");
    }
    return said(option.label,
                "must be met, but no car can get there in time; do not ask for it, or start a car nearer");
  }
  // Leave out one must after another as long as the rest still fails: what remains fails together, and each is needed.
  std::vector<std::size_t> failing = musts;
  for (std::size_t i = 0; i < failing.size();) {
    std::vector<std::size_t> fewer;
    for (std::size_t k = 0; k < failing.size(); ++k) {
      if (k != i) fewer.push_back(failing[k]);
    }
    if (can_serve(task, times, fewer)) {
      ++i;
    } else {
      failing = fewer;
    }
  }
  std::string names;
  for (std::size_t i = 0; i < failing.size(); ++i) {
    if (i > 0) names += i + 1 == failing.size() ? " and " : ", ";
    names += task.options[failing[i]].label;
  }
  const std::string limit = limit_in_the_way(task, times, failing);
  const std::string cars = std::to_string(task.cars.size()) + (task.cars.size() == 1 ? " car" : " cars");
  std::string what =
      "must all be met, but " + cars + (is_proven ? " cannot be in time for all" : " were not found able to");
  what += "; do not ask for one of them, add a car";
  if (!limit.empty()) what += ", or relax " + limit;
  return said(names, what);
}

}  // namespace outbye
