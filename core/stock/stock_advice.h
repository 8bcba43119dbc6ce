// Which container to buy and which to leave at home. Internal to core/stock.
#pragma once

#include <cstddef>
#include <vector>

#include "core/stock/stock.h"
#include "core/stock/stock_draws.h"

namespace outbye {

// So many of `days` days without a dry stop are enough.
std::size_t wanted_days(const StockSettings& settings, std::size_t days);

// The least addition that reaches the chance: of one kind, if one is enough (the smallest of those); else of several,
// of which none could be smaller. Asked when the chance is not reached.
std::vector<StockPurchase> what_to_buy(const StockTask& task, const std::vector<DayDraw>& days);

// Containers that can all stay at home together: the largest are tried first. Asked when the chance is reached.
std::vector<std::size_t> what_to_leave(const StockTask& task, const std::vector<DayDraw>& days);

}  // namespace outbye
