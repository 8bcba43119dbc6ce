// Where the sun stands, when it rises and sets, and how light it is: at any place, beyond the polar circles too.
// Mean elements with the equation of centre, nutation and aberration to their largest terms (Meeus, Astronomical
// Algorithms, 2nd ed. 1998, chapter 25 "low accuracy", from memory). Stated error 0.01 degree from 1900 to 2100; the
// measured one is in docs/heat.md.
#pragma once

#include <optional>

#include "core/base/units.h"
#include "core/geo/position.h"

namespace outbye {

struct SunPosition {
  Degrees zenith;           // of the sun's centre as seen from the ground, without refraction: 90 is the horizon
  Degrees azimuth;          // clockwise from north, 0..360
  double distance_au{1.0};  // from the earth, astronomical units
};
SunPosition sun_position(Position place, Instant at);

// Sunrise and sunset are of the upper limb on a level horizon under standard refraction: the centre at -0.833 degrees.
// Civil dawn and dusk: the centre at -6 degrees. Hills, cloud and unusual air move the real ones by minutes.
inline constexpr Degrees sunrise_height{-0.833};
inline constexpr Degrees civil_dusk_height{-6.0};

// The first of each within the 24 hours; nothing where there is none. A sunset may come before the sunrise (where
// clocks are far from the sun, or in a short polar night).
struct SunTimes {
  std::optional<Instant> civil_dawn;
  std::optional<Instant> sunrise;
  std::optional<Instant> sunset;
  std::optional<Instant> civil_dusk;
  bool sun_stays_up{};        // midnight sun
  bool sun_stays_down{};      // polar night, though there may be twilight about noon
  bool twilight_all_night{};  // the sun sets but never falls below -6 degrees
};
// `from`: local midnight, which the caller knows. Good to a minute, and to the second in middle latitudes.
SunTimes sun_times(Position place, Instant from);

enum class Light { day, civil_twilight, dark };  // dark: the sun's centre is below -6 degrees
Light light_at(Position place, Instant at);

}  // namespace outbye
