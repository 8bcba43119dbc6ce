// The weather of the day as a forecast or a station gives it, hour by hour, and the weather at any time between.
#pragma once

#include <optional>
#include <vector>

#include "core/base/physical_units.h"
#include "core/base/result.h"
#include "core/base/units.h"

namespace outbye {

// Nothing where it is not known; temperature and humidity always are.
struct WeatherHour {
  Instant at;
  Celsius temperature;                           // in the shade, -60..60
  Percent humidity;                              // 0..100
  std::optional<MetresPerSecond> wind;           // at 10 m, 0..60
  std::optional<WattsPerSquareMetre> radiation;  // global, on level ground, 0..1500
  std::optional<double> cloud;                   // share of the sky, 0..1
  std::optional<Hectopascals> pressure;          // at the place, not reduced to sea level, 500..1100
  std::optional<double> rain_mm;                 // in the hour from `at`, 0..300
};

// Ascending, no time twice. Empty: the weather is not known.
using Weather = std::vector<WeatherHour>;

// Errors: bad_input at "weather, hour 3" for values out of range and times out of order.
Result<void> check_weather(const Weather& weather);

// Linear between hours (rain: the hour's own). A field that one of the two hours lacks is missing. Nothing more than an
// hour before the first or after the last hour, and in gaps of more than three hours.
std::optional<WeatherHour> weather_at(const Weather& weather, Instant at);

}  // namespace outbye
