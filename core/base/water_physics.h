// Heat of water and ice: how much ice cools so much water, what a mixture comes to, how fast a cool box leaks.
// Constants: heat of fusion 333.6 kJ/kg (from memory; textbooks have 333.2-335), water 4.186 kJ/kg/K, ice 2.1 kJ/kg/K,
// evaporation 2.43 MJ/kg at 30 degrees, water 0.998 kg/L (at 20 degrees; 0.2 % off at 4 and at 30) (all from memory).
#pragma once

#include "core/base/physical_units.h"
#include "core/base/units.h"

namespace outbye {

inline constexpr double water_kg_per_litre = 0.998;
inline constexpr double water_heat_kj_per_kg_k = 4.186;
inline constexpr double ice_heat_kj_per_kg_k = 2.1;
inline constexpr double heat_of_fusion_kj_per_kg = 333.6;
inline constexpr double heat_of_evaporation_kj_per_kg = 2430.0;
inline constexpr double horse_heat_kj_per_kg_k = 3.48;  // of the body's tissue, from memory

// Ice that brings water from one temperature down to another, its own melt water included in the balance:
// m = V c (T1 - T2) / (c_ice (0 - T_ice) + L + c T2). Nothing to cool: 0. The wanted temperature is 0 or above; `ice`
// is 0 or below.
constexpr Kilograms ice_to_cool(Litres water, Celsius from, Celsius to, Celsius ice = {0.0}) {
  if (to.value >= from.value) return {0.0};
  const double per_kg =
      ice_heat_kj_per_kg_k * (0.0 - ice.value) + heat_of_fusion_kj_per_kg + water_heat_kj_per_kg_k * to.value;
  return {water_kg_per_litre * water.value * water_heat_kj_per_kg_k * (from.value - to.value) / per_kg};
}

// What water with ice in it comes to when all is mixed; 0 when some of the ice stays.
constexpr Celsius mixed(Litres water, Celsius temperature, Kilograms ice, Celsius ice_temperature = {0.0}) {
  const double water_kg = water_kg_per_litre * water.value;
  const double mass = water_kg + ice.value;
  if (mass <= 0.0) return temperature;
  const double heat = water_kg * water_heat_kj_per_kg_k * temperature.value -
                      ice.value * (heat_of_fusion_kj_per_kg - ice_heat_kj_per_kg_k * ice_temperature.value);
  return {heat <= 0.0 ? 0.0 : heat / (water_heat_kj_per_kg_k * mass)};
}

// A cool box by its heat leak in watts per kelvin: 0.6 for 3 cm of foam (solved ice-chest exercise 3-162), thin picnic
// boxes 1.0-1.5 and good 5 cm ones 0.3-0.5 (common practice, no source).
struct CoolBox {
  double leak_w_per_k{1.0};
};
// Ice at 0 degrees that melts in it. Sun on the lid adds to this.
constexpr Kilograms ice_melted(CoolBox box, double kelvin_warmer_outside, Seconds time) {
  if (kelvin_warmer_outside <= 0.0) return {0.0};
  return {box.leak_w_per_k * kelvin_warmer_outside * time.count() / (1000.0 * heat_of_fusion_kj_per_kg)};
}
// The leak of a box in which so much ice at 0 degrees melted: the ice-melt test, whose result in W/K is the metric
// proposed by Insulated container testing & rating (dissertation, 2015). As far off as the weighed melt and the kelvin
// are: 0.1 kg of 1 kg is 10 %. Without warmth or time: 0.
constexpr double leak_from_melt(Kilograms melted, double kelvin_warmer_outside, Seconds time) {
  if (kelvin_warmer_outside <= 0.0 || time <= Seconds{0.0}) return 0.0;
  return melted.value * 1000.0 * heat_of_fusion_kj_per_kg / (kelvin_warmer_outside * time.count());
}
// Leak of a plain wall: conductivity (W/m/K) x area (m2) / thickness (m).
constexpr double wall_leak(double conductivity, double area_m2, double thickness_m) {
  return conductivity * area_m2 / thickness_m;
}
// Leak of a wall with a film of air before it: 1 / (thickness / (conductivity x inside area) + 1 / (film x outside
// area)); film in W/m2/K.
constexpr double wall_and_film_leak(double conductivity, double inside_m2, double thickness_m, double film,
                                    double outside_m2) {
  return 1.0 / (thickness_m / (conductivity * inside_m2) + 1.0 / (film * outside_m2));
}

}  // namespace outbye
