#include "core/welfare/sweat.h"

#include <string>

namespace outbye {
namespace {

bool is_within(double value, double from, double to) { return value >= from && value <= to; }  // false for NaN

}  // namespace

Result<void> check_sweat_settings(const SweatSettings& settings) {
  const std::string where = "sweat settings";
  for (std::size_t i = 0; i < settings.rate.size(); ++i) {
    const std::string band = "band " + std::to_string(i + 1);
    if (!is_within(settings.rate[i].value, 0.0, 30.0)) return bad_input(where, band + " needs 0 to 30 L/h");
    if (i > 0 && settings.rate[i] < settings.rate[i - 1])
      return bad_input(where, band + " is less than the one before it: hotter never sweats less");
  }
  for (std::size_t i = 0; i < settings.band_ends.size(); ++i) {
    const std::string band = "band " + std::to_string(i + 1);
    if (!is_within(settings.band_ends[i].value, -60.0, 60.0))
      return bad_input(where, band + " needs an end in degrees");
    if (i > 0 && settings.band_ends[i] < settings.band_ends[i - 1])
      return bad_input(where, band + " ends below the one before it");
  }
  if (!is_within(settings.reference_mass.value, 100.0, 1200.0))
    return bad_input(where, "need a reference mass of 100 to 1200 kg");
  if (!is_within(settings.range, 0.0, 0.9)) return bad_input(where, "need a range of 0 to 0.9 either way");
  if (!is_within(settings.acclimatised, 0.3, 1.5)) return bad_input(where, "need an acclimatised share of 0.3 to 1.5");
  if (!is_within(settings.standing, 0.0, 1.0)) return bad_input(where, "need a standing share of 0 to 1");
  return {};
}

Result<void> check_horse_body(const HorseBody& horse) {
  if (!is_within(horse.mass.value, 100.0, 1200.0)) return bad_input("horse", "needs a mass of 100 to 1200 kg");
  if (!is_within(horse.sweat_factor, 0.2, 3.0)) return bad_input("horse", "needs a sweat factor of 0.2 to 3");
  return {};
}

LitresPerHour sweat_rate(Celsius wbgt, const HorseBody& horse, const SweatSettings& settings) {
  std::size_t band = 0;
  while (band < settings.band_ends.size() && wbgt >= settings.band_ends[band]) ++band;
  const double surface = body_surface_m2(horse.mass) / body_surface_m2(settings.reference_mass);
  const double use = horse.is_acclimatised ? settings.acclimatised : 1.0;
  return surface * use * horse.sweat_factor * settings.rate[band];
}

Estimate sweat(Celsius wbgt, Seconds time, bool is_standing, const HorseBody& horse, const SweatSettings& settings) {
  const Litres middle = (is_standing ? settings.standing : 1.0) * (sweat_rate(wbgt, horse, settings) * time);
  return {(1.0 - settings.range) * middle, middle, (1.0 + settings.range) * middle};
}

}  // namespace outbye
