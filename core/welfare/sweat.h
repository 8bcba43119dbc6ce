// How much a horse sweats, as an estimate with its range. Sweat varies between horses and days by 30 % and more: never
// more than a reason to offer water and to tell the vet.
#pragma once

#include <array>
#include <string_view>

#include "core/base/interval.h"
#include "core/base/physical_units.h"
#include "core/base/result.h"
#include "core/base/units.h"

namespace outbye {

using LitresPerHour = Quantity<struct LitresPerHourTag>;
constexpr Litres operator*(LitresPerHour rate, Seconds time) { return {rate.value * time.count() / 3600.0}; }

// Body surface in m2: 1.09 + 0.008 kg (from memory), for grown horses of 300-700 kg.
constexpr double body_surface_m2(Kilograms mass) { return 1.09 + 0.008 * mass.value; }

// A measured rate in ml per m2 and minute for a whole horse: 24-28 at about 40 % of the greatest oxygen uptake (J Appl
// Physiol 83 (1997) 1133-43); 48-57.5 uphill at 32-34 degrees and 80-85 % (J Appl Physiol 87 (1999) 1843-51).
constexpr LitresPerHour whole_body_sweat(double ml_per_m2_min, Kilograms mass) {
  return {ml_per_m2_min * body_surface_m2(mass) * 60.0 / 1000.0};
}

// Editable defaults.
struct SweatSettings {
  // At a trot, by WBGT below 18, 18-24, 24-28, 28-30 and above 30: our choice inside published ranges (5-10 L/h at
  // 12-18 km/h, Equinews 5(1); 10-15 in great heat, common practice), for a horse of `reference_mass`. Must not fall.
  std::array<LitresPerHour, 5> rate{{{4}, {6}, {8}, {10}, {12}}};
  std::array<Celsius, 4> band_ends{{{18}, {24}, {28}, {30}}};
  Kilograms reference_mass{450};
  double range{0.3};              // either way, between horses and days (derived)
  double acclimatised{0.78};      // sweat loss 22 % lower after 21 days in the heat (J Appl Physiol 87, 1999, 1843-51)
  double standing{0.3};           // share of the rate while the horse recovers and stands (common practice, no source)
  Celsius weather_unknown{24.0};  // WBGT assumed where no weather is known
};

inline constexpr std::string_view sweat_source =
    "Chosen within 5-10 L/h for 12-18 km/h (Equinews 5(1)) and 6.8-7.9 L/h measured at 40 % effort (J Appl Physiol 83, "
    "1997); by surface of the body; 30 % either way.";

struct HorseBody {
  Kilograms mass{450};
  bool is_acclimatised{};
  double sweat_factor{1.0};  // of the usual rate, from what is known of this horse
};

// Outside values, checked once where they come in. Errors: bad_input at "sweat settings" for rates or bands that fall,
// and shares out of range; at "horse" for a mass outside 100..1200 kg or a sweat factor outside 0.2..3.
Result<void> check_sweat_settings(const SweatSettings& settings);
Result<void> check_horse_body(const HorseBody& horse);

// The middle of the range, while ridden at a trot. A step at each end of a band; hotter never sweats less.
LitresPerHour sweat_rate(Celsius wbgt, const HorseBody& horse, const SweatSettings& settings = {});

// Litres with their range.
struct Estimate {
  Litres low;
  Litres middle;
  Litres high;
  friend constexpr Estimate operator+(Estimate a, Estimate b) {
    return {a.low + b.low, a.middle + b.middle, a.high + b.high};
  }
  friend bool operator==(const Estimate&, const Estimate&) = default;
};

// Over a time at that rate. The range is the horse's and the day's, so it is the same way round all day and adds up.
Estimate sweat(Celsius wbgt, Seconds time, bool is_standing, const HorseBody& horse,
               const SweatSettings& settings = {});

}  // namespace outbye
