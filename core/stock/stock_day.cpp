#include "core/stock/stock_day.h"

#include <algorithm>

namespace outbye {
namespace {

StockEntry::Kind way_of(StockKind use) {
  const bool is_drunk = use == StockKind::drinking || use == StockKind::electrolyte;
  return is_drunk ? StockEntry::Kind::drunk : StockEntry::Kind::poured;
}

void tell(const DayWatch& watch, StockEntry::Kind kind, std::size_t stop, std::optional<std::size_t> container,
          Portion amount) {
  if (watch.entry && amount > Portion{0}) watch.entry({kind, stop, container, amount});
}

}  // namespace

Portion full_of(const StockContainer& container, const StockSettings& settings) {
  if (container.holds != StockKind::ice) return portion_of(container.capacity);
  return portion_of(Kilograms{container.capacity.value * settings.ice_kg_per_litre});
}

Portion start_of(const StockContainer& container, const StockSettings& settings) {
  if (container.holds == StockKind::ice) {
    return container.ice ? portion_of(*container.ice) : full_of(container, settings);
  }
  return container.start ? portion_of(*container.start) : full_of(container, settings);
}

StockRun::StockRun(const StockTask& task) : task_(task) {
  for (std::size_t c = 0; c < task.containers.size(); ++c) {
    full_.push_back(full_of(task.containers[c], task.settings));
    start_.push_back(start_of(task.containers[c], task.settings));
    own_[number(task.containers[c].holds)].push_back(c);
  }
  from_ = own_;
  // Plain water: first its own, then what stands next before it.
  for (const StockKind use : {StockKind::cooling, StockKind::bottles}) {
    const auto before = from_[number(use) - 1];
    auto& from = from_[number(use)];
    from.insert(from.end(), before.begin(), before.end());
  }
}

void StockRun::refill(std::size_t stop, Portion& budget, const DayWatch& watch) {
  for (const StockKind kind : task_.settings.order) {
    for (const std::size_t c : own_[number(kind)]) {
      const Portion filled = std::min(budget, full_[c] - level_[c]);
      level_[c] += filled;
      budget -= filled;
      tell(watch, StockEntry::Kind::filled, stop, c, filled);
    }
  }
}

bool StockRun::serve(std::size_t stop, StockKind use, const StopDraw& draw, Portion& tap, const DayWatch& watch) {
  Portion used_to_go = draw.used[number(use)];
  Portion spilt_to_go = draw.spilt[number(use)];
  Portion offered_to_go = draw.offered[number(use)];
  // From the tap before any container, so that what a container holds never changes what a tap can give.
  if (is_plain(use) && tap > Portion{0}) {
    const Portion used = std::min(used_to_go, tap);
    const Portion spilt = std::min(spilt_to_go, tap - used);
    used_to_go -= used;
    spilt_to_go -= spilt;
    tap -= used + spilt;
    tell(watch, StockEntry::Kind::filled, stop, std::nullopt, used + spilt);
    tell(watch, way_of(use), stop, std::nullopt, used);
    tell(watch, StockEntry::Kind::spilt, stop, std::nullopt, spilt);
  }
  for (const std::size_t c : from_[number(use)]) {
    const Portion used = std::min(used_to_go, level_[c]);
    level_[c] -= used;
    used_to_go -= used;
    const Portion spilt = std::min(spilt_to_go, level_[c]);
    level_[c] -= spilt;
    spilt_to_go -= spilt;
    offered_to_go -= std::min(offered_to_go, level_[c]);
    tell(watch, way_of(use), stop, c, used);
    tell(watch, StockEntry::Kind::spilt, stop, c, spilt);
  }
  if (is_plain(use)) offered_to_go -= std::min(offered_to_go, tap);
  const Portion missing = used_to_go + spilt_to_go + offered_to_go;
  if (missing == Portion{0}) return true;
  if (watch.shortage) watch.shortage({stop, use, missing});
  return false;
}

void StockRun::melt(std::size_t stop, const DayWatch& watch) {
  for (const std::size_t c : own_[number(StockKind::ice)]) {
    const Portion melted = std::min(level_[c], melt_before(task_.stops[stop], task_.containers[c]));
    level_[c] -= melted;
    tell(watch, StockEntry::Kind::melted, stop, c, melted);
  }
}

bool StockRun::run(const DayDraw& day, const DayWatch& watch) {
  level_ = start_;
  bool is_good = true;
  for (std::size_t s = 0; s < task_.stops.size(); ++s) {
    const StockStop& stop = task_.stops[s];
    melt(s, watch);
    bool hurried = false;
    if (day[s].happens) {
      Portion tap = stop.refill ? tap_total(*stop.refill) : Portion{0};
      if (stop.refill && stop.refill->has_ice) {
        for (const std::size_t c : own_[number(StockKind::ice)]) {
          tell(watch, StockEntry::Kind::filled, s, c, full_[c] - level_[c]);
          level_[c] = full_[c];
        }
      }
      for (const StockKind use : task_.settings.order) is_good &= serve(s, use, day[s], tap, watch);
      is_good &= serve(s, StockKind::ice, day[s], tap, watch);
      if (stop.refill) {
        refill(s, tap, watch);
        for (const StockKind kind : task_.settings.order) {
          for (const std::size_t c : own_[number(kind)]) hurried |= level_[c] < full_[c];
        }
      }
    }
    if (watch.after) watch.after(s, level_, hurried);
  }
  return is_good;
}

std::size_t StockRun::good_days(const std::vector<DayDraw>& days) {
  std::size_t good = 0;
  for (const DayDraw& day : days) good += run(day) ? 1U : 0U;
  return good;
}

Result<StockDay> simulate_stock_day(const StockTask& task, std::size_t day) {
  if (const auto checked = check_stock_task(task); !checked) return tl::unexpected(checked.error());
  StockDay result;
  DayWatch watch;
  const auto is_ice = [&](std::optional<std::size_t> c) { return c && task.containers[*c].holds == StockKind::ice; };
  watch.entry = [&](const StockEntry& entry) {
    result.entries.push_back(entry);
    const bool ice = is_ice(entry.container);
    switch (entry.kind) {
      case StockEntry::Kind::filled:
        (ice ? result.ice.bought : result.water.filled) += entry.amount;
        break;
      case StockEntry::Kind::drunk:
        result.water.drunk += entry.amount;
        break;
      case StockEntry::Kind::poured:
        (ice ? result.ice.used : result.water.poured) += entry.amount;
        break;
      case StockEntry::Kind::spilt:
        result.water.spilt += entry.amount;
        break;
      case StockEntry::Kind::melted:
        result.ice.melted += entry.amount;
        break;
    }
  };
  watch.shortage = [&](const StockShortage& shortage) { result.shortages.push_back(shortage); };
  StockRun run(task);
  run.run(draw_day(task, day), watch);
  result.left = run.level();
  for (std::size_t c = 0; c < task.containers.size(); ++c) {
    (is_ice(c) ? result.ice.start : result.water.start) += start_of(task.containers[c], task.settings);
    (is_ice(c) ? result.ice.left : result.water.left) += result.left[c];
  }
  return result;
}

}  // namespace outbye
