#include "core/base/water_physics.h"

#include <gtest/gtest.h>

#include "core/base/random.h"

namespace outbye {
namespace {

// Heat balance by hand with the constants of the header (derived).
TEST(IceToCool, MeetsTheBalanceWorkedByHand) {
  EXPECT_NEAR(ice_to_cool(Litres{25}, {25}, {10}).value, 4.173, 0.001);
  EXPECT_NEAR(ice_to_cool(Litres{25}, {25}, {10}, {-18}).value, 3.791, 0.001);
  EXPECT_NEAR(ice_to_cool(Litres{25}, {20}, {10}).value, 2.78, 0.01);
  EXPECT_NEAR(ice_to_cool(Litres{25}, {30}, {10}).value, 5.56, 0.01);
  EXPECT_NEAR(ice_to_cool(Litres{25}, {25}, {15}).value, 2.64, 0.01);
  EXPECT_NEAR(ice_to_cool(Litres{10}, {20}, {10}).value, 1.11, 0.01);
  EXPECT_NEAR(ice_to_cool(Litres{100}, {25}, {10}, {-18}).value, 15.2, 0.05);
  EXPECT_NEAR(ice_to_cool(Litres{25}, {20}, {10}, {-18}).value, 2.53, 0.005);
  EXPECT_NEAR(ice_to_cool(Litres{25}, {30}, {10}, {-18}).value, 5.05, 0.005);
  EXPECT_NEAR(ice_to_cool(Litres{25}, {25}, {15}, {-18}).value, 2.41, 0.005);
  EXPECT_NEAR(ice_to_cool(Litres{10}, {20}, {10}, {-18}).value, 1.01, 0.005);
  EXPECT_NEAR(ice_to_cool(Litres{100}, {25}, {10}).value, 16.7, 0.05);
}

TEST(IceToCool, NeedsNoneForWaterThatIsColdEnough) { EXPECT_EQ(ice_to_cool(Litres{25}, {10}, {15}).value, 0.0); }

TEST(Mixed, ComesBackToTheTemperatureTheIceWasWorkedFor) {
  Rng rng{Seed{5}};
  for (int i = 0; i < 200; ++i) {
    const Litres water{1 + 99 * uniform(rng)};
    const double from = 5 + 30 * uniform(rng);
    const double to = from * uniform(rng);
    const double ice = -20 * uniform(rng);
    EXPECT_NEAR(mixed(water, {from}, ice_to_cool(water, {from}, {to}, {ice}), {ice}).value, to, 1e-9);
  }
}

TEST(Mixed, MeetsTheBalanceWorkedByHand) {
  EXPECT_NEAR(mixed(Litres{25}, {25}, {5}).value, 7.5, 0.05);  // derived
  EXPECT_EQ(mixed(Litres{1}, {10}, {5}).value, 0.0);           // most of the ice stays
}

// Icebox exercise 11.19 of a school textbook: a 30 cm cube, 5 cm of wall, conductivity 0.01, 45 degrees outside, 6 h,
// 4.0 kg of ice: 0.313 kg melts and 3.687 kg stays. Its heat of fusion is 335 kJ/kg.
TEST(IceMelted, MeetsTheTextbookIcebox) {
  const CoolBox box{wall_leak(0.01, 6 * 0.3 * 0.3, 0.05)};
  EXPECT_NEAR(box.leak_w_per_k * 45, 4.86, 1e-9);
  const double melted = ice_melted(box, 45, Seconds{6 * 3600.0}).value * heat_of_fusion_kj_per_kg / 335.0;
  EXPECT_NEAR(melted, 0.313, 0.001);
  EXPECT_NEAR(4.0 - melted, 3.687, 0.001);
}

// The same icebox the other way round: 0.313 kg melted in 6 h at 45 degrees is a leak of 0.01 x 0.54 / 0.05 = 0.108
// W/K.
TEST(LeakFromMelt, MeetsTheTextbookIcebox) {
  EXPECT_NEAR(leak_from_melt({0.3134}, 45, Seconds{6 * 3600.0}) * 335.0 / heat_of_fusion_kj_per_kg, 0.108, 1e-4);
}

TEST(LeakFromMelt, IsTheLeakThatMeltedSoMuch) {
  for (const double leak : {0.3, 0.6, 1.5}) {
    const Seconds time{8 * 3600.0};
    EXPECT_NEAR(leak_from_melt(ice_melted({leak}, 22, time), 22, time), leak, 1e-12);
  }
}

// Solved ice-chest exercise 3-162: 50 x 40 x 30 cm outside, 3 cm of foam (0.033 W/m/K), base adiabatic, film 18 W/m2/K
// on 0.74 m2: R = 1.5927 + 0.07508 = 1.6678 K/W. The dimensions are recovered from the resistances (derived).
TEST(WallAndFilmLeak, MeetsTheTextbookIceChest) {
  const double inside = 0.44 * 0.34 + 2 * 0.27 * 0.34 + 2 * 0.27 * 0.44;
  EXPECT_NEAR(inside, 0.5708, 1e-9);
  EXPECT_NEAR(1.0 / wall_leak(0.033, inside, 0.03), 1.5927, 1e-4);
  EXPECT_NEAR(1.0 / wall_and_film_leak(0.033, inside, 0.03, 18, 0.74), 1.6678, 1e-4);
  EXPECT_NEAR(wall_and_film_leak(0.033, inside, 0.03, 18, 0.74), 0.5996, 1e-4);
}

// 15 W for 0.6 W/K and 25 K melt 1.62 kg in 10 h (derived).
TEST(IceMelted, MeetsTheDayInTheCar) {
  EXPECT_NEAR(ice_melted({0.6}, 25, Seconds{3600}).value, 0.162, 0.0005);
  EXPECT_NEAR(ice_melted({0.6}, 25, Seconds{36000}).value, 1.62, 0.005);
  EXPECT_NEAR(ice_melted({1.5}, 25, Seconds{3600}).value, 0.405, 0.0005);
  EXPECT_NEAR(ice_melted({1.5}, 25, Seconds{36000}).value, 4.05, 0.005);
  EXPECT_EQ(ice_melted({1.5}, -5, Seconds{36000}).value, 0.0);
}

}  // namespace
}  // namespace outbye
