#include "engine/jobs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "engine/jobs_crew.h"
#include "tests/support/small_ride.h"

namespace outbye {
namespace {

using test::small_inputs;
using ::testing::Contains;
using ::testing::HasSubstr;

RideHelper helper(const std::string& name, std::optional<std::string> car = {}) {
  RideHelper one;
  one.name = name;
  one.skills = helper_of_all_work(name).skills;
  one.car = std::move(car);
  return one;
}

RidePlan planned(const std::vector<RideHelper>& helpers) {
  RideInputs inputs = small_inputs();
  inputs.ride.helpers = helpers;
  auto plan = plan_ride(inputs);
  EXPECT_TRUE(plan) << plan.error().where << ": " << plan.error().what;
  return plan ? std::move(*plan) : RidePlan{};
}

TEST(Jobs, HaveAStopForEveryMeetAndNoFaultInAnySchedule) {
  const RidePlan plan = planned({helper("Ann"), helper("Ben"), helper("Cat")});
  std::size_t meets = 0;
  for (const auto& day : plan.plan.days) {
    for (const auto& stop : day.stops) meets += stop.stop.option.has_value();
  }
  ASSERT_GT(meets, 1U);
  const RideJobs jobs = jobs_of(plan);
  EXPECT_EQ(jobs.stops.size(), meets);
  for (const StopJobs& stop : jobs.stops) {
    ASSERT_FALSE(stop.problem) << stop.problem->where << stop.problem->what;
    EXPECT_TRUE(check_stop_schedule(stop.stop, stop.schedule).empty()) << stop.name;
    EXPECT_EQ(stop.cards.size(), stop.stop.helpers.size() + 1);
    EXPECT_EQ(stop.stop.horse_at, Seconds{std::max(0.0, (stop.due.p50 - stop.arrive).count())});
  }
}

TEST(Jobs, CarryWorkFromStopToStop) {
  const RideJobs jobs = jobs_of(planned({helper("Ann"), helper("Ben")}));
  std::vector<Seconds> so_far(2);
  for (const StopJobs& stop : jobs.stops) {
    for (std::size_t h = 0; h < stop.people.size(); ++h) {
      EXPECT_EQ(stop.stop.helpers[h].carried, so_far[stop.people[h]]) << stop.name;
      so_far[stop.people[h]] += stop.schedule.work[h];
    }
  }
  EXPECT_EQ(jobs.work, so_far);
}

TEST(Jobs, WarnWhereTheHorseCannotBeServedInThePlannedTime) {
  RidePlan plan = planned({helper("Ann")});
  const RideJobs as_planned = jobs_of(plan);
  for (PassForecast& pass : plan.passes) pass.out.p50 = pass.due.p50 + Seconds{41.0};  // a short stop all the same
  const RideJobs hurried = jobs_of(plan);
  const auto is_pass = [](const StopJobs& stop) { return stop.what.kind == StopKind::short_stop; };
  const auto stop = std::find_if(hurried.stops.begin(), hurried.stops.end(), is_pass);
  ASSERT_NE(stop, hurried.stops.end());
  ASSERT_GT(serving_time(stop->schedule), Seconds{41.0});
  EXPECT_THAT(stop->warnings, Contains(HasSubstr("plan a longer stop")));
}

TEST(Jobs, AssumeTwoHelpersOfAllWorkAndSaySo) {
  const RideJobs jobs = jobs_of(planned({}));
  EXPECT_EQ(jobs.people.size(), 2U);
  EXPECT_THAT(jobs.assumptions, Contains(HasSubstr("names no helpers: 2")));
}

TEST(Jobs, AreDoneByAtMostFourPeopleAndByAllInTurn) {
  std::vector<RideHelper> helpers;
  for (const char* name : {"Ann", "Ben", "Cat", "Dan", "Eve", "Fay"}) helpers.push_back(helper(name));
  const RideJobs jobs = jobs_of(planned(helpers));
  for (const StopJobs& stop : jobs.stops) EXPECT_EQ(stop.people.size(), 4U) << stop.name;
  for (std::size_t p = 0; p < helpers.size(); ++p) EXPECT_GT(jobs.work[p], Seconds{0}) << helpers[p].name;
}

TEST(Jobs, ThatNobodyCanDoAreAProblemOfThatStopAlone) {
  RideHelper ann = helper("Ann");
  ann.skills = {skill_driver};
  const RideJobs jobs = jobs_of(planned({ann}));
  for (const StopJobs& stop : jobs.stops) {
    const bool needs_tack = stop.what.kind == StopKind::vet_gate || stop.what.kind == StopKind::finish;
    ASSERT_EQ(stop.problem.has_value(), needs_tack) << stop.name;
    if (!needs_tack) continue;
    EXPECT_THAT(stop.problem->what, HasSubstr("\"tack\""));
  }
}

TEST(Jobs, AreShortBelowThreeAndAHalfMinutesAndFlyingBelowFortySeconds) {
  EXPECT_EQ(stop_kind_for(Seconds{39.0}), StopKind::flying_bottle);
  EXPECT_EQ(stop_kind_for(Seconds{40.0}), StopKind::short_stop);
  EXPECT_EQ(stop_kind_for(Seconds{210.0}), StopKind::drink_stop);
}

TEST(CarStandingBy, IsFreeUntilItDrivesOnAndNotWhileItServes) {
  RidePlan plan = planned({helper("Ann")});
  CarDay& day = plan.plan.days[0];
  ASSERT_FALSE(day.stops.empty());
  const TimedStop& first = day.stops.front();
  const PlaceId start = plan.task.cars[0].start;
  const Instant ready = plan.task.cars[0].ready_from;
  EXPECT_TRUE(stands_by(plan, CarId{0}, start, {ready, ready + Seconds{1}}));
  EXPECT_FALSE(stands_by(plan, CarId{0}, start, {ready - Seconds{60}, ready}));
  EXPECT_FALSE(stands_by(plan, CarId{0}, first.place, {first.arrive, first.leave}));
}

}  // namespace
}  // namespace outbye
