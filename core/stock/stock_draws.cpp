#include "core/stock/stock_draws.h"

#include <cmath>

#include "core/base/water_physics.h"

namespace outbye {
namespace {

// Neighbouring days and seeds get engines that have nothing to do with one another: splitmix64's finisher
// (Steele, Lea and Flood, OOPSLA 2014).
Seed seed_of_day(Seed seed, std::size_t day) {
  std::uint64_t x = seed.value * 0x9e3779b97f4a7c15ULL + static_cast<std::uint64_t>(day) + 1;
  x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9ULL;
  x = (x ^ (x >> 27)) * 0x94d049bb133111ebULL;
  return {x ^ (x >> 31)};
}

Portion thousandths(double amount) { return {std::llround(1000.0 * amount)}; }

bool draw_happens(const StockStop& stop, std::size_t day, Rng& rng) {
  if (!stop.by_day.empty()) return stop.by_day[day % stop.by_day.size()] != 0;
  if (stop.chance >= 1.0) return true;  // nothing drawn: adding a tap must leave the other stops' draws alone
  return uniform(rng) < stop.chance;
}

}  // namespace

DayDraw draw_day(const StockTask& task, std::size_t day) {
  Rng rng(seed_of_day(task.settings.seed, day));
  const double whole_day = lognormal(rng, 1.0, task.settings.day_log_sd);
  DayDraw draws(task.stops.size());
  for (std::size_t s = 0; s < draws.size(); ++s) {
    const StockStop& stop = task.stops[s];
    draws[s].happens = draw_happens(stop, day, rng);
    for (const StockDemand& demand : stop.water) {
      const double factor = whole_day * lognormal(rng, 1.0, demand.log_sd);
      const Portion used = thousandths(demand.planned.value * factor);
      (demand.is_only_offered ? draws[s].offered : draws[s].used)[number(demand.use)] += used;
      draws[s].spilt[number(demand.use)] += {std::llround(static_cast<double>(used.value) * task.settings.spill)};
    }
    if (stop.ice.planned.value > 0.0) {
      const double factor = whole_day * lognormal(rng, 1.0, stop.ice.log_sd);
      draws[s].used[number(StockKind::ice)] = thousandths(stop.ice.planned.value * factor);
    }
  }
  return draws;
}

std::vector<DayDraw> draw_days(const StockTask& task) {
  std::vector<DayDraw> days;
  days.reserve(task.settings.days);
  for (std::size_t d = 0; d < task.settings.days; ++d) days.push_back(draw_day(task, d));
  return days;
}

Portion melt_before(const StockStop& stop, const StockContainer& box) {
  return thousandths(ice_melted({box.leak_w_per_k}, stop.air.value, stop.since_before).value);
}

Portion tap_total(const StockRefill& refill) {
  return {static_cast<std::int64_t>(1000.0 * refill.litres_per_minute * in_minutes(refill.time))};
}

}  // namespace outbye
