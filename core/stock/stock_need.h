// How much must be carried. Internal to core/stock.
#pragma once

#include <optional>
#include <vector>

#include "core/stock/stock.h"
#include "core/stock/stock_draws.h"

namespace outbye {

// The kind whose containers a use lives from: its own, else the plain water that stands before it, else its own.
StockKind holder_of(const StockTask& task, StockKind use);

// The most that was ever missing from each kind on one day, when all set out full and are filled to the same level at
// each tap: a level of that or more is never dry. Each kind lives from its own.
ByStockKind<Portion> need_of_day(const StockTask& task, const DayDraw& day);

// What a whole day takes of each kind, taps apart: the most over the days, melting included.
ByStockKind<Portion> most_taken(const StockTask& task, const std::vector<DayDraw>& days);

// The level of each kind that is used. With m kinds each may be dry on 1/m of the days that may be dry, so that all
// together hold the wanted chance on these days whichever days those are. A little more than the least there is, and
// in return it never falls when a day asks for more nor rises when a tap is added.
std::vector<CarryLine> carry_lines(const StockTask& task, const std::vector<DayDraw>& days);

}  // namespace outbye
