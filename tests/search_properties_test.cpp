// What must hold of the search whatever the ride, and what it says when musts cannot be served.
#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>
#include <vector>

#include "core/crewing/day_flow.h"
#include "core/crewing/search.h"
#include "tests/search_rides.h"

namespace outbye {
namespace {

// Middling rides with openings, gaps and breaks, cars that differ, worth without ties.
SearchRide any_ride(Rng& rng) {
  SearchRide ride =
      search_ride(rng, {1 + uniform_below(rng, 2), 1 + uniform_below(rng, 2), 2, 5, between(rng, 15, 40)});
  CrewingTask& task = ride.task;
  task.settings.drive_allowance = between(rng, 1.2, 2.5);
  task.settings.gap_penalty = between(rng, 0.0, 0.2);
  task.settings.water_interval = kilometres(5);
  const double day = ride.times.departure.back();
  for (MeetOption& option : task.options) {
    option.worth = between(rng, 0.5, 2);
    if (uniform(rng) < 0.5) continue;
    const double from = between(rng, -0.2, 0.8) * day;
    option.open = {{ride.times.origin + Seconds{from}, ride.times.origin + Seconds{from + 0.3 * day}}};
  }
  for (CrewCar& car : task.cars) {
    car.start = {static_cast<std::uint32_t>(uniform_below(rng, task.drives.size()))};
    car.ready_from = ride.times.origin + Seconds{between(rng, -3600, 3600)};
    car.longest_driving = minutes(between(rng, 40, 120));
  }
  return ride;
}

double best_worth(const SearchRide& ride) {
  const auto found = search_orders(ride.task, ride.times, 1);
  EXPECT_TRUE(found && found->is_exact);
  return found ? found->fixed_worth : 0.0;
}

std::vector<std::uint32_t> options_met(const CrewOrders& orders) {
  std::vector<std::uint32_t> met;
  for (const CarOrders& day : orders) {
    for (const PlannedStop& stop : day.stops) {
      if (stop.option) met.push_back(stop.option->value);
    }
  }
  std::sort(met.begin(), met.end());
  return met;
}

TEST(SearchProperties, AWiderOpeningNeverLowersWorth) {
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    Rng rng(Seed{seed});
    SearchRide ride = any_ride(rng);
    const double before = best_worth(ride);
    for (MeetOption& option : ride.task.options) {
      for (auto& interval : option.open) {
        interval.from -= Seconds{between(rng, 0, 3600)};
        interval.to += Seconds{between(rng, 0, 3600)};
      }
    }
    EXPECT_GE(best_worth(ride), before - 1e-9) << "seed " << seed;
  }
}

TEST(SearchProperties, AFasterDriveNeverLowersWorth) {
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    Rng rng(Seed{seed});
    SearchRide ride = any_ride(rng);
    const double before = best_worth(ride);
    for (int k = 0; k < 10; ++k) {
      const PlaceId from{static_cast<std::uint32_t>(uniform_below(rng, ride.task.drives.size()))};
      const PlaceId to{static_cast<std::uint32_t>(uniform_below(rng, ride.task.drives.size()))};
      Drive drive = *ride.task.drives.drive(from, to);
      drive.time = between(rng, 0.3, 1.0) * drive.time;
      ride.task.drives.set(from, to, drive);
    }
    EXPECT_GE(best_worth(ride), before - 1e-9) << "seed " << seed;
  }
}

TEST(SearchProperties, TheOrderOfTheInputChangesNothing) {
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    Rng rng(Seed{seed});
    const SearchRide ride = any_ride(rng);
    const auto plain = search_orders(ride.task, ride.times, 1);
    ASSERT_TRUE(plain);
    std::vector<std::uint32_t> option_at(ride.task.options.size()), car_at(ride.task.cars.size());
    std::iota(option_at.begin(), option_at.end(), 0U);
    std::iota(car_at.begin(), car_at.end(), 0U);
    shuffle(option_at, rng);
    shuffle(car_at, rng);
    SearchRide mixed = ride;
    for (std::size_t i = 0; i < option_at.size(); ++i) {
      mixed.task.options[i] = ride.task.options[option_at[i]];
      mixed.times.arrival[i] = ride.times.arrival[option_at[i]];
      mixed.times.departure[i] = ride.times.departure[option_at[i]];
    }
    for (std::size_t c = 0; c < car_at.size(); ++c) mixed.task.cars[c] = ride.task.cars[car_at[c]];
    const auto found = search_orders(mixed.task, mixed.times, 1);
    ASSERT_TRUE(found);
    EXPECT_NEAR(found->fixed_worth, plain->fixed_worth, 1e-9) << "seed " << seed;
    CrewOrders renamed = found->candidates.front();
    for (CarOrders& day : renamed) {
      day.car.value = car_at[day.car.value];
      for (PlannedStop& stop : day.stops) {
        if (stop.option) stop.option->value = option_at[stop.option->value];
      }
    }
    std::sort(renamed.begin(), renamed.end(), [](const CarOrders& a, const CarOrders& b) { return a.car < b.car; });
    // Two cars that stand at one gate can change places at no loss, so with two of them only what is met must agree.
    if (ride.task.cars.size() == 1) {
      EXPECT_EQ(renamed, plain->candidates.front()) << "seed " << seed;
    }
    EXPECT_EQ(options_met(renamed), options_met(plain->candidates.front())) << "seed " << seed;
  }
}

TEST(SearchProperties, TheSameInputGivesTheSameAnswer) {
  Rng rng(Seed{5});
  const SearchRide ride = any_ride(rng);
  const auto once = search_orders(ride.task, ride.times, 20);
  const auto again = search_orders(ride.task, ride.times, 20);
  ASSERT_TRUE(once && again);
  EXPECT_EQ(once->candidates, again->candidates);
  EXPECT_EQ(once->fixed_bound, again->fixed_bound);
  EXPECT_GE(once->candidates.size(), 8U);
  for (std::size_t i = 0; i < once->candidates.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) EXPECT_NE(once->candidates[i], once->candidates[j]);
  }
}

TEST(DayFlow, IsWorthWhatTheSearchFindsWhenWorthAddsUp) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    Rng rng(Seed{seed});
    SearchRide ride = any_ride(rng);
    ride.task.settings.gap_penalty = 0;
    std::vector<double> ready;
    for (CrewCar& car : ride.task.cars) {
      car.longest_driving = Seconds{0};
      ready.push_back((car.ready_from - ride.times.origin).count());
    }
    DayFlow days(ride.task, ride.times.origin);
    const double worth = days.best_worth(
        {ride.times.arrival, ride.times.departure, ride.times.departure, ready, ride.task.settings.drive_allowance});
    EXPECT_NEAR(worth, best_worth(ride), 1e-9) << "seed " << seed;
    double least = 0;  // the meets it names are worth at least that when all are in time
    for (std::size_t o = 0; o < ride.task.options.size(); ++o) {
      least += days.is_met()[o] != 0 ? ride.task.options[o].worth : 0.0;
    }
    EXPECT_GE(least, worth - 1e-9);
  }
}

// A must that cannot be: the message names it and what to relax.
struct Must {
  SearchRide ride;
  Must() {
    Rng rng(Seed{3});
    ride = search_ride(rng, {1, 1, 2, 4, 30});
    ride.task.options[1].demand = MeetOption::Demand::must;
    ride.task.options[1].label = "Ford loop 1";
  }
  std::string refusal() const {
    const auto found = search_orders(ride.task, ride.times, 4);
    if (found) return "";
    EXPECT_EQ(found.error().kind, Problem::Kind::impossible);
    return found.error().where + " " + found.error().what;
  }
};

TEST(ImpossibleMust, IsServedWhenNothingStandsInTheWay) { EXPECT_EQ(Must().refusal(), ""); }

TEST(ImpossibleMust, NamesTheMinutesByWhichTheCarIsLate) {
  Must must;
  must.ride.task.cars[0].start = must.ride.task.options[1].place;
  must.ride.task.cars[0].ready_from = must.ride.times.origin + Seconds{must.ride.times.departure[1] + 17 * 60};
  EXPECT_EQ(
      must.refusal(),
      "Ford loop 1 must be met, but car 1, the nearest car, is too late by 17 min even straight from its start; let "
      "it be ready 17 min earlier or start nearer, or do not ask for it");
}

TEST(ImpossibleMust, NamesTheOpeningThatShutsTooSoon) {
  Must must;
  const double leave = must.ride.times.departure[1] + must.ride.task.options[1].pack.count();
  must.ride.task.options[1].open = {{must.ride.times.origin, must.ride.times.origin + Seconds{leave - 12 * 60}}};
  EXPECT_EQ(
      must.refusal(),
      "Ford loop 1 must be met, but shuts 12 min before the car could be packed and gone; relax its opening hours");
}

TEST(ImpossibleMust, NamesThePlaceWithoutAWay) {
  Must must;
  const PlaceId ford = must.ride.task.options[1].place;
  for (std::uint32_t p = 0; p < must.ride.task.drives.size(); ++p) {
    if (PlaceId{p} != ford) must.ride.task.drives.set({p}, ford, std::nullopt);
  }
  EXPECT_NE(must.refusal().find("Ford loop 1 must be met, but no car has a way there by road"), std::string::npos);
}

TEST(ImpossibleMust, NamesTheLimitToRelax) {
  Must must;
  must.ride.task.cars[0].fuel_range = Metres{100};
  EXPECT_EQ(must.refusal(),
            "Ford loop 1 must be met, but no car can; it could if you relax the fuel range (or add a pump)");
  must.ride.task.cars[0].fuel_range = Metres{0};
  must.ride.task.cars[0].back_by = must.ride.times.origin;
  EXPECT_NE(must.refusal().find("relax the time a car must be back by"), std::string::npos);
}

TEST(ImpossibleMust, NamesTheTwoThatAreTooMuchForOneCar) {
  Must must;
  CrewingTask& task = must.ride.task;
  task.options[2].demand = MeetOption::Demand::must;
  task.options[2].label = "Mill loop 1";
  must.ride.times.arrival[2] = must.ride.times.departure[1] + 1;
  must.ride.times.departure[2] = must.ride.times.arrival[2] + 60;
  EXPECT_EQ(must.refusal().rfind("Ford loop 1 and Mill loop 1 must all be met, but 1 car cannot be in time for all", 0),
            0U);
  task.cars.push_back(task.cars[0]);
  EXPECT_EQ(must.refusal(), "");
}

TEST(SearchInput, IsRefusedWithPlaceAndReason) {
  Must must;
  must.ride.task.options[2].place = {999};
  const auto found = search_orders(must.ride.task, must.ride.times, 1);
  ASSERT_FALSE(found);
  EXPECT_EQ(found.error().kind, Problem::Kind::bad_input);
  EXPECT_EQ(found.error().where, must.ride.task.options[2].label);
}

}  // namespace
}  // namespace outbye
