// WBGT outdoors from standard weather data by heat balances of a black globe and of wicks: Liljegren et al., Modeling
// the wet bulb globe temperature using standard meteorological measurements, J Occup Environ Hyg 5 (2008) 645-655. Its
// aim is 1 degree of accuracy; a review (Industrial Health 50 (2012) 267-278) recommends it for outdoor WBGT.
//
// Constants as in the authors' program (some from memory: docs/heat.md). Instead of its damped iteration to 0.02
// degrees, each balance is solved by bracketing to 1e-7, so that it cannot wander and neighbouring inputs give ordered
// answers.
#pragma once

#include "core/base/physical_units.h"
#include "core/base/result.h"
#include "core/base/units.h"
#include "core/geo/position.h"

namespace outbye {

// The state of the air and the sun at the instruments, 2 m above ground.
struct OpenAir {
  Celsius temperature;             // -60..60
  Percent humidity;                // 0..100
  Hectopascals pressure{1013.25};  // 500..1100
  MetresPerSecond wind;            // at 2 m, 0..60; taken as at least 0.13
  WattsPerSquareMetre radiation;   // global, on level ground, 0..1500
  Degrees zenith;                  // of the sun, 0..180
  double sun_distance_au{1.0};     // 0.9..1.1
  double surface_albedo{0.45};     // of the ground, 0..1 (the authors' program; a port to R has 0.4)
};

struct GlobeAndWetBulbs {
  Celsius globe;             // black, 50.8 mm
  Celsius natural_wet_bulb;  // a wick in sun and wind
  Celsius psychrometric_wet_bulb;
  Celsius wbgt;  // 0.7 natural wet bulb + 0.2 globe + 0.1 air, day and night, as the authors have it
};

// Errors: bad_input for a value out of range; impossible if a balance has no solution there (not met in the range).
Result<GlobeAndWetBulbs> liljegren(const OpenAir& air);

// Share of the global radiation that comes straight from the sun: exp(3 - 1.34 S - 1.65 / S), 0..0.9, with S the
// radiation over that at the top of the atmosphere, at most 0.85. The authors' fit, from memory. 0 with the sun down.
double direct_fraction(WattsPerSquareMetre radiation, Degrees zenith, double sun_distance_au);

// Wind at 10 m brought to 2 m by a power law, whose exponent depends on the stability of the air (sun and wind by day,
// temperature step by night; US EPA's SRDT classes, from memory) and on the ground. At least 0.13 m/s.
struct WindProfile {
  bool urban{false};  // built-up ground; otherwise fields
  bool night_inversion{
      true};  // warmer at 10 m than at 2 m; used at night only, where clear and still is the usual case
};
MetresPerSecond wind_at_2m(MetresPerSecond at_10m, WattsPerSquareMetre radiation, Degrees zenith,
                           const WindProfile& profile = {});

// Global radiation when only the cloud is known: G0 = 910 sin h - 30 under a clear sky with the sun at height h, and
// G = G0 (1 - 0.75 N^3.4) with a share N of the sky covered. Kasten & Czeplak, Solar Energy 24 (1980) 177-189, from
// memory; a fit to ten years at Hamburg, so a single hour of broken cloud may be off by half.
WattsPerSquareMetre radiation_under_cloud(double cloud, Degrees zenith);

}  // namespace outbye
