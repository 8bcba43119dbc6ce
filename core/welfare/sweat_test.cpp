#include "core/welfare/sweat.h"

#include <gtest/gtest.h>

#include <limits>
#include <string>

#include "core/base/random.h"

namespace outbye {
namespace {

// 26 ml/m2/min of a 450 kg horse: 4.69 m2 and 7.316 L/h (derived from J Appl Physiol 83, 1997, 1133-43).
TEST(WholeBodySweat, MeetsTheMeasuredRates) {
  EXPECT_NEAR(body_surface_m2(Kilograms{450}), 4.69, 1e-9);
  EXPECT_NEAR(whole_body_sweat(26, Kilograms{450}).value, 7.316, 0.001);
  EXPECT_NEAR(whole_body_sweat(24, Kilograms{450}).value, 6.8, 0.05);
  EXPECT_NEAR(whole_body_sweat(28, Kilograms{500}).value, 8.6, 0.05);
  // The hottest trial (J Appl Physiol 87, 1999, 1843-51).
  EXPECT_NEAR(whole_body_sweat(48, Kilograms{450}).value, 13.5, 0.05);
  EXPECT_NEAR(whole_body_sweat(57.5, Kilograms{450}).value, 16.2, 0.05);
}

TEST(SweatRate, StaysWithinWhatIsPublishedForATrot) {
  for (const double wbgt : {5.0, 15.0, 20.0, 26.0, 29.0, 34.0}) {
    const double rate = sweat_rate({wbgt}, HorseBody{}).value;
    EXPECT_GE(rate, 4.0);
    EXPECT_LE(rate, 16.2);
  }
}

// 33.8 L over 3 x 15 km (J Appl Physiol 83, 1997): three hours at the rate of warm weather lie within 30 % of it.
TEST(Sweat, CoversTheMeasuredLossOfFortyFiveKilometres) {
  const Estimate loss = sweat({29}, Seconds{3 * 3600.0}, false, HorseBody{Kilograms{450}, false, 1.0});
  EXPECT_LE(loss.low.value, 33.8);
  EXPECT_GE(loss.high.value, 33.8);
}

TEST(SweatRate, NeverFallsWhenItGetsHotter) {
  Rng rng{Seed{11}};
  for (int i = 0; i < 1000; ++i) {
    const HorseBody horse{Kilograms{350 + 250 * uniform(rng)}, uniform(rng) < 0.5, 0.7 + 0.6 * uniform(rng)};
    const double cool = -10 + 50 * uniform(rng);
    const double warm = cool + 10 * uniform(rng);
    EXPECT_LE(sweat_rate({cool}, horse).value, sweat_rate({warm}, horse).value);
  }
}

TEST(SweatRate, IsLowerByTheMeasuredShareAfterThreeWeeksInTheHeat) {
  HorseBody used;
  used.is_acclimatised = true;
  EXPECT_NEAR(sweat_rate({30}, used) / sweat_rate({30}, HorseBody{}), 0.78, 1e-12);
}

TEST(Sweat, CarriesItsRangeEitherWay) {
  const Estimate loss = sweat({20}, Seconds{3600}, false, HorseBody{});
  EXPECT_DOUBLE_EQ(loss.middle.value, 6.0);
  EXPECT_DOUBLE_EQ(loss.low.value, 4.2);
  EXPECT_DOUBLE_EQ(loss.high.value, 7.8);
}

// The table of the header: 4, 6, 8, 10, 12 L/h; at a limit the hotter step begins (derived choice).
TEST(SweatRate, IsTheTableByWbgt) {
  const double table[][2] = {{-5, 4},   {17.9, 4}, {18, 6},    {23.9, 6}, {24, 8},
                             {27.9, 8}, {28, 10},  {29.9, 10}, {30, 12},  {40, 12}};
  for (const auto& row : table) EXPECT_EQ(sweat_rate({row[0]}, HorseBody{}), LitresPerHour{row[1]}) << row[0];
}

TEST(SweatRate, FollowsTheSurfaceOfTheBody) {
  HorseBody large;
  large.mass = {650};
  EXPECT_NEAR(sweat_rate({26}, large).value, 8.0 * (1.09 + 5.2) / (1.09 + 3.6), 1e-9);
}

TEST(SweatRate, NeverFallsWithMassOrSweatFactor) {
  Rng rng{Seed{12}};
  for (int i = 0; i < 1000; ++i) {
    HorseBody horse;
    horse.mass = {200 + 400 * uniform(rng)};
    horse.sweat_factor = 0.3 + uniform(rng);
    HorseBody more = horse;
    more.mass += Kilograms{100 * uniform(rng)};
    more.sweat_factor += uniform(rng);
    const Celsius wbgt{40 * uniform(rng)};
    ASSERT_LE(sweat_rate(wbgt, horse), sweat_rate(wbgt, more));
  }
}

TEST(Sweat, OfTwoPartsIsThatOfTheWhole) {
  Rng rng{Seed{13}};
  for (int i = 0; i < 500; ++i) {
    const Celsius wbgt{40 * uniform(rng)};
    const Seconds a{9000 * uniform(rng)};
    const Seconds b{9000 * uniform(rng)};
    const Estimate parts = sweat(wbgt, a, false, {}) + sweat(wbgt, b, false, {});
    ASSERT_NEAR(sweat(wbgt, a + b, false, {}).high.value, parts.high.value, 1e-9);
  }
}

TEST(Sweat, CountsAShareOfStanding) { EXPECT_NEAR(sweat({26}, Seconds{3600}, true, {}).middle.value, 0.3 * 8, 1e-12); }

TEST(Sweat, OfNoTimeIsNothing) { EXPECT_EQ(sweat({35}, Seconds{0}, false, {}).high, Litres{0}); }

TEST(CheckSweatSettings, TakesTheDefaults) { EXPECT_TRUE(check_sweat_settings({})); }

TEST(CheckSweatSettings, RefusesRatesThatFallWithHeat) {
  SweatSettings falling;
  falling.rate[3] = {7};
  const auto checked = check_sweat_settings(falling);
  ASSERT_FALSE(checked);
  EXPECT_NE(checked.error().what.find("band 4"), std::string::npos);
}

TEST(CheckSweatSettings, RefusesBandsOutOfOrder) {
  SweatSettings swapped;
  swapped.band_ends[1] = {10};
  EXPECT_FALSE(check_sweat_settings(swapped));
}

TEST(CheckSweatSettings, RefusesWhatIsNotANumber) {
  SweatSettings odd;
  odd.range = std::numeric_limits<double>::quiet_NaN();
  EXPECT_FALSE(check_sweat_settings(odd));
}

TEST(CheckHorseBody, RefusesAMassOrSweatFactorOutOfRange) {
  EXPECT_TRUE(check_horse_body({}));
  EXPECT_FALSE(check_horse_body({Kilograms{5}, false, 1.0}));
  EXPECT_FALSE(check_horse_body({Kilograms{450}, false, 0.0}));
}

}  // namespace
}  // namespace outbye
