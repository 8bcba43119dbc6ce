// Invented rides for the tests and the benchmark of the search: loops as circles through a venue, crew points on them,
// roads 1.4 times the straight line at 45 km/h, horses one after another. All from a seed.
#pragma once

#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include "core/base/random.h"
#include "core/crewing/crewing_task.h"
#include "core/crewing/fixed_time.h"

namespace outbye {

struct SearchRide {
  CrewingTask task;
  FixedTimes times;
};

struct RideSize {
  std::size_t cars{1};
  std::size_t horses{1};
  std::size_t loops{4};
  std::size_t passes_per_loop{9};  // the gate or finish comes on top
  double loop_km{40.0};
};

inline double between(Rng& rng, double low, double high) { return low + (high - low) * uniform(rng); }

// One option a pass, gate and finish: horses x loops x (passes_per_loop + 1) of them.
inline SearchRide search_ride(Rng& rng, const RideSize& size) {
  constexpr double pi = 3.14159265358979323846;
  SearchRide ride;
  CrewingTask& task = ride.task;
  struct Spot {
    double x, y;
  };
  std::vector<Spot> spots{{0, 0}};  // km
  std::vector<std::string> names{"venue"};
  struct Stop {
    std::size_t loop, place;
    double along;  // km in the loop
  };
  std::vector<Stop> stops;
  for (std::size_t l = 0; l < size.loops; ++l) {
    const double heading = 2 * pi * (static_cast<double>(l) + between(rng, 0, 0.5)) / static_cast<double>(size.loops);
    const double radius = size.loop_km / (2 * pi);
    std::vector<double> alongs;
    for (std::size_t p = 0; p < size.passes_per_loop; ++p) {
      const double slot = size.loop_km / static_cast<double>(size.passes_per_loop + 1);
      alongs.push_back(slot * (static_cast<double>(p) + between(rng, 0.6, 1.4)));
    }
    for (const double along : alongs) {
      const double turn = heading + pi + 2 * pi * along / size.loop_km;
      const Spot spot{radius * (std::cos(heading) + std::cos(turn)), radius * (std::sin(heading) + std::sin(turn))};
      std::size_t place = spots.size();
      for (std::size_t s = 1; s < spots.size(); ++s) {  // a point near an older one is that point
        if (std::hypot(spots[s].x - spot.x, spots[s].y - spot.y) < 1.0) place = s;
      }
      if (place == spots.size()) {
        spots.push_back(spot);
        names.push_back("point " + std::to_string(place));
      }
      stops.push_back({l, place, along});
    }
    stops.push_back({l, 0, size.loop_km});
  }
  task.drives = DriveTable(names);
  for (std::uint32_t i = 0; i < spots.size(); ++i) {
    for (std::uint32_t j = 0; j < spots.size(); ++j) {
      if (i == j) continue;
      const double km = between(rng, 1.3, 1.5) * std::hypot(spots[i].x - spots[j].x, spots[i].y - spots[j].y) + 0.2;
      task.drives.set({i}, {j}, Drive{Seconds{80.0 * km}, kilometres(km)});
    }
  }
  double start = 0;
  for (std::uint32_t h = 0; h < size.horses; ++h) {
    HorseDays horse;
    double clock = start;
    start += between(rng, 120, 900);
    for (std::size_t s = 0; s < stops.size(); ++s) {
      const bool gate = stops[s].place == 0;
      const bool finish = s + 1 == stops.size();
      const double before = s > 0 && stops[s - 1].loop == stops[s].loop ? stops[s - 1].along : 0.0;
      clock += (stops[s].along - before) * between(rng, 260, 330);  // 11 to 14 km/h
      MeetOption option;
      option.label = "horse " + std::to_string(h + 1) + " at " + names[stops[s].place] + " loop " +
                     std::to_string(stops[s].loop + 1);
      option.horse = {h};
      option.event = s;
      option.kind = finish ? RideEvent::Kind::finish : gate ? RideEvent::Kind::gate : RideEvent::Kind::pass;
      option.place = {static_cast<std::uint32_t>(stops[s].place)};
      option.ride_along = kilometres(size.loop_km * static_cast<double>(stops[s].loop) + stops[s].along);
      option.worth = finish ? 2.0 : gate ? 3.0 : std::round(between(rng, 0.7, 1.3) * 100) / 100;
      option.water = {std::round(between(rng, 5, 15))};
      horse.events.push_back({option.kind, {static_cast<std::uint32_t>(stops[s].loop)}, {}, option.ride_along});
      ride.times.arrival.push_back(clock);
      if (!finish) clock += gate ? between(rng, 2400, 3000) : between(rng, 120, 300);
      ride.times.departure.push_back(clock);
      task.options.push_back(option);
    }
    task.horses.push_back(std::move(horse));
  }
  for (std::size_t c = 0; c < size.cars; ++c) {
    CrewCar car;
    car.name = "car " + std::to_string(c + 1);
    task.cars.push_back(car);
  }
  return ride;
}

}  // namespace outbye
