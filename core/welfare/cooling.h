// How a horse is cooled at a pass or a gate: litres, bottles, temperature, ice; and what cold, wet or windy weather
// changes. Common practice where no source is named. The vet is asked about any horse that is not itself.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/interval.h"
#include "core/base/result.h"
#include "core/welfare/heat_band.h"
#include "core/welfare/weather.h"

namespace outbye {

// Editable defaults.
struct CoolingSettings {
  // Litres poured, by band of heat: a stop on the course 4-16 L, a gate 10-20 L in mild weather and 40-100 L in heat
  // (common practice, no source). Must not fall from band to band.
  std::array<Litres, heat_band_count> at_pass{{{4}, {6}, {8}, {10}, {13}, {16}}};
  std::array<Litres, heat_band_count> at_gate{{{10}, {20}, {40}, {60}, {80}, {100}}};
  // Wanted in the bucket from this band up; below it water as it comes.
  HeatBand cold_water_from{HeatBand::precautions};
  Celsius cold_water{10.0};
  // Cold to the horse: below this temperature, or below the second when it rains or blows (common practice).
  Celsius cold_below{8.0};
  Celsius cold_and_wet_below{14.0};
  double wet_from_mm{0.2};  // of rain in the hour
  MetresPerSecond windy_from{8.0};
};

struct CoolingNeed {
  bool is_gate{};
  HeatBand band{HeatBand::comfortable};
  std::optional<WeatherHour> weather;  // nothing: not known, so neither cold nor wet
  Celsius carried_water{20.0};         // in the cans when it is poured
  Celsius ice{0.0};                    // 0, or below straight from a freezer
  Kilograms mass{450.0};               // of the horse
};

struct CoolingAdvice {
  Litres pour;            // 0 where it is cold
  int slosh_bottles{};    // of 1 L, for the rider to pour
  int pouring_bottles{};  // of 2 L, at the side of the course
  Celsius water;          // wanted temperature
  Kilograms ice;          // to bring the water there
  bool is_cold{};         // rug instead of water
  // Heat that the water can take, in kJ and as degrees of a horse of that mass, from 30 % to 50 % of what it holds up
  // to 30 degrees (from memory); 0 where nothing is poured.
  Interval<double> kilojoules;
  std::vector<std::string> how;       // sentences
  std::vector<std::string> cautions;  // heat illness; shivering; the thermometer's lag
  std::string source;
  Interval<Litres> pour_range;  // what the band below and the band above would pour
  Interval<double> kelvin;      // the heat above, as a mean over the whole horse
};
// Errors: bad_input at "cooling settings" for litres that fall from band to band or are negative, and limits out of
// range or order.
Result<void> check_cooling_settings(const CoolingSettings& settings);

// A hotter band never has fewer litres, bottles or less ice.
CoolingAdvice cooling_at(const CoolingNeed& need, const CoolingSettings& settings = {});

// What a reading of the rectal thermometer asks for: from 39.5 degrees (ten minutes or more after arrival), from 40 and
// from 41. The limits are from memory. It says what to do and whom to tell, and never that a horse is well: the
// thermometer lags by minutes (Equine Vet J 1998, PMID 9458396).
struct RectalAdvice {
  std::string_view name;    // "Keep cooling"
  std::string_view do_now;  // always names the vet
  std::string_view source;
};
RectalAdvice rectal_advice(Celsius reading);

// How far that heat warms or cools a horse of that mass, in kelvin.
double kelvin_of_horse(double kilojoules, Kilograms horse);

}  // namespace outbye
