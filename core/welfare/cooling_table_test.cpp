#include "core/welfare/cooling_table.h"

#include <gtest/gtest.h>

#include <cmath>

namespace outbye {
namespace {

TEST(WaterTable, HasTheBandsInOrder) {
  const auto rows = water_table();
  for (std::size_t i = 0; i < rows.size(); ++i) EXPECT_EQ(rows[i].band, static_cast<HeatBand>(i));
}

// Common practice, no source: 4-16 L at a stop; at a gate 10-20 L when mild and 40-100 L in heat.
TEST(WaterTable, PoursWhatCrewsPour) {
  const auto rows = water_table();
  EXPECT_EQ(rows.front().pour_at_pass, Litres{4});
  EXPECT_EQ(rows.back().pour_at_pass, Litres{16});
  EXPECT_EQ(rows[0].pour_at_gate, Litres{10});
  EXPECT_EQ(rows[1].pour_at_gate, Litres{20});
  EXPECT_EQ(rows[2].pour_at_gate, Litres{40});
  EXPECT_EQ(rows.back().pour_at_gate, Litres{100});
}

TEST(WaterTable, NeverHasLessWhenItIsHotter) {
  const auto rows = water_table();
  for (std::size_t i = 1; i < rows.size(); ++i) {
    EXPECT_GE(rows[i].pour_at_pass, rows[i - 1].pour_at_pass);
    EXPECT_GE(rows[i].pour_at_gate, rows[i - 1].pour_at_gate);
    EXPECT_GE(rows[i].drink_at_pass, rows[i - 1].drink_at_pass);
    EXPECT_GE(rows[i].drink_at_gate, rows[i - 1].drink_at_gate);
  }
}

TEST(WaterTable, CoversTheOfferAtEveryWbgtOfItsBand) {
  const auto rows = water_table();
  for (double wbgt = -5.0; wbgt < 45.0; wbgt += 0.1) {
    const auto& row = rows[static_cast<std::size_t>(band_of_wbgt({wbgt}))];
    EXPECT_GE(row.drink_at_pass, drink_offer(false, {wbgt}).offer) << wbgt;
    EXPECT_GE(row.drink_at_gate, drink_offer(true, {wbgt}).offer) << wbgt;
  }
}

TEST(WaterTable, TakesNoMoreThanItsOwnBandAsksFor) {
  const auto rows = water_table();
  const double ends[] = {25, 28, 30, 32};
  for (std::size_t i = 0; i < 4; ++i) {
    const Celsius hottest{std::nextafter(ends[i], 0.0)};
    ASSERT_EQ(band_of_wbgt(hottest), rows[i].band);
    EXPECT_EQ(rows[i].drink_at_pass, drink_offer(false, hottest).offer);
  }
}

TEST(WaterTable, WantsColdWaterFromPrecautionsUp) {
  const auto rows = water_table();
  EXPECT_FALSE(rows[1].pour_temperature);
  EXPECT_EQ(rows[2].pour_temperature, Celsius{10});
  EXPECT_EQ(rows[5].pour_temperature, Celsius{10});
}

TEST(WaterTable, AgreesWithTheAdviceAtAPlace) {
  for (const auto& row : water_table()) {
    EXPECT_EQ(row.pour_at_pass, cooling_at({false, row.band, std::nullopt, {20}, {0}}).pour);
    EXPECT_EQ(row.pour_at_gate, cooling_at({true, row.band, std::nullopt, {20}, {0}}).pour);
  }
}

TEST(WaterTable, TakesDrinkingAtTheHotEndWhereverSweatSteps) {
  SweatSettings sweat;
  sweat.band_ends[2] = {27.0};  // within the band of 25-28
  EXPECT_EQ(water_table({}, {}, sweat)[1].drink_at_pass, drink_offer(false, {27.5}, {}, sweat).offer);
}

TEST(WaterTable, FollowsItsSettings) {
  CoolingSettings ours;
  ours.at_pass[2] = {9};
  EXPECT_EQ(water_table(ours)[2].pour_at_pass, Litres{9});
}

}  // namespace
}  // namespace outbye
