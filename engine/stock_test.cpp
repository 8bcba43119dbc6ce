#include "engine/stock.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "engine/stock_stops.h"
#include "tests/support/small_ride.h"

namespace outbye {
namespace {

// The same ice, whether a box is filled or its stock is counted. Here, for not every library can tell while compiling.
static_assert(StockSettings{}.ice_kg_per_litre == ice_kg_per_litre);

using test::own;
using test::small_inputs;
using ::testing::Contains;
using ::testing::HasSubstr;

RidePlan planned(const RideInputs& inputs = small_inputs()) { return *plan_ride(inputs); }

TEST(RideStock, AssumesFourCansAndSaysSo) {
  const auto stocks = *stock_of(planned());
  ASSERT_EQ(stocks.size(), 1U);
  EXPECT_EQ(stocks[0].task.containers.size(), 4U);
  EXPECT_THAT(stocks[0].answer.assumptions, Contains(HasSubstr("four cans of 25 L")));
}

TEST(RideStock, TakesTheTankOfACarThatHasOne) {
  auto inputs = small_inputs();
  inputs.ride.cars.emplace_back().name = "Van";
  inputs.ride.cars[0].water_capacity = {120};
  const auto stocks = *stock_of(planned(inputs));
  ASSERT_EQ(stocks[0].task.containers.size(), 1U);
  EXPECT_EQ(stocks[0].task.containers[0].capacity, Litres{120});
}

TEST(RideStock, TakesTheRidesOwnContainers) {
  auto inputs = small_inputs();
  inputs.ride.kit.containers = {
      own(OwnContainer::Kind::can, "can", 20, 2), own(OwnContainer::Kind::can, "cooling can", 10, 1, false),
      own(OwnContainer::Kind::bottle, "slosh bottle", 1, 3), own(OwnContainer::Kind::bucket, "bucket", 12, 2)};
  const auto stocks = *stock_of(planned(inputs));
  const auto& containers = stocks[0].task.containers;
  ASSERT_EQ(containers.size(), 6U);
  EXPECT_EQ(containers[0].name, "can 1");
  EXPECT_EQ(containers[2].holds, StockKind::cooling);
  EXPECT_EQ(containers[2].start, Litres{0});
  EXPECT_EQ(containers[5].holds, StockKind::bottles);
}

TEST(RideStock, HappensAsOftenAsThePlanSaysTheCarIsThere) {
  const RidePlan plan = planned();
  const auto met = *met_by_day(plan, plan.ride.days);
  ASSERT_EQ(met.size(), plan.plan.days.size());
  for (std::size_t s = 0; s < met[0].size(); ++s) {
    const TimedStop& stop = plan.plan.days[0].stops[s];
    if (!stop.stop.option) continue;
    const int days = std::accumulate(met[0][s].begin(), met[0][s].end(), 0);
    EXPECT_NEAR(days / static_cast<double>(plan.ride.days), stop.chance_there, 1e-9) << "stop " << s;
  }
}

TEST(RideStock, FillsUpAtTheVenue) {
  const auto stocks = *stock_of(planned());
  bool has_gate = false;
  for (const StockStop& stop : stocks[0].task.stops) {
    if (stop.label.find("gate") == std::string::npos && stop.label.find("Gate") == std::string::npos) continue;
    has_gate = true;
    EXPECT_TRUE(stop.refill);
  }
  EXPECT_TRUE(has_gate);
}

TEST(RideStock, TakesWhatTheWelfareOfThePlanPours) {
  const RidePlan plan = planned();
  const auto stocks = *stock_of(plan);
  double poured = 0;
  for (const StockStop& stop : stocks[0].task.stops) {
    for (const StockDemand& demand : stop.water)
      poured += demand.use == StockKind::drinking ? 0.0 : demand.planned.value;
  }
  double planned = 0;
  for (const TimedStop& stop : plan.plan.days[0].stops) {
    if (stop.stop.option)
      planned += plan.welfare.passes[at(plan.task.options, *stop.stop.option).event].cooling.pour.value;
  }
  EXPECT_NEAR(poured, planned, 1e-9);
  EXPECT_GT(poured, 0.0);
}

TEST(RideStock, TakesTheLeakThatABoxWasMeasuredFor) {
  auto inputs = small_inputs();
  inputs.ride.kit.containers = {own(OwnContainer::Kind::cool_box, "typed", 20, 1),
                                own(OwnContainer::Kind::cool_box, "measured", 20, 1),
                                own(OwnContainer::Kind::cool_box, "unknown", 20, 1)};
  inputs.ride.kit.containers[0].leak_w_per_k = 0.4;
  // 0.9 kg in 8 h at 22 degrees: 0.9 x 333 600 J / (22 K x 28 800 s) = 0.4739 W/K (derived).
  inputs.ride.kit.containers[1].leak_test =
      IceMeltTest{Kilograms{4.0}, Kilograms{3.1}, Seconds{8 * 3600.0}, Celsius{22}};
  const auto stocks = *stock_of(planned(inputs));
  const auto& boxes = stocks[0].task.containers;
  ASSERT_EQ(boxes.size(), 3U);
  EXPECT_EQ(boxes[0].leak_w_per_k, 0.4);
  EXPECT_NEAR(boxes[1].leak_w_per_k, 0.4739, 1e-4);
  EXPECT_EQ(boxes[2].leak_w_per_k, inputs.ride.kit.settings.box_leak_w_per_k);
}

TEST(RideStock, OffersWaterThatIsNotUsedUpWhereTheHorseDoesNotDrink) {
  auto inputs = small_inputs();
  HorseLike shy;
  shy.drink = HorseLike::Drink::nothing;
  shy.to_loop = 1;
  inputs.ride.horses.resize(1);
  inputs.ride.horses[0].likes = {shy};
  const RidePlan plan = planned(inputs);
  const auto stocks = *stock_of(plan);
  std::size_t of_loop_1 = 0;
  for (const StockStop& stop : stocks[0].task.stops) {
    for (const StockDemand& demand : stop.water) {
      if (demand.use != StockKind::drinking) continue;
      const bool is_loop_1 = stop.label.find("loop 1") != std::string::npos;
      of_loop_1 += is_loop_1 ? 1U : 0U;
      EXPECT_EQ(demand.is_only_offered, is_loop_1) << stop.label;
    }
  }
  EXPECT_GT(of_loop_1, 0U);
}

// A plan of a day with two stops and an errand between them.
TEST(RideStock, FillsTheBoxesOnAnErrandForIce) {
  RidePlan plan = planned();
  ASSERT_GE(plan.plan.days[0].stops.size(), 2U);
  plan.ride.errands.resize(3);
  plan.ride.errands[0].name = "Ice from the shop";
  plan.ride.errands[1].name = "Farrier, notice the time";
  plan.ride.errands[2].name = "Village shop";
  plan.ride.errands[2].has_ice = true;
  plan.errands.cars.resize(1);
  plan.errands.cars[0].stops.clear();
  const auto met = *met_by_day(plan, 100);
  const std::size_t before = stock_stops(plan, 0, met[0], false, {}).size();
  for (const std::size_t errand : {0U, 1U, 2U}) {
    ErrandStop stop;
    stop.errand = errand;
    stop.after_stop = 0;
    stop.start = plan.plan.days[0].stops[0].leave + minutes(5.0 + static_cast<double>(errand));
    plan.errands.cars[0].stops.push_back(stop);
  }
  const auto stops = stock_stops(plan, 0, met[0], false, {});
  ASSERT_EQ(stops.size(), before + 2);
  EXPECT_EQ(stops[1].label, "Ice from the shop");
  EXPECT_EQ(stops[2].label, "Village shop");
  ASSERT_TRUE(stops[1].refill);
  EXPECT_TRUE(stops[1].refill->has_ice);
  EXPECT_THAT(stock_of(plan)->front().answer.assumptions, Contains(HasSubstr("errand 'Village shop'")));
}

TEST(RideStock, TakesTheWantedChanceOfTheRideUnlessAsked) {
  auto inputs = small_inputs();
  inputs.ride.kit.settings.not_dry = 0.8;
  const RidePlan plan = planned(inputs);
  EXPECT_EQ(stock_of(plan)->front().task.settings.chance, 0.8);
  StockOptions options;
  options.chance = 0.9;
  EXPECT_EQ(stock_of(plan, options)->front().task.settings.chance, 0.9);
}

TEST(RideStock, RefusesAContainerOfNegativeSize) {
  StockOptions options;
  options.containers = {{"blue can", StockKind::drinking, {-1}}};
  const auto stocks = stock_of(planned(), options);
  ASSERT_FALSE(stocks);
  EXPECT_THAT(stocks.error().where, HasSubstr("blue can"));
}

}  // namespace
}  // namespace outbye
