// Bands of heat for horses, what each asks of the crew, and the defaults that the plan takes from them.
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "core/base/physical_units.h"

namespace outbye {

// Ranked: a later one is worse. By WBGT: below 25, 25-28, 28-30, 30-32, 32-33, above 33. The ends are sourced
// ("Optimising performance in a challenging climate" for 25; Equestrian Australia, hot weather policy, 4 February 2019,
// for 33); 28 is common practice, 30 and 32 are from memory.
enum class HeatBand { comfortable, discomfort, precautions, more_precautions, hazardous, extreme };
inline constexpr std::size_t heat_band_count = 6;

// At 25, 28, 30 and 32 the worse band begins; 33 itself is still hazardous ("above 33").
HeatBand band_of_wbgt(Celsius wbgt);
// By degrees F + % humidity: below 130 comfortable, from 130 discomfort ("begin to watch"), from 150 more precautions
// ("critical to monitor"), above 180 extreme ("choose other times"): limits from "Heat alert clarification and
// recommendations"; laying them on the ranks of WBGT is ours.
HeatBand band_of_sum(double sum);

// What the crew should know and do. `source` with its mark, for people.
struct HeatAdvice {
  std::string name;                 // "Precautions"
  std::string wbgt;                 // "28-30"
  std::vector<std::string> do_now;  // sentences
  std::string source;
};
HeatAdvice advice(HeatBand band);

// Editable defaults. Factors by band, in the order of HeatBand: common practice, no source.
struct HeatSettings {
  // Of speed. Must not rise from band to band.
  std::array<double, heat_band_count> speed_factor{1.0, 0.98, 0.95, 0.90, 0.85, 0.75};
  // How much more a meet counts in the plan. Must not fall from band to band.
  std::array<double, heat_band_count> weight_factor{1.0, 1.1, 1.25, 1.5, 1.75, 2.0};
  // The sum of degrees F and humidity is acted on from this temperature up, and only shown below it: in cool, damp air
  // it cries wolf (150 on a wet morning of 12 degrees), while by the Bureau of Meteorology's form even saturated air
  // below 20 degrees stays under WBGT 25 (derived).
  Celsius sum_counts_from{20.0};
  bool urban{false};  // ground about the course, for the wind at 2 m
};
double heat_speed_factor(HeatBand band, const HeatSettings& settings = {});
double weight_factor(HeatBand band, const HeatSettings& settings = {});

}  // namespace outbye
