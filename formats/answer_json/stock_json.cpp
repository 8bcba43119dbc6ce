#include "core/base/text.h"
#include "formats/answer_json/answer_json.h"
#include "formats/plan_json/plan_json.h"

namespace outbye {
namespace {

Json four_places(double share) { return rounded(share, 4); }
double amount(Portion portion) { return static_cast<double>(portion.value) / 1000.0; }

Json stops_json(const CarStock& stock) {
  Json stops = Json::array();
  for (const StopStock& stop : stock.answer.stops) {
    Json json{{"stop", stop.label}, {"there", four_places(stop.happens)}, {"dry", four_places(stop.dry)}};
    Json by_use = Json::object();
    for (std::size_t k = 0; k < stock_kind_count; ++k) {
      if (stop.dry_of[k] > 0.0)
        by_use[std::string(stock_kind_name(static_cast<StockKind>(k)))] = four_places(stop.dry_of[k]);
    }
    json["dry_by_use"] = std::move(by_use);
    json["left_at_least_litres"] = in_litres(stop.water_after).value;
    stops.push_back(std::move(json));
  }
  return stops;
}

Json refills_json(const CarStock& stock) {
  Json refills = Json::array();
  for (const RefillLine& line : stock.answer.refills) {
    const bool is_ice = line.container && stock.task.containers[*line.container].holds == StockKind::ice;
    refills.push_back({{"stop", stock.task.stops[line.stop].label},
                       {"container", line.container ? Json(stock.task.containers[*line.container].name) : Json()},
                       {"unit", stock_kind_unit(is_ice ? StockKind::ice : StockKind::drinking)},
                       {"median", amount(line.median)},
                       {"up_to", amount(line.high)},
                       {"minutes", rounded(in_minutes(line.time), 1)},
                       {"time_is_up", four_places(line.hurried)}});
  }
  return refills;
}

Json buy_json(const StockAnswer& answer) {
  Json all = Json::array();
  for (const StockPurchase& buy : answer.buy) {
    Json json{{"holds", stock_kind_name(buy.kind)}, {"unit", stock_kind_unit(buy.kind)}, {"least", amount(buy.least)}};
    if (buy.sold) {
      json["size_litres"] = buy.sold->value;
      json["count"] = buy.count;
    }
    json["chance"] = four_places(buy.chance);
    all.push_back(std::move(json));
  }
  return all;
}

Json car_json(const CarStock& stock) {
  const StockAnswer& answer = stock.answer;
  Json json{{"car", stock.task.car},
            {"wanted", stock.task.settings.chance},
            {"chance", four_places(answer.chance)},
            {"standard_error", four_places(answer.standard_error)},
            {"holds", answer.holds},
            {"days", stock.task.settings.days},
            {"stops", stops_json(stock)}};
  if (answer.weakest) json["weakest"] = answer.stops[*answer.weakest].label;
  Json carry = Json::array();
  for (const CarryLine& line : answer.carry) {
    carry.push_back({{"holds", stock_kind_name(line.kind)},
                     {"unit", stock_kind_unit(line.kind)},
                     {"carry", amount(line.carry)},
                     {"room", amount(line.capacity)}});
  }
  json["carry"] = std::move(carry);
  json["refills"] = refills_json(stock);
  json["buy"] = buy_json(answer);
  Json leave = Json::array();
  for (const std::size_t c : answer.leave_at_home) leave.push_back(stock.task.containers[c].name);
  json["leave_at_home"] = std::move(leave);
  json["mean_litres"] = {{"start", amount(answer.mean.start)}, {"filled", amount(answer.mean.filled)},
                         {"drunk", amount(answer.mean.drunk)}, {"poured", amount(answer.mean.poured)},
                         {"spilt", amount(answer.mean.spilt)}, {"left", amount(answer.mean.left)}};
  json["assumptions"] = answer.assumptions;
  return json;
}

}  // namespace

Json stock_json(const std::vector<CarStock>& stocks) {
  Json cars = Json::array();
  for (const CarStock& stock : stocks) cars.push_back(car_json(stock));
  return cars;
}

}  // namespace outbye
