#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/small_ride.h"

namespace outbye {
namespace {

using test::small_inputs;
using ::testing::Contains;
using ::testing::HasSubstr;

TEST(SurveyCourse, MakesALoopOfEachTrackAndAPointOfEachWaypoint) {
  const auto report = survey_course(small_inputs());
  ASSERT_TRUE(report) << report.error().where << report.error().what;
  ASSERT_EQ(report->course.loops.size(), 2u);
  EXPECT_EQ(report->course.loops[0].name, "East");
  EXPECT_NEAR(report->course.loops[0].length.value, 2 * 3.14159 * 3200, 40);
  EXPECT_EQ(report->course.crew_points.size(), 4u);
  EXPECT_EQ(report->course.passes.size(), 4u);
  EXPECT_THAT(report->assumptions, Contains(HasSubstr("Every waypoint but the venue")));
}

TEST(SurveyCourse, TakesLoopsByNameInTheRidesOrder) {
  auto inputs = small_inputs();
  inputs.ride.loops = {{"First", {"west"}, false, {}}, {"Second", {"East"}, true, {}}};
  const auto report = survey_course(inputs);
  ASSERT_TRUE(report) << report.error().what;
  EXPECT_EQ(report->course.loops[0].name, "First");
  // West is ridden first, so its crew points are passed first; East is turned round, so Birch comes before Ash.
  ASSERT_EQ(report->course.passes.size(), 4u);
  const auto name = [&](std::size_t i) {
    return at(report->course.crew_points, report->course.passes[i].crew_point).name;
  };
  EXPECT_EQ(name(0), "Cedar");
  EXPECT_EQ(name(2), "Birch");
  EXPECT_EQ(name(3), "Ash");
}

TEST(SurveyCourse, NamesTheTrackItCannotFindAndTheNearest) {
  auto inputs = small_inputs();
  inputs.ride.loops = {{"First", {"Wst"}, false, {}}};
  const auto report = survey_course(inputs);
  ASSERT_FALSE(report);
  EXPECT_EQ(report.error().where, "loop 'First'");
  EXPECT_THAT(report.error().what, HasSubstr("did you mean 'West'?"));
}

TEST(SurveyCourse, RefusesMoreLoopsThanTracks) {
  auto inputs = small_inputs();
  inputs.ride.loops.resize(3);
  const auto report = survey_course(inputs);
  ASSERT_FALSE(report);
  EXPECT_THAT(report.error().what, HasSubstr("which hold 2"));
}

TEST(SurveyCourse, RefusesACourseWithoutPoints) {
  auto inputs = small_inputs();
  inputs.course_files[0].tracks.clear();
  const auto report = survey_course(inputs);
  ASSERT_FALSE(report);
  EXPECT_EQ(report.error().where, "small.gpx");
  EXPECT_THAT(report.error().what, HasSubstr("no track or route"));
}

TEST(SurveyCourse, SaysWhereItTookTheVenueToBe) {
  auto inputs = small_inputs();
  inputs.course_files[0].waypoints[0].name = "Showground";
  const auto near = survey_course(inputs);
  ASSERT_TRUE(near);
  EXPECT_THAT(near->assumptions, Contains(HasSubstr("waypoint 'Showground'")));
  inputs.course_files[0].waypoints.erase(inputs.course_files[0].waypoints.begin());
  const auto bare = survey_course(inputs);
  ASSERT_TRUE(bare);
  EXPECT_THAT(bare->assumptions, Contains(HasSubstr("where loop 1 starts")));
  EXPECT_EQ(bare->venue, test::small_venue);
}

TEST(SurveyCourse, KeepsTwoWaypointsOfOneNameApartAndSaysSo) {
  auto inputs = small_inputs();
  inputs.course_files[0].waypoints[2].name = "Ash";
  const auto report = survey_course(inputs);
  ASSERT_TRUE(report);
  EXPECT_EQ(report->course.crew_points[1].name, "Ash (2)");
  EXPECT_THAT(report->course.warnings, Contains(::testing::Field(&Warning::what, HasSubstr("'Ash (2)'"))));
}

TEST(SurveyCourse, TakesListedCrewPointsOnlyAndFindsTheirWaypoints) {
  auto inputs = small_inputs();
  inputs.ride.crew_points.resize(1);
  inputs.ride.crew_points[0].name = "birch";
  const auto report = survey_course(inputs);
  ASSERT_TRUE(report);
  ASSERT_EQ(report->course.crew_points.size(), 1u);
  EXPECT_EQ(report->course.crew_points[0].position, inputs.course_files[0].waypoints[2].position);
  inputs.ride.crew_points[0].name = "Brich";
  const auto misspelt = survey_course(inputs);
  ASSERT_FALSE(misspelt);
  EXPECT_THAT(misspelt.error().what, HasSubstr("did you mean 'Birch'?"));
}

}  // namespace
}  // namespace outbye
