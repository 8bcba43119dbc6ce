#include <algorithm>
#include <cmath>
#include <utility>

#include "core/stock/stock.h"
#include "core/stock/stock_advice.h"
#include "core/stock/stock_day.h"
#include "core/stock/stock_draws.h"
#include "core/stock/stock_need.h"

namespace outbye {
namespace {

// The smallest value that at least this share of them does not exceed. Sorts.
Portion quantile(std::vector<Portion>& values, double share) {
  if (values.empty()) return {0};
  std::sort(values.begin(), values.end());
  const double rank = std::ceil(share * static_cast<double>(values.size()) - 1e-6);
  return values[static_cast<std::size_t>(std::clamp(rank, 1.0, static_cast<double>(values.size()))) - 1];
}

struct StopCounts {
  std::size_t happens{};
  std::size_t dry{};
  std::size_t hurried{};
  ByStockKind<std::size_t> dry_of{};
  std::vector<Portion> after;
  std::vector<std::vector<Portion>>
      filled;  // by container and last straight, of the days on which it happens; only at taps
};

// Watches all days and counts.
class Counter {
 public:
  explicit Counter(const StockTask& task) : task_(task), stops_(task.stops.size()) {
    for (std::size_t s = 0; s < stops_.size(); ++s) {
      if (task.stops[s].refill) stops_[s].filled.resize(task.containers.size() + 1);
    }
  }

  void run(const std::vector<DayDraw>& days) {
    StockRun stock(task_);
    DayWatch watch;
    std::vector<Portion> filled(task_.containers.size() + 1);
    const DayDraw* today{};
    ByStockKind<bool> short_today{};
    ByStockKind<bool> short_here{};
    watch.entry = [&](const StockEntry& entry) {
      if (entry.kind == StockEntry::Kind::filled)
        filled[entry.container.value_or(task_.containers.size())] += entry.amount;
      add(entry);
    };
    watch.shortage = [&](const StockShortage& shortage) { short_here[number(shortage.use)] = true; };
    watch.after = [&](std::size_t s, const std::vector<Portion>& level, bool hurried) {
      StopCounts& counts = stops_[s];
      counts.after.push_back(water(level));
      counts.hurried += hurried ? 1U : 0U;
      if ((*today)[s].happens) {
        ++counts.happens;
        for (std::size_t c = 0; c < counts.filled.size(); ++c) counts.filled[c].push_back(filled[c]);
      }
      bool is_dry = false;
      for (std::size_t k = 0; k < stock_kind_count; ++k) {
        if (!short_here[k]) continue;
        is_dry = true;
        ++counts.dry_of[k];
        short_today[k] = true;
      }
      counts.dry += is_dry ? 1U : 0U;
      short_here = {};
      std::fill(filled.begin(), filled.end(), Portion{0});
    };
    for (const DayDraw& day : days) {
      today = &day;
      short_today = {};
      good_ += stock.run(day, watch) ? 1U : 0U;
      for (std::size_t k = 0; k < stock_kind_count; ++k) dry_of_[k] += short_today[k] ? 1U : 0U;
      sum_.left += water(stock.level());
    }
    days_ = days.size();
    for (const StockContainer& container : task_.containers) {
      if (container.holds != StockKind::ice) sum_.start += start_of(container, task_.settings);
    }
    sum_.start = {sum_.start.value * static_cast<std::int64_t>(days_)};
  }

  void tell(StockAnswer& answer) {
    answer.chance = share(good_);
    answer.standard_error = std::sqrt(answer.chance * (1.0 - answer.chance) / static_cast<double>(days_));
    answer.holds = good_ >= wanted_days(task_.settings, days_);
    for (std::size_t k = 0; k < stock_kind_count; ++k) answer.dry_of[k] = share(dry_of_[k]);
    for (std::size_t s = 0; s < stops_.size(); ++s) {
      StopStock stop;
      stop.label = task_.stops[s].label;
      stop.happens = share(stops_[s].happens);
      stop.dry = share(stops_[s].dry);
      for (std::size_t k = 0; k < stock_kind_count; ++k) stop.dry_of[k] = share(stops_[s].dry_of[k]);
      stop.water_after = quantile(stops_[s].after, 1.0 - task_.settings.chance);
      answer.stops.push_back(std::move(stop));
      tell_refills(s, answer);
    }
    answer.weakest = weakest(answer.stops);
    for (const auto part : {&WaterLedger::start, &WaterLedger::filled, &WaterLedger::drunk, &WaterLedger::poured,
                            &WaterLedger::spilt, &WaterLedger::left}) {
      (answer.mean.*part).value = std::llround(static_cast<double>((sum_.*part).value) / static_cast<double>(days_));
    }
  }

 private:
  double share(std::size_t count) const { return static_cast<double>(count) / static_cast<double>(days_); }

  Portion water(const std::vector<Portion>& level) const {
    Portion all{0};
    for (std::size_t c = 0; c < level.size(); ++c) {
      if (task_.containers[c].holds != StockKind::ice) all += level[c];
    }
    return all;
  }

  void add(const StockEntry& entry) {
    if (entry.container && task_.containers[*entry.container].holds == StockKind::ice) return;
    switch (entry.kind) {
      case StockEntry::Kind::filled:
        sum_.filled += entry.amount;
        break;
      case StockEntry::Kind::drunk:
        sum_.drunk += entry.amount;
        break;
      case StockEntry::Kind::poured:
        sum_.poured += entry.amount;
        break;
      case StockEntry::Kind::spilt:
        sum_.spilt += entry.amount;
        break;
      case StockEntry::Kind::melted:
        break;
    }
  }

  void tell_refills(std::size_t s, StockAnswer& answer) {
    StopCounts& counts = stops_[s];
    if (counts.filled.empty() || counts.happens == 0) return;
    const double rate = task_.stops[s].refill->litres_per_minute;
    const auto add_line = [&](std::size_t slot, std::optional<std::size_t> container, bool is_ice) {
      RefillLine line{s,
                      container,
                      quantile(counts.filled[slot], 0.5),
                      quantile(counts.filled[slot], task_.settings.chance),
                      {},
                      share(counts.hurried)};
      if (!is_ice && rate > 0.0) line.time = minutes(in_litres(line.high).value / rate);
      if (line.high > Portion{0}) answer.refills.push_back(line);
    };
    add_line(task_.containers.size(), std::nullopt, false);
    const auto add_kind = [&](StockKind kind) {
      for (std::size_t c = 0; c < task_.containers.size(); ++c) {
        if (task_.containers[c].holds == kind) add_line(c, c, kind == StockKind::ice);
      }
    };
    for (const StockKind kind : task_.settings.order) add_kind(kind);
    add_kind(StockKind::ice);
  }

  // The driest; when none is ever dry, the one with the least water left after it.
  static std::optional<std::size_t> weakest(const std::vector<StopStock>& stops) {
    std::optional<std::size_t> weak;
    for (std::size_t s = 0; s < stops.size(); ++s) {
      if (stops[s].happens <= 0.0) continue;
      if (!weak || stops[s].dry > stops[*weak].dry ||
          (stops[s].dry == stops[*weak].dry && stops[s].water_after < stops[*weak].water_after))
        weak = s;
    }
    return weak;
  }

  const StockTask& task_;
  std::vector<StopCounts> stops_;
  ByStockKind<std::size_t> dry_of_{};
  std::size_t good_{};
  std::size_t days_{};
  WaterLedger sum_;
};

}  // namespace

Result<StockAnswer> work_out_stock(const StockTask& task) {
  if (const auto checked = check_stock_task(task); !checked) return tl::unexpected(checked.error());
  const std::vector<DayDraw> days = draw_days(task);
  StockAnswer answer;
  Counter counter(task);
  counter.run(days);
  counter.tell(answer);
  answer.carry = carry_lines(task, days);
  if (answer.holds) {
    answer.leave_at_home = what_to_leave(task, days);
  } else {
    answer.buy = what_to_buy(task, days);
  }
  answer.assumptions = task.assumptions;
  return answer;
}

}  // namespace outbye
