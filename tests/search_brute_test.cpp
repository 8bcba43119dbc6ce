// The search against trying everything. The trial shares nothing with the search or with evaluate_fixed: it walks the
// rules of core/crewing/fixed_time.h in its own way: every sequence of stops of every car, and every way to share out
// the meets among the cars.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "core/crewing/meet_flow.h"
#include "core/crewing/meet_model.h"
#include "core/crewing/search.h"
#include "core/crewing/solve_orders.h"
#include "tests/search_rides.h"

namespace outbye {
namespace {

constexpr double tiny = 1e-6;

// Tries every way for every car: stops appended one by one, in any order that the rules allow.
class TrialOfAll {
 public:
  explicit TrialOfAll(const SearchRide& ride) : t_(ride.task), at_(ride.times) {}

  std::optional<double> best() {
    // By set of meets: the most that the cars so far can make of just these.
    std::vector<double> shared(std::size_t{1} << t_.options.size(), none);
    shared[0] = 0;
    for (std::size_t c = 0; c < t_.cars.size(); ++c) {
      const CrewCar& k = t_.cars[c];
      const double ready = from_origin(k.ready_from);
      alone_.assign(shared.size(), none);
      stops(c, {k.start.value, ready, ready, 0, 0, k.water_capacity.value, -1, 0, false, false, 0, 0.0});
      std::vector<double> both(shared.size(), none);
      for (std::size_t all = 0; all < shared.size(); ++all) {
        for (std::size_t mine = all;; mine = (mine - 1) & all) {
          both[all] = std::max(both[all], shared[all ^ mine] + alone_[mine]);
          if (mine == 0) break;
        }
      }
      shared = both;
    }
    std::optional<double> most;
    for (std::size_t met = 0; met < shared.size(); ++met) {
      if (shared[met] < 0 || lacks_a_must(met)) continue;
      most = std::max(most.value_or(none), shared[met] - penalty(met));
    }
    return most;
  }

 private:
  static constexpr double none = -1e300;
  struct State {
    std::uint32_t place;
    double free, stood_since, driven, burnt, water;
    int meet;     // the stop before, if a meet; else -1
    int refills;  // since the last meet
    bool rested;  // the stop before was a rest
    bool used;
    std::size_t met;
    double worth;
  };

  double from_origin(Instant i) const { return (i - at_.origin).count(); }

  bool go(const CrewCar& c, State& s, std::uint32_t to) const {
    if (s.place == to) return true;
    const auto& d = t_.drives.drive({s.place}, {to});
    if (!d) return false;
    if (s.free - s.stood_since > c.break_length.count() - tiny) s.driven = 0;
    const double time = d->time.count() * t_.settings.drive_allowance;
    s.driven += time;
    s.burnt += d->length.value;
    s.free += time;
    s.stood_since = s.free;
    s.place = to;
    if (c.longest_driving.count() > 0 && s.driven > c.longest_driving.count() + tiny) return false;
    return !(c.fuel_range.value > 0 && s.burnt > c.fuel_range.value + tiny);
  }

  void stops(std::size_t c, const State& s) {
    const CrewCar& k = t_.cars[c];
    {  // home now
      State end = s;
      const bool can = !s.used || ((!k.end || go(k, end, k.end->value)) &&
                                   (!k.back_by || end.free <= from_origin(*k.back_by) + tiny));
      if (can) alone_[s.met] = std::max(alone_[s.met], s.worth);
    }
    for (std::size_t o = 0; o < t_.options.size(); ++o) meet(c, s, o);
    for (std::size_t r = 0; r < t_.refills.size() && s.refills < 2; ++r) {
      if ((k.fuel_range.value <= 0 || !t_.refills[r].fuel) && (k.water_capacity.value <= 0 || !t_.refills[r].water))
        continue;
      State n = s;
      if (!go(k, n, t_.refills[r].place.value)) continue;
      const double length = t_.refills[r].duration.count();
      double begin = t_.refills[r].open.empty() ? n.free : 1e300;
      for (const auto& i : t_.refills[r].open) {
        if (std::max(n.free, from_origin(i.from)) + length <= from_origin(i.to) + tiny) {
          begin = std::min(begin, std::max(n.free, from_origin(i.from)));
        }
      }
      if (begin > 1e299) continue;
      n.free = begin + length;
      if (t_.refills[r].fuel) n.burnt = 0;
      if (t_.refills[r].water) n.water = k.water_capacity.value;
      n.meet = -1, n.rested = false, n.used = true;
      ++n.refills;
      stops(c, n);
    }
    if (s.driven > 0 && !s.rested && k.longest_driving.count() > 0) {
      State n = s;
      n.free += k.break_length.count();
      n.meet = -1, n.rested = true;
      stops(c, n);
    }
  }

  void meet(std::size_t c, const State& s, std::size_t o) {
    const MeetOption& m = t_.options[o];
    const CrewCar& k = t_.cars[c];
    if ((s.met >> o & 1) != 0 || m.demand == MeetOption::Demand::never || (m.only_car && m.only_car->value != c))
      return;
    const double a = at_.arrival[o], d = at_.departure[o], out = d + m.pack.count();
    State n = s;
    double in, ready;
    const auto held = [&](double since) {  // is the place open to the car from then to `out`?
      for (const auto& i : m.open) {
        if (from_origin(i.from) <= since + tiny && out <= from_origin(i.to) + tiny) return true;
      }
      return m.open.empty();
    };
    const bool stays = s.meet >= 0 && t_.options[static_cast<std::size_t>(s.meet)].place == m.place &&
                       held(at_.departure[static_cast<std::size_t>(s.meet)]);
    if (stays) {
      in = ready = at_.departure[static_cast<std::size_t>(s.meet)];
    } else {
      if (!go(k, n, m.place.value)) return;
      in = n.free;
      if (!held(in)) {  // wait for an opening
        double earliest = 1e300;
        for (const auto& i : m.open) {
          if (from_origin(i.from) > in && held(from_origin(i.from))) earliest = std::min(earliest, from_origin(i.from));
        }
        in = earliest;
      }
      ready = in + m.setup.count();
    }
    double readiness;
    if (ready <= a + tiny) {
      readiness = 1;
    } else if (in <= d + tiny) {
      readiness = t_.settings.part_worth;
    } else {
      return;
    }
    if (k.water_capacity.value > 0) {
      if (m.has_water) {
        n.water = k.water_capacity.value;
      } else {
        n.water -= m.water.value;
        if (n.water < -tiny) return;
      }
    }
    n.free = out;
    n.place = m.place.value;
    n.meet = static_cast<int>(o), n.refills = 0, n.rested = false, n.used = true;
    n.met |= std::size_t{1} << o;
    n.worth += m.worth * readiness;
    stops(c, n);
  }

  bool lacks_a_must(std::size_t met) const {
    for (std::size_t o = 0; o < t_.options.size(); ++o) {
      if (t_.options[o].demand == MeetOption::Demand::must && (met >> o & 1) == 0) return true;
    }
    return false;
  }

  double penalty(std::size_t met) const {
    double total = 0;
    for (std::size_t h = 0; h < t_.horses.size(); ++h) {
      double last = 0;
      const auto& events = t_.horses[h].events;
      for (std::size_t e = 0; e < events.size(); ++e) {
        bool helped = events[e].kind != RideEvent::Kind::pass || e + 1 == events.size();
        for (std::size_t o = 0; o < t_.options.size(); ++o) {
          if ((met >> o & 1) != 0 && t_.options[o].horse.value == h && t_.options[o].event == e) helped = true;
        }
        if (!helped) continue;
        const double km = in_kilometres(events[e].ride_along) - last;
        total += std::max(0.0, km - in_kilometres(t_.settings.water_interval)) * t_.settings.gap_penalty;
        last += km;
      }
    }
    return total;
  }

  const CrewingTask& t_;
  const FixedTimes& at_;
  std::vector<double> alone_;  // of the car being tried, by set of meets
};

// A small ride with one kind of trouble after another, and all of them in the last.
SearchRide small_ride(Rng& rng, std::size_t trouble) {
  RideSize size;
  size.cars = 1 + uniform_below(rng, 3);
  size.horses = 1 + uniform_below(rng, 3);
  size.loops = size.horses == 1 ? 2 : 1;
  size.passes_per_loop = size.horses == 1 ? 3 : size.horses == 2 ? 3 : 1;
  size.loop_km = between(rng, 10, 30);
  SearchRide ride = search_ride(rng, size);
  CrewingTask& task = ride.task;
  task.settings.drive_allowance = between(rng, 1.0, 3.0);
  const auto has = [&](std::size_t kind) { return trouble == kind || trouble == 9; };
  for (CrewCar& car : task.cars) car.longest_driving = Seconds{0};
  task.settings.gap_penalty = 0;
  const auto instant = [&](double seconds) { return ride.times.origin + Seconds{seconds}; };
  const double day = *std::max_element(ride.times.departure.begin(), ride.times.departure.end());
  if (has(1)) {
    task.settings.gap_penalty = between(rng, 0.02, 0.3);
    task.settings.water_interval = kilometres(between(rng, 2, 10));
  }
  if (has(2)) {
    for (CrewCar& car : task.cars) {
      car.longest_driving = minutes(between(rng, 15, 60));
      car.break_length = minutes(between(rng, 5, 25));
    }
  }
  const auto some_place = [&] { return PlaceId{static_cast<std::uint32_t>(uniform_below(rng, task.drives.size()))}; };
  if (has(3)) {
    for (CrewCar& car : task.cars) car.fuel_range = kilometres(between(rng, 15, 50));
    task.refills.push_back({"pump", some_place(), false, true, minutes(between(rng, 2, 10)), {}});
  }
  if (has(4)) {
    for (CrewCar& car : task.cars) car.water_capacity = {between(rng, 15, 40)};
    task.refills.push_back({"tap", some_place(), true, false, minutes(between(rng, 2, 10)), {}});
    if (uniform(rng) < 0.5) task.refills.back().open = {{instant(0.3 * day), instant(0.6 * day)}};
    if (uniform(rng) < 0.5) task.options[uniform_below(rng, task.options.size())].has_water = true;
  }
  if (has(5)) {
    for (MeetOption& option : task.options) {
      if (uniform(rng) < 0.4) option.demand = MeetOption::Demand::never;
      if (uniform(rng) < 0.25) option.demand = MeetOption::Demand::must;
    }
  }
  if (has(6)) {
    for (MeetOption& option : task.options) {
      if (uniform(rng) < 0.5) option.only_car = CarId{static_cast<std::uint32_t>(uniform_below(rng, task.cars.size()))};
    }
  }
  if (has(7)) {
    for (MeetOption& option : task.options) {
      if (uniform(rng) < 0.4) continue;
      const double from = between(rng, -0.2, 0.7) * day;
      option.open.push_back({instant(from), instant(from + between(rng, 0.1, 0.8) * day)});
      if (uniform(rng) < 0.3) option.open.push_back({instant(0.5 * day), instant(2 * day)});
    }
  }
  if (has(8)) {
    for (CrewCar& car : task.cars) {
      car.start = some_place();
      car.ready_from = instant(between(rng, -0.3, 0.5) * day);
      if (uniform(rng) < 0.7) car.end = some_place();
      if (uniform(rng) < 0.5) car.back_by = instant(between(rng, 0.6, 1.3) * day);
    }
  }
  if (uniform(rng) < 0.3) {  // horses that meet at one place
    const PlaceId place = some_place();
    for (MeetOption& option : task.options) {
      if (uniform(rng) < 0.4) option.place = place;
    }
  }
  if (uniform(rng) < 0.2) task.drives.set(some_place(), some_place(), std::nullopt);
  for (std::uint32_t i = 0; i < task.drives.size(); ++i) task.drives.set({i}, {i}, Drive{});
  return ride;
}

TEST(SearchAgainstTrialOfAll, FindsTheOptimumOf500SmallRides) {
  std::size_t impossible_rides = 0, proven = 0;
  for (std::uint64_t seed = 1; seed <= 500; ++seed) {
    Rng rng(Seed{seed});
    const SearchRide ride = small_ride(rng, seed % 10);
    const std::optional<double> best = TrialOfAll(ride).best();
    const auto found = search_orders(ride.task, ride.times, 8);
    ASSERT_EQ(found.has_value(), best.has_value()) << "seed " << seed << (found ? "" : found.error().what);
    if (!found) {
      EXPECT_EQ(found.error().kind, Problem::Kind::impossible);
      ++impossible_rides;
      continue;
    }
    ASSERT_NEAR(found->fixed_worth, *best, 1e-9) << "seed " << seed;
    EXPECT_TRUE(found->is_exact) << "seed " << seed;
    EXPECT_NEAR(found->fixed_bound, found->fixed_worth, 1e-9);
    if (found->is_exact) ++proven;
    double last = found->fixed_worth;
    for (const CrewOrders& orders : found->candidates) {
      const FixedValue value = evaluate_fixed(ride.task, ride.times, orders);
      ASSERT_TRUE(value.is_feasible) << value.why_not << " seed " << seed;
      EXPECT_LE(value.worth, last + 1e-12);
      last = value.worth;
    }
  }
  std::printf("500 rides: %zu proven optimal, %zu without any feasible orders\n", proven, impossible_rides);
  EXPECT_GT(impossible_rides, 0U);
}

TEST(SearchAgainstTrialOfAll, AgreesWithFlowWhenWorthAddsUp) {
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    Rng rng(Seed{seed});
    const SearchRide ride = small_ride(rng, 0);
    const MeetModel model(ride.task, ride.times, meet_times(ride.times));
    const std::vector<char> can_end(model.size(), 1);
    PathFlow flow;
    const double by_flow =
        flow.solve({model.size(), model.cars(), model.arcs().data(), model.starts().data(), can_end.data()});
    ASSERT_NEAR(by_flow, *TrialOfAll(ride).best(), 1e-9) << "seed " << seed;
    // The labels find the same when they may not use the flow: a penalty too small to matter makes them work.
    SearchRide touched = ride;
    touched.task.settings.gap_penalty = 1e-13;
    touched.task.settings.water_interval = Metres{0};
    const Solved by_labels = solve_orders(MeetModel(touched.task, touched.times, meet_times(touched.times)), Effort{});
    ASSERT_TRUE(by_labels.is_exact);
    ASSERT_NEAR(by_labels.worth, by_flow, 1e-9) << "seed " << seed;
  }
}

}  // namespace
}  // namespace outbye
