#include "core/stock/stock_advice.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "core/stock/stock_day.h"
#include "core/stock/stock_need.h"

namespace outbye {
namespace {

StockContainer added(StockKind kind, Portion amount, const StockSettings& settings) {
  StockContainer container;
  container.name = "added";
  container.holds = kind;
  container.capacity = in_litres(amount);
  if (kind == StockKind::ice) {
    container.capacity = {in_kilograms(amount).value / settings.ice_kg_per_litre};
    container.ice = in_kilograms(amount);
  }
  return container;
}

std::size_t good_with(const StockTask& task, const ByStockKind<Portion>& more, const std::vector<DayDraw>& days) {
  StockTask larger = task;
  for (std::size_t k = 0; k < stock_kind_count; ++k) {
    if (more[k] > Portion{0}) larger.containers.push_back(added(static_cast<StockKind>(k), more[k], task.settings));
  }
  return StockRun(larger).good_days(days);
}

// Lowers one kind to the least that still reaches the wanted days; `more` reaches them as it is.
void lower(const StockTask& task, std::size_t kind, ByStockKind<Portion>& more, const std::vector<DayDraw>& days,
           std::size_t wanted) {
  std::int64_t enough = more[kind].value;
  std::int64_t too_little = -1;
  while (enough - too_little > 1) {
    const std::int64_t middle = too_little + (enough - too_little) / 2;
    more[kind] = {middle};
    (good_with(task, more, days) >= wanted ? enough : too_little) = middle;
  }
  more[kind] = {enough};
}

// A size that is sold, or several of the largest.
void choose_size(StockPurchase& purchase, const std::vector<Litres>& sold) {
  if (purchase.kind == StockKind::ice || sold.empty()) return;
  for (const Litres size : sold) {
    if (portion_of(size) < purchase.least) continue;
    purchase.sold = size;
    return;
  }
  purchase.sold = sold.back();
  purchase.count = static_cast<std::size_t>(
      std::ceil(static_cast<double>(purchase.least.value) / static_cast<double>(portion_of(sold.back()).value)));
}

Portion bought(const StockPurchase& purchase) {
  if (!purchase.sold) return purchase.least;
  return {portion_of(*purchase.sold).value * static_cast<std::int64_t>(purchase.count)};
}

}  // namespace

std::size_t wanted_days(const StockSettings& settings, std::size_t days) {
  return static_cast<std::size_t>(std::ceil(settings.chance * static_cast<double>(days) - 1e-6));
}

std::vector<StockPurchase> what_to_buy(const StockTask& task, const std::vector<DayDraw>& days) {
  const std::size_t wanted = wanted_days(task.settings, days.size());
  const auto most = most_taken(task, days);
  ByStockKind<Portion> all{};
  for (std::size_t k = 0; k < stock_kind_count; ++k) all[number(holder_of(task, static_cast<StockKind>(k)))] += most[k];
  std::optional<ByStockKind<Portion>> best;
  std::int64_t least = 0;
  for (std::size_t k = 0; k < stock_kind_count; ++k) {
    ByStockKind<Portion> one{};
    one[k] = all[k];
    if (one[k] == Portion{0} || good_with(task, one, days) < wanted) continue;
    lower(task, k, one, days, wanted);
    if (best && least <= one[k].value) continue;
    best = one;
    least = one[k].value;
  }
  if (!best) {
    best = all;
    for (std::size_t k = 0; k < stock_kind_count; ++k) {
      if (all[k] > Portion{0}) lower(task, k, *best, days, wanted);
    }
  }
  std::vector<StockPurchase> purchases;
  ByStockKind<Portion> together{};
  for (std::size_t k = 0; k < stock_kind_count; ++k) {
    if ((*best)[k] == Portion{0}) continue;
    StockPurchase purchase;
    purchase.kind = static_cast<StockKind>(k);
    purchase.least = (*best)[k];
    choose_size(purchase, task.settings.sold);
    together[k] = bought(purchase);
    purchases.push_back(purchase);
  }
  const double chance =
      static_cast<double>(good_with(task, together, days)) / static_cast<double>(std::max<std::size_t>(1, days.size()));
  for (StockPurchase& purchase : purchases) purchase.chance = chance;
  return purchases;
}

std::vector<std::size_t> what_to_leave(const StockTask& task, const std::vector<DayDraw>& days) {
  std::vector<std::size_t> by_size(task.containers.size());
  std::iota(by_size.begin(), by_size.end(), std::size_t{0});
  std::stable_sort(by_size.begin(), by_size.end(), [&](std::size_t a, std::size_t b) {
    return task.containers[a].capacity > task.containers[b].capacity;
  });
  const std::size_t wanted = wanted_days(task.settings, days.size());
  StockTask smaller = task;
  std::vector<std::size_t> left;
  for (const std::size_t c : by_size) {
    // An empty one stands in for it, so that the others keep their numbers.
    StockContainer empty = task.containers[c];
    empty.capacity = {0.0};
    empty.start.reset();
    empty.ice.reset();
    std::swap(smaller.containers[c], empty);
    if (StockRun(smaller).good_days(days) >= wanted) {
      left.push_back(c);
    } else {
      std::swap(smaller.containers[c], empty);
    }
  }
  std::sort(left.begin(), left.end());
  return left;
}

}  // namespace outbye
