#include "formats/plan_json/welfare_json.h"

#include "core/rules/rule_fields.h"
#include "formats/plan_json/plan_json.h"

namespace outbye {
namespace {

Json optional(const std::optional<Celsius>& t) { return t ? rounded(t->value, 2) : Json(nullptr); }

Json litres(Litres amount) { return rounded(amount.value, 2); }

Json json_of(const Ions& ions) {
  return Json{{"sodium", rounded(ions.sodium.value, 1)},
              {"chloride", rounded(ions.chloride.value, 1)},
              {"potassium", rounded(ions.potassium.value, 1)},
              {"calcium", rounded(ions.calcium.value, 2)},
              {"magnesium", rounded(ions.magnesium.value, 2)}};
}

Json time_or_null(const std::optional<Instant>& at, const Clock& clock) {
  return at ? Json(iso8601(*at, clock)) : Json(nullptr);
}

}  // namespace

std::string word(HeatBand band) {
  switch (band) {
    case HeatBand::comfortable:
      return "comfortable";
    case HeatBand::discomfort:
      return "discomfort";
    case HeatBand::precautions:
      return "precautions";
    case HeatBand::more_precautions:
      return "more precautions";
    case HeatBand::hazardous:
      return "hazardous";
    case HeatBand::extreme:
      break;
  }
  return "extreme";
}

std::string word(Light light) {
  switch (light) {
    case Light::day:
      return "day";
    case Light::civil_twilight:
      return "civil twilight";
    case Light::dark:
      break;
  }
  return "dark";
}

std::string word(RuleFinding::Severity severity) {
  switch (severity) {
    case RuleFinding::Severity::breaks:
      return "breaks";
    case RuleFinding::Severity::asks:
      return "asks";
    case RuleFinding::Severity::notes:
      break;
  }
  return "notes";
}

Json json_of(const HeatLoad& load) {
  Json json{{"band", word(load.band)},
            {"set_by", load.set_by == HeatLoad::Index::wbgt ? "wbgt" : "sum"},
            {"wbgt_c", rounded(load.wbgt.value, 2)},
            {"wbgt_form", load.form == HeatLoad::WbgtForm::full_model ? "full model" : "short form"},
            {"wbgt_band", word(load.wbgt_band)},
            {"f_plus_rh", rounded(load.sum, 1)},
            {"f_plus_rh_band", word(load.sum_band)},
            {"wbgt_short_form_c", rounded(load.bom_wbgt.value, 2)},
            {"wet_bulb_c", rounded(load.wet_bulb.value, 2)},
            {"stull_wet_bulb_c", optional(load.stull_wet_bulb)}};
  if (load.full) {
    json["globe_c"] = rounded(load.full->globe.value, 2);
    json["natural_wet_bulb_c"] = rounded(load.full->natural_wet_bulb.value, 2);
    json["wbgt_shade_c"] = optional(load.shade_wbgt);
    json["equine_shaded_index_c"] = optional(load.equine_shaded_index);
  }
  if (load.radiation) json["radiation_wm2"] = rounded(load.radiation->value, 0);
  if (load.radiation_from_cloud) json["radiation_from_cloud"] = true;
  json["light"] = word(load.light);
  json["source"] = advice(load.band).source;
  json["notes"] = load.notes;
  return json;
}

Json json_of(const SunTimes& sun, const Clock& clock) {
  Json json{{"civil_dawn", time_or_null(sun.civil_dawn, clock)},
            {"sunrise", time_or_null(sun.sunrise, clock)},
            {"sunset", time_or_null(sun.sunset, clock)},
            {"civil_dusk", time_or_null(sun.civil_dusk, clock)}};
  if (sun.sun_stays_up) json["sun_stays_up"] = true;
  if (sun.sun_stays_down) json["sun_stays_down"] = true;
  if (sun.twilight_all_night) json["twilight_all_night"] = true;
  return json;
}

Json json_of(const Interval<Litres>& interval) { return Json::array({litres(interval.from), litres(interval.to)}); }

Json json_of(const WaterBalance& water) {
  return Json{{"sweat_litres", Json::array({litres(water.sweat.low), litres(water.sweat.high)})},
              {"drunk_litres", json_of(water.drunk)},
              {"deficit_litres", json_of(water.deficit)},
              {"deficit_pct", Json::array({rounded(water.percent.from, 2), rounded(water.percent.to, 2)})},
              {"middle_pct", rounded(water.middle_percent, 2)},
              {"middle_band", std::string(deficit_band_name(water.middle_band))},
              {"band", std::string(deficit_band_name(water.band))},
              {"advice", std::string(deficit_band_advice(water.band))}};
}

Json json_of(const CoolingAdvice& cooling) {
  return Json{{"pour_litres", litres(cooling.pour)},
              {"slosh_bottles", cooling.slosh_bottles},
              {"pouring_bottles", cooling.pouring_bottles},
              {"water_c", rounded(cooling.water.value, 1)},
              {"ice_kg", rounded(cooling.ice.value, 2)},
              {"is_cold", cooling.is_cold},
              {"how", cooling.how},
              {"cautions", cooling.cautions},
              {"source", cooling.source}};
}

Json json_of(const HorseDayWater& day) {
  return Json{{"mass_kg", rounded(day.body.mass.value, 1)},
              {"at_finish", json_of(day.at_finish)},
              {"deficit_source", std::string(deficit_source)},
              {"sweat_source", std::string(sweat_source)},
              {"salts_lost_g", Json::array({json_of(day.salts.lost_low), json_of(day.salts.lost_high)})},
              {"salts_given_g", json_of(day.salts.given)},
              {"salts_short_g", Json::array({json_of(day.salts.short_low), json_of(day.salts.short_high)})},
              {"salts_source", day.salts.source},
              {"cautions", day.salts.cautions}};
}

Json json_of(const CrewHeat& heat) {
  Json above = Json::array();
  for (const WorkRate rate : heat.above_limit) above.push_back(std::string(work_rate_name(rate)));
  return Json{{"above_limit", std::move(above)}, {"sentences", heat.sentences}, {"source", heat.source}};
}

Json json_of(const std::vector<RuleFinding>& findings) {
  Json list = Json::array();
  for (const auto& finding : findings) {
    Json json{{"severity", word(finding.severity)}, {"where", finding.where}, {"what", finding.what}};
    if (finding.mark) json["mark"] = in_words(*finding.mark);
    if (!finding.source.empty()) json["source"] = finding.source;
    list.push_back(std::move(json));
  }
  return list;
}

Json json_of(const RuleSet& rules) {
  Json json{{"book", rules.book_id}, {"name", rules.book_name}, {"level", rules.level.name}};
  if (rules.year != 0) json["year"] = rules.year;
  json["source"] = rules.source;
  json["own_values"] = rules.overridden;
  json["notes"] = rules.notes;
  return json;
}

void add_welfare(Json& pass, const PassWelfare& welfare) {
  pass["light"] = word(welfare.light);
  pass["darkest_light"] = word(welfare.darkest);
  pass["since_water_km"] = rounded(in_kilometres(welfare.since_water), 3);
  pass["worth_factor"] = rounded(welfare.worth_factor, 4);
  if (welfare.heat) pass["heat"] = json_of(*welfare.heat);
  if (welfare.worst_heat) {
    pass["worst_heat"] =
        Json{{"band", word(welfare.worst_heat->band)}, {"wbgt_c", rounded(welfare.worst_heat->wbgt.value, 2)}};
  }
  if (welfare.is_served) {
    pass["cooling"] = json_of(welfare.cooling);
    pass["drink"] = Json{{"offer_litres", litres(welfare.drink.offer)},
                         {"taken_litres", json_of(welfare.drink.taken)},
                         {"temperature_c", rounded(welfare.drink.temperature.value, 1)},
                         {"source", welfare.drink.source}};
  }
  if (welfare.drank) pass["drank_litres"] = litres(*welfare.drank);
  pass["water"] = json_of(welfare.water);
}

Json json_of(const RideWelfare& welfare, const Ride& ride) {
  Json json{{"sun", json_of(welfare.sun, ride.clock)}};
  if (welfare.crew_heat) {
    json["crew_heat"] = json_of(*welfare.crew_heat);
    json["crew_heat"]["wbgt_c"] = rounded(welfare.crew_wbgt->value, 2);
    json["crew_heat"]["at"] = iso8601(*welfare.crew_heat_at, ride.clock);
  }
  Json horses = Json::array();
  for (std::size_t h = 0; h < welfare.horses.size(); ++h) {
    Json item = Json::object();
    if (h < ride.horses.size()) item["horse"] = ride.horses[h].name;
    item.update(json_of(welfare.horses[h]));
    horses.push_back(std::move(item));
  }
  if (!horses.empty()) json["horses"] = std::move(horses);
  Json along = Json::array();
  for (std::size_t h = 0; h < welfare.along.size(); ++h) {
    for (const auto& point : welfare.along[h]) {
      Json item = Json::object();
      if (h < ride.horses.size()) item["horse"] = ride.horses[h].name;
      item["loop"] = point.loop.value + 1;
      item["loop_km"] = rounded(in_kilometres(point.along), 3);
      item["at"] = iso8601(point.at, ride.clock);
      item["wbgt_c"] = rounded(point.load.wbgt.value, 2);
      item["f_plus_rh"] = rounded(point.load.sum, 1);
      item["band"] = word(point.load.band);
      along.push_back(std::move(item));
    }
  }
  if (!along.empty()) json["heat_along"] = std::move(along);
  return json;
}

}  // namespace outbye
