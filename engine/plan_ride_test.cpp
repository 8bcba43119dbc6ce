#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/small_ride.h"

namespace outbye {
namespace {

using test::small_inputs;
using ::testing::Contains;
using ::testing::HasSubstr;

const PassForecast& forecast(const RidePlan& plan, std::string_view name) {
  for (const auto& pass : plan.passes) {
    if (pass.name == name) return pass;
  }
  ADD_FAILURE() << "no pass of " << name;
  return plan.passes.front();
}

TEST(PlanRide, AnswersForEveryPassGateAndTheFinish) {
  const auto plan = plan_ride(small_inputs());
  ASSERT_TRUE(plan) << plan.error().where << ": " << plan.error().what;
  ASSERT_EQ(plan->passes.size(), 6u);  // two passes a loop, a gate, the finish
  for (const auto& pass : plan->passes) {
    EXPECT_LT(pass.due.p10, pass.due.p50);
    EXPECT_LT(pass.due.p50, pass.due.p90);
  }
  EXPECT_EQ(plan->plan.days.size(), 1u);
  EXPECT_GT(plan->plan.value.worth, 0);
  EXPECT_EQ(plan->routes.size(), 1u);
}

TEST(PlanRide, ComesToTheGateAtTheAverageSpeedPlusTheStopsItPlans) {
  const auto plan = plan_ride(small_inputs());
  ASSERT_TRUE(plan);
  double stops = 0;
  for (const auto& pass : plan->passes) {
    if (pass.event.kind == RideEvent::Kind::gate) break;
    if (pass.is_met) stops += plan->ride.stop.median.count();
  }
  const double riding = (plan->survey.course.loops[0].length / plan->ride.default_pace.speed).count();
  const double due = (forecast(*plan, "Venue").due.p50 - plan->ride.start).count();
  EXPECT_NEAR(due, riding + stops, 0.02 * riding);
}

TEST(PlanRide, StopsWhereverItIsAskedTo) {
  int asked_in_all = 0;
  Progress count;
  count.is_cancelled = [&] { return ++asked_in_all < 0; };
  ASSERT_TRUE(plan_ride(small_inputs(), count));
  ASSERT_GT(asked_in_all, 10);
  for (int at = 1; at <= asked_in_all; ++at) {
    int asked = 0;
    Progress stop;
    stop.is_cancelled = [&] { return ++asked >= at; };
    const auto plan = plan_ride(small_inputs(), stop);
    ASSERT_FALSE(plan) << "asked " << at << " times";
    EXPECT_EQ(plan.error().kind, Problem::Kind::cancelled);
  }
}

TEST(PlanRide, NeedsAMapOrDriveTimes) {
  auto inputs = small_inputs();
  inputs.drive_times.reset();
  const auto plan = plan_ride(inputs);
  ASSERT_FALSE(plan);
  EXPECT_THAT(plan.error().what, HasSubstr("give a road map (.osm.pbf) or a table of drive times"));
}

TEST(PlanRide, NamesADriveTimePlaceThatIsMisspelt) {
  auto inputs = small_inputs();
  DriveTable drives({"Venue", "Ahs"});
  drives.set(PlaceId{0}, PlaceId{1}, Drive{minutes(5), {}});
  inputs.drive_times = drives;
  const auto plan = plan_ride(inputs);
  ASSERT_FALSE(plan);
  EXPECT_THAT(plan.error().what, HasSubstr("did you mean 'Ash'?"));
}

TEST(PlanRide, SaysWhichPointNoCarCanReach) {
  auto inputs = small_inputs();
  for (std::uint32_t i = 0; i < 5; ++i) {
    if (i == 2) continue;
    inputs.drive_times->set(PlaceId{i}, PlaceId{2}, std::nullopt);
    inputs.drive_times->set(PlaceId{2}, PlaceId{i}, std::nullopt);
  }
  const auto plan = plan_ride(inputs);
  ASSERT_TRUE(plan) << plan.error().what;
  EXPECT_FALSE(forecast(*plan, "Birch").is_met);
  EXPECT_THAT(plan->warnings, Contains(::testing::Field(&Warning::where, "'Birch'")));
}

TEST(PlanRide, NeverMeetsAtAClosedPoint) {
  auto inputs = small_inputs();
  for (const char* name : {"Ash", "Birch", "Cedar", "Damson"}) inputs.ride.crew_points.emplace_back().name = name;
  inputs.ride.crew_points[0].is_closed = true;
  const auto plan = plan_ride(inputs);
  ASSERT_TRUE(plan);
  EXPECT_FALSE(forecast(*plan, "Ash").is_met);
  inputs.ride.wishes.emplace_back().crew_point = "Ash";
  inputs.ride.wishes[0].demand = MeetOption::Demand::must;
  const auto contradiction = plan_ride(inputs);
  ASSERT_FALSE(contradiction);
  EXPECT_THAT(contradiction.error().what, HasSubstr("closed to crews"));
}

TEST(PlanRide, RefusesAWishThatFitsNoPass) {
  auto inputs = small_inputs();
  inputs.ride.wishes.emplace_back().crew_point = "Ash";
  inputs.ride.wishes[0].loop = 2;
  const auto plan = plan_ride(inputs);
  ASSERT_FALSE(plan);
  EXPECT_EQ(plan.error().where, "wish 1");
}

TEST(PlanRide, LetsTheMoreParticularWishWin) {
  auto inputs = small_inputs();
  inputs.ride.wishes.resize(2);
  inputs.ride.wishes[0].crew_point = "Ash";
  inputs.ride.wishes[0].loop = 1;
  inputs.ride.wishes[0].worth = 5.0;
  inputs.ride.wishes[1].crew_point = "Ash";
  inputs.ride.wishes[1].worth = 0.5;
  const auto plan = plan_ride(inputs);
  ASSERT_TRUE(plan);
  EXPECT_EQ(plan->task.options[0].worth, 5.0);
}

TEST(PlanRide, RefusesSpeedsThatDoNotMatchTheLoops) {
  auto inputs = small_inputs();
  inputs.ride.horses.emplace_back().name = "Bramble";
  inputs.ride.horses[0].speeds = std::vector<KmPerHour>{KmPerHour{12}};
  const auto plan = plan_ride(inputs);
  ASSERT_FALSE(plan);
  EXPECT_EQ(plan.error().where, "horse 'Bramble'");
}

TEST(PlanRide, GivesTheSameAnswerForTheSameSeed) {
  const auto first = plan_ride(small_inputs());
  const auto second = plan_ride(small_inputs());
  ASSERT_TRUE(first && second);
  EXPECT_EQ(first->plan.value.worth, second->plan.value.worth);
  for (std::size_t i = 0; i < first->passes.size(); ++i) {
    EXPECT_EQ(first->passes[i].due.p90, second->passes[i].due.p90);
  }
}

TEST(PlanRide, PlansForTwoHorsesThatStartApart) {
  auto inputs = small_inputs();
  inputs.ride.horses.resize(2);
  inputs.ride.horses[0].name = "Bramble";
  inputs.ride.horses[1].name = "Comfrey";
  inputs.ride.horses[1].start_after = minutes(30);
  const auto plan = plan_ride(inputs);
  ASSERT_TRUE(plan) << plan.error().what;
  EXPECT_EQ(plan->passes.size(), 12u);
  EXPECT_EQ(plan->effects.size(), 2u);
}

TEST(PlanRide, FitsAnErrandIntoFreeTimeOrSaysWhyNot) {
  auto inputs = small_inputs();
  DriveTable drives({"Venue", "Ash", "Birch", "Cedar", "Damson", "Ice", "Farrier"});
  for (std::uint32_t i = 0; i < 7; ++i) {
    for (std::uint32_t j = 0; j < 7; ++j) {
      if (i != j) drives.set(PlaceId{i}, PlaceId{j}, Drive{minutes(i == 6 || j == 6 ? 240 : 5), kilometres(4)});
    }
  }
  inputs.drive_times = drives;
  inputs.ride.errands.resize(2);
  inputs.ride.errands[0].name = "Ice";
  inputs.ride.errands[0].duration = minutes(5);
  inputs.ride.errands[1].name = "Farrier";
  const auto plan = plan_ride(inputs);
  ASSERT_TRUE(plan) << plan.error().what;
  ASSERT_EQ(plan->errands.cars.size(), 1u);
  ASSERT_EQ(plan->errands.cars[0].stops.size(), 1u);
  EXPECT_EQ(plan->errands.cars[0].stops[0].errand, 0u);
  ASSERT_EQ(plan->errands.left_out.size(), 1u);
  EXPECT_THAT(plan->errands.left_out[0].why, HasSubstr("too far"));
}

}  // namespace
}  // namespace outbye
