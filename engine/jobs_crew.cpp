#include "engine/jobs_crew.h"

#include <algorithm>

#include "core/base/text.h"

namespace outbye {
namespace {

constexpr std::size_t most_people = 4;  // that can be scheduled together

RideHelper of_all_work(std::string name, const std::string& car) {
  RideHelper helper;
  helper.skills = helper_of_all_work(name).skills;
  helper.name = std::move(name);
  helper.car = car;
  return helper;
}

void add_person(RideJobs& jobs, RideHelper helper, CarId car) {
  jobs.people.push_back(std::move(helper));
  jobs.car_of.push_back(car);
  jobs.work.emplace_back();
}

void assume_people(const RidePlan& plan, RideJobs& jobs) {
  const auto& cars = plan.task.cars;
  const std::uint32_t asked = plan.ride.crew.value_or(2);
  const std::size_t count =
      std::clamp<std::size_t>(asked, std::max<std::size_t>(1, cars.size()), most_people * cars.size());
  for (std::size_t i = 0; i < count; ++i) {
    const CarId car{static_cast<std::uint32_t>(i % cars.size())};
    add_person(jobs, of_all_work("Helper " + std::to_string(i + 1), at(cars, car).name), car);
  }
  jobs.assumptions.push_back(
      "The ride file names no helpers: " + std::to_string(count) + (count == 1 ? " who does" : " who do") +
      " all work " + (count == 1 ? "is" : "are") + " assumed" +
      (plan.ride.crew ? " from its \"crew\"" : "; \"helpers\" names them, with what each can do") + ".");
}

}  // namespace

void put_people_in_cars(const RidePlan& plan, RideJobs& jobs) {
  const auto& cars = plan.task.cars;
  if (plan.ride.helpers.empty()) return assume_people(plan, jobs);
  for (const RideHelper& helper : plan.ride.helpers) {
    CarId car{0};
    for (std::uint32_t c = 0; c < cars.size(); ++c) {
      if (helper.car && same_name(cars[c].name, *helper.car)) car = CarId{c};
    }
    if (!helper.car && cars.size() > 1) {
      jobs.assumptions.push_back(helper.name + " rides in " + cars[0].name + ", the first car: no car is named.");
    }
    add_person(jobs, helper, car);
  }
  for (std::uint32_t c = 0; c < cars.size(); ++c) {
    if (std::find(jobs.car_of.begin(), jobs.car_of.end(), CarId{c}) != jobs.car_of.end()) continue;
    add_person(jobs, of_all_work("Driver of " + cars[c].name, cars[c].name), CarId{c});
    jobs.assumptions.push_back("Nobody is named for " + cars[c].name + ": one helper of all work is assumed.");
  }
}

bool stands_by(const RidePlan& plan, CarId car, PlaceId place, Interval<Instant> time) {
  for (const CarDay& day : plan.plan.days) {
    if (day.car != car) continue;
    const auto is_here = [&](PlaceId where, Instant since) { return where == place && since <= time.from; };
    PlaceId here = at(plan.task.cars, car).start;
    Instant since = at(plan.task.cars, car).ready_from;
    for (const TimedStop& stop : day.stops) {
      if (stop.depart >= time.to) return is_here(here, since);
      if (stop.leave > time.from) return false;  // driving or busy meanwhile
      here = stop.place;
      since = stop.leave;
    }
    if (day.back && at(plan.task.cars, car).end) {
      here = *at(plan.task.cars, car).end;
      since = *day.back;
    }
    return is_here(here, since);
  }
  return false;
}

std::vector<std::size_t> people_at(const RidePlan& plan, const RideJobs& jobs, CarId car, const TimedStop& stop,
                                   bool is_at_venue) {
  std::vector<std::size_t> people;
  for (std::size_t p = 0; p < jobs.people.size(); ++p) {
    if (jobs.car_of[p] == car) people.push_back(p);
  }
  if (people.size() > most_people) {
    std::stable_sort(people.begin(), people.end(), [&](std::size_t a, std::size_t b) {
      return jobs.work[a] / jobs.people[a].share < jobs.work[b] / jobs.people[b].share;
    });
    people.resize(most_people);
    std::sort(people.begin(), people.end());
  }
  if (!is_at_venue) return people;
  for (std::size_t p = 0; p < jobs.people.size() && people.size() < most_people; ++p) {
    if (jobs.car_of[p] != car && stands_by(plan, jobs.car_of[p], stop.place, {stop.arrive, stop.leave})) {
      people.push_back(p);
    }
  }
  return people;
}

Helper helper_of(const RideJobs& jobs, std::size_t person) {
  const RideHelper& from = jobs.people[person];
  Helper helper;
  helper.name = from.name;
  helper.skills = from.skills;
  helper.skills.insert(helper.skills.end(), from.own_skills.begin(), from.own_skills.end());
  helper.share = from.share;
  helper.carried = jobs.work[person];
  return helper;
}

}  // namespace outbye
