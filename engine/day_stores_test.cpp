// Water, salts and stock as the log of the day leaves them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/small_day.h"

namespace outbye {
namespace {

using test::all_troubles;
using test::Small;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

WaterNow water_at(const Small& day, double minute) { return day.answer(minute).water.front(); }

DayEntry amount(const Small& day, DayKind kind, double minute, const std::string& what, double amount,
                const std::string& unit) {
  DayEntry e = day.entry(kind, minute);
  e.what = what;
  e.amount = amount;
  e.unit = unit;
  return e;
}

TEST(WaterOnTheDay, IsNotLostBeforeTheStart) { EXPECT_EQ(water_at(Small{}, -10).balance.deficit.to, Litres{0}); }

// Twenty minutes at a trot at the WBGT assumed where no weather is known.
TEST(WaterOnTheDay, IsSweatedAtTheRateOfTheModelWhileRiding) {
  const Ride& ride = Small::plan().ride;
  const Estimate expected = sweat(ride.sweat.weather_unknown, minutes(20), false, HorseBody{}, ride.sweat);
  EXPECT_NEAR(water_at(Small{}, 20).balance.sweat.middle.value, expected.middle.value, 1e-9);
}

TEST(WaterOnTheDay, IsLessByADrinkThatWasNoted) {
  Small day;
  day.add(DayKind::car_at, 10, "Ash");
  day.add(DayKind::horse_in, 25, "Ash");
  day.add(DayKind::horse_out, 28, "Ash");
  const WaterNow before = water_at(day, 40);
  day.add(amount(day, DayKind::drink, 26, "bucket", 2, "L"));
  const WaterNow after = water_at(day, 40);
  EXPECT_NEAR(before.balance.deficit.to.value - after.balance.deficit.to.value, 2.0, 1e-9);
  EXPECT_EQ(after.balance.drunk, (Interval<Litres>{{2}, {2}}));
}

// Nobody noted a drink: from nothing to the usual, so the range is wider, never the deficit smaller than could be.
TEST(WaterOnTheDay, LeavesOpenWhatNobodyNoted) {
  Small day;
  day.add(DayKind::car_at, 10, "Ash");
  day.add(DayKind::horse_in, 25, "Ash");
  day.add(DayKind::horse_out, 28, "Ash");
  const WaterNow water = water_at(day, 30);
  EXPECT_EQ(water.balance.drunk.from, Litres{0});
  EXPECT_THAT(water.notes, Contains(HasSubstr("no drink is noted counts as anything from none")));
}

TEST(SaltOnTheDay, CountsWhatIsKnownAndSaysWhatIsNot) {
  Small day;
  day.add(amount(day, DayKind::electrolyte, 26, "salt", 30, "g"));
  day.add(amount(day, DayKind::electrolyte, 27, "KCl", 10, "g"));
  day.add(amount(day, DayKind::electrolyte, 28, "blue tub", 50, "g"));
  const WaterNow water = water_at(day, 60);
  const Ions given = ions_of(Grams{30}, Grams{10});
  EXPECT_NEAR(water.salts.given.sodium.value, given.sodium.value, 1e-9);
  EXPECT_NEAR(water.salts.given.potassium.value, given.potassium.value, 1e-9);
  EXPECT_THAT(water.notes, Contains(HasSubstr("What is in 'blue tub' is not known")));
  EXPECT_GT(water.salts.cautions.size(), 0u);
}

const KindLeft& drinking(const CarStockLeft& car) { return car.kinds.front(); }

TEST(StockOnTheDay, SetsOutAsThePlanAssumes) {
  const auto answer = Small{}.answer(0);
  ASSERT_EQ(answer.stock.size(), 1u);
  EXPECT_EQ(answer.stock.front().containers.size(), 4u);
  EXPECT_DOUBLE_EQ(drinking(answer.stock.front()).left, 100.0);
}

TEST(StockOnTheDay, IsUsedFromTheContainerNamedOrFromItsKindInTurn) {
  Small day;
  day.add(amount(day, DayKind::stock_used, 20, "Can 2", 10, "L"));
  day.add(amount(day, DayKind::stock_used, 21, "water", 30, "L"));
  const auto answer = day.answer(22);
  const auto& cans = answer.stock.front().containers;
  EXPECT_DOUBLE_EQ(cans[0].left, 0.0);
  EXPECT_DOUBLE_EQ(cans[1].left, 10.0);
  EXPECT_DOUBLE_EQ(cans[2].left, 25.0);
  EXPECT_THAT(all_troubles(answer.state), IsEmpty());
}

TEST(StockOnTheDay, IsFilledUpAgain) {
  Small day;
  day.add(amount(day, DayKind::stock_used, 20, "can 1", 20, "L"));
  day.add(amount(day, DayKind::stock_filled, 30, "can 1", 15, "L"));
  EXPECT_DOUBLE_EQ(day.answer(31).stock.front().containers[0].left, 20.0);
}

TEST(StockOnTheDay, SaysWhatCannotBe) {
  Small day;
  const std::string used = day.add(amount(day, DayKind::stock_used, 20, "can 1", 40, "L"));
  const std::string unit = day.add(amount(day, DayKind::stock_used, 21, "can 2", 4, "kg"));
  const std::string filled = day.add(amount(day, DayKind::stock_filled, 22, "can 3", 4, "L"));
  const auto answer = day.answer(23);
  const std::string troubles = all_troubles(answer.state);
  EXPECT_THAT(troubles, HasSubstr(used + ": is 15.0 L of 'can 1' more than was left"));
  EXPECT_THAT(troubles, HasSubstr(unit + ": is in kg, but 'can 2' is counted in L"));
  EXPECT_THAT(troubles, HasSubstr(filled + ": is 4.0 L of 'can 3' more than there was room for"));
}

TEST(StockOnTheDay, CountsOnlyTheStopsStillToCome) {
  Small day;
  const double before = drinking(day.answer(0).stock.front()).to_come;
  day.add(DayKind::horse_in, 25, "Ash");
  EXPECT_LT(drinking(day.answer(26).stock.front()).to_come, before);
}

}  // namespace
}  // namespace outbye
