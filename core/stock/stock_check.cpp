#include <algorithm>
#include <cmath>
#include <string>

#include "core/base/text.h"
#include "core/stock/stock.h"
#include "core/stock/stock_draws.h"

namespace outbye {
namespace {

constexpr ByStockKind<std::string_view> kind_names{"drinking water", "cooling water", "bottles", "electrolyte drink",
                                                   "ice"};

bool is_within(double value, double from, double to) { return value >= from && value <= to; }  // false for NaN

Result<void> check_container(const StockContainer& container, const StockSettings& settings) {
  const std::string where = "container '" + container.name + "'";
  if (!is_within(container.capacity.value, 0.0, 5000.0))
    return bad_input(where, "holds " + fixed(container.capacity.value, 1) + " L; give a capacity of 0 to 5000 L");
  if (container.holds == StockKind::ice) {
    const double most = container.capacity.value * settings.ice_kg_per_litre;
    if (container.start) return bad_input(where, "is an ice box: give its ice in kg, not litres of water");
    if (container.ice && !is_within(container.ice->value, 0.0, most + 1e-9))
      return bad_input(where, "starts with " + fixed(container.ice->value, 1) + " kg of ice; it holds 0 to " +
                                  fixed(most, 1) + " kg");
    if (!is_within(container.leak_w_per_k, 0.0, 100.0))
      return bad_input(where, "leaks heat outside 0 to 100 W/K; 0.3 to 1.5 is usual");
    return {};
  }
  if (container.ice) return bad_input(where, "holds water: ice goes into a container that holds ice");
  if (container.start && !is_within(container.start->value, 0.0, container.capacity.value))
    return bad_input(where, "starts with " + fixed(container.start->value, 1) + " L; it holds 0 to " +
                                fixed(container.capacity.value, 1) + " L");
  return {};
}

Result<void> check_stop(const StockStop& stop) {
  const std::string where = "stop '" + stop.label + "'";
  if (!is_within(stop.chance, 0.0, 1.0)) return bad_input(where, "has a chance outside 0 to 1");
  for (const StockDemand& demand : stop.water) {
    if (demand.use == StockKind::ice) return bad_input(where, "takes ice as water; give it in kg");
    if (!is_within(demand.planned.value, 0.0, 2000.0))
      return bad_input(where, "takes " + fixed(demand.planned.value, 1) + " L of " +
                                  std::string(stock_kind_name(demand.use)) + "; give 0 to 2000 L");
    if (!is_within(demand.log_sd, 0.0, 2.0)) return bad_input(where, "has a spread outside 0 to 2");
  }
  if (!is_within(stop.ice.planned.value, 0.0, 500.0)) return bad_input(where, "takes ice outside 0 to 500 kg");
  if (!is_within(stop.ice.log_sd, 0.0, 2.0)) return bad_input(where, "has a spread of its ice outside 0 to 2");
  if (!is_within(stop.since_before.count(), 0.0, 7 * 86400.0))
    return bad_input(where, "comes before the stop that it follows, or more than a week after it");
  if (!is_within(stop.air.value, -60.0, 60.0)) return bad_input(where, "has air outside -60 to 60 degrees");
  if (stop.refill && !is_within(stop.refill->litres_per_minute, 0.0, 1000.0))
    return bad_input(where, "has a tap outside 0 to 1000 L/min; a garden tap gives 10 to 20");
  if (stop.refill && !is_within(stop.refill->time.count(), 0.0, 86400.0))
    return bad_input(where, "has a time at the tap outside 0 to 24 h");
  return {};
}

Result<void> check_settings(const StockSettings& settings) {
  const std::string where = "stock settings";
  if (!is_within(settings.chance, 0.5, 0.9999)) return bad_input(where, "need a wanted chance of 0.5 to 0.9999");
  if (settings.days < 100 || settings.days > 100000) return bad_input(where, "need 100 to 100000 days");
  if (!is_within(settings.day_log_sd, 0.0, 1.0)) return bad_input(where, "need a spread of the day of 0 to 1");
  if (!is_within(settings.spill, 0.0, 1.0)) return bad_input(where, "need a spilt share of 0 to 1");
  if (!is_within(settings.ice_kg_per_litre, 0.1, 0.92)) return bad_input(where, "need 0.1 to 0.92 kg of ice a litre");
  ByStockKind<int> seen{};
  for (const StockKind kind : settings.order) ++seen[number(kind)];
  if (seen != ByStockKind<int>{1, 1, 1, 1, 0})
    return bad_input(where, "need each of drinking, cooling, bottles and electrolyte once in the order");
  Litres before{0};
  for (const Litres size : settings.sold) {
    if (!is_within(size.value, 0.1, 1000.0) || size <= before)
      return bad_input(where, "need sizes sold of 0.1 to 1000 L, each larger than the one before");
    before = size;
  }
  return {};
}

}  // namespace

Portion portion_of(Litres litres) { return {std::llround(1000.0 * litres.value)}; }
Portion portion_of(Kilograms kilograms) { return {std::llround(1000.0 * kilograms.value)}; }

std::string_view stock_kind_name(StockKind kind) { return kind_names[number(kind)]; }
std::string_view stock_kind_unit(StockKind kind) { return kind == StockKind::ice ? "kg" : "L"; }

Result<StockKind> parse_stock_kind(std::string_view name) {
  for (std::size_t k = 0; k < stock_kind_count; ++k) {
    if (same_name(trimmed(name), kind_names[k])) return static_cast<StockKind>(k);
  }
  std::string what = "is not something a container holds: ";
  if (const auto near = nearest_name(name, kind_names)) {
    what += "did you mean '" + std::string(*near) + "'?";
  } else {
    what += "use drinking water, cooling water, bottles, electrolyte drink or ice";
  }
  return bad_input("'" + std::string(name) + "'", what);
}

Result<void> check_stock_task(const StockTask& task) {
  if (auto checked = check_settings(task.settings); !checked) return checked;
  for (std::size_t c = 0; c < task.containers.size(); ++c) {
    if (auto checked = check_container(task.containers[c], task.settings); !checked) return checked;
    for (std::size_t b = 0; b < c; ++b) {
      if (same_name(task.containers[b].name, task.containers[c].name))
        return bad_input("container '" + task.containers[c].name + "'", "is there twice; give each its own name");
    }
  }
  for (const StockStop& stop : task.stops) {
    if (auto checked = check_stop(stop); !checked) return checked;
  }
  return {};
}

Result<StockTask> without_container(const StockTask& task, std::string_view name) {
  StockTask smaller = task;
  std::vector<std::string_view> names;
  for (std::size_t c = 0; c < task.containers.size(); ++c) {
    names.push_back(task.containers[c].name);
    if (!same_name(task.containers[c].name, name)) continue;
    smaller.containers.erase(smaller.containers.begin() + static_cast<std::ptrdiff_t>(c));
    return smaller;
  }
  const auto near = nearest_name(name, names);
  return not_found("container '" + std::string(name) + "'",
                   near ? "is not in this car; did you mean '" + std::string(*near) + "'?"
                        : "is not in this car; name one of its containers");
}

}  // namespace outbye
