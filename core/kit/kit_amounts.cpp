#include "core/kit/kit_amounts.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/base/text.h"
#include "core/kit/kit_formulas.h"

namespace outbye {
namespace {

bool is_gate(const KitStop& stop) { return stop.kind != KitStop::Kind::pass; }

}  // namespace

StopWater stop_water(const KitStop& stop, const KitFacts& facts, const KitSettings& settings) {
  StopWater water;
  water.drinking = stop.drink_taken.to;
  water.drinking_offer = stop.drink_offer;
  if (stop.horse < facts.horses.size()) {
    // The plain bucket stands there whatever the horse likes; another drink comes beside it, never instead.
    for (const auto& like : facts.horses[stop.horse].likes) {
      if (!holds_on(like, stop.loop)) continue;
      if (like.drink == HorseLike::Drink::nothing) water.drinking = Litres{0.0};
      if (like.drink == HorseLike::Drink::plain && like.litres) water.drinking = *like.litres;
    }
    water.drinking_offer = std::max(water.drinking_offer, water.drinking);
    for (const auto& like : facts.horses[stop.horse].likes) {
      if (!holds_on(like, stop.loop)) continue;
      if (like.drink != HorseLike::Drink::electrolyte && like.drink != HorseLike::Drink::feed_water) continue;
      const Litres beside = like.litres.value_or(settings.other_drink);
      water.drinking += beside;
      water.drinking_offer += beside;
    }
  }
  water.cooling = stop.pour;
  water.washing = is_gate(stop) ? settings.wash_at_gate : settings.wash_at_pass;
  if (is_gate(stop) && settings.soaked_feed != SoakedFeed::none) {
    water.feed = Litres{settings.feed_dry_at_gate.value * settings.feed_water_l_per_kg};
  }
  return water;
}

std::vector<Amount> kit_amounts(const KitFacts& facts, const KitSettings& settings) {
  std::vector<Amount> amounts{drinking_water(facts, settings), cooling_water(facts, settings),
                              washing_water(facts, settings),  spare_water(facts, settings),
                              carried_water(facts, settings),  ice_amount(facts, settings),
                              electrolyte_amount(facts),       soaked_feed_amount(facts, settings)};
  for (std::size_t h = 0; h < facts.horses.size(); ++h) amounts.push_back(horse_drinks(h, facts, settings));
  amounts.push_back(rider_carbohydrate(facts, settings));
  amounts.push_back(rider_fluid(facts, settings));
  amounts.push_back(crew_fluid(facts, settings));
  amounts.push_back(crew_food(facts, settings));
  for (std::size_t c = 0; c < facts.cars.size(); ++c) amounts.push_back(fuel_amount(c, facts, settings));
  return amounts;
}

const Amount* find_amount(const std::vector<Amount>& amounts, std::string_view name) {
  for (const auto& amount : amounts) {
    if (same_name(amount.id, name) || same_name(amount.name, name)) return &amount;
  }
  return nullptr;
}

Result<void> check_kit_settings(const KitSettings& settings) {
  struct Limit {
    const char* name;
    double value;
    double from;
    double to;
  };
  const Limit limits[] = {
      {"wash_at_gate_litres", settings.wash_at_gate.value, 0, 200},
      {"wash_at_pass_litres", settings.wash_at_pass.value, 0, 200},
      {"others_least_litres", settings.others_least.value, 0, 200},
      {"others_share", settings.others_share, 0, 2},
      {"other_drink_litres", settings.other_drink.value, 0, 30},
      {"box_leak_w_per_k", settings.box_leak_w_per_k, 0, 10},
      {"ice_per_box_kg", settings.ice_per_box.value, 0.5, 100},
      {"temperature_if_unknown_c", settings.weather_unknown.value, -40, 50},
      {"ice_spare", settings.ice_spare, 0, 2},
      {"feed_dry_kg", settings.feed_dry_at_gate.value, 0, 5},
      {"feed_water_litres_per_kg", settings.feed_water_l_per_kg, 0, 10},
      {"carbohydrate_g_per_h", settings.carbohydrate_g_per_h.value_or(0), 0, 150},
      {"rider_fluid_litres_per_h", settings.rider_fluid_l_per_h.value_or(0), 0, 2},
      {"crew_fluid_litres_per_h", settings.crew_fluid_l_per_h, 0, 2},
      {"crew_fluid_hot_litres_per_h", settings.crew_fluid_hot_l_per_h, 0, 2},
      {"meals_per_loop", settings.meals_per_loop, 0, 5},
      {"fuel_litres_per_100km", settings.fuel_l_per_100km, 0, 40},
      {"fuel_reserve_km", in_kilometres(settings.fuel_reserve_range), 0, 1000},
      {"idling_litres_per_h", settings.idling_l_per_h, 0, 5},
      {"idling_min_per_stop", in_minutes(settings.idling_per_stop), 0, 240},
      {"way_there_and_back_km", settings.drive_back_km, 0, 5000},
  };
  for (const auto& limit : limits) {
    if (std::isfinite(limit.value) && limit.value >= limit.from && limit.value <= limit.to) continue;
    return bad_input("kit settings", std::string(limit.name) + " is " + fixed(limit.value, 2) + ", but must be " +
                                         fixed(limit.from, 1) + " to " + fixed(limit.to, 0));
  }
  if (settings.crew_fluid_hot_l_per_h < settings.crew_fluid_l_per_h) {
    return bad_input("kit settings",
                     "crew_fluid_hot_litres_per_h is below crew_fluid_litres_per_h; heat never asks for less");
  }
  return {};
}

}  // namespace outbye
