// The amounts one by one. Internal to kit.
#pragma once

#include <string>
#include <vector>

#include "core/kit/kit_amounts.h"

namespace outbye {

inline constexpr const char* no_source = "common practice, no source";

// Water and ice (water_amounts.cpp).
Amount drinking_water(const KitFacts& facts, const KitSettings& settings);
Amount cooling_water(const KitFacts& facts, const KitSettings& settings);
Amount washing_water(const KitFacts& facts, const KitSettings& settings);
Amount spare_water(const KitFacts& facts, const KitSettings& settings);
Amount carried_water(const KitFacts& facts, const KitSettings& settings);
Amount ice_amount(const KitFacts& facts, const KitSettings& settings);  // ice_amount.cpp

// What the horses eat and drink (horse_amounts.cpp).
Amount electrolyte_amount(const KitFacts& facts);
Amount soaked_feed_amount(const KitFacts& facts, const KitSettings& settings);
Amount horse_drinks(std::size_t horse, const KitFacts& facts, const KitSettings& settings);

// People and car (people_amounts.cpp).
Amount rider_carbohydrate(const KitFacts& facts, const KitSettings& settings);
Amount rider_fluid(const KitFacts& facts, const KitSettings& settings);
Amount crew_fluid(const KitFacts& facts, const KitSettings& settings);
Amount crew_food(const KitFacts& facts, const KitSettings& settings);
Amount fuel_amount(std::size_t car, const KitFacts& facts, const KitSettings& settings);

}  // namespace outbye
