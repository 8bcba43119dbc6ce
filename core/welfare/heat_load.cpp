#include "core/welfare/heat_load.h"

#include <algorithm>
#include <cmath>

#include "core/base/text.h"

namespace outbye {

namespace {

// Where a form is said to be out of its element: our choices, for the notes alone; no figure depends on them.
constexpr double low_sun = 15.0;     // degrees over the horizon
constexpr double cloudy = 0.5;       // share of the sky
constexpr double windy = 4.0;        // m/s at 10 m
constexpr double calm = 0.5;         // m/s at 10 m
constexpr double forms_apart = 2.0;  // degrees between the two forms of WBGT
// W/m2; less may come of drawing a line between two hours about sunset.
constexpr double sun_in_the_dark = 100.0;

std::string degrees(Celsius t) { return fixed(t.value, 1); }

std::optional<WattsPerSquareMetre> radiation_of(const WeatherHour& weather, Degrees zenith) {
  if (weather.radiation) return weather.radiation;
  if (weather.cloud) return radiation_under_cloud(*weather.cloud, zenith);
  return std::nullopt;
}

// In the open, and out of the sun at the same wind.
void work_full_model(HeatLoad& load, const WeatherHour& weather, const HeatSettings& settings) {
  if (!weather.wind || !load.radiation) return;
  OpenAir air;
  air.temperature = weather.temperature;
  air.humidity = weather.humidity;
  air.pressure = weather.pressure.value_or(Hectopascals{1013.25});
  air.wind = wind_at_2m(*weather.wind, *load.radiation, load.sun.zenith, {settings.urban, true});
  air.radiation = *load.radiation;
  air.zenith = load.sun.zenith;
  air.sun_distance_au = load.sun.distance_au;
  const auto open = liljegren(air);
  air.radiation = {0};
  const auto shade = liljegren(air);
  if (!open || !shade) return;  // the short form stands
  load.full = *open;
  load.shade_wbgt = iso_wbgt_without_sun(shade->natural_wet_bulb, shade->globe);
  load.equine_shaded_index = equine_shaded_index(open->psychrometric_wet_bulb, open->globe);
  load.wbgt = open->wbgt;
  load.form = HeatLoad::WbgtForm::full_model;
}

void note_short_form(HeatLoad& load, const WeatherHour& weather) {
  const bool has_sky = load.radiation.has_value();
  load.notes.push_back(std::string("WBGT is by the short form, because ") +
                       (weather.wind ? "neither radiation nor cloud is known."
                        : has_sky    ? "the wind is not known."
                                     : "neither wind nor radiation nor cloud is known."));
  const double height = 90.0 - load.sun.zenith.value;
  if (load.light != Light::day) {
    load.notes.push_back("The sun is down: the short form of WBGT assumes sun and reads 4 to 5 degrees too high.");
  } else if (height < low_sun) {
    load.notes.push_back("The sun is low: the short form of WBGT assumes a moderately high sun and reads too high.");
  }
  if (weather.cloud && *weather.cloud > cloudy) {
    load.notes.push_back("It is cloudy: the short form of WBGT assumes sun and reads too high.");
  }
  if (weather.wind && weather.wind->value > windy) {
    load.notes.push_back("It is windy: the short form of WBGT assumes light wind and reads too high.");
  }
  if (weather.wind && weather.wind->value < calm && load.light == Light::day) {
    load.notes.push_back("It is calm: in full sun the short form of WBGT reads too low.");
  }
}

void note_full_model(HeatLoad& load, const WeatherHour& weather) {
  const double short_over = kelvin_between(load.bom_wbgt, load.wbgt);
  if (short_over > forms_apart) {
    load.notes.push_back("The short form of WBGT would say " + degrees(load.bom_wbgt) + ", " + fixed(short_over, 1) +
                         " degrees more: it assumes sun and light wind" +
                         (load.light == Light::day ? "." : ", and the sun is down."));
  } else if (short_over < -forms_apart) {
    load.notes.push_back("The short form of WBGT would say " + degrees(load.bom_wbgt) + ", " + fixed(-short_over, 1) +
                         " degrees less: it does not know how strong the sun is and how light the wind.");
  }
  if (load.radiation_from_cloud) {
    load.notes.push_back("Radiation is worked from the cloud; under broken cloud it may be off by half.");
  }
  if (load.light != Light::day && load.radiation->value > sun_in_the_dark) {
    load.notes.push_back("Radiation of " + fixed(load.radiation->value, 0) +
                         " W/m2 is given while the sun is down: check the time and the place.");
  }
  if (load.light == Light::day && 90.0 - load.sun.zenith.value < low_sun) {
    load.notes.push_back("The sun is low: how much of the radiation comes straight from it is uncertain.");
  }
  if (weather.wind->value < calm) {
    load.notes.push_back("It is calm: the wind at the horse's height is uncertain, and the true WBGT may be higher.");
  }
}

void note_wet_bulb_and_sum(HeatLoad& load, const WeatherHour& weather, const HeatSettings& settings) {
  if (!load.stull_wet_bulb) {
    load.notes.push_back("The short wet-bulb formula is not valid here; the psychrometer's is shown.");
  }
  if (weather.temperature < settings.sum_counts_from && load.sum_band > load.wbgt_band) {
    load.notes.push_back("Below " + fixed(settings.sum_counts_from.value, 0) +
                         " degrees the sum of degrees F and humidity is shown and not acted on.");
  }
  if (load.sum > 150 && weather.humidity.value > load.sum / 2) {
    load.notes.push_back(
        "More than half of the sum is humidity: sweat dries badly, so count on cooling with water (common practice, no "
        "source).");
  }
  if (load.band == load.wbgt_band && load.wbgt_band > load.sum_band && load.wbgt_band >= HeatBand::precautions) {
    load.notes.push_back("The sum of degrees F and humidity, " + fixed(load.sum, 0) +
                         ", says less than WBGT does; the worse of the two is acted on.");
  }
  if (load.equine_shaded_index && *load.equine_shaded_index > equine_shaded_ceiling) {
    load.notes.push_back(
        "The equine index of 1995 is " + degrees(*load.equine_shaded_index) +
        ", over its ceiling of 32.5, which is for fit, acclimatised horses on the best going; for others "
        "it is lower.");
  }
  if (load.band >= HeatBand::precautions) {
    load.notes.push_back("WBGT is worked from the weather and is an estimate: measure on site where you can.");
  }
}

}  // namespace

HeatLoad heat_load(const WeatherHour& weather, Position place, Instant at, const HeatSettings& settings) {
  HeatLoad load;
  load.sun = sun_position(place, at);
  load.light = light_at(place, at);
  load.bom_wbgt = bom_wbgt(weather.temperature, weather.humidity);
  load.wbgt = load.bom_wbgt;
  load.sum = fahrenheit_humidity_sum(weather.temperature, weather.humidity);
  if (weather.wind) load.sum_minus_wind = sum_minus_wind(weather.temperature, weather.humidity, *weather.wind);
  load.stull_wet_bulb = stull_wet_bulb(weather.temperature, weather.humidity);
  load.wet_bulb =
      psychrometer_wet_bulb(weather.temperature, weather.humidity, weather.pressure.value_or(Hectopascals{1013.25}));
  load.radiation = radiation_of(weather, load.sun.zenith);
  load.radiation_from_cloud = load.radiation && !weather.radiation;
  work_full_model(load, weather, settings);

  load.wbgt_band = band_of_wbgt(load.wbgt);
  load.sum_band = band_of_sum(load.sum);
  load.band = load.wbgt_band;
  if (weather.temperature >= settings.sum_counts_from && load.sum_band > load.wbgt_band) {
    load.band = load.sum_band;
    load.set_by = HeatLoad::Index::sum;
  }

  if (load.full) {
    note_full_model(load, weather);
  } else {
    note_short_form(load, weather);
  }
  note_wet_bulb_and_sum(load, weather, settings);
  return load;
}

bool is_worse(const HeatLoad& a, const HeatLoad& b) { return a.band != b.band ? a.band > b.band : a.wbgt > b.wbgt; }

}  // namespace outbye
