#include "engine/stock.h"

#include <algorithm>
#include <string>
#include <utility>

#include "core/base/text.h"
#include "engine/stock_stops.h"

namespace outbye {
namespace {

StockKind kind_by_name(const OwnContainer& own) {
  const std::string name = in_lower_case(own.name);
  const auto says = [&](std::string_view word) { return name.find(word) != std::string::npos; };
  if (own.kind == OwnContainer::Kind::cool_box) return StockKind::ice;
  if (says("electrolyte")) return StockKind::electrolyte;
  if (own.kind == OwnContainer::Kind::bottle) return StockKind::bottles;
  if (says("cool") || says("wash")) return StockKind::cooling;
  return StockKind::drinking;
}

StockContainer ice_box(const std::string& name, Litres holds, const KitSettings& settings) {
  StockContainer box{name, StockKind::ice, holds};
  box.leak_w_per_k = settings.box_leak_w_per_k;
  return box;
}

bool needs_ice(const RidePlan& plan) {
  return std::any_of(plan.welfare.passes.begin(), plan.welfare.passes.end(),
                     [](const PassWelfare& pass) { return pass.is_served && pass.cooling.ice > Kilograms{0}; });
}

std::vector<StockContainer> assumed_containers(const RidePlan& plan, const CrewCar& car,
                                               std::vector<std::string>& assumptions) {
  std::vector<StockContainer> containers;
  std::string what;
  if (car.water_capacity > Litres{0}) {
    containers.push_back({"tank", StockKind::drinking, car.water_capacity});
    what = "a tank of " + fixed(car.water_capacity.value, 0) + " L";
  } else {
    for (const char* name : {"can 1", "can 2", "can 3", "can 4"})
      containers.push_back({name, StockKind::drinking, {25}});
    what = "four cans of 25 L";
  }
  if (needs_ice(plan)) {
    const KitSettings& settings = plan.ride.kit.settings;
    containers.push_back(ice_box("cool box", {settings.ice_per_box.value / ice_kg_per_litre}, settings));
    what += " and a cool box with " + fixed(settings.ice_per_box.value, 0) + " kg of ice";
  }
  assumptions.push_back("The ride names no containers: " + what + " in this car, full at the start.");
  return containers;
}

bool has_stops(const CarDay& day) {
  return std::any_of(day.stops.begin(), day.stops.end(),
                     [](const TimedStop& stop) { return stop.stop.kind != PlannedStop::Kind::rest; });
}

bool has_shared(const RideKit& kit) {
  return std::any_of(kit.containers.begin(), kit.containers.end(),
                     [](const OwnContainer& own) { return !own.car && own.kind != OwnContainer::Kind::bucket; });
}

void add_common_assumptions(const StockOptions& options, std::vector<std::string>& assumptions) {
  assumptions.push_back("A tap gives " + fixed(options.litres_per_minute, 0) +
                        " L/min, and a helper fills for as long as the car stands there.");
  assumptions.push_back(
      "A drink is the middle of what is usually taken; what is to be offered is what 95 % of drinks stay below.");
  assumptions.push_back(
      "A can whose name says nothing holds drinking water; when cooling water runs out, drinking water is poured.");
}

}  // namespace

std::vector<std::vector<StockContainer>> own_containers(const RideKit& kit, const std::vector<DealtCar>& cars) {
  const auto car_of = deal_containers(kit.containers, cars);
  std::vector<std::vector<StockContainer>> by_car(std::max<std::size_t>(1, cars.size()));
  std::vector<std::string> taken;
  for (std::size_t o = 0; o < kit.containers.size(); ++o) {
    const OwnContainer& own = kit.containers[o];
    if (own.kind == OwnContainer::Kind::bucket) continue;
    for (std::uint32_t i = 0; i < own.count; ++i) {
      std::string name = own.name.empty() ? std::string(container_kind_word(own.kind)) : own.name;
      if (own.count > 1) name += " " + std::to_string(i + 1);
      const auto is_taken = [&](const std::string& wanted) {
        return std::any_of(taken.begin(), taken.end(), [&](const std::string& n) { return same_name(n, wanted); });
      };
      std::string unique = name;
      for (int n = 2; is_taken(unique); ++n) unique = name + " (" + std::to_string(n) + ")";
      taken.push_back(unique);
      StockContainer container{unique, kind_by_name(own), own.holds};
      if (container.holds == StockKind::ice) {
        container.leak_w_per_k = leak_of(own, kit.settings);
        if (!own.is_full) container.ice = Kilograms{0};
      } else if (!own.is_full) {
        container.start = Litres{0};
      }
      by_car[car_of[o][i]].push_back(std::move(container));
    }
  }
  return by_car;
}

Result<std::vector<CarStock>> stock_of(const RidePlan& plan, const StockOptions& options) {
  auto met = met_by_day(plan, options.days);
  if (!met) return tl::unexpected(met.error());
  std::vector<DealtCar> cars;
  for (const CarDay& day : plan.plan.days) cars.push_back({at(plan.task.cars, day.car).name, has_stops(day)});
  const auto own = own_containers(plan.ride.kit, cars);
  std::vector<CarStock> stocks;
  for (std::size_t k = 0; k < plan.plan.days.size(); ++k) {
    const CarDay& day = plan.plan.days[k];
    if (!has_stops(day)) continue;
    const CrewCar& car = at(plan.task.cars, day.car);
    CarStock stock;
    stock.car = day.car;
    stock.task.car = car.name;
    stock.task.settings.chance = options.chance.value_or(plan.ride.kit.settings.not_dry);
    stock.task.settings.days = options.days;
    stock.task.settings.seed = options.seed;
    stock.task.settings.day_log_sd = options.day_log_sd;
    auto& assumptions = stock.task.assumptions;
    stock.task.containers = options.containers;
    if (options.containers.empty()) {
      const bool has_own = std::any_of(own.begin(), own.end(), [](const auto& of_car) { return !of_car.empty(); });
      stock.task.containers = has_own ? own[k] : assumed_containers(plan, car, assumptions);
      if (has_own && cars.size() > 1 && has_shared(plan.ride.kit)) {
        assumptions.push_back("Containers that name no car are dealt out to the cars in turn, kind by kind.");
      }
    }
    const bool has_electrolyte = std::any_of(stock.task.containers.begin(), stock.task.containers.end(),
                                             [](const StockContainer& c) { return c.holds == StockKind::electrolyte; });
    stock.task.stops = stock_stops(plan, k, (*met)[k], has_electrolyte, options);
    for (const std::string& ice : ice_errands(plan, k)) {
      assumptions.push_back("The boxes are filled on the errand '" + ice + "', on every simulated day.");
    }
    add_common_assumptions(options, assumptions);
    auto answer = work_out_stock(stock.task);
    if (!answer) return tl::unexpected(answer.error());
    stock.answer = std::move(*answer);
    stocks.push_back(std::move(stock));
  }
  return stocks;
}

}  // namespace outbye
