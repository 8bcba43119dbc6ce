// Random rides for the tests of valuing, checking and planning: small, odd and feasible.
#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "core/crewing/crewing_task.h"

namespace outbye {

struct RideShape {
  std::size_t days{64};
  double spread{1.0};  // of arrivals, stands and drives; 0: every day is the same
  std::size_t horses{1};
  std::size_t cars{1};
  std::size_t loops{3};
  std::size_t passes{4};  // a loop
  std::size_t places{6};
  bool has_limits{false};  // opening hours, wishes, water, breaks, ways home
};

// Places strewn over 16 km square; a drive is 1.4 times as long as the straight line, at 45 km/h, and never longer
// than by way of a third place.
inline DriveTable any_drives(Rng& rng, std::size_t places) {
  std::vector<std::string> names;
  std::vector<double> x;
  std::vector<double> y;
  for (std::size_t i = 0; i < places; ++i) {
    names.push_back("place " + std::to_string(i));
    x.push_back(16000.0 * uniform(rng));
    y.push_back(16000.0 * uniform(rng));
  }
  DriveTable table(names);
  std::vector<double> metres(places * places);
  for (std::size_t i = 0; i < places; ++i) {
    for (std::size_t j = 0; j < places; ++j) {
      const double detour = i == j ? 0.0 : 1.2 + 0.6 * uniform(rng);
      metres[i * places + j] = detour * std::hypot(x[i] - x[j], y[i] - y[j]);
    }
  }
  for (std::size_t k = 0; k < places; ++k) {
    for (std::size_t i = 0; i < places; ++i) {
      for (std::size_t j = 0; j < places; ++j)
        metres[i * places + j] = std::min(metres[i * places + j], metres[i * places + k] + metres[k * places + j]);
    }
  }
  for (std::uint32_t i = 0; i < places; ++i) {
    for (std::uint32_t j = 0; j < places; ++j) {
      const Metres length{metres[i * places + j]};
      table.set({i}, {j}, Drive{length / KmPerHour{45.0}, length});
    }
  }
  return table;
}

inline HorseDays any_horse(Rng& rng, const RideShape& shape, Instant start) {
  HorseDays horse;
  horse.origin = start;
  horse.days = shape.days;
  std::uint32_t pass = 0;
  double along = 0;
  for (std::uint32_t l = 0; l < shape.loops; ++l) {
    for (std::size_t p = 0; p <= shape.passes; ++p) {
      along += 3000.0 + 6000.0 * uniform(rng);
      const bool ends = p == shape.passes;
      RideEvent event;
      event.kind = !ends                  ? RideEvent::Kind::pass
                   : l + 1 == shape.loops ? RideEvent::Kind::finish
                                          : RideEvent::Kind::gate;
      event.loop = {l};
      if (!ends) event.pass = PassId{pass++};
      event.ride_along = Metres{along};
      horse.events.push_back(event);
    }
  }
  const std::size_t events = horse.events.size();
  horse.base.resize(events * shape.days);
  horse.stand.resize(events * shape.days);
  horse.in_time.resize(events * shape.days);
  for (std::size_t d = 0; d < shape.days; ++d) {
    const double ride = std::exp(0.08 * shape.spread * standard_normal(rng));
    double clock = 0;
    double last = 0;
    for (std::size_t e = 0; e < events; ++e) {
      const RideEvent& event = horse.events[e];
      const double km = in_kilometres(event.ride_along) - last;
      last = in_kilometres(event.ride_along);
      clock += km * 300.0 * ride * std::exp(0.06 * shape.spread * standard_normal(rng));  // 12 km/h
      const std::size_t at = e * shape.days + d;
      horse.base[at] = clock;
      const double recovery = 360.0 * std::exp(0.35 * shape.spread * standard_normal(rng));
      if (event.kind == RideEvent::Kind::pass) {
        horse.stand[at] = 180.0 * std::exp(0.35 * shape.spread * standard_normal(rng));
      } else {
        horse.in_time[at] = recovery;
        horse.stand[at] = event.kind == RideEvent::Kind::gate ? recovery + 2400.0 : 0.0;
        clock += horse.stand[at];
      }
    }
  }
  return horse;
}

inline void add_limits(Rng& rng, CrewingTask& task) {
  const Instant start = task.horses.front().origin;
  for (MeetOption& option : task.options) {
    const double kind = uniform(rng);
    if (kind < 0.05) option.demand = MeetOption::Demand::never;
    if (kind > 0.9) option.only_car = CarId{static_cast<std::uint32_t>(uniform_below(rng, task.cars.size()))};
    const double from = 3600.0 * 8.0 * uniform(rng);
    if (uniform(rng) < 0.15) option.open = {{start + Seconds{from}, start + Seconds{from + 7200.0}}};
    option.water = Litres{10.0};
    option.has_water = uniform(rng) < 0.1;
  }
  for (CrewCar& car : task.cars) {
    if (uniform(rng) < 0.5) car.water_capacity = Litres{20.0 + 40.0 * uniform(rng)};
    if (uniform(rng) < 0.5) car.fuel_range = kilometres(60.0 + 100.0 * uniform(rng));
    if (uniform(rng) < 0.3) {
      car.end = PlaceId{0};
      car.back_by = start + Seconds{3600.0 * (8.0 + 8.0 * uniform(rng))};
    }
    car.longest_driving = minutes(50.0 + 70.0 * uniform(rng));
  }
  RefillPlace tap;
  tap.label = "tap";
  tap.place = PlaceId{0};
  tap.water = true;
  tap.fuel = true;
  task.refills.push_back(tap);
}

inline CrewingTask any_crewing_task(Rng& rng, const RideShape& shape) {
  CrewingTask task;
  const Instant start{Seconds{1781330400.0}};  // 2026-06-13 06:00 UTC
  task.drives = any_drives(rng, shape.places);
  std::vector<std::uint32_t> place_of_pass;
  for (std::size_t p = 0; p < shape.passes; ++p)
    place_of_pass.push_back(static_cast<std::uint32_t>(uniform_below(rng, shape.places)));
  for (std::uint32_t h = 0; h < shape.horses; ++h) {
    task.horses.push_back(any_horse(rng, shape, start + Seconds{600.0 * h}));
    const std::vector<RideEvent>& events = task.horses.back().events;
    std::size_t nth = 0;
    for (std::size_t e = 0; e < events.size(); ++e) {
      const bool is_pass = events[e].kind == RideEvent::Kind::pass;
      MeetOption option;
      option.horse = {h};
      option.event = e;
      option.kind = events[e].kind;
      option.place = is_pass ? PlaceId{place_of_pass[nth % shape.passes]} : PlaceId{0};
      option.label = "horse " + std::to_string(h) + " event " + std::to_string(e);
      option.ride_along = events[e].ride_along;
      option.setup = minutes(2.0 + 4.0 * uniform(rng));
      option.pack = minutes(1.0 + 4.0 * uniform(rng));
      option.worth = is_pass ? 0.5 + uniform(rng) : 3.0;
      nth += is_pass ? 1 : 0;
      if (!is_pass) nth = 0;
      if (uniform(rng) < 0.9) task.options.push_back(option);
    }
  }
  for (std::size_t c = 0; c < shape.cars; ++c) {
    CrewCar car;
    car.name = "car " + std::to_string(c);
    car.start = PlaceId{static_cast<std::uint32_t>(uniform_below(rng, shape.places))};
    car.ready_from = start - Seconds{3600.0 * uniform(rng)};
    car.longest_driving = Seconds{0};
    task.cars.push_back(car);
  }
  if (shape.spread <= 0) task.settings.drive_log_sd = 0;
  task.seed = Seed{rng.next()};
  if (shape.has_limits) add_limits(rng, task);
  return task;
}

}  // namespace outbye
