#include "engine/tasks.h"

#include <algorithm>

#include "core/base/text.h"

namespace outbye {
namespace {

std::string horse_name(const Ride& ride, HorseId horse) { return at(ride.horses, horse).name; }

// How many of a wish's conditions are set: the more specific of two wins, the later of equals.
int specificity(const PassWish& wish) { return (wish.loop ? 1 : 0) + (wish.nth ? 1 : 0) + (wish.horse ? 1 : 0); }

bool fits(const PassWish& wish, const Ride& ride, const Course& course, const RideEvent& event, HorseId horse) {
  if (!same_name(wish.crew_point, event_place(ride, course, event))) return false;
  if (wish.loop && *wish.loop != event.loop.value + 1) return false;
  if (wish.nth && (!event.pass || *wish.nth != at(course.passes, *event.pass).nth_in_loop)) return false;
  return !wish.horse || same_name(*wish.horse, horse_name(ride, horse));
}

// All wishes about one event, the more specific over the less.
PassWish merged_wish(const Ride& ride, const Course& course, const RideEvent& event, HorseId horse) {
  std::vector<const PassWish*> matching;
  for (const auto& wish : ride.wishes) {
    if (fits(wish, ride, course, event, horse)) matching.push_back(&wish);
  }
  std::stable_sort(matching.begin(), matching.end(),
                   [](const PassWish* a, const PassWish* b) { return specificity(*a) < specificity(*b); });
  PassWish merged;
  for (const auto* wish : matching) {
    if (wish->demand) merged.demand = wish->demand;
    if (wish->worth) merged.worth = wish->worth;
    if (wish->stop) merged.stop = wish->stop;
    if (wish->water) merged.water = wish->water;
    if (wish->car) merged.car = wish->car;
  }
  return merged;
}

Result<void> check_wishes(const Ride& ride, const Course& course) {
  const auto events = ride_events(course);
  for (std::size_t i = 0; i < ride.wishes.size(); ++i) {
    const PassWish& wish = ride.wishes[i];
    bool used = false;
    for (std::uint32_t h = 0; h < ride.horses.size(); ++h) {
      used = used || std::any_of(events.begin(), events.end(),
                                 [&](const RideEvent& e) { return fits(wish, ride, course, e, HorseId{h}); });
    }
    if (used) continue;
    std::string what = "is about '" + wish.crew_point + "'";
    if (wish.loop) what += " in loop " + std::to_string(*wish.loop);
    if (wish.horse) what += " of horse '" + *wish.horse + "'";
    std::vector<std::string_view> known{ride.venue};
    for (const auto& point : course.crew_points) known.push_back(point.name);
    const auto nearest = nearest_name(wish.crew_point, known);
    const bool is_known = nearest && same_name(*nearest, wish.crew_point);
    return not_found("wish " + std::to_string(i + 1),
                     what + ", which no horse passes" +
                         (nearest && !is_known ? "; did you mean '" + std::string(*nearest) + "'?"
                                               : "; correct the name, loop or horse, or take the wish out"));
  }
  return {};
}

std::string option_label(const Ride& ride, const Course& course, const RideEvent& event, HorseId horse) {
  std::string label;
  const std::string loop = "loop " + std::to_string(event.loop.value + 1);
  switch (event.kind) {
    case RideEvent::Kind::pass: {
      const Pass& pass = at(course.passes, *event.pass);
      label = at(course.crew_points, pass.crew_point).name + " " + loop;
      const bool is_repeated = std::any_of(course.passes.begin(), course.passes.end(), [&pass](const Pass& other) {
        return other.loop == pass.loop && other.crew_point == pass.crew_point && other.nth_in_loop != pass.nth_in_loop;
      });
      if (is_repeated) label += " pass " + std::to_string(pass.nth_in_loop);
      break;
    }
    case RideEvent::Kind::gate:
      label = "gate " + loop;
      break;
    case RideEvent::Kind::finish:
      label = "finish";
      break;
  }
  return ride.horses.size() > 1 ? horse_name(ride, horse) + " " + label : label;
}

Result<std::optional<CarId>> car_named(const Ride& ride, const std::optional<std::string>& name) {
  if (!name) return std::optional<CarId>{};
  std::vector<std::string_view> known;
  for (std::uint32_t i = 0; i < ride.cars.size(); ++i) {
    if (same_name(ride.cars[i].name, *name)) return std::optional<CarId>{CarId{i}};
    known.push_back(ride.cars[i].name);
  }
  const auto nearest = nearest_name(*name, known);
  return not_found("wishes", "name the car '" + *name + "', which the ride does not have" +
                                 (nearest ? "; did you mean '" + std::string(*nearest) + "'?" : ""));
}

Result<MeetOption> meet_option(const Ride& ride, const Course& course, const RideEvent& event, std::size_t index,
                               HorseId horse, const DayHeat& heat) {
  const PassWish wish = merged_wish(ride, course, event, horse);
  MeetOption option;
  option.label = option_label(ride, course, event, horse);
  option.horse = horse;
  option.event = index;
  option.kind = event.kind;
  option.ride_along = event.ride_along;
  option.setup = ride.setup;
  option.pack = ride.pack;
  option.place = venue_place();
  option.has_water = true;  // the venue's; a crew point says its own
  option.worth = event.kind == RideEvent::Kind::gate ? ride.gate_worth : ride.finish_worth;
  option.water = wish.water.value_or(ride.water_per_meet);
  if (event.pass) {
    const CrewPointId point = at(course.passes, *event.pass).crew_point;
    option.place = crew_point_place(point);
    option.worth = 1.0;
    option.has_water = false;
    if (point.value < ride.crew_points.size()) {
      const RideCrewPoint& typed = at(ride.crew_points, point);
      option.open = typed.open;
      option.has_water = typed.has_water;
      option.setup = typed.setup.value_or(ride.setup);
      option.pack = typed.pack.value_or(ride.pack);
      if (typed.is_closed) option.demand = MeetOption::Demand::never;
    }
  }
  option.worth = wish.worth.value_or(worth_factor(heat, horse, index) * option.worth);
  if (wish.demand) {
    if (option.demand == MeetOption::Demand::never && *wish.demand == MeetOption::Demand::must) {
      return bad_input("wish for '" + option.label + "'", "must be served, but the crew point is closed to crews");
    }
    if (option.demand != MeetOption::Demand::never) option.demand = *wish.demand;
  }
  auto car = car_named(ride, wish.car);
  if (!car) return tl::unexpected(car.error());
  option.only_car = *car;
  return option;
}

Result<CrewCar> crew_car(const Ride& ride, const Course& course, const RideCar& typed) {
  CrewCar car;
  car.name = typed.name;
  const std::string who = "car '" + typed.name + "'";
  auto start = place_named(ride, course, typed.start.value_or(ride.venue), who);
  if (!start) return tl::unexpected(start.error());
  car.start = *start;
  car.ready_from = typed.ready_from.value_or(ride.start - minutes(60));
  if (typed.end) {
    auto end = place_named(ride, course, *typed.end, who);
    if (!end) return tl::unexpected(end.error());
    car.end = *end;
  } else if (typed.back_by) {
    car.end = *start;
  }
  car.back_by = typed.back_by;
  if (car.back_by && *car.back_by < car.ready_from) {
    return bad_input(who, "must be back before it may start; correct `back_by` or `ready_from`");
  }
  car.water_capacity = typed.water_capacity;
  car.fuel_range = (1.0 - typed.fuel_reserve) * typed.fuel_range;
  car.longest_driving = typed.longest_driving;
  car.break_length = typed.break_length;
  return car;
}

std::vector<RefillPlace> refill_places(const Ride& ride, const Course& course) {
  std::vector<RefillPlace> refills;
  refills.push_back({ride.venue, venue_place(), true, false, minutes(10), {}});
  for (std::uint32_t i = 0; i < ride.crew_points.size(); ++i) {
    const RideCrewPoint& point = ride.crew_points[i];
    if (point.has_water) {
      refills.push_back({point.name, crew_point_place(CrewPointId{i}), true, false, minutes(10), point.open});
    }
  }
  for (std::size_t i = 0; i < ride.refills.size(); ++i) {
    const RideRefill& typed = ride.refills[i];
    refills.push_back({typed.name, refill_place(course, i), typed.water, typed.fuel, typed.duration, typed.open});
  }
  return refills;
}

}  // namespace

std::string event_place(const Ride& ride, const Course& course, const RideEvent& event) {
  if (!event.pass) return ride.venue;
  return at(course.crew_points, at(course.passes, *event.pass).crew_point).name;
}

Ride with_defaults(const Ride& ride, const Course& course, std::vector<std::string>& assumptions) {
  Ride full = ride;
  const auto speed = [](const LoopPace& pace) {
    return fixed(pace.speed.value, 1) + " km/h " + (pace.is_average ? "average over the loop" : "on the flat");
  };
  if (full.loops.empty()) {
    for (const auto& loop : course.loops) full.loops.push_back({loop.name, {}, false, full.default_pace});
    assumptions.push_back("Every loop is ridden at " + speed(full.default_pace) + ", with a recovery of " +
                          fixed(in_minutes(full.default_pace.recovery.median), 0) + " min and a hold of " +
                          fixed(in_minutes(full.default_pace.hold), 0) + " min; the rules of the day decide.");
  }
  for (std::size_t i = 0; i < full.loops.size(); ++i) full.loops[i].name = course.loops[i].name;
  if (full.horses.empty()) {
    full.horses.push_back({"Horse", "", "", Seconds{0}, std::nullopt});
    assumptions.push_back("One horse, starting with the ride.");
  }
  if (full.cars.empty()) {
    full.cars.emplace_back().name = "Car 1";
    assumptions.push_back("One crew car, at the venue and ready an hour before the start.");
  }
  return full;
}

HorsePace horse_pace(const Ride& ride, const Course& course, HorseId horse, const DayHeat& heat) {
  const RideHorse& typed = at(ride.horses, horse);
  HorsePace pace;
  pace.start = ride.start + typed.start_after;
  pace.start_delay = ride.start_delay;
  pace.spread = ride.spread;
  for (std::size_t i = 0; i < ride.loops.size(); ++i) {
    pace.loops.push_back(ride.loops[i].pace);
    if (typed.speeds && i < typed.speeds->size()) pace.loops.back().speed = (*typed.speeds)[i];
    pace.loops.back().heat_factor *= speed_factor(heat, horse, LoopId{static_cast<std::uint32_t>(i)});
  }
  pace.stops.assign(course.passes.size(), ride.stop);
  for (const auto& event : ride_events(course)) {
    if (!event.pass) continue;
    const PassWish wish = merged_wish(ride, course, event, horse);
    if (wish.stop) at(pace.stops, *event.pass).median = *wish.stop;
  }
  return pace;
}

Result<CrewingTask> crewing_task(const Ride& ride, const Course& course, const Places& places, const DayHeat& heat) {
  if (auto ok = check_wishes(ride, course); !ok) return tl::unexpected(ok.error());
  CrewingTask task;
  task.settings = ride.crewing;
  task.seed = ride.seed;
  task.drives = places.drives;
  const auto events = ride_events(course);
  for (std::uint32_t h = 0; h < ride.horses.size(); ++h) {
    const RideHorse& typed = ride.horses[h];
    if (typed.speeds && typed.speeds->size() != course.loops.size()) {
      return bad_input("horse '" + typed.name + "'", "has " + std::to_string(typed.speeds->size()) +
                                                         " speeds, but the course has " +
                                                         std::to_string(course.loops.size()) + " loops");
    }
    // Each horse has a stream of draws of its own.
    auto days = simulate_days(course, horse_pace(ride, course, HorseId{h}, heat), ride.days,
                              Seed{ride.seed.value + 0x9E3779B97F4A7C15ULL * (h + 1)});
    if (!days) return tl::unexpected(days.error());
    task.horses.push_back(std::move(*days));
    for (std::size_t e = 0; e < events.size(); ++e) {
      auto option = meet_option(ride, course, events[e], e, HorseId{h}, heat);
      if (!option) return tl::unexpected(option.error());
      task.options.push_back(std::move(*option));
    }
  }
  for (const auto& typed : ride.cars) {
    auto car = crew_car(ride, course, typed);
    if (!car) return tl::unexpected(car.error());
    task.cars.push_back(std::move(*car));
  }
  task.refills = refill_places(ride, course);
  return task;
}

std::vector<Errand> errands_of(const Ride& ride, const Course& course) {
  std::vector<Errand> errands;
  for (std::size_t i = 0; i < ride.errands.size(); ++i) {
    const RideErrand& typed = ride.errands[i];
    errands.push_back({typed.name, errand_place(course, ride, i), typed.duration, typed.worth, typed.open});
  }
  return errands;
}

}  // namespace outbye
