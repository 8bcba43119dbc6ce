// The simulated days of a stock: which stops happen and what each takes. Internal to core/stock.
#pragma once

#include <cstddef>
#include <vector>

#include "core/stock/stock.h"

namespace outbye {

struct StopDraw {
  bool happens{};
  ByStockKind<Portion> used;       // by the horse or in its bucket
  ByStockKind<Portion> spilt;      // on top
  ByStockKind<Portion> offered{};  // must be there beside what is used, and stays
};
using DayDraw = std::vector<StopDraw>;  // by stop

// The same draws whatever containers and taps there are: a tap of its own draws nothing.
DayDraw draw_day(const StockTask& task, std::size_t day);
std::vector<DayDraw> draw_days(const StockTask& task);

// What melts before a stop in one box, while there is ice in it.
Portion melt_before(const StockStop& stop, const StockContainer& box);
// What a tap gives in the time there is for it.
Portion tap_total(const StockRefill& refill);
// Whether a kind is plain water: used for what comes after it when that runs out.
constexpr bool is_plain(StockKind kind) { return kind <= StockKind::bottles; }

constexpr std::size_t number(StockKind kind) { return static_cast<std::size_t>(kind); }

}  // namespace outbye
