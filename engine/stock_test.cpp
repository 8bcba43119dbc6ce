#include "engine/stock.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "engine/stock_stops.h"
#include "tests/support/small_ride.h"

namespace outbye {
namespace {

using test::own;
using test::small_inputs;
using ::testing::Contains;
using ::testing::HasSubstr;

RidePlan small_plan(const RideInputs& inputs = small_inputs()) { return *plan_ride(inputs); }

TEST(RideStock, AssumesFourCansAndSaysSo) {
  const auto stocks = *stock_of(small_plan());
  ASSERT_EQ(stocks.size(), 1U);
  EXPECT_EQ(stocks[0].task.containers.size(), 4U);
  EXPECT_THAT(stocks[0].answer.assumptions, Contains(HasSubstr("four cans of 25 L")));
}

TEST(RideStock, TakesTheTankOfACarThatHasOne) {
  auto inputs = small_inputs();
  inputs.ride.cars.emplace_back().name = "Van";
  inputs.ride.cars[0].water_capacity = {120};
  const auto stocks = *stock_of(small_plan(inputs));
  ASSERT_EQ(stocks[0].task.containers.size(), 1U);
  EXPECT_EQ(stocks[0].task.containers[0].capacity, Litres{120});
}

TEST(RideStock, TakesTheRidesOwnContainers) {
  auto inputs = small_inputs();
  inputs.ride.kit.containers = {
      own(OwnContainer::Kind::can, "can", 20, 2), own(OwnContainer::Kind::can, "cooling can", 10, 1, false),
      own(OwnContainer::Kind::bottle, "slosh bottle", 1, 3), own(OwnContainer::Kind::bucket, "bucket", 12, 2)};
  const auto stocks = *stock_of(small_plan(inputs));
  const auto& containers = stocks[0].task.containers;
  ASSERT_EQ(containers.size(), 6U);
  EXPECT_EQ(containers[0].name, "can 1");
  EXPECT_EQ(containers[2].holds, StockKind::cooling);
  EXPECT_EQ(containers[2].start, Litres{0});
  EXPECT_EQ(containers[5].holds, StockKind::bottles);
}

TEST(RideStock, HappensAsOftenAsThePlanSaysTheCarIsThere) {
  const RidePlan plan = small_plan();
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
  const auto stocks = *stock_of(small_plan());
  bool has_gate = false;
  for (const StockStop& stop : stocks[0].task.stops) {
    if (stop.label.find("gate") == std::string::npos && stop.label.find("Gate") == std::string::npos) continue;
    has_gate = true;
    EXPECT_TRUE(stop.refill);
  }
  EXPECT_TRUE(has_gate);
}

TEST(RideStock, TakesWhatTheWelfareOfThePlanPours) {
  const RidePlan plan = small_plan();
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

TEST(RideStock, RefusesAContainerOfNegativeSize) {
  StockOptions options;
  options.containers = {{"blue can", StockKind::drinking, {-1}}};
  const auto stocks = stock_of(small_plan(), options);
  ASSERT_FALSE(stocks);
  EXPECT_THAT(stocks.error().where, HasSubstr("blue can"));
}

}  // namespace
}  // namespace outbye
