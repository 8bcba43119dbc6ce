#include "core/crewing/fixed_time.h"

#include <gtest/gtest.h>

#include "core/crewing/search.h"

namespace outbye {
namespace {

MeetOptionId option_id(std::uint32_t i) { return {i}; }
PlannedStop meet(std::uint32_t i) { return {PlannedStop::Kind::meet, option_id(i), std::nullopt}; }
PlannedStop refill(std::size_t i) { return {PlannedStop::Kind::refill, std::nullopt, i}; }
PlannedStop rest() { return {PlannedStop::Kind::rest, std::nullopt, std::nullopt}; }

// Places 0 (venue), 1, 2 in a row, 10 minutes and 8 km apart at the limits; one car; one horse passing 1 (at 30 min),
// 2 (at 60 min), 1 again (at 90 min) and finishing at 0 (at 120 min), standing 3 minutes at each pass.
struct Row {
  CrewingTask task;
  FixedTimes times;
  Row() {
    task.settings.drive_allowance = 1.0;
    task.drives = DriveTable({"venue", "ford", "mill"});
    for (std::uint32_t i = 0; i < 3; ++i) {
      for (std::uint32_t j = 0; j < 3; ++j) {
        const double hops = i > j ? i - j : j - i;
        task.drives.set({i}, {j}, Drive{minutes(10 * hops), kilometres(8 * hops)});
      }
    }
    HorseDays horse;
    const std::uint32_t place[] = {1, 2, 1, 0};
    for (std::uint32_t i = 0; i < 4; ++i) {
      MeetOption option;
      option.label = "meet " + std::to_string(i);
      option.event = i;
      option.kind = i == 3 ? RideEvent::Kind::finish : RideEvent::Kind::pass;
      option.place = {place[i]};
      option.ride_along = kilometres(6 * (i + 1));
      horse.events.push_back({option.kind, {0}, std::nullopt, option.ride_along});
      task.options.push_back(option);
      times.arrival.push_back(1800.0 * (i + 1));
      times.departure.push_back(1800.0 * (i + 1) + (i == 3 ? 0 : 180));
    }
    task.horses.push_back(horse);
    CrewCar car;
    car.name = "Red";
    car.longest_driving = minutes(0);
    task.cars.push_back(car);
  }
  FixedValue value(std::vector<PlannedStop> stops) const {
    return evaluate_fixed(task, times, {{CarId{0}, std::move(stops)}});
  }
};

TEST(FixedOrders, AreWorthEveryMeetWhenTheCarIsAlwaysReady) {
  const FixedValue value = Row().value({meet(0), meet(1), meet(2), meet(3)});
  ASSERT_TRUE(value.is_feasible) << value.why_not;
  EXPECT_DOUBLE_EQ(value.worth, 4.0);
  EXPECT_DOUBLE_EQ(value.cars[0][1].depart, 1800 + 180 + 180);  // horse gone, kit packed
  EXPECT_DOUBLE_EQ(value.cars[0][1].ready, 1800 + 180 + 180 + 600 + 240);
}

TEST(FixedOrders, PayForTheKilometresBeyondTheWaterInterval) {
  const FixedValue value = Row().value({meet(0), meet(3)});  // 6 km to 24 km without help, 8 km too many
  ASSERT_TRUE(value.is_feasible);
  EXPECT_DOUBLE_EQ(value.penalty, 8 * 0.05);
}

TEST(FixedOrders, CountAMeetInPartWhenTheCarIsThereButNotSetUp) {
  Row row;
  row.task.cars[0].ready_from = row.times.origin + minutes(17);  // there at 27, set up at 31
  const FixedValue value = row.value({meet(0)});
  ASSERT_TRUE(value.is_feasible);
  EXPECT_DOUBLE_EQ(value.additive, 0.4);
  row.task.cars[0].ready_from = row.times.origin + minutes(24);  // there at 34, horse gone at 33
  const FixedValue late = row.value({meet(0)});
  EXPECT_FALSE(late.is_feasible);
  EXPECT_EQ(late.why_not, "Red at meet 0: too late by 1.0 min");
}

TEST(FixedOrders, WaitOutsideUntilAPlaceOpensAndRefuseOneThatShutsTooSoon) {
  Row row;
  const Instant zero = row.times.origin;
  row.task.options[0].open = {{zero + minutes(28), zero + minutes(40)}};  // in at 28, set up at 32
  EXPECT_DOUBLE_EQ(row.value({meet(0)}).additive, 0.4);
  row.task.options[0].open = {{zero + minutes(10), zero + minutes(35)}};  // packed at 36
  EXPECT_FALSE(row.value({meet(0)}).is_feasible);
}

TEST(FixedOrders, KeepTheKitUpBetweenTwoMeetsAtOnePlace) {
  Row row;
  row.task.options[1].place = {1};
  row.times.arrival[1] = row.times.departure[0];
  row.times.departure[1] = row.times.arrival[1] + 60;
  const FixedValue value = row.value({meet(0), meet(1)});
  ASSERT_TRUE(value.is_feasible);
  EXPECT_DOUBLE_EQ(value.additive, 2.0);
  row.times.arrival[1] -= 1;  // the crew is still with the first horse
  EXPECT_DOUBLE_EQ(row.value({meet(0), meet(1)}).additive, 1.4);
}

TEST(FixedOrders, NeedABreakWhenDrivingTooLong) {
  Row row;
  row.task.cars[0].longest_driving = minutes(25);
  row.task.cars[0].break_length = minutes(18);
  EXPECT_TRUE(row.value({meet(0), meet(1), meet(2), meet(3)}).is_feasible);  // stands 23 minutes after each drive
  row.task.cars[0].break_length = minutes(30);
  const FixedValue tired = row.value({meet(0), meet(1), meet(2), meet(3)});
  EXPECT_FALSE(tired.is_feasible);
  EXPECT_EQ(tired.why_not, "Red at meet 2: driven 30.0 min without a break");
  row.times.arrival[2] += 1200, row.times.departure[2] += 1200;
  EXPECT_TRUE(row.value({meet(0), meet(1), rest(), meet(2)}).is_feasible);
}

TEST(FixedOrders, RunOutOfWaterAndFuelUnlessFilled) {
  Row row;
  row.task.cars[0].water_capacity = {25};
  for (auto& option : row.task.options) option.water = {10};
  EXPECT_FALSE(row.value({meet(0), meet(1), meet(2)}).is_feasible);
  row.task.refills.push_back({"tap", {2}, true, false, minutes(5), {}});
  EXPECT_TRUE(row.value({meet(0), meet(1), refill(0), meet(2)}).is_feasible);
  row.task.options[2].has_water = true;
  EXPECT_TRUE(row.value({meet(0), meet(1), meet(2), meet(3)}).is_feasible);
  row.task.cars[0].fuel_range = kilometres(30);
  EXPECT_FALSE(row.value({meet(0), meet(1), meet(2), meet(3)}).is_feasible);  // 32 km
  row.task.refills[0].fuel = true;
  EXPECT_TRUE(row.value({meet(0), meet(1), refill(0), meet(2), meet(3)}).is_feasible);
}

TEST(FixedOrders, AreRefusedWithoutAMeetThatMustBe) {
  Row row;
  row.task.options[1].demand = MeetOption::Demand::must;
  EXPECT_FALSE(row.value({meet(0)}).is_feasible);
  EXPECT_TRUE(row.value({meet(0), meet(1)}).is_feasible);
}

TEST(SearchOrders, MeetsEveryPassOfAnEasyDay) {
  const Row row;
  const auto found = search_orders(row.task, row.times, 8);
  ASSERT_TRUE(found);
  EXPECT_DOUBLE_EQ(found->fixed_worth, 4.0);
  EXPECT_LE(found->fixed_worth, found->fixed_bound + 1e-9);
}

}  // namespace
}  // namespace outbye
