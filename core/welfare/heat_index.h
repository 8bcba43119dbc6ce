// The short formulas of heat: each from temperature and humidity in the shade (the ISO weightings: from a globe and a
// wet bulb), each with its source, range and error. heat_load.h chooses between them.
#pragma once

#include <optional>

#include "core/base/physical_units.h"

namespace outbye {

// e = RH/100 x 6.105 x exp(17.27 T / (237.7 + T)), in hPa: Bureau of Meteorology, thermal stress page. The same letter
// in kPa, fed to the WBGT below, reads 7.5 degrees too low at 30 degrees and 50 %; the type keeps that out.
Hectopascals vapour_pressure(Celsius temperature, Percent humidity);

// WBGT = 0.567 T + 0.393 e + 3.94, same page. Assumes a moderately high sun and light wind, so it reads too high at
// night, in the early morning, under cloud and in wind ("Events and activities held on hot days", 2013): 4-5 degrees at
// night against the full model (derived).
Celsius bom_wbgt(Celsius temperature, Percent humidity);

// Wet bulb at sea-level pressure: Stull, J. Appl. Meteor. Climatol. 50 (2011) 2267-2269. For 5-99 % and -20..50
// degrees, dry and cold air excepted; there -1.0..+0.65 degrees off, 0.3 on average. Nothing outside that range (the
// edge of "dry and cold" is taken as RH < 27.7 - 2.27 T, from memory).
std::optional<Celsius> stull_wet_bulb(Celsius temperature, Percent humidity);

// Wet bulb by regression: Atmosphere 13 (2022) 1765, for 20-45 degrees and 40-99 %; nothing outside. A second opinion.
// Its constant is shown without the minus sign that it needs, in at least one copy.
std::optional<Celsius> regression_wet_bulb(Celsius temperature, Percent humidity);

// Wet bulb from the balance of an aspirated psychrometer, e = es(Tw) - A P (T - Tw), A = 6.6e-4 (1 + 0.00115 Tw), over
// liquid water (Magnus, WMO): any pressure and the whole range of WeatherHour. Textbook constants, from memory.
Celsius psychrometer_wet_bulb(Celsius temperature, Percent humidity, Hectopascals pressure = {1013.25});

// ISO 7243 has two weightings (Industrial Health 44 (2006) 368-379), both of the *natural* wet bulb, which stands in
// sun and wind: 0.7 Tnwb + 0.2 Tg + 0.1 Ta in the sun, 0.7 Tnwb + 0.3 Tg without solar load.
Celsius iso_wbgt_in_sun(Celsius natural_wet_bulb, Celsius globe, Celsius air);
Celsius iso_wbgt_without_sun(Celsius natural_wet_bulb, Celsius globe);

// 0.7 Twb + 0.3 Tg of the *shaded psychrometric* wet bulb: an index of the environmental thermal load imposed on
// exercising horses and riders by hot weather, Equine Vet J 1995 (doi 10.1111/j.2042-3306.1995.tb05003.x), with 32.5 as
// the ceiling for fit, acclimatised horses on the best going. Not interchangeable with the ISO index.
Celsius equine_shaded_index(Celsius shaded_wet_bulb, Celsius globe);
inline constexpr Celsius equine_shaded_ceiling{32.5};

// Degrees Fahrenheit plus percent humidity, a number without a unit: the horse world's "heat index" ("Heat alert
// clarification and recommendations"). It is not the weather service's heat index, which is a felt temperature. It
// reads low in dry heat: 40 degrees and 25 % give 129 where WBGT is 33.8.
double fahrenheit_humidity_sum(Celsius temperature, Percent humidity);
// The same less the wind in miles per hour (common practice, no source).
double sum_minus_wind(Celsius temperature, Percent humidity, MetresPerSecond wind);

}  // namespace outbye
