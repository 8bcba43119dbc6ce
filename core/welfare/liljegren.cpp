#include "core/welfare/liljegren.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <string>

#include "core/base/text.h"
#include "core/welfare/heat_index.h"

namespace outbye {

namespace {

// Temperatures in kelvin, pressures in hPa, the rest SI: the authors' constants.
constexpr double stefan_boltzmann = 5.6696e-8;
constexpr double heat_capacity = 1003.5;  // of air, J/(kg K)
constexpr double mole_air = 28.97;
constexpr double mole_water = 18.015;
constexpr double gas_constant = 8314.34 / mole_air;
constexpr double prandtl = heat_capacity / (heat_capacity + 1.25 * gas_constant);
constexpr double solar_constant = 1367.0;
constexpr double highest_clearness = 0.85;  // global radiation over that at the top of the atmosphere
constexpr double lowest_cosine = 0.00873;   // half a degree of height: below it no direct sun
constexpr double least_wind = 0.13;
constexpr double ground_emissivity = 0.999;

struct Globe {
  static constexpr double diameter = 0.0508, emissivity = 0.95, albedo = 0.05;
};
struct Wick {
  static constexpr double diameter = 0.007, length = 0.0254, emissivity = 0.95, albedo = 0.4;
};

double saturation(double kelvin) {  // over liquid water, in moist air
  return 1.004 * 6.1121 * std::exp(17.502 * (kelvin - 273.15) / (kelvin - 32.18));
}
double viscosity(double kelvin) {
  const double omega = (kelvin / 97.0 - 2.9) / 0.4 * -0.034 + 1.048;
  return 2.6693e-6 * std::sqrt(mole_air * kelvin) / (3.617 * 3.617 * omega);
}
double conductivity(double kelvin) { return (heat_capacity + 1.25 * gas_constant) * viscosity(kelvin); }
double density(double kelvin, double hectopascals) { return hectopascals * 100.0 / (gas_constant * kelvin); }
double diffusivity(double kelvin, double hectopascals) {  // of water vapour in air, from the critical points of both
  const double pressures = std::cbrt(36.4 * 218.0);
  const double temperatures = std::pow(132.0 * 647.3, 5.0 / 12.0);
  const double moles = std::sqrt(1.0 / mole_air + 1.0 / mole_water);
  return 3.640e-4 * std::pow(kelvin / std::sqrt(132.0 * 647.3), 2.334) * pressures * temperatures * moles /
         (hectopascals / 1013.25) * 1e-4;
}
double heat_of_evaporation(double kelvin) { return (313.15 - kelvin) / 30.0 * -71100.0 + 2.4073e6; }

double reynolds(double diameter, double kelvin, double hectopascals, double wind) {
  return std::max(wind, least_wind) * density(kelvin, hectopascals) * diameter / viscosity(kelvin);
}

// What both balances share.
struct Surroundings {
  double air;        // K
  double vapour;     // hPa
  double pressure;   // hPa
  double wind;       // m/s
  double sun;        // W/m2 on level ground
  double direct;     // share of it
  double zenith;     // radians
  double cosine;     // of zenith
  double long_wave;  // mean of sky and ground, in K^4
  double ground_albedo;
};

// The only root of an ascending function in a bracket: bisection, 60 halvings at most.
template <class F>
double root(const F& f, double low, double high) {
  for (int i = 0; i < 60 && high - low > 1e-7; ++i) {
    const double middle = 0.5 * (low + high);
    (f(middle) > 0.0 ? high : low) = middle;
  }
  return 0.5 * (low + high);
}

// Tg^4 = long wave - h / (emissivity sigma) (Tg - Ta) + sun.
double globe_temperature(const Surroundings& s) {
  const double beam = s.direct > 0.0 ? s.direct * (1.0 / (2.0 * s.cosine) - 1.0) : 0.0;
  const double gained = s.long_wave + s.sun / (2.0 * stefan_boltzmann * Globe::emissivity) * (1.0 - Globe::albedo) *
                                          (beam + 1.0 + s.ground_albedo);
  const auto excess = [&](double globe) {
    const double film = 0.5 * (globe + s.air);
    const double nusselt =
        2.0 + 0.6 * std::sqrt(reynolds(Globe::diameter, film, s.pressure, s.wind)) * std::pow(prandtl, 0.3333);
    const double h = nusselt * conductivity(film) / Globe::diameter;
    return std::pow(globe, 4) - gained + h / (stefan_boltzmann * Globe::emissivity) * (globe - s.air);
  };
  // Without wind the globe would go to where radiation alone balances; the air only pulls it back towards itself.
  const double still = std::pow(gained, 0.25);
  return root(excess, std::min(still, s.air), std::max(still, s.air));
}

// Tw = Ta - L / ratio (ew - ea) / (P - ew) (Pr / Sc)^0.56 + net radiation / h.
std::optional<double> wick_temperature(const Surroundings& s, bool with_radiation) {
  constexpr double end = 0.25 * Wick::diameter / Wick::length;  // of the cylinder, against its side
  constexpr double ratio = heat_capacity * mole_air / mole_water;
  const double beam = s.direct > 0.0 ? s.direct * (std::tan(s.zenith) / std::numbers::pi + end) : 0.0;
  const double sun = (1.0 - Wick::albedo) * s.sun * ((1.0 - s.direct) * (1.0 + end) + beam + s.ground_albedo);
  const auto excess = [&](double wick) {
    const double film = 0.5 * (wick + s.air);
    const double nusselt =
        0.281 * std::pow(reynolds(Wick::diameter, film, s.pressure, s.wind), 0.6) * std::pow(prandtl, 0.44);
    const double h = nusselt * conductivity(film) / Wick::diameter;
    const double net = stefan_boltzmann * Wick::emissivity * (s.long_wave - std::pow(wick, 4)) + sun;
    const double schmidt = viscosity(film) / (density(film, s.pressure) * diffusivity(film, s.pressure));
    const double on_wick = saturation(wick);
    const double evaporated = heat_of_evaporation(film) / ratio * (on_wick - s.vapour) / (s.pressure - on_wick) *
                              std::pow(prandtl / schmidt, 0.56);
    return wick - s.air + evaporated - (with_radiation ? net / h : 0.0);
  };
  // Step out from the air's temperature until the balance changes sign; water would boil where on_wick is the pressure.
  constexpr double step = 2.0;
  double here = s.air;
  const double direction = excess(here) > 0.0 ? -step : step;
  for (int i = 0; i < 100; ++i) {
    const double next = here + direction;
    if (saturation(next) >= s.pressure || next < 100.0) break;
    if ((excess(next) > 0.0) == (direction > 0.0)) return root(excess, std::min(here, next), std::max(here, next));
    here = next;
  }
  return std::nullopt;
}

std::string trouble(const OpenAir& air) {
  const auto is_within = [](double x, double low, double high) { return x >= low && x <= high; };
  if (!is_within(air.temperature.value, -60, 60)) return "a temperature outside -60 to 60 degrees";
  if (!is_within(air.humidity.value, 0, 100)) return "a humidity outside 0 to 100 %";
  if (!is_within(air.pressure.value, 500, 1100)) return "a pressure outside 500 to 1100 hPa";
  if (!is_within(air.wind.value, 0, 60)) return "a wind outside 0 to 60 m/s";
  if (!is_within(air.radiation.value, 0, 1500)) return "a radiation outside 0 to 1500 W/m2";
  if (!is_within(air.zenith.value, 0, 180)) return "a zenith distance of the sun outside 0 to 180 degrees";
  if (!is_within(air.sun_distance_au, 0.9, 1.1)) return "a sun further or nearer than it ever is";
  if (!is_within(air.surface_albedo, 0, 1)) return "an albedo outside 0 to 1";
  return {};
}

double radians(Degrees angle) { return angle.value * std::numbers::pi / 180.0; }

// At the top of the atmosphere on level ground; 0 with the sun down or nearly so.
double top_of_atmosphere(Degrees zenith, double distance_au) {
  const double cosine = std::cos(radians(zenith));
  return cosine < lowest_cosine ? 0.0 : solar_constant * cosine / (distance_au * distance_au);
}

}  // namespace

double direct_fraction(WattsPerSquareMetre radiation, Degrees zenith, double sun_distance_au) {
  const double top = top_of_atmosphere(zenith, sun_distance_au);
  if (top <= 0.0 || radiation.value <= 0.0) return 0.0;
  const double clearness = std::min(radiation.value / top, highest_clearness);
  return std::clamp(std::exp(3.0 - 1.34 * clearness - 1.65 / clearness), 0.0, 0.9);
}

Result<GlobeAndWetBulbs> liljegren(const OpenAir& air) {
  if (const std::string what = trouble(air); !what.empty()) {
    return bad_input("heat balance", "cannot be worked for " + what);
  }
  Surroundings s{};
  s.air = in_kelvin(air.temperature);
  s.vapour = air.humidity.value / 100.0 * saturation(s.air);
  s.pressure = air.pressure.value;
  s.wind = air.wind.value;
  // More than a clear sky lets through is not believed while the sun is up (cloud edges, instruments).
  const double top = top_of_atmosphere(air.zenith, air.sun_distance_au);
  s.sun = top > 0.0 ? std::min(air.radiation.value, highest_clearness * top) : air.radiation.value;
  s.direct = direct_fraction(air.radiation, air.zenith, air.sun_distance_au);
  s.zenith = radians(air.zenith);
  s.cosine = std::cos(s.zenith);
  const double sky_emissivity = s.vapour > 0.0 ? 0.575 * std::pow(s.vapour, 0.143) : 0.0;
  s.long_wave = 0.5 * (sky_emissivity + ground_emissivity) * std::pow(s.air, 4);
  s.ground_albedo = air.surface_albedo;

  const auto natural = wick_temperature(s, true);
  const auto psychrometric = wick_temperature(s, false);
  if (!natural || !psychrometric) {
    return impossible("heat balance", "has no wet-bulb temperature at " + fixed(air.temperature.value, 1) +
                                          " degrees and " + fixed(air.pressure.value, 0) + " hPa");
  }
  GlobeAndWetBulbs out;
  out.globe = {globe_temperature(s) - 273.15};
  out.natural_wet_bulb = {*natural - 273.15};
  out.psychrometric_wet_bulb = {*psychrometric - 273.15};
  out.wbgt = iso_wbgt_in_sun(out.natural_wet_bulb, out.globe, air.temperature);
  return out;
}

MetresPerSecond wind_at_2m(MetresPerSecond at_10m, WattsPerSquareMetre radiation, Degrees zenith,
                           const WindProfile& profile) {
  const double wind = at_10m.value;
  int stability = 4;  // 1 very unstable .. 6 stable
  if (std::cos(radians(zenith)) > 0.0) {
    const int sun = radiation.value >= 925 ? 0 : radiation.value >= 675 ? 1 : radiation.value >= 175 ? 2 : 3;
    const int air = wind >= 6 ? 4 : wind >= 5 ? 3 : wind >= 3 ? 2 : wind >= 2 ? 1 : 0;
    constexpr int classes[5][4] = {{1, 1, 2, 4}, {1, 2, 3, 4}, {2, 2, 3, 4}, {3, 3, 4, 4}, {3, 4, 4, 4}};
    stability = classes[air][sun];
  } else {
    const int air = wind >= 2.5 ? 2 : wind >= 2 ? 1 : 0;
    constexpr int still[3] = {5, 5, 4};
    constexpr int inverted[3] = {6, 6, 4};
    stability = profile.night_inversion ? inverted[air] : still[air];
  }
  constexpr double urban[6] = {0.15, 0.15, 0.20, 0.25, 0.30, 0.30};
  constexpr double rural[6] = {0.07, 0.07, 0.10, 0.15, 0.35, 0.55};
  const double exponent = (profile.urban ? urban : rural)[stability - 1];
  return {std::max(wind * std::pow(2.0 / 10.0, exponent), least_wind)};
}

WattsPerSquareMetre radiation_under_cloud(double cloud, Degrees zenith) {
  const double clear = std::max(910.0 * std::cos(radians(zenith)) - 30.0, 0.0);
  return {clear * (1.0 - 0.75 * std::pow(cloud, 3.4))};
}

}  // namespace outbye
