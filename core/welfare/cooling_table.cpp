#include "core/welfare/cooling_table.h"

#include <cmath>
#include <limits>

namespace outbye {
namespace {

// The hottest WBGT of each band. "Above 33" is the last: 33 itself is hazardous, and any heat beyond has one offer.
std::array<Celsius, heat_band_count> hot_ends() {
  const auto below = [](double limit) { return Celsius{std::nextafter(limit, 0.0)}; };
  return {below(25.0), below(28.0), below(30.0), below(32.0), Celsius{33.0}, Celsius{60.0}};
}

}  // namespace

std::array<WaterRow, heat_band_count> water_table(const CoolingSettings& cooling, const DrinkSettings& drinking,
                                                  const SweatSettings& sweat) {
  const auto ends = hot_ends();
  std::array<WaterRow, heat_band_count> rows;
  for (std::size_t i = 0; i < heat_band_count; ++i) {
    WaterRow& row = rows[i];
    row.band = static_cast<HeatBand>(i);
    row.pour_at_pass = cooling.at_pass[i];
    row.pour_at_gate = cooling.at_gate[i];
    if (row.band >= cooling.cold_water_from) row.pour_temperature = cooling.cold_water;
    row.drink_at_pass = drink_offer(false, ends[i], drinking, sweat).offer;
    row.drink_at_gate = drink_offer(true, ends[i], drinking, sweat).offer;
    row.source =
        "pouring and drinking in the field: common practice, no source; drinking at a gate: Equine Vet J Suppl 2002, "
        "more in heat by common practice";
  }
  return rows;
}

}  // namespace outbye
