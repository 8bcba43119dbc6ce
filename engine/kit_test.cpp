#include "engine/kit.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace outbye {
namespace {

using testing::Contains;
using testing::HasSubstr;

Instant start() { return std::chrono::sys_days{std::chrono::year{2026} / 6 / 13} + std::chrono::hours{6}; }

// A plan by hand: one horse, one car that meets the first of two passes of one loop, and the finish.
RidePlan small_plan() {
  RidePlan plan;
  plan.ride.start = start();
  plan.ride.horses.resize(1);
  plan.ride.horses[0].name = "Juno";
  plan.ride.cars.resize(1);
  plan.ride.cars[0].name = "Van";
  plan.survey.course.length = kilometres(20);
  plan.survey.course.loops.resize(1);
  plan.effects.resize(1);
  plan.effects[0].resize(1);
  plan.effects[0][0].riding = Seconds{6000};
  const auto pass = [&](const char* name, RideEvent::Kind kind, double hours, bool is_met) {
    PassForecast forecast;
    forecast.name = name;
    forecast.event.kind = kind;
    forecast.due.p50 = forecast.out.p50 = start() + Seconds{hours * 3600.0};
    forecast.is_met = is_met;
    plan.passes.push_back(forecast);
    PassWelfare welfare;
    welfare.is_served = is_met || kind != RideEvent::Kind::pass;
    welfare.cooling.pour = Litres{6};
    welfare.cooling.pour_range = {Litres{4}, Litres{8}};
    welfare.drink.offer = Litres{11.4};
    welfare.drink.taken = {Litres{0}, Litres{7.6}};
    plan.welfare.passes.push_back(welfare);
  };
  pass("Ford", RideEvent::Kind::pass, 0.5, true);
  pass("Barn", RideEvent::Kind::pass, 1.0, false);
  pass("Finish", RideEvent::Kind::finish, 1.7, false);
  MeetOption ford;
  ford.event = 0;
  plan.task.options = {ford};
  CarDay day;
  day.driven = kilometres(12);
  TimedStop stop;
  stop.stop.option = MeetOptionId{0};
  stop.depart = start() - Seconds{1800};
  stop.leave = start() + Seconds{2400};
  day.stops = {stop};
  plan.plan.days = {day};
  return plan;
}

TEST(KitFacts, HoldTheServedStopsAndTheirCar) {
  const KitFacts facts = kit_facts(small_plan());
  ASSERT_EQ(facts.stops.size(), 2U);
  EXPECT_EQ(facts.stops[0].name, "Ford");
  EXPECT_EQ(facts.stops[0].car, 0U);
  EXPECT_FALSE(facts.stops[0].has_water);
  EXPECT_EQ(facts.stops[1].name, "Finish");
  EXPECT_FALSE(facts.stops[1].car);
  EXPECT_TRUE(facts.stops[1].has_water);
}

TEST(KitFacts, ReachFromTheFirstDriveToTheLastHorse) {
  const KitFacts facts = kit_facts(small_plan());
  EXPECT_EQ(facts.from, start() - Seconds{1800});
  EXPECT_EQ(facts.to, start() + Seconds{1.7 * 3600.0});
  EXPECT_EQ(facts.horses[0].ridden, Seconds{6000});
  EXPECT_EQ(facts.cars[0].driven, kilometres(12));
}

TEST(KitFacts, KnowARefillOnTheWayToAStop) {
  RidePlan plan = small_plan();
  plan.task.refills.resize(1);
  plan.task.refills[0].water = true;
  TimedStop refill;
  refill.stop.kind = PlannedStop::Kind::refill;
  refill.stop.refill = 0;
  refill.depart = start() - Seconds{1800};
  refill.leave = start();
  auto& stops = plan.plan.days[0].stops;
  stops.insert(stops.begin(), refill);
  EXPECT_TRUE(kit_facts(plan).stops[0].refilled_before);
  plan.task.refills[0].water = false;
  EXPECT_FALSE(kit_facts(plan).stops[0].refilled_before);
}

TEST(PlanKit, SaysWhatItTookForGranted) {
  const auto kit = plan_kit(small_plan(), {});
  ASSERT_TRUE(kit);
  EXPECT_THAT(kit->assumptions, Contains(HasSubstr("two people")));
  EXPECT_THAT(kit->assumptions, Contains(HasSubstr("No weather is given")));
}

TEST(PlanKit, RefusesANameThatNothingHas) {
  RidePlan plan = small_plan();
  plan.ride.kit.packed = {"moon"};
  const auto kit = plan_kit(plan, {});
  ASSERT_FALSE(kit);
  EXPECT_EQ(kit.error().where, "kit.packed[0]");
}

}  // namespace
}  // namespace outbye
