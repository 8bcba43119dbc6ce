// Made-up stocks for tests.
#pragma once

#include <string>

#include "core/base/random.h"
#include "core/stock/stock.h"

namespace outbye {

inline double between(Rng& rng, double from, double to) { return from + (to - from) * uniform(rng); }

// Three cans and a bottle, four stops, a tap of 20 L at the second.
inline StockTask small_stock() {
  StockTask task;
  task.car = "Estate";
  task.containers = {{"blue can", StockKind::drinking, {25}},
                     {"grey can", StockKind::cooling, {20}},
                     {"slosh bottles", StockKind::bottles, {6}}};
  for (const char* name : {"CP1", "CP2", "CP3", "CP4"}) {
    StockStop stop;
    stop.label = name;
    stop.water = {{StockKind::drinking, {5}, 0.3}, {StockKind::cooling, {8}, 0.2}, {StockKind::bottles, {2}, 0.1}};
    stop.since_before = minutes(60);
    task.stops.push_back(stop);
  }
  task.stops[1].refill = StockRefill{10.0, minutes(2), false};
  task.settings.days = 1000;
  return task;
}

// Any plain-water stock, with electrolyte and ice on the side; containers of every kind, filled anyhow.
inline StockTask any_stock(Rng& rng) {
  StockTask task;
  const auto containers = 1 + uniform_below(rng, 7);
  for (std::uint64_t c = 0; c < containers; ++c) {
    StockContainer container;
    container.name = "container " + std::to_string(c);
    container.holds = static_cast<StockKind>(uniform_below(rng, stock_kind_count));
    container.capacity = {between(rng, 1.0, 40.0)};
    container.leak_w_per_k = between(rng, 0.3, 1.5);
    const double share = uniform(rng);
    if (uniform(rng) < 0.5 && container.holds != StockKind::ice) container.start = share * container.capacity;
    task.containers.push_back(container);
  }
  const auto stops = 1 + uniform_below(rng, 10);
  for (std::uint64_t s = 0; s < stops; ++s) {
    StockStop stop;
    stop.label = "stop " + std::to_string(s);
    stop.chance = uniform(rng) < 0.5 ? 1.0 : between(rng, 0.3, 1.0);
    for (const StockKind use : {StockKind::cooling, StockKind::drinking, StockKind::electrolyte, StockKind::bottles}) {
      if (uniform(rng) < 0.3) continue;
      const double litres = between(rng, 0.0, 12.0);
      stop.water.push_back({use, {litres}, between(rng, 0.0, 0.6), uniform(rng) < 0.2});
    }
    if (uniform(rng) < 0.3) stop.ice = {{between(rng, 0.0, 3.0)}, 0.2};
    if (uniform(rng) < 0.3) {
      const double rate = between(rng, 2.0, 20.0);
      const double time = between(rng, 0.0, 6.0);
      stop.refill = StockRefill{rate, minutes(time), uniform(rng) < 0.3};
    }
    stop.since_before = minutes(between(rng, 0.0, 120.0));
    stop.air = {between(rng, -5.0, 35.0)};
    task.stops.push_back(stop);
  }
  task.settings.days = 100;
  task.settings.seed = {rng.next()};
  task.settings.spill = between(rng, 0.0, 0.2);
  return task;
}

}  // namespace outbye
