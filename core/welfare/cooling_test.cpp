#include "core/welfare/cooling.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/base/random.h"
#include "core/base/water_physics.h"

namespace outbye {
namespace {

using testing::Contains;
using testing::HasSubstr;

constexpr HeatBand bands[] = {HeatBand::comfortable,      HeatBand::discomfort, HeatBand::precautions,
                              HeatBand::more_precautions, HeatBand::hazardous,  HeatBand::extreme};

WeatherHour hour_of(double temperature, double rain, double wind) {
  WeatherHour hour;
  hour.temperature = {temperature};
  hour.humidity = {70};
  hour.rain_mm = rain;
  hour.wind = MetresPerSecond{wind};
  return hour;
}

TEST(CoolingAt, NeverPoursLessWhenItIsHotter) {
  for (const bool is_gate : {false, true}) {
    CoolingAdvice before;
    for (const HeatBand band : bands) {
      const auto now = cooling_at({is_gate, band, std::nullopt, {20}, {0}});
      EXPECT_GE(now.pour, before.pour);
      EXPECT_GE(now.ice, before.ice);
      before = now;
    }
  }
}

TEST(CoolingAt, StaysWithinWhatCrewsPour) {  // common practice: 4-16 L at a stop, 10-100 L at a gate
  for (const HeatBand band : bands) {
    const auto pass = cooling_at({false, band, std::nullopt, {20}, {0}});
    const auto gate = cooling_at({true, band, std::nullopt, {20}, {0}});
    EXPECT_THAT(pass.pour.value, testing::AllOf(testing::Ge(4), testing::Le(16)));
    EXPECT_THAT(gate.pour.value, testing::AllOf(testing::Ge(10), testing::Le(100)));
    EXPECT_GE(pass.slosh_bottles + 2 * pass.pouring_bottles, pass.pour.value);
  }
}

TEST(CoolingAt, PutsEnoughIceIntoTheWater) {
  const auto hot = cooling_at({true, HeatBand::hazardous, std::nullopt, {25}, {-18}});
  EXPECT_GT(hot.ice, Kilograms{0});
  EXPECT_NEAR(mixed(hot.pour, {25}, hot.ice, {-18}).value, hot.water.value, 1e-9);
}

TEST(CoolingAt, NeverWarmsWaterThatIsColdAlready) {
  const auto hot = cooling_at({true, HeatBand::extreme, std::nullopt, {6}, {0}});
  EXPECT_EQ(hot.water, Celsius{6});
  EXPECT_EQ(hot.ice, Kilograms{0});
}

// 10 L at 10 degrees take up 0.84 MJ up to 30 degrees, 0.48 degrees of a horse of 500 kg if all is used (derived).
TEST(KelvinOfHorse, MeetsTheHeatOfTenLitres) {
  const double all = 10 * water_heat_kj_per_kg_k * 20;
  EXPECT_NEAR(all, 840, 5);
  EXPECT_NEAR(kelvin_of_horse(all, Kilograms{500}), 0.48, 0.005);
  const auto advice = cooling_at({false, HeatBand::more_precautions, std::nullopt, {10}, {0}});
  EXPECT_NEAR(advice.kilojoules.from, 0.3 * all, 0.01);
  EXPECT_NEAR(advice.kilojoules.to, 0.5 * all, 0.01);
}

// Evaporating a litre takes 2.43 MJ, 1.4 degrees of a horse of 500 kg (derived).
TEST(KelvinOfHorse, MeetsTheHeatOfALitreOfSweat) {
  EXPECT_NEAR(kelvin_of_horse(heat_of_evaporation_kj_per_kg, Kilograms{500}), 1.4, 0.01);
}

TEST(CoolingAt, GivesARugInsteadOfWaterInColdWetWeather) {
  const auto raw = cooling_at({true, HeatBand::comfortable, hour_of(11, 1.5, 3), {10}, {0}});
  EXPECT_TRUE(raw.is_cold);
  EXPECT_EQ(raw.pour, Litres{0});
  EXPECT_THAT(raw.how, Contains(HasSubstr("rug")));
  EXPECT_THAT(raw.cautions, Contains(HasSubstr("shivers")));
  EXPECT_FALSE(cooling_at({true, HeatBand::comfortable, hour_of(11, 0, 3), {10}, {0}}).is_cold);   // dry and still
  EXPECT_TRUE(cooling_at({true, HeatBand::comfortable, hour_of(11, 0, 12), {10}, {0}}).is_cold);   // windy
  EXPECT_TRUE(cooling_at({true, HeatBand::comfortable, hour_of(4, 0, 0), {10}, {0}}).is_cold);     // cold
  EXPECT_FALSE(cooling_at({true, HeatBand::precautions, hour_of(30, 5, 12), {10}, {0}}).is_cold);  // warm rain
}

TEST(CoolingAt, SendsForTheVetWhenItIsHot) {
  for (const HeatBand band : {HeatBand::more_precautions, HeatBand::hazardous, HeatBand::extreme}) {
    EXPECT_THAT(cooling_at({false, band, std::nullopt, {20}, {0}}).cautions, Contains(HasSubstr("vet at once")));
  }
}

TEST(CoolingAt, PoursOnNeckBackAndTheVeinsOfTheLegs) {  // common practice
  const auto how = cooling_at({true, HeatBand::hazardous, std::nullopt, {20}, {0}}).how;
  for (const char* place : {"Neck", "back", "veins of the legs"}) EXPECT_THAT(how, Contains(HasSubstr(place)));
}

// Not scraping cools slightly more (Comparison of post-exercise cooling methods in horses).
TEST(CoolingAt, SaysThatScrapingDoesNotHelp) {
  EXPECT_THAT(cooling_at({true, HeatBand::hazardous, std::nullopt, {20}, {0}}).how,
              Contains(HasSubstr("scraping between pours does not cool more")));
}

TEST(CoolingAt, KeepsWaterOffTheBackAndQuartersInTheCold) {
  EXPECT_THAT(cooling_at({true, HeatBand::comfortable, hour_of(4, 0, 0), {10}, {0}}).how,
              Contains(HasSubstr("No water on the back, loins or quarters")));
}

TEST(CoolingAt, PutsIceIntoTheWaterOnly) {
  EXPECT_THAT(cooling_at({true, HeatBand::hazardous, std::nullopt, {20}, {0}}).how,
              Contains(HasSubstr("Ice goes into the water")));
}

// Derived: 100 L from 25 to 10 degrees take 16.7 kg of ice at 0 degrees and 15.2 kg at -18.
TEST(CoolingAt, AsksForTheIceOfTheHeatBalance) {
  EXPECT_NEAR(cooling_at({true, HeatBand::extreme, std::nullopt, {25}, {0}}).ice.value, 16.7, 0.05);
  EXPECT_NEAR(cooling_at({true, HeatBand::extreme, std::nullopt, {25}, {-18}}).ice.value, 15.2, 0.05);
}

// 10 L x 4.186 x (30 - 10) x 0.3..0.5 = 251..419 kJ; over 3.48 x 500 kg 0.144..0.241 degrees (derived).
TEST(CoolingAt, TellsTheHeatTakenAsARangeOfTheWholeHorse) {
  const auto advice = cooling_at({false, HeatBand::more_precautions, std::nullopt, {10}, {0}, Kilograms{500}});
  EXPECT_NEAR(advice.kilojoules.from, 251, 0.5);
  EXPECT_NEAR(advice.kilojoules.to, 419, 0.5);
  EXPECT_NEAR(advice.kelvin.from, 0.144, 0.001);
  EXPECT_NEAR(advice.kelvin.to, 0.241, 0.001);
}

TEST(CoolingAt, TakesNoHeatWithWaterAsWarmAsTheHorse) {
  const auto advice = cooling_at({false, HeatBand::discomfort, std::nullopt, {32}, {0}});
  EXPECT_EQ(advice.kilojoules, (Interval<double>{0, 0}));
}

TEST(CoolingAt, NeverFallsWithHeatFromAnySettingsWaterAndWeather) {
  Rng rng{Seed{21}};
  for (int i = 0; i < 2000; ++i) {
    CoolingSettings settings;
    double pass = 0;
    double gate = 0;
    for (std::size_t b = 0; b < heat_band_count; ++b) {
      pass += 6 * uniform(rng);
      gate += 30 * uniform(rng);
      settings.at_pass[b] = {pass};
      settings.at_gate[b] = {gate};
    }
    ASSERT_TRUE(check_cooling_settings(settings));
    CoolingNeed need;
    need.is_gate = uniform(rng) < 0.5;
    const double air = 40 * uniform(rng);
    const double rain = 2 * uniform(rng);
    const double wind = 15 * uniform(rng);
    need.weather = hour_of(air, rain, wind);
    need.carried_water = {5 + 30 * uniform(rng)};
    need.ice = {-20 * uniform(rng)};
    CoolingAdvice before;
    for (const HeatBand band : bands) {
      need.band = band;
      const auto now = cooling_at(need, settings);
      ASSERT_GE(now.pour, before.pour);
      ASSERT_GE(now.ice, before.ice);
      ASSERT_GE(now.slosh_bottles + 2 * now.pouring_bottles, before.slosh_bottles + 2 * before.pouring_bottles);
      ASSERT_LE(now.pour_range.from, now.pour);
      ASSERT_LE(now.pour, now.pour_range.to);
      ASSERT_LE(now.water, need.carried_water);
      before = now;
    }
  }
}

TEST(CoolingAt, WarmerAirNeverHasLessWater) {
  for (const double wind : {0.0, 10.0}) {
    Litres before{0};
    for (double air = -5; air < 30; air += 0.5) {
      const auto now = cooling_at({true, HeatBand::comfortable, hour_of(air, 0, wind), {10}, {0}});
      EXPECT_GE(now.pour, before);
      before = now.pour;
    }
  }
}

// Limits from memory.
TEST(RectalAdvice, StepsAt39Point5And40And41) {
  EXPECT_EQ(rectal_advice({39.4}).name, "Keep to the cooling plan");
  EXPECT_EQ(rectal_advice({39.5}).name, "Keep cooling");
  EXPECT_EQ(rectal_advice({40.0}).name, "Cool hard");
  EXPECT_EQ(rectal_advice({41.0}).name, "Emergency");
}

TEST(RectalAdvice, AlwaysNamesTheVetAndWhereItComesFrom) {
  for (double reading = 36; reading < 43; reading += 0.1) {
    EXPECT_THAT(std::string{rectal_advice({reading}).do_now}, HasSubstr("vet"));
    EXPECT_THAT(std::string{rectal_advice({reading}).source}, HasSubstr("from memory"));
  }
}

TEST(CheckCoolingSettings, TakesTheDefaults) { EXPECT_TRUE(check_cooling_settings({})); }

TEST(CheckCoolingSettings, RefusesLitresThatFallWithHeat) {
  CoolingSettings falling;
  falling.at_gate[4] = {30};
  EXPECT_FALSE(check_cooling_settings(falling));
}

TEST(CheckCoolingSettings, RefusesAWetLimitBelowTheDryOne) {
  CoolingSettings odd;
  odd.cold_and_wet_below = {2};
  EXPECT_FALSE(check_cooling_settings(odd));
}

}  // namespace
}  // namespace outbye
