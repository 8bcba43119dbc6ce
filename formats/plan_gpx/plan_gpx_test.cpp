#include "formats/plan_gpx/plan_gpx.h"

#include <gtest/gtest.h>

#include "formats/plan_json/small_plan_for_test.h"

namespace outbye {
namespace {

TEST(PlanGpx, NamesMeetsInTheirOrderWithWindowLeaveByAndNote) {
  const GpxOutput gpx = plan_gpx(small_plan(), {});
  ASSERT_EQ(gpx.waypoints.size(), 3U);
  EXPECT_EQ(gpx.waypoints[0].name, "01 Ford loop 1");
  EXPECT_EQ(gpx.waypoints[0].comment, "due 07:30 (07:28-07:33), be ready 07:10, leave by 09:50");
  EXPECT_EQ(gpx.waypoints[0].description,
            "Van: due 07:30 (07:28-07:33), be ready 07:10, chance 100 %; leave by 09:50 for finish, later go to gate "
            "loop 1. narrow lane");
  EXPECT_EQ(gpx.waypoints[1].name, "02 Tap Green");
  EXPECT_EQ(gpx.waypoints[2].name, "03 finish");
}

TEST(PlanGpx, HasARouteForADriveEvenWithoutItsTurns) {
  const GpxOutput gpx = plan_gpx(small_plan(), {});
  ASSERT_EQ(gpx.routes.size(), 1U);
  EXPECT_EQ(gpx.routes[0].points.size(), 2U);
  EXPECT_TRUE(gpx.tracks.empty());
}

TEST(PlanGpx, AddsDrivesCourseAndPointsNotMetOnRequest) {
  PlanGpxOptions options;
  options.drives_as_routes = false;
  options.drives_as_tracks = true;
  options.course = true;
  options.points_not_met = true;
  const GpxOutput gpx = plan_gpx(small_plan(), options);
  EXPECT_TRUE(gpx.routes.empty());
  ASSERT_EQ(gpx.tracks.size(), 3U);
  EXPECT_EQ(gpx.tracks[0].segments[0].size(), 3U);
  EXPECT_EQ(gpx.waypoints.back().name, "Tor");
}

TEST(PlanGpx, HoldsNothingOfAnotherCar) {
  PlanGpxOptions options;
  options.only_car = CarId{1};
  EXPECT_TRUE(plan_gpx(small_plan(), options).waypoints.empty());
}

TEST(CourseGpx, HasTheMedianTimesAtThePassesAndInBetween) {
  RidePlan plan = small_plan();
  Loop& red = plan.survey.course.loops[0];
  red.points.insert(red.points.begin() + 1, {{54.53, -2.5}, kilometres(6), Metres{205}});
  red.points.insert(red.points.begin() + 1, {{54.51, -2.5}, kilometres(3), Metres{203}});
  const GpxOutput gpx = course_gpx(plan, HorseId{0});
  ASSERT_EQ(gpx.tracks.size(), 2U);
  const auto& points = gpx.tracks[0].segments[0];
  EXPECT_EQ(points[0].time, plan.ride.start);
  EXPECT_EQ(points[1].time, plan.ride.start + minutes(15));
  EXPECT_EQ(points[2].time, plan.passes[0].due.p50);
  EXPECT_EQ(points.back().time, plan.passes[2].due.p50);
  EXPECT_EQ(gpx.tracks[1].segments[0].front().time, plan.passes[2].out.p50);  // after the hold
}

TEST(CourseGpx, NamesEachPassByItsKilometre) {
  const GpxOutput gpx = course_gpx(small_plan(), HorseId{0});
  ASSERT_EQ(gpx.waypoints.size(), 4U);
  EXPECT_EQ(gpx.waypoints[0].name, "6.0 Ford, loop 1");
  EXPECT_EQ(gpx.waypoints[0].comment, "due 07:30 (07:28-07:33), crew is there");
  EXPECT_EQ(gpx.waypoints[1].comment, "due 08:05 (08:01-08:11), no crew");
}

}  // namespace
}  // namespace outbye
