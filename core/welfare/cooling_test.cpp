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

}  // namespace
}  // namespace outbye
