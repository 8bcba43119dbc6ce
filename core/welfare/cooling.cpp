#include "core/welfare/cooling.h"

#include <algorithm>
#include <cmath>

#include "core/base/water_physics.h"

namespace outbye {
namespace {

constexpr Celsius skin{30.0};

bool is_wet(const WeatherHour& weather, const CoolingSettings& settings) {
  return weather.rain_mm && *weather.rain_mm >= settings.wet_from_mm;
}
bool is_windy(const WeatherHour& weather, const CoolingSettings& settings) {
  return weather.wind && *weather.wind >= settings.windy_from;
}

void add_cold(CoolingAdvice& advice, const CoolingNeed& need) {
  advice.is_cold = true;
  advice.water = need.carried_water;
  advice.how = {"No water on the back, loins or quarters; a sponge for face and legs if the horse wants it.",
                need.is_gate ? "A dry rug or fleece at once, and out of the wind; walk it, do not let it stand wet."
                             : "If it must stand, a dry rug or fleece at once; keep the stop short."};
  advice.cautions = {"A horse that shivers is rugged, walked and shown to the vet."};
  advice.source = "common practice, no source";
}

void add_warm(CoolingAdvice& advice, const CoolingNeed& need, const CoolingSettings& settings) {
  const auto band = static_cast<std::size_t>(need.band);
  const auto& by_band = need.is_gate ? settings.at_gate : settings.at_pass;
  advice.pour = by_band[band];
  advice.pour_range = {by_band[band > 0 ? band - 1 : band], by_band[std::min(band + 1, heat_band_count - 1)]};
  const bool cold_water = need.band >= settings.cold_water_from;
  advice.water = cold_water ? std::min(settings.cold_water, need.carried_water) : need.carried_water;
  advice.ice = ice_to_cool(advice.pour, need.carried_water, advice.water, need.ice);
  if (need.is_gate) {
    advice.pouring_bottles = static_cast<int>(std::min(10.0, std::ceil(advice.pour.value / 8.0)));
  } else {
    advice.slosh_bottles = static_cast<int>(std::min(4.0, std::ceil(advice.pour.value / 4.0)));
    advice.pouring_bottles = static_cast<int>(std::ceil((advice.pour.value - advice.slosh_bottles) / 2.0));
  }
  const double holds = advice.pour.value * water_heat_kj_per_kg_k * std::max(0.0, kelvin_between(skin, advice.water));
  advice.kilojoules = {0.3 * holds, 0.5 * holds};
  advice.kelvin = {kelvin_of_horse(advice.kilojoules.from, need.mass),
                   kelvin_of_horse(advice.kilojoules.to, need.mass)};
  advice.how = {"Tell the rider before the first pour. Neck first, then chest, back and the large veins of the legs.",
                "Pour without a pause; scraping between pours does not cool more."};
  if (advice.ice > Kilograms{0}) {
    advice.how.push_back("Ice goes into the water, not on the muscles and not under a rug.");
  }
  advice.source =
      "litres: common practice, no source; pouring and scraping: comparison of post-exercise cooling methods in horses "
      "(180 L at 6 degrees: 0.9 degrees lower than without); ice: heat balance";
  if (need.band >= HeatBand::more_precautions) {
    advice.cautions.push_back(
        "Odd behaviour, staggering, or a horse that stays hot: shade, cold water without a pause, and the vet at "
        "once.");
  }
  if (need.is_gate && need.band >= HeatBand::precautions) {
    advice.cautions.push_back(
        "A rectal thermometer lags by minutes: go on by plan and measure again. From 39.5 degrees after ten minutes go "
        "on cooling, from 40 tell the vet, 41 is an emergency (from memory).");
  }
}

bool is_within(double value, double from, double to) { return value >= from && value <= to; }  // false for NaN

}  // namespace

Result<void> check_cooling_settings(const CoolingSettings& settings) {
  const std::string where = "cooling settings";
  for (const auto* by_band : {&settings.at_pass, &settings.at_gate}) {
    Litres before{0};
    for (const Litres litres : *by_band) {
      if (!is_within(litres.value, before.value, 500.0))
        return bad_input(where, "need 0 to 500 L in each band, and never fewer than in the band before");
      before = litres;
    }
  }
  if (!is_within(settings.cold_water.value, 0.0, 40.0)) return bad_input(where, "need cold water of 0 to 40 degrees");
  if (!is_within(settings.cold_below.value, -60.0, 60.0) ||
      !is_within(settings.cold_and_wet_below.value, settings.cold_below.value, 60.0))
    return bad_input(where, "need a limit for wet or windy weather that is not below the one for dry");
  if (!is_within(settings.wet_from_mm, 0.0, 300.0)) return bad_input(where, "need 0 to 300 mm of rain");
  if (!is_within(settings.windy_from.value, 0.0, 60.0)) return bad_input(where, "need a wind of 0 to 60 m/s");
  return {};
}

CoolingAdvice cooling_at(const CoolingNeed& need, const CoolingSettings& settings) {
  CoolingAdvice advice;
  if (need.weather) {
    const WeatherHour& weather = *need.weather;
    const bool is_raw = is_wet(weather, settings) || is_windy(weather, settings);
    // Heat of the air's own is never called cold, whatever the thresholds are set to.
    const bool is_cold =
        weather.temperature < settings.cold_below || (is_raw && weather.temperature < settings.cold_and_wet_below);
    if (is_cold && need.band == HeatBand::comfortable) {
      add_cold(advice, need);
      return advice;
    }
  }
  add_warm(advice, need, settings);
  return advice;
}

RectalAdvice rectal_advice(Celsius reading) {
  constexpr std::string_view source =
      "limits from memory; rectal temperature hides the change for minutes: Equine Vet J 1998, PMID 9458396";
  if (reading >= Celsius{41.0})
    return {"Emergency", "Call the vet now. Shade, and cold water without a pause until the vet is there.", source};
  if (reading >= Celsius{40.0})
    return {"Cool hard", "Cold water without a pause, and tell the vet now. Measure again by plan.", source};
  if (reading >= Celsius{39.5})
    return {"Keep cooling", "Go on cooling, tell the vet the reading, and measure again by plan.", source};
  return {"Keep to the cooling plan",
          "The reading lags behind the horse: keep to the cooling plan, measure again, and tell the vet the readings.",
          source};
}

double kelvin_of_horse(double kilojoules, Kilograms horse) {
  return kilojoules / (horse_heat_kj_per_kg_k * horse.value);
}

}  // namespace outbye
