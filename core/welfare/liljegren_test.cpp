#include "core/welfare/liljegren.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/random.h"
#include "core/welfare/heat_index.h"
#include "core/welfare/sun.h"

namespace outbye {
namespace {

// The test fixture of "lwbgt", a public port of the authors' program to C and Python: Singapore, 15 April 2024, 14:30
// at UTC+8, an average over 60 minutes (so the sun is that of 14:00, as the program takes it), urban.
OpenAir singapore() {
  const Instant middle = std::chrono::sys_days{std::chrono::April / 15 / 2024} + std::chrono::hours{6};
  const SunPosition sun = sun_position({1.3521, 103.8198}, middle);
  return {.temperature = {32.1},
          .humidity = {68},
          .pressure = {1008.4},
          .wind = wind_at_2m({2.8}, {742}, sun.zenith, {.urban = true}),
          .radiation = {742},
          .zenith = sun.zenith,
          .sun_distance_au = sun.distance_au};
}

TEST(Liljegren, HasTheWbgtOfTheAuthorsProgramToTwoHundredths) {
  const auto heat = liljegren(singapore());
  ASSERT_TRUE(heat);
  EXPECT_NEAR(heat->wbgt.value, 32.50229, 0.02);
}

// From a rewrite of the published equations (derived).
TEST(Liljegren, HasTheStepsOfTheSameCase) {
  const OpenAir air = singapore();
  EXPECT_NEAR(std::cos(air.zenith.value * 0.017453292519943295), 0.96023, 0.0001);
  EXPECT_NEAR(air.wind.value, 2.199, 0.001);
  EXPECT_NEAR(direct_fraction(air.radiation, air.zenith, air.sun_distance_au), 0.5158, 0.0005);
  const auto heat = liljegren(air);
  EXPECT_NEAR(heat->globe.value, 45.79, 0.01);
  EXPECT_NEAR(heat->natural_wet_bulb.value, 28.752, 0.005);
  EXPECT_NEAR(heat->psychrometric_wet_bulb.value, 26.94, 0.01);
}

// From a rewrite of the published equations at 1013.25 hPa, wind at 2 m, albedo 0.45, sun distance 1 (derived).
struct Reference {
  double t, rh, wind, sun, zenith, globe, natural_wet_bulb, wbgt;
};
constexpr Reference references[] = {
    {25, 50, 2, 0, 120, 23.89, 17.75, 19.71},  {25, 50, 2, 800, 40, 39.30, 20.21, 24.51},
    {30, 50, 1, 800, 40, 48.27, 25.02, 30.17}, {30, 50, 2, 800, 40, 44.37, 24.00, 28.68},
    {30, 50, 4, 800, 40, 41.02, 23.29, 27.50}, {30, 50, 2, 400, 40, 38.33, 23.54, 27.14},
    {30, 70, 2, 800, 40, 44.71, 27.28, 31.04}, {35, 40, 2, 900, 30, 50.22, 25.86, 31.64}};

Result<GlobeAndWetBulbs> worked(const Reference& r) {
  return liljegren(
      {.temperature = {r.t}, .humidity = {r.rh}, .wind = {r.wind}, .radiation = {r.sun}, .zenith = {r.zenith}});
}

TEST(LiljegrenTable, HasTheGlobes) {
  for (const Reference& r : references) EXPECT_NEAR(worked(r).value().globe.value, r.globe, 0.05);
}
TEST(LiljegrenTable, HasTheNaturalWetBulbs) {
  for (const Reference& r : references) EXPECT_NEAR(worked(r).value().natural_wet_bulb.value, r.natural_wet_bulb, 0.05);
}
TEST(LiljegrenTable, HasTheWbgts) {
  for (const Reference& r : references) EXPECT_NEAR(worked(r).value().wbgt.value, r.wbgt, 0.05);
}

// "Events and activities held on hot days" (2013) says that the short form overestimates at night and in wind; by how
// much is derived from the two forms.
TEST(Liljegren, IsFourToFiveDegreesUnderTheShortFormAtNight) {
  const double over = kelvin_between(bom_wbgt({25}, {50}), worked(references[0]).value().wbgt);
  EXPECT_GT(over, 4);
  EXPECT_LT(over, 5);
}
TEST(Liljegren, IsNearTheShortFormInSunAndLightWind) {
  EXPECT_NEAR(kelvin_between(bom_wbgt({25}, {50}), worked(references[1]).value().wbgt), 0, 0.3);
}
TEST(Liljegren, IsUnderTheShortFormInWind) {
  EXPECT_GT(kelvin_between(bom_wbgt({30}, {50}), worked(references[4]).value().wbgt), 1.5);
}

// In saturated dark air nothing evaporates, so the psychrometric wet bulb is the air's temperature.
TEST(Liljegren, HasTheAirsPsychrometricWetBulbInSaturatedAir) {
  EXPECT_NEAR(liljegren({.temperature = {20}, .humidity = {100}, .wind = {2}, .radiation = {0}, .zenith = {120}})
                  ->psychrometric_wet_bulb.value,
              20, 1e-5);
}

// Anything that the weather of a ride may hold, in all its corners.
OpenAir any_air(Rng& rng) {
  const auto corner_or_between = [&](double low, double high) {
    const double u = uniform(rng);
    return u < 0.1 ? low : u > 0.9 ? high : low + (high - low) * (u - 0.1) / 0.8;
  };
  OpenAir air;
  air.temperature = {corner_or_between(-60, 60)};
  air.humidity = {corner_or_between(0, 100)};
  air.pressure = {corner_or_between(500, 1100)};
  air.wind = {corner_or_between(0, 60) * uniform(rng)};
  air.radiation = {corner_or_between(0, 1500)};
  air.zenith = {corner_or_between(0, 180)};
  air.sun_distance_au = corner_or_between(0.983, 1.017);
  return air;
}

TEST(Liljegren, AlwaysConvergesToFiniteTemperatures) {
  Rng rng{Seed{1}};
  for (int i = 0; i < 20000; ++i) {
    const OpenAir air = any_air(rng);
    const auto heat = liljegren(air);
    ASSERT_TRUE(heat) << heat.error().what;
    for (const Celsius t : {heat->globe, heat->natural_wet_bulb, heat->psychrometric_wet_bulb, heat->wbgt}) {
      ASSERT_TRUE(std::isfinite(t.value) && t.value > -120 && t.value < 200)
          << t.value << " at " << air.temperature.value << ' ' << air.humidity.value << ' ' << air.radiation.value;
    }
    EXPECT_LE(heat->psychrometric_wet_bulb.value, air.temperature.value + 1e-6);
  }
}

TEST(Liljegren, IsNeverLowerInHotterAir) {
  Rng rng{Seed{2}};
  for (int i = 0; i < 20000; ++i) {
    OpenAir air = any_air(rng);
    const double before = liljegren(air).value().wbgt.value;
    const double hotter = std::min(air.temperature.value + 5 * uniform(rng), 60.0);
    air.temperature = {hotter};
    ASSERT_GE(liljegren(air).value().wbgt.value, before - 1e-6)
        << hotter << ' ' << air.humidity.value << ' ' << air.pressure.value << ' ' << air.wind.value;
  }
}

TEST(Liljegren, IsNeverLowerInWetterAir) {
  Rng rng{Seed{3}};
  for (int i = 0; i < 20000; ++i) {
    OpenAir air = any_air(rng);
    const double before = liljegren(air).value().wbgt.value;
    air.humidity = {std::min(air.humidity.value + 20 * uniform(rng), 100.0)};
    ASSERT_GE(liljegren(air).value().wbgt.value, before - 1e-6)
        << air.temperature.value << ' ' << air.humidity.value << ' ' << air.pressure.value << ' ' << air.wind.value;
  }
}

TEST(Liljegren, HasNoJumpWhereTheSunComesUp) {
  OpenAir air{.temperature = {25}, .humidity = {50}, .wind = {2}, .radiation = {1}, .zenith = {89.49}};
  const double up = liljegren(air).value().wbgt.value;
  air.zenith = {89.51};
  EXPECT_NEAR(liljegren(air).value().wbgt.value, up, 0.05);
}

TEST(Liljegren, RefusesWhatIsOutOfRange) {
  const OpenAir good = singapore();
  EXPECT_TRUE(liljegren(good));
  OpenAir bad = good;
  bad.temperature = {60.1};
  EXPECT_EQ(liljegren(bad).error().kind, Problem::Kind::bad_input);
  bad = good;
  bad.pressure = {100840};
  EXPECT_EQ(liljegren(bad).error().kind, Problem::Kind::bad_input);
  bad = good;
  bad.radiation = {std::numeric_limits<double>::quiet_NaN()};
  EXPECT_EQ(liljegren(bad).error().kind, Problem::Kind::bad_input);
}

TEST(DirectFraction, IsNothingWithTheSunDown) { EXPECT_EQ(direct_fraction({100}, {91}, 1), 0); }
TEST(DirectFraction, GrowsWithTheClearnessOfTheSky) {
  EXPECT_LT(direct_fraction({200}, {40}, 1), direct_fraction({500}, {40}, 1));
  EXPECT_LE(direct_fraction({1500}, {40}, 1), 0.9);
}

TEST(WindAt2m, IsLessThanAt10m) {
  for (const double wind : {0.5, 1.0, 2.2, 3.0, 5.5, 8.0}) {
    for (const double zenith : {30.0, 120.0}) EXPECT_LT(wind_at_2m({wind}, {400}, {zenith}).value, wind);
  }
}
TEST(WindAt2m, IsNeverStill) { EXPECT_EQ(wind_at_2m({0}, {400}, {30}).value, 0.13); }
TEST(WindAt2m, IsLessUnderANightInversion) {
  EXPECT_LT(wind_at_2m({1.5}, {0}, {120}, {false, true}), wind_at_2m({1.5}, {0}, {120}, {false, false}));
}

// Kasten & Czeplak (from memory): 910 - 30 overhead, a quarter of it under full cloud.
TEST(RadiationUnderCloud, IsTheClearSkysAndAQuarterOfItUnderFullCloud) {
  EXPECT_NEAR(radiation_under_cloud(0, {0}).value, 880, 1e-9);
  EXPECT_NEAR(radiation_under_cloud(1, {0}).value, 220, 1e-9);
  EXPECT_NEAR(radiation_under_cloud(0, {60}).value, 425, 1e-9);
}
TEST(RadiationUnderCloud, IsNothingAtNight) { EXPECT_EQ(radiation_under_cloud(0, {100}).value, 0); }

}  // namespace
}  // namespace outbye
