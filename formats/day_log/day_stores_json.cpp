#include "formats/day_log/day_stores_json.h"

#include "formats/plan_json/plan_json.h"
#include "formats/plan_json/welfare_json.h"

namespace outbye {

Json water_json(const RidePlan& plan, const DayAnswer& answer) {
  Json all = Json::array();
  for (const WaterNow& water : answer.water) {
    // As in a plan, where the same stands for the whole day.
    Json json = json_of(HorseDayWater{water.body, water.balance, water.salts});
    json["now"] = json["at_finish"];
    json.erase("at_finish");
    json["horse"] = at(plan.ride.horses, water.horse).name;
    json["notes"] = water.notes;
    all.push_back(std::move(json));
  }
  return all;
}

Json stock_left_json(const RidePlan& plan, const DayAnswer& answer) {
  Json all = Json::array();
  for (const CarStockLeft& car : answer.stock) {
    Json containers = Json::array();
    for (const ContainerLeft& c : car.containers) {
      containers.push_back({{"name", c.name},
                            {"holds", stock_kind_name(c.holds)},
                            {"unit", stock_kind_unit(c.holds)},
                            {"capacity", rounded(c.capacity, 1)},
                            {"start", rounded(c.start, 1)},
                            {"filled", rounded(c.filled, 1)},
                            {"used", rounded(c.used, 1)},
                            {"left", rounded(c.left, 1)}});
    }
    Json kinds = Json::array();
    for (const KindLeft& k : car.kinds) {
      kinds.push_back({{"kind", stock_kind_name(k.kind)},
                       {"unit", stock_kind_unit(k.kind)},
                       {"capacity", rounded(k.capacity, 1)},
                       {"left", rounded(k.left, 1)},
                       {"to_come", rounded(k.to_come, 1)}});
    }
    all.push_back({{"car", at(plan.task.cars, car.car).name},
                   {"containers", std::move(containers)},
                   {"kinds", std::move(kinds)},
                   {"notes", car.notes}});
  }
  return all;
}

}  // namespace outbye
