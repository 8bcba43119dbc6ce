// Runs one drawn day through the containers. Internal to core/stock.
#pragma once

#include <cstddef>
#include <functional>
#include <vector>

#include "core/stock/stock.h"
#include "core/stock/stock_draws.h"

namespace outbye {

// What a container holds when it is full, and at the start: litres, or kilograms of ice.
Portion full_of(const StockContainer& container, const StockSettings& settings);
Portion start_of(const StockContainer& container, const StockSettings& settings);

struct DayWatch {  // any of them may be empty
  std::function<void(const StockEntry&)> entry;
  std::function<void(const StockShortage&)> shortage;
  // After each stop, whether it happened or not: what is in each container, and whether a tap's time was up before all
  // was full.
  std::function<void(std::size_t stop, const std::vector<Portion>& level, bool hurried)> after;
};

// The containers, sorted once for many days.
class StockRun {
 public:
  explicit StockRun(const StockTask& task);
  // True when nothing was short.
  bool run(const DayDraw& day, const DayWatch& watch = {});
  // True when nothing was short on so many of the days.
  std::size_t good_days(const std::vector<DayDraw>& days);

  const std::vector<Portion>& level() const { return level_; }

 private:
  void refill(std::size_t stop, Portion& budget, const DayWatch& watch);
  bool serve(std::size_t stop, StockKind use, const StopDraw& draw, Portion& tap, const DayWatch& watch);
  void melt(std::size_t stop, const DayWatch& watch);

  const StockTask& task_;
  std::vector<Portion> full_;
  std::vector<Portion> start_;
  std::vector<Portion> level_;
  ByStockKind<std::vector<std::size_t>> own_;   // containers of each kind
  ByStockKind<std::vector<std::size_t>> from_;  // containers each use draws from, in turn
};

}  // namespace outbye
