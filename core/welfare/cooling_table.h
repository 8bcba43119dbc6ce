// Water for one horse by band of heat, as a plain table: what to pour and what to have ready to drink at a pass and at
// a gate. For packing lists; a plan with weather takes cooling_at() and drink_offer() at each place instead.
#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "core/welfare/cooling.h"
#include "core/welfare/drinking.h"

namespace outbye {

struct WaterRow {
  HeatBand band{};
  Litres pour_at_pass;
  Litres pour_at_gate;
  std::optional<Celsius> pour_temperature{};  // wanted; nothing: as it is carried
  Litres drink_at_pass;                       // to have ready
  Litres drink_at_gate;
  std::string_view source;
};

// In the order of HeatBand. Drinking steps at other limits than the bands do: a row takes it at the hot end of its
// band, so that what is packed lasts. Nothing falls from row to row but the temperature. Dry, calm weather: in the cold
// cooling_at() pours nothing.
std::array<WaterRow, heat_band_count> water_table(const CoolingSettings& cooling = {},
                                                  const DrinkSettings& drinking = {}, const SweatSettings& sweat = {});

}  // namespace outbye
