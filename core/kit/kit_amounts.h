// How much of what: water, ice, feed, food, drink and fuel as formulas over the plan. Every amount opens to its formula
// in words, its inputs with unit and source, its range and its cautions. Hotter never asks for less, and a stop more
// never asks for less.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/interval.h"
#include "core/base/result.h"
#include "core/kit/kit_facts.h"
#include "core/kit/ride_kit.h"

namespace outbye {

struct AmountInput {
  std::string name;  // "poured at Ford, 10:42"
  double value{};
  std::string unit;  // "L"
  std::string source;
};

struct Amount {
  std::string id;    // "cooling-water"
  std::string name;  // "Cooling water"
  double value{};    // to plan with; 0: none
  std::string unit;
  Interval<double> range;  // around it
  std::string formula;     // in words
  std::vector<AmountInput> inputs;
  std::string source;
  std::vector<std::string> cautions;
  std::vector<std::string> steps;  // what to do when: soak at 05:10, throw away by 16:00
};

// The water of one stop. Drinking: as much as is usually taken at most; the offer is what must stand ready.
struct StopWater {
  Litres drinking{};
  Litres drinking_offer{};
  Litres cooling{};
  Litres washing{};
  Litres feed{};  // to soak feed that is eaten here
};
StopWater stop_water(const KitStop& stop, const KitFacts& facts, const KitSettings& settings);

// In a fixed order: drinking-water, cooling-water, washing-water, spare-water, carried-water, ice, electrolyte,
// soaked-feed, drinks-NAME of each horse, rider-carbohydrate, rider-fluid, crew-fluid, crew-food, fuel-NAME of each
// car.
std::vector<Amount> kit_amounts(const KitFacts& facts, const KitSettings& settings);
const Amount* find_amount(const std::vector<Amount>& amounts, std::string_view name);  // by id or name

// Checks figures of the user's. Errors: bad_input at "kit settings".
Result<void> check_kit_settings(const KitSettings& settings);

}  // namespace outbye
