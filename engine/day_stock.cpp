#include "engine/day_stock.h"

#include <algorithm>

#include "core/base/text.h"
#include "core/stock/stock_day.h"
#include "engine/day.h"
#include "engine/day_names.h"

namespace outbye {
namespace {

constexpr double a_drop = 0.05;  // L or kg: less is rounding

double in_unit(StockKind kind, Portion portion) {
  return kind == StockKind::ice ? in_kilograms(portion).value : in_litres(portion).value;
}

std::vector<ContainerLeft> full_car(const CarStock& stock) {
  std::vector<ContainerLeft> all;
  for (const StockContainer& container : stock.task.containers) {
    ContainerLeft one;
    one.name = container.name;
    one.holds = container.holds;
    one.capacity = in_unit(container.holds, full_of(container, stock.task.settings));
    one.start = in_unit(container.holds, start_of(container, stock.task.settings));
    one.left = one.start;
    all.push_back(std::move(one));
  }
  return all;
}

// "water" is drinking water.
std::optional<StockKind> kind_named(const std::string& name) {
  if (same_name(trimmed(name), "water")) return StockKind::drinking;
  const auto kind = parse_stock_kind(name);
  return kind ? std::optional(*kind) : std::nullopt;
}

// The amount in the unit of what is held; nothing when it is in another kind of unit.
std::optional<double> amount_for(StockKind kind, const DayEntry& entry) {
  const bool is_ice = kind == StockKind::ice;
  if (!is_ice && entry.unit == "L") return *entry.amount;
  if (is_ice && entry.unit == "kg") return *entry.amount;
  if (is_ice && entry.unit == "g") return *entry.amount / 1000.0;
  return std::nullopt;
}

class Stock {
 public:
  Stock(const CarStock& stock, std::vector<DayTrouble>& troubles) : troubles_(troubles), containers_(full_car(stock)) {}

  void take(const StandingEntry& e) {
    std::vector<ContainerLeft*> from;
    for (ContainerLeft& container : containers_) {
      if (same_name(container.name, trimmed(e.entry.what))) from.push_back(&container);
    }
    if (from.empty()) {
      const auto kind = kind_named(e.entry.what);
      for (ContainerLeft& container : containers_) {
        if (kind && container.holds == *kind) from.push_back(&container);
      }
    }
    if (from.empty()) return;  // something else: counted in DayState::stock
    const auto amount = amount_for(from.front()->holds, e.entry);
    if (!amount) {
      troubles_.push_back({e.id, "is in " + e.entry.unit + ", but '" + e.entry.what + "' is counted in " +
                                     std::string(stock_kind_unit(from.front()->holds)) + "; correct the unit"});
      return;
    }
    e.entry.kind == DayKind::stock_used ? use(e, from, *amount) : fill(e, from, *amount);
  }

  std::vector<ContainerLeft> containers() { return std::move(containers_); }

 private:
  void use(const StandingEntry& e, const std::vector<ContainerLeft*>& from, double amount) {
    for (ContainerLeft* container : from) {
      const double taken = std::min(amount, container->left);
      container->used += taken;
      container->left -= taken;
      amount -= taken;
    }
    if (amount > a_drop) say(e, from, amount, "more than was left; note what was filled in, or correct the amount");
  }

  void fill(const StandingEntry& e, const std::vector<ContainerLeft*>& into, double amount) {
    for (ContainerLeft* container : into) {
      const double added = std::min(amount, container->capacity - container->left);
      container->filled += added;
      container->left += added;
      amount -= added;
    }
    if (amount > a_drop)
      say(e, into, amount, "more than there was room for; note what was used, or correct the amount");
  }

  void say(const StandingEntry& e, const std::vector<ContainerLeft*>& which, double amount, const std::string& what) {
    troubles_.push_back({e.id, "is " + fixed(amount, 1) + " " + std::string(stock_kind_unit(which.front()->holds)) +
                                   " of '" + e.entry.what + "' " + what});
  }

  std::vector<DayTrouble>& troubles_;
  std::vector<ContainerLeft> containers_;
};

std::vector<KindLeft> kinds_of(const RidePlan& plan, const CarStock& stock, const std::vector<char>& is_over,
                               const std::vector<ContainerLeft>& containers) {
  std::vector<KindLeft> kinds(stock_kind_count);
  for (std::size_t k = 0; k < stock_kind_count; ++k) kinds[k].kind = static_cast<StockKind>(k);
  for (const ContainerLeft& container : containers) {
    KindLeft& kind = kinds[static_cast<std::size_t>(container.holds)];
    kind.capacity += container.capacity;
    kind.left += container.left;
  }
  for (const StockStop& stop : stock.task.stops) {
    for (std::size_t o = 0; o < plan.task.options.size(); ++o) {
      if (plan.task.options[o].label != stop.label || is_over[o] != 0) continue;
      for (const StockDemand& demand : stop.water) {
        if (demand.is_only_offered) continue;
        kinds[static_cast<std::size_t>(demand.use)].to_come += demand.planned.value;
      }
      kinds[static_cast<std::size_t>(StockKind::ice)].to_come += stop.ice.planned.value;
    }
  }
  kinds.erase(
      std::remove_if(kinds.begin(), kinds.end(), [](const KindLeft& k) { return k.capacity <= 0 && k.to_come <= 0; }),
      kinds.end());
  return kinds;
}

}  // namespace

std::vector<CarStockLeft> stock_left(const RidePlan& plan, const std::vector<CarStock>& stocks, const DayState& state,
                                     const std::vector<char>& is_over, std::vector<DayTrouble>& troubles) {
  std::vector<CarStockLeft> all;
  const DayNames names(plan);
  for (const CarStock& stock : stocks) {
    Stock on_day(stock, troubles);
    for (const StandingEntry& e : state.stock_entries) {
      const auto car = names.car(e.entry.car);
      if (car && *car == stock.car) on_day.take(e);
    }
    CarStockLeft left;
    left.car = stock.car;
    left.containers = on_day.containers();
    left.kinds = kinds_of(plan, stock, is_over, left.containers);
    const bool has_ice = std::any_of(left.containers.begin(), left.containers.end(),
                                     [](const ContainerLeft& c) { return c.holds == StockKind::ice; });
    if (has_ice) left.notes.emplace_back("Ice that has melted is not counted: look into the box.");
    left.notes.emplace_back("Counted by what is noted as filled and used; what is spilt is not known.");
    all.push_back(std::move(left));
  }
  return all;
}

}  // namespace outbye
