// Units of weather and of bodies; length, speed, time, volume and mass are in units.h.
#pragma once

#include <compare>

#include "core/base/units.h"

namespace outbye {

// A point on the Celsius scale: two of them have a difference in kelvin, and no sum.
struct Celsius {
  double value{};
  friend constexpr auto operator<=>(Celsius, Celsius) = default;
};
constexpr double kelvin_between(Celsius warmer, Celsius colder) { return warmer.value - colder.value; }
constexpr double in_fahrenheit(Celsius t) { return t.value * 1.8 + 32.0; }
constexpr double in_kelvin(Celsius t) { return t.value + 273.15; }

using Percent = Quantity<struct PercentTag>;                          // relative humidity, 0..100
using Hectopascals = Quantity<struct HectopascalTag>;                 // pressure; vapour pressure too
using MetresPerSecond = Quantity<struct MetresPerSecondTag>;          // wind
using WattsPerSquareMetre = Quantity<struct WattsPerSquareMetreTag>;  // radiation on level ground
using BeatsPerMinute = Quantity<struct BeatsPerMinuteTag>;
using Grams = Quantity<struct GramsTag>;

}  // namespace outbye
