#include "formats/pack/place_map.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <regex>

#include "formats/picture/sketch.h"

namespace outbye {
namespace {

using ::testing::HasSubstr;

struct OnPicture {
  double x{}, y{};
};

// As docs/pack.md says, and the page does.
OnPicture projected(const PlaceMap& map, Position position) {
  const MapProjection& p = map.projection;
  double east = position.longitude - p.west;
  if (east > 180) east -= 360;
  if (east < -180) east += 360;
  return {p.left + east * p.x_per_degree, p.top + (p.north - position.latitude) * p.y_per_degree};
}

// Centres of the circles of this radius.
std::vector<OnPicture> circles(const std::string& svg, const std::string& radius) {
  std::vector<OnPicture> found;
  const std::regex circle("<circle cx=\"([-0-9.]+)\" cy=\"([-0-9.]+)\" r=\"" + radius + "\"");
  for (std::sregex_iterator it(svg.begin(), svg.end(), circle), end; it != end; ++it) {
    found.push_back({std::stod((*it)[1]), std::stod((*it)[2])});
  }
  return found;
}

TEST(AreaMap, PutsThePositionOfTheVenueWhereTheVenueIsDrawn) {
  for (const double longitude : {-1.4, 0.0, 179.99, -179.99}) {
    const RidePlan plan = sketch_plan({.venue = {51.2, longitude}});
    const PlaceMap map = area_map(plan, nullptr);
    const auto drawn = circles(map.svg, "10");
    ASSERT_EQ(drawn.size(), 1U);
    const OnPicture at = projected(map, plan.survey.venue);
    EXPECT_NEAR(at.x, drawn[0].x, 0.06) << longitude;
    EXPECT_NEAR(at.y, drawn[0].y, 0.06) << longitude;
  }
}

TEST(AreaMap, HoldsTheWholeCourseInItsPictureAndItsBounds) {
  for (const double longitude : {-1.4, 179.99}) {
    const RidePlan plan = sketch_plan({.venue = {-17.0, longitude}});
    const PlaceMap map = area_map(plan, nullptr);
    for (const Loop& loop : plan.survey.course.loops) {
      for (const CoursePoint& point : loop.points) {
        const OnPicture at = projected(map, point.position);
        ASSERT_TRUE(at.x > 0 && at.x < map.width && at.y > 0 && at.y < map.height);
        Position place = point.position;
        if (place.longitude > 180) place.longitude -= 360;
        ASSERT_TRUE(contains(map.bounds, place)) << place.longitude;
      }
    }
  }
}

TEST(AreaMap, IsTrueToScaleBothWays) {
  const RidePlan plan = sketch_plan({.venue = {60.0, 10.0}});
  const MapProjection p = area_map(plan, nullptr).projection;
  // A degree of longitude is half as long as one of latitude at 60 degrees north (the loops reach some way off it).
  EXPECT_NEAR(p.x_per_degree / p.y_per_degree, 0.5, 0.005);
}

TEST(PlaceMap, PutsAPointWhereItIsMetAndItsCarWhereItIsParked) {
  RidePlan plan = sketch_plan({});
  plan.ride.crew_points.resize(1);
  RideCrewPoint& point = plan.ride.crew_points[0];
  point.name = plan.survey.course.crew_points[2].name;
  const Position met = plan.survey.course.crew_points[2].position;
  point.parking = Position{met.latitude + 0.004, met.longitude - 0.003};
  const PlaceMap map = place_map(plan, nullptr, PlaceId{3});
  const auto drawn = circles(map.svg, "8");
  ASSERT_EQ(drawn.size(), 1U);
  EXPECT_NEAR(projected(map, met).x, drawn[0].x, 0.06);
  EXPECT_NEAR(projected(map, met).y, drawn[0].y, 0.06);
  std::smatch parking;
  ASSERT_TRUE(std::regex_search(map.svg, parking, std::regex("<text x=\"([-0-9.]+)\" y=\"([-0-9.]+)\"[^>]*>P</text>")));
  EXPECT_NEAR(projected(map, *point.parking).x, std::stod(parking[1]), 0.06);
  EXPECT_NEAR(projected(map, *point.parking).y, std::stod(parking[2]) - 6, 0.06);
}

TEST(PlaceMap, ShowsAboutAKilometreAroundAPlaceWithNothingElseToShow) {
  const RidePlan plan = sketch_plan({});
  const PlaceMap map = place_map(plan, nullptr, PlaceId{1});
  const double metres = (map.bounds.north - map.bounds.south) * 111'195;
  EXPECT_GT(metres, 900);
  EXPECT_LT(metres, 1200);
}

TEST(PlaceMap, MarksAHazardByItsNumberWhereItIs) {
  RidePlan plan = sketch_plan({});
  plan.ride.crew_points.resize(1);
  RideCrewPoint& point = plan.ride.crew_points[0];
  point.name = plan.survey.course.crew_points[0].name;
  const Position met = plan.survey.course.crew_points[0].position;
  const Position wire{met.latitude - 0.002, met.longitude};
  point.hazards = {{"deep ditch", std::nullopt}, {"wire", wire}};
  const PlaceMap map = place_map(plan, nullptr, PlaceId{1});
  std::smatch mark;
  ASSERT_TRUE(std::regex_search(map.svg, mark, std::regex("<text x=\"([-0-9.]+)\" y=\"([-0-9.]+)\"[^>]*>2</text>")));
  EXPECT_NEAR(projected(map, wire).x, std::stod(mark[1]), 0.06);
  EXPECT_NEAR(projected(map, wire).y, std::stod(mark[2]) - 6, 0.06);
}

TEST(PlaceMap, DrawsOnlyThePartOfTheCourseThatIsOnIt) {
  const RidePlan plan = sketch_plan({});
  const PlaceMap map = place_map(plan, nullptr, PlaceId{1});
  EXPECT_LT(map.svg.size(), 20'000U);
  EXPECT_THAT(map.svg, HasSubstr("class=\"course\""));
}

TEST(PlaceMap, EscapesUnpleasantNames) {
  const RidePlan plan = sketch_plan({.point_name = "<script>&\""});
  EXPECT_EQ(place_map(plan, nullptr, PlaceId{1}).svg.find("<script"), std::string::npos);
  EXPECT_EQ(area_map(plan, nullptr).svg.find("<script"), std::string::npos);
}

}  // namespace
}  // namespace outbye
