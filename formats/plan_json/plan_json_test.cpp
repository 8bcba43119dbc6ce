#include "formats/plan_json/plan_json.h"

#include <gtest/gtest.h>

#include "formats/plan_json/small_plan_for_test.h"

namespace outbye {
namespace {

Json plan_json() { return Json::parse(write_plan_json(small_plan(), {})); }

TEST(PlanJson, GivesEveryWindowAsQuantilesInLocalTimeWithOffset) {
  EXPECT_EQ(
      plan_json()["passes"][0]["due"].dump(),
      R"({"p10":"2026-06-13T07:28:00+01:00","p50":"2026-06-13T07:30:00+01:00","p90":"2026-06-13T07:33:00+01:00"})");
}

TEST(PlanJson, SaysWhoMeetsWhatAndWhatToDoWhenItSlips) {
  const Json plan = plan_json();
  EXPECT_EQ(plan["passes"][0]["met_by"], "Van");
  EXPECT_FALSE(plan["passes"][1].contains("met_by"));
  EXPECT_EQ(plan["passes"][3]["met_by"], "Van");
  const Json& ford = plan["cars"][0]["stops"][0];
  EXPECT_EQ(ford["leave_by"], "2026-06-13T09:50:00+01:00");
  EXPECT_EQ(ford["next_meet"]["label"], "finish");
  EXPECT_EQ(ford["fallback"]["label"], "gate loop 1");
  EXPECT_EQ(ford["drive"]["planned_min"], 5.5);
  EXPECT_EQ(plan["cars"][0]["stops"][1]["refill"], "Tap Green");
  EXPECT_EQ(plan["places"][2]["unreachable"], "is 900 m from the nearest road");
}

TEST(PlanJson, CarriesTheReasonOfAWhatIfWithoutAPlan) {
  WhatIfAnswer answer;
  answer.question = "without Ford";
  answer.plan = impossible("Ford", "must be met");
  const Json plan = Json::parse(write_plan_json(small_plan(), {answer}));
  EXPECT_EQ(plan["what_ifs"][0]["problem"]["what"], "must be met");
}

TEST(PlanJson, ListsErrandsAndWhyOneIsLeftOut) {
  RidePlan ride_plan = small_plan();
  ride_plan.ride.errands.resize(2);
  ride_plan.ride.errands[0].name = "Ice";
  ride_plan.ride.errands[1].name = "Farrier";
  ErrandStop ice;
  ice.depart = ride_plan.ride.start;
  ice.latest_start = ride_plan.ride.start + minutes(20);
  ride_plan.errands.cars = {{CarId{0}, {ice}, {}, 0.5, 0.5, true}};
  ride_plan.errands.left_out = {{1, LeftOutErrand::Reason::closed, std::nullopt, "closed"}};
  const Json plan = Json::parse(write_plan_json(ride_plan, {}));
  EXPECT_EQ(plan["cars"][0]["errands"][0]["name"], "Ice");
  EXPECT_EQ(plan["cars"][0]["errands"][0]["latest_start"], "2026-06-13T07:20:00+01:00");
  EXPECT_EQ(plan["errands"]["left_out"][0]["why"], "closed");
  EXPECT_FALSE(plan_json().contains("errands"));
}

TEST(PlanJson, NeverWritesNotANumber) {
  RidePlan plan = small_plan();
  plan.plan.value.upper_bound = std::numeric_limits<double>::infinity();
  EXPECT_TRUE(Json::parse(write_plan_json(plan, {}))["value"]["upper_bound_points"].is_null());
}

}  // namespace
}  // namespace outbye
