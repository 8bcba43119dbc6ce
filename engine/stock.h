// How far each car's water, electrolyte drink and ice last on the plan's own simulated days.
#pragma once

#include <optional>
#include <vector>

#include "core/stock/stock.h"
#include "engine/use_cases.h"

namespace outbye {

struct StockOptions {
  std::optional<double> chance{};  // wanted, that the day ends without a dry stop; nothing: the ride's own figure
  std::size_t days{2000};
  Seed seed{1};
  double litres_per_minute{10.0};            // of a tap: 10 to 20 for a garden tap (common practice, no source)
  double pour_log_sd{0.2};                   // of what is poured, around the plan (common practice, no source)
  double day_log_sd{0.15};                   // of the whole day
  std::vector<StockContainer> containers{};  // of every car; empty: the ride's own, else what is assumed
};

struct CarStock {
  CarId car;
  StockTask task;
  StockAnswer answer;
};

// One for each car of the plan that has a stop. Drinks and pours are those of the plan's welfare; whether the car is
// there for a horse is taken day by day from the plan's simulated days. Errors: bad_input of check_stock_task().
Result<std::vector<CarStock>> stock_of(const RidePlan& plan, const StockOptions& options = {});

// The ride's own containers as stock: a name says what is in a can ("cooling can", "electrolyte can"); a can that says
// nothing holds drinking water, which does for everything. Buckets are served from and hold no stock. By row of `cars`,
// as deal_containers() gives them out.
std::vector<std::vector<StockContainer>> own_containers(const RideKit& kit, const std::vector<DealtCar>& cars);

}  // namespace outbye
