#include "engine/load.h"

#include <algorithm>
#include <utility>

#include "core/base/text.h"

namespace outbye {
namespace {

// What is stated as a must is dearer than any pain (at most 1000) when there is a second car to put it into.
constexpr double dearest = 1000.0;

LoadSearch new_search(const BootLoadSettings& settings) { return settings.search ? settings.search() : LoadSearch{}; }

Result<CarId> car_named(const Ride& ride, const std::string& name) {
  std::vector<std::string_view> known;
  for (std::uint32_t c = 0; c < ride.cars.size(); ++c) {
    if (same_name(ride.cars[c].name, name)) return CarId{c};
    known.push_back(ride.cars[c].name);
  }
  const auto nearest = nearest_name(name, known);
  std::string all;
  for (const auto word : known) all += (all.empty() ? "" : ", ") + std::string(word);
  return not_found(
      "car '" + name + "'",
      "is not in this ride" + (nearest ? "; did you mean '" + std::string(*nearest) + "'?" : "; there are: " + all));
}

// A place where someone might need a thing. Errors: not_found with the nearest.
Result<void> known_place(const RidePlan& plan, const std::string& item, const std::string& name) {
  std::vector<std::string_view> known;
  for (const PlaceReport& place : plan.places) {
    if (same_name(place.name, name)) return {};
    known.push_back(place.name);
  }
  const auto nearest = nearest_name(name, known);
  return not_found(item, "is needed at '" + name + "', which this ride does not have" +
                             (nearest ? "; did you mean '" + std::string(*nearest) + "'?"
                                      : "; name a crew point or the venue, or pass, gate or finish"));
}

// The meets of a car, in order.
std::vector<const MeetOption*> meets_of(const RidePlan& plan, CarId car) {
  std::vector<const MeetOption*> meets;
  for (const CarDay& day : plan.plan.days) {
    if (day.car != car) continue;
    for (const TimedStop& stop : day.stops) {
      if (stop.stop.option) meets.push_back(&at(plan.task.options, *stop.stop.option));
    }
  }
  return meets;
}

bool is_needed_at(const RidePlan& plan, const BootItem& thing, const MeetOption& meet) {
  if (thing.at_passes && meet.kind == RideEvent::Kind::pass) return true;
  if (thing.at_gates && meet.kind == RideEvent::Kind::gate) return true;
  if (thing.at_finish && meet.kind == RideEvent::Kind::finish) return true;
  return std::any_of(thing.needed_at.begin(), thing.needed_at.end(),
                     [&](const std::string& name) { return same_name(name, at(plan.places, meet.place).name); });
}

void set_needs(const RidePlan& plan, const BootItem& thing, const std::vector<const MeetOption*>& meets,
               LoadItem& item) {
  item.first_needed.reset();
  item.times_needed = 0;
  for (std::size_t m = 0; m < meets.size(); ++m) {
    if (!is_needed_at(plan, thing, *meets[m])) continue;
    if (!item.first_needed) item.first_needed = static_cast<int>(m);
    ++item.times_needed;
  }
}

// Those who ride in the car lift; when nobody is said to, everybody does.
std::vector<LoadHelper> lifters(const Ride& ride, CarId car) {
  std::vector<LoadHelper> here;
  std::vector<LoadHelper> all;
  for (const RideHelper& helper : ride.helpers) {
    const LoadHelper lifter{helper.name, helper.lifts};
    const bool is_here = helper.car ? same_name(*helper.car, at(ride.cars, car).name) : car == CarId{0};
    if (is_here) here.push_back(lifter);
    all.push_back(lifter);
  }
  return here.empty() ? all : here;
}

Result<CarLoad> empty_car(const RidePlan& plan, CarId car, const BootLoadSettings& settings) {
  RideCar typed = at(plan.ride.cars, car);
  CarLoad load;
  load.car = car;
  load.name = typed.name;
  load.task.helpers = lifters(plan.ride, car);
  load.task.max_moves = settings.max_moves;
  const auto riding = std::count_if(plan.ride.helpers.begin(), plan.ride.helpers.end(), [&](const RideHelper& helper) {
    return helper.car ? same_name(*helper.car, typed.name) : car == CarId{0};
  });
  if (typed.boot && static_cast<std::uint32_t>(riding) > typed.boot->people) {
    typed.boot->people = static_cast<std::uint32_t>(riding);
    load.assumptions.push_back(std::to_string(riding) + " of the crew ride in " + typed.name +
                               ": 75 kg for each but the driver is taken off the payload.");
  }
  auto spaces = boot_spaces(typed, load.assumptions);
  if (!spaces) return tl::make_unexpected(spaces.error());
  load.task.spaces = std::move(*spaces);
  load.people = typed.boot ? typed.boot->people : 1;
  load.payload = load.task.spaces.front().payload + (load.people - 1.0) * mass_of_a_person;
  for (const MeetOption* meet : meets_of(plan, car)) load.stops.push_back(meet->label);
  if (load.task.helpers.empty()) {
    load.assumptions.push_back("No helpers are named, so nobody's lifting is looked at (ride file: helpers).");
  }
  return load;
}

void add(CarLoad& car, LoadItem item, Litres water, bool is_essential, std::vector<std::string> contents) {
  car.task.items.push_back(std::move(item));
  car.water.push_back(water);
  car.is_essential.push_back(is_essential);
  car.contents.push_back(std::move(contents));
}

Result<void> add_place(CarLoad& car, const BootItem& thing) {
  LoadSpace& boot = car.task.spaces.front();
  boot.payload = boot.payload - thing.item.mass;
  car.places.push_back({thing.item.name, thing.contents, thing.item.mass});
  if (boot.payload > Kilograms{0}) return {};
  return bad_input(boot.name, "has no payload left for a load once people and what rides in the " +
                                  in_lower_case(thing.item.name) + " are in the car; let one ride in another car");
}

// A load that breaks a rule is not shown: that is a fault of ours.
Result<void> keeps_the_rules(const LoadTask& task, const Load& load) {
  const auto broken = check_load(task, load);
  if (broken.empty()) return {};
  return impossible(broken.front().where, broken.front().what + "; the planned load breaks this rule, so it is " +
                                              "not shown: please report it");
}

// Plans and checks.
Result<Load> checked_load(const LoadTask& task, const BootLoadSettings& settings) {
  auto load = plan_load(task, new_search(settings));
  if (!load) return load;
  if (const auto good = keeps_the_rules(task, *load); !good) return tl::make_unexpected(good.error());
  return load;
}

// Tries to put what `from` leaves behind into `to`, without anything of `to` losing its place in its boot.
Result<void> help_out(CarLoad& from, CarLoad& to, const BootLoadSettings& settings,
                      std::vector<LoadedElsewhere>& elsewhere) {
  LoadTask task = to.task;
  std::vector<LoadItemId> moved;
  for (const LoadLeft& left : from.load.left) {
    LoadItem item = at(from.task.items, left.item);
    item.first_needed.reset();  // the other car stops elsewhere
    item.max_moves.reset();
    item.pain_if_left = std::max(left.pain, 0.01);
    if (item.is_emergency) continue;  // stays with its car or at home: elsewhere it is no help
    task.items.push_back(std::move(item));
    moved.push_back(left.item);
  }
  if (moved.empty()) return {};
  auto load = checked_load(task, settings);
  if (!load) return load.error().kind == Problem::Kind::impossible ? Result<void>{} : tl::make_unexpected(load.error());
  const auto own_outside = [&](const Load& l) {
    std::vector<std::uint32_t> ids;
    for (const LoadLeft& left : l.left) ids.push_back(left.item.value);
    for (const LoadPlacement& p : l.placements) {
      if (p.space.value > 0) ids.push_back(p.item.value);
    }
    std::erase_if(ids, [&](std::uint32_t id) { return id >= to.task.items.size(); });
    std::sort(ids.begin(), ids.end());
    return ids;
  };
  const auto before = own_outside(to.load);
  const auto after = own_outside(*load);
  if (!std::includes(before.begin(), before.end(), after.begin(), after.end())) return {};
  // What found no place in the other car either stays with its own.
  const std::size_t own = to.task.items.size();
  std::vector<bool> fits(moved.size(), true);
  for (const LoadLeft& left : load->left) {
    if (left.item.value >= own) fits[left.item.value - own] = false;
  }
  if (std::none_of(fits.begin(), fits.end(), [](bool is_in) { return is_in; })) return {};
  std::vector<std::uint32_t> new_id(task.items.size());
  std::uint32_t next = 0;
  for (std::size_t i = 0; i < task.items.size(); ++i) {
    if (i >= own) {
      if (!fits[i - own]) continue;
      const LoadItemId was = moved[i - own];
      const LoadItem& item = task.items[i];
      add(to, item, from.water[was.value], from.is_essential[was.value], from.contents[was.value]);
      elsewhere.push_back({LoadedElsewhere::Where::other_car, item.name, from.name, to.name, *item.pain_if_left,
                           "there is no place left in " + from.name});
      std::erase_if(from.load.left, [&](const LoadLeft& left) { return left.item == was; });
    }
    new_id[i] = next++;
  }
  std::erase_if(load->left, [&](const LoadLeft& left) { return left.item.value >= own; });
  for (LoadPlacement& p : load->placements) {
    p.item.value = new_id[p.item.value];
    for (LoadItemId& id : p.moved_first) id.value = new_id[id.value];
  }
  // What found no place here either is not of this task any more.
  const bool is_all_in = load->left.empty() && std::all_of(load->placements.begin(), load->placements.end(),
                                                           [](const LoadPlacement& p) { return p.space.value == 0; });
  if (is_all_in) {
    load->proof = LoadProof::all_fit;
    load->proof_words = "proven: everything is in " + to.task.spaces[0].name;
  }
  to.load = std::move(*load);
  return keeps_the_rules(to.task, to.load);  // once more, as it is shown
}

void sort_elsewhere(std::vector<LoadedElsewhere>& things) {
  std::stable_sort(things.begin(), things.end(),
                   [](const LoadedElsewhere& a, const LoadedElsewhere& b) { return a.pain < b.pain; });
}

}  // namespace

Result<RideLoad> boot_load(const RidePlan& plan, const std::vector<BootItem>& items, const BootLoadSettings& settings) {
  const Ride& ride = plan.ride;
  RideLoad answer;
  std::optional<CarId> only;
  if (settings.car) {
    const auto car = car_named(ride, *settings.car);
    if (!car) return tl::make_unexpected(car.error());
    only = *car;
  }
  for (std::uint32_t c = 0; c < ride.cars.size(); ++c) {
    if (only && *only != CarId{c}) continue;
    auto car = empty_car(plan, CarId{c}, settings);
    if (!car) return tl::make_unexpected(car.error());
    answer.cars.push_back(std::move(*car));
  }
  const bool has_second = answer.cars.size() > 1;
  for (const BootItem& thing : items) {
    for (const std::string& place : thing.needed_at) {
      if (const auto known = known_place(plan, thing.item.name, place); !known) {
        return tl::make_unexpected(known.error());
      }
    }
    CarId car{0};
    if (thing.car) {
      const auto named = car_named(ride, *thing.car);
      if (!named) return tl::make_unexpected(named.error());
      car = *named;
    }
    const auto its =
        std::find_if(answer.cars.begin(), answer.cars.end(), [&](const CarLoad& c) { return c.car == car; });
    if (its == answer.cars.end()) continue;
    if (thing.is_place) {
      if (const auto is_in = add_place(*its, thing); !is_in) return tl::make_unexpected(is_in.error());
      continue;
    }
    LoadItem item = thing.item;
    set_needs(plan, thing, meets_of(plan, car), item);
    const bool asks = thing.at_passes || thing.at_gates || thing.at_finish || !thing.needed_at.empty();
    if (asks && !item.first_needed) {
      answer.warnings.push_back({item.name, "is needed at no stop of " + its->name + ": it may stay at home"});
    }
    const bool is_essential = !item.pain_if_left;
    if (is_essential && has_second) item.pain_if_left = dearest;
    add(*its, std::move(item), thing.water, is_essential, thing.contents);
  }
  for (CarLoad& car : answer.cars) {
    auto load = checked_load(car.task, settings);
    if (!load) return tl::make_unexpected(load.error());
    car.load = std::move(*load);
  }
  for (CarLoad& from : answer.cars) {
    for (CarLoad& to : answer.cars) {
      if (from.car == to.car || from.load.left.empty()) continue;
      if (const auto done = help_out(from, to, settings, answer.elsewhere); !done) {
        return tl::make_unexpected(done.error());
      }
    }
  }
  for (CarLoad& car : answer.cars) {
    for (const LoadLeft& left : car.load.left) {
      const std::string& name = at(car.task.items, left.item).name;
      if (car.is_essential[left.item.value]) {
        return impossible(name,
                          "must come along, but no car has a place for it: leave something else at home, "
                          "fold the seats, or say how painful it would be to leave it (pain_if_left)");
      }
      answer.elsewhere.push_back({LoadedElsewhere::Where::home, name, car.name, "", left.pain, left.why});
    }
    for (const LoadPlacement& p : car.load.placements) {
      if (at(car.task.spaces, p.space).kind != LoadSpace::Kind::roof_box) continue;
      const LoadItem& item = at(car.task.items, p.item);
      answer.elsewhere.push_back({LoadedElsewhere::Where::roof_box, item.name, car.name, "",
                                  item.pain_if_left.value_or(dearest), "the boot is full"});
    }
    car.steps = describe(car.task, car.load);
    car.warnings.insert(car.warnings.end(), car.load.cautions.begin(), car.load.cautions.end());
  }
  sort_elsewhere(answer.elsewhere);
  return answer;
}

}  // namespace outbye
