#include "core/welfare/sweat.h"

namespace outbye {

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
