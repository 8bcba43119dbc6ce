#include "core/stock/stock_need.h"

#include <algorithm>

#include "core/stock/stock_day.h"

namespace outbye {
namespace {

bool has_container(const StockTask& task, StockKind kind) {
  return std::any_of(task.containers.begin(), task.containers.end(),
                     [&](const StockContainer& c) { return c.holds == kind; });
}

// In all boxes; one usual box when there is none yet.
Portion all_melt(const StockTask& task, const StockStop& stop) {
  Portion melted{0};
  for (const StockContainer& container : task.containers) {
    if (container.holds == StockKind::ice) melted += melt_before(stop, container);
  }
  return has_container(task, StockKind::ice) ? melted : melt_before(stop, StockContainer{});
}

// The holders are looked up once for a day's many stops.
ByStockKind<StockKind> holders(const StockTask& task) {
  ByStockKind<StockKind> all{};
  for (std::size_t k = 0; k < stock_kind_count; ++k) all[k] = holder_of(task, static_cast<StockKind>(k));
  return all;
}

void fill(const StockSettings& settings, Portion& budget, ByStockKind<Portion>& missing) {
  for (const StockKind kind : settings.order) {
    const Portion filled = std::min(budget, missing[number(kind)]);
    missing[number(kind)] -= filled;
    budget -= filled;
  }
}

}  // namespace

StockKind holder_of(const StockTask& task, StockKind use) {
  if (!is_plain(use)) return use;
  for (std::size_t k = number(use) + 1; k-- > 0;) {
    if (has_container(task, static_cast<StockKind>(k))) return static_cast<StockKind>(k);
  }
  return use;
}

ByStockKind<Portion> need_of_day(const StockTask& task, const DayDraw& day) {
  const auto holder = holders(task);
  ByStockKind<Portion> missing{};
  ByStockKind<Portion> need{};
  for (std::size_t s = 0; s < task.stops.size(); ++s) {
    const StockStop& stop = task.stops[s];
    missing[number(StockKind::ice)] += all_melt(task, stop);
    if (!day[s].happens) continue;
    Portion tap = stop.refill ? tap_total(*stop.refill) : Portion{0};
    if (stop.refill && stop.refill->has_ice) missing[number(StockKind::ice)] = {0};
    const auto serve = [&](StockKind use) {
      Portion taken = day[s].used[number(use)] + day[s].spilt[number(use)];
      const Portion straight = is_plain(use) ? std::min(taken, tap) : Portion{0};
      tap -= straight;
      taken -= straight;
      Portion offered = day[s].offered[number(use)];
      if (is_plain(use)) offered -= std::min(offered, tap);
      if (taken + offered == Portion{0}) return;
      const std::size_t h = number(holder[number(use)]);
      missing[h] += taken;
      need[h] = std::max(need[h], missing[h] + offered);
    };
    for (const StockKind use : task.settings.order) serve(use);
    serve(StockKind::ice);
    fill(task.settings, tap, missing);
  }
  return need;
}

ByStockKind<Portion> most_taken(const StockTask& task, const std::vector<DayDraw>& days) {
  Portion melted{0};
  for (const StockStop& stop : task.stops) melted += all_melt(task, stop) + melt_before(stop, StockContainer{});
  ByStockKind<Portion> most{};
  for (const DayDraw& day : days) {
    ByStockKind<Portion> taken{};
    for (const StopDraw& draw : day) {
      for (std::size_t k = 0; draw.happens && k < stock_kind_count; ++k)
        taken[k] += draw.used[k] + draw.spilt[k] + draw.offered[k];
    }
    for (std::size_t k = 0; k < stock_kind_count; ++k) most[k] = std::max(most[k], taken[k]);
  }
  Portion& ice = most[number(StockKind::ice)];
  if (ice > Portion{0}) ice += melted;
  return most;
}

std::vector<CarryLine> carry_lines(const StockTask& task, const std::vector<DayDraw>& days) {
  ByStockKind<std::vector<Portion>> needs;
  for (const DayDraw& day : days) {
    const auto need = need_of_day(task, day);
    for (std::size_t k = 0; k < stock_kind_count; ++k) needs[k].push_back(need[k]);
  }
  std::vector<CarryLine> lines;
  for (std::size_t k = 0; k < stock_kind_count; ++k) {
    std::sort(needs[k].begin(), needs[k].end());
    if (needs[k].empty() || needs[k].back() == Portion{0}) continue;
    CarryLine line;
    line.kind = static_cast<StockKind>(k);
    for (const StockContainer& container : task.containers) {
      if (container.holds == line.kind) line.capacity += full_of(container, task.settings);
    }
    lines.push_back(line);
  }
  // Half a day in a million against 0.05 * 2000 coming out as 99.999...
  const double dry_days = (1.0 - task.settings.chance) * static_cast<double>(days.size()) + 1e-6;
  for (CarryLine& line : lines) {
    const auto may_be_dry = static_cast<std::size_t>(dry_days / static_cast<double>(lines.size()));
    const auto& sorted = needs[number(line.kind)];
    line.carry = sorted[sorted.size() - 1 - std::min(may_be_dry, sorted.size() - 1)];
  }
  return lines;
}

}  // namespace outbye
