#include "core/welfare/heat_index.h"

#include <cmath>

namespace outbye {

namespace {

// Over liquid water, hPa: the Bureau of Meteorology's form, and Magnus' as the WMO has it (from memory). They differ by
// less than 0.3 % where horses are ridden; each index keeps the one it was fitted with.
double bom_saturation(double celsius) { return 6.105 * std::exp(17.27 * celsius / (237.7 + celsius)); }
double magnus_saturation(double celsius) { return 6.112 * std::exp(17.62 * celsius / (243.12 + celsius)); }

}  // namespace

Hectopascals vapour_pressure(Celsius temperature, Percent humidity) {
  return {humidity.value / 100.0 * bom_saturation(temperature.value)};
}

Celsius bom_wbgt(Celsius temperature, Percent humidity) {
  return {0.567 * temperature.value + 0.393 * vapour_pressure(temperature, humidity).value + 3.94};
}

std::optional<Celsius> stull_wet_bulb(Celsius temperature, Percent humidity) {
  const double t = temperature.value;
  const double rh = humidity.value;
  if (!(t >= -20 && t <= 50 && rh >= 5 && rh <= 99) || rh < 27.7 - 2.27 * t) return std::nullopt;
  return Celsius{t * std::atan(0.151977 * std::sqrt(rh + 8.313659)) + std::atan(t + rh) - std::atan(rh - 1.676331) +
                 0.00391838 * std::pow(rh, 1.5) * std::atan(0.023101 * rh) - 4.686035};
}

std::optional<Celsius> regression_wet_bulb(Celsius temperature, Percent humidity) {
  const double t = temperature.value;
  const double rh = humidity.value;
  if (!(t >= 20 && t <= 45 && rh >= 40 && rh <= 99)) return std::nullopt;
  return Celsius{-4.391976 + 0.0198197 * rh + 0.526359 * t + 0.00730271 * rh * t + 2.4315e-4 * rh * rh -
                 2.58101e-5 * t * rh * rh};
}

Celsius psychrometer_wet_bulb(Celsius temperature, Percent humidity, Hectopascals pressure) {
  const double e = humidity.value / 100.0 * magnus_saturation(temperature.value);
  const auto is_too_wet = [&](double wet) {
    const double a = 6.6e-4 * (1.0 + 0.00115 * wet);
    return magnus_saturation(wet) - a * pressure.value * (temperature.value - wet) > e;
  };
  // The balance rises with the wet bulb, from below e where the wick is 60 degrees colder to above it at saturation.
  double low = temperature.value - 60.0;
  double high = temperature.value;
  while (high - low > 1e-8) {
    const double middle = 0.5 * (low + high);
    (is_too_wet(middle) ? high : low) = middle;
  }
  return {0.5 * (low + high)};
}

Celsius iso_wbgt_in_sun(Celsius natural_wet_bulb, Celsius globe, Celsius air) {
  return {0.7 * natural_wet_bulb.value + 0.2 * globe.value + 0.1 * air.value};
}

Celsius iso_wbgt_without_sun(Celsius natural_wet_bulb, Celsius globe) {
  return {0.7 * natural_wet_bulb.value + 0.3 * globe.value};
}

Celsius equine_shaded_index(Celsius shaded_wet_bulb, Celsius globe) {
  return {0.7 * shaded_wet_bulb.value + 0.3 * globe.value};
}

double fahrenheit_humidity_sum(Celsius temperature, Percent humidity) {
  return in_fahrenheit(temperature) + humidity.value;
}

double sum_minus_wind(Celsius temperature, Percent humidity, MetresPerSecond wind) {
  constexpr double miles_per_hour_in_a_metre_per_second = 3600.0 / 1609.344;
  return fahrenheit_humidity_sum(temperature, humidity) - wind.value * miles_per_hour_in_a_metre_per_second;
}

}  // namespace outbye
