#include "core/roads/route.h"

#include <gtest/gtest.h>

#include "core/roads/drawn_roads.h"

namespace outbye {
namespace {

using Kind = RestrictionTag::Kind;
constexpr double minute_a_km = 60.0;  // at 60 km/h

std::vector<std::string> turns_of(const RoadGraph& roads, Position from, Position to) {
  std::vector<std::string> lines;
  const auto route = fastest_route(roads, snapped(roads, from), snapped(roads, to));
  if (!route) return {"no way"};
  for (const Turn& turn : route->turns) lines.push_back(describe(turn));
  return lines;
}

TEST(FastestRoute, TakesTheShorterOfTwoWays) {
  DrawnRoads drawn(
      "a----b\n"
      "|    |\n"
      "c    |\n"
      "|    |\n"
      "d--e-f\n",
      Metres{100});
  const RoadGraph roads = drawn.build();
  const auto route = fastest_route(roads, snapped(roads, drawn.at("a")), snapped(roads, drawn.at("e")));
  ASSERT_TRUE(route);
  EXPECT_NEAR(route->drive.length.value, 700, 0.5);
  EXPECT_NEAR(route->drive.time.count(), 0.7 * minute_a_km, 0.05);
  ASSERT_GE(route->geometry.size(), 4U);
  EXPECT_NEAR(route->geometry.front().latitude, drawn.at("a").latitude, 1e-6);
  EXPECT_NEAR(route->geometry.back().longitude, drawn.at("e").longitude, 1e-6);
}

TEST(FastestRoute, StartsInTheMiddleOfARoadInEitherDirection) {
  DrawnRoads drawn("a----------b----------c", Metres{100});
  const RoadGraph roads = drawn.build();
  const Position middle = drawn.between("a", "b", 0.25);
  EXPECT_NEAR(*seconds_between(roads, middle, drawn.at("c")), (0.75 * 1.1 + 1.1) * minute_a_km, 0.05);
  EXPECT_NEAR(*seconds_between(roads, middle, drawn.at("a")), 0.25 * 1.1 * minute_a_km, 0.05);
  EXPECT_NEAR(*seconds_between(roads, middle, drawn.between("a", "b", 0.75)), 0.5 * 1.1 * minute_a_km, 0.05);
  EXPECT_EQ(*seconds_between(roads, middle, middle), 0);
}

TEST(FastestRoute, GoesRoundWhenItWouldGoBackAlongAOneWay) {
  DrawnRoads drawn(
      "a->b\n"
      "^  !\n"
      "c<-d\n",
      Metres{100});
  const RoadGraph roads = drawn.build();
  const Position late = drawn.between("a", "b", 0.75), early = drawn.between("a", "b", 0.25);
  EXPECT_NEAR(*seconds_between(roads, early, late), 0.15 * minute_a_km, 0.02);
  EXPECT_NEAR(*seconds_between(roads, late, early), (1.0 - 0.15) * minute_a_km, 0.02);
}

TEST(FastestRoute, IsNothingWhereThereIsNoWay) {
  DrawnRoads drawn("a-->b   c--d", Metres{100});
  const RoadGraph roads = drawn.build();
  EXPECT_FALSE(seconds_between(roads, drawn.at("b"), drawn.at("a")));
  EXPECT_FALSE(seconds_between(roads, drawn.at("a"), drawn.at("d")));
}

TEST(FastestRoute, StopsAtAClosedBarrierButReachesBothSides) {
  DrawnRoads drawn("a----b----c", Metres{100});
  drawn.builder.block(drawn.point("b"));
  const RoadGraph roads = drawn.build();
  EXPECT_FALSE(seconds_between(roads, drawn.at("a"), drawn.at("c")));
  EXPECT_TRUE(seconds_between(roads, drawn.at("a"), drawn.between("a", "b", 0.9)));
}

TEST(FastestRoute, NotesGatesFordsAndAccess) {
  DrawnRoads drawn("a----b----c", Metres{100});
  drawn.builder.mark_gate(drawn.point("b"));
  drawn.road("a-b").name = "Ford Lane";
  drawn.road("a-b").attributes.ford = true;
  drawn.road("b-c").attributes.destination_only = true;
  const RoadGraph roads = drawn.build();
  const auto route = fastest_route(roads, snapped(roads, drawn.between("a", "b", 0.5)), snapped(roads, drawn.at("c")));
  ASSERT_TRUE(route);
  EXPECT_EQ(route->notes,
            (std::vector<std::string>{"ford on Ford Lane", "gate on Ford Lane", "gate on unnamed minor road",
                                      "only for those with business there: unnamed minor road"}));
}

TEST(TurnRestriction, ForbidsOneTurnAndNoOther) {
  const char* map =
      "a--b--c\n"
      "|  |  |\n"
      "|  d  |\n"
      "|  |  |\n"
      "e--f--g\n";
  DrawnRoads free(map, Metres{100}), restricted(map, Metres{100});
  restricted.restrict(Kind::no, {"a-b", "b-d"});
  const RoadGraph before = free.build(), after = restricted.build();
  EXPECT_EQ(after.restriction_count(), 1U);
  const Position a = free.between("a", "b", 0.5), d = free.at("d"), c = free.between("b", "c", 0.5);
  EXPECT_NEAR(*seconds_between(before, a, d), 0.35 * minute_a_km, 0.05);
  // Round by e and f; not straight on, back and left, which would mean turning on the road.
  EXPECT_NEAR(*seconds_between(after, a, d), (0.15 + 0.4 + 0.3 + 0.2) * minute_a_km, 0.05);
  EXPECT_NEAR(*seconds_between(after, c, d), 0.35 * minute_a_km, 0.05);
  EXPECT_NEAR(*seconds_between(after, d, a), 0.35 * minute_a_km, 0.05);
}

TEST(TurnRestriction, MayBeMetByTurningRoundInADeadEnd) {
  const char* map =
      "a----b--c\n"
      "     |\n"
      "     d\n";
  DrawnRoads drawn(map, Metres{100});
  drawn.restrict(Kind::no, {"a-b", "b-d"});
  const RoadGraph roads = drawn.build();
  EXPECT_NEAR(*seconds_between(roads, drawn.at("a"), drawn.at("d")), (0.5 + 0.3 + 0.3 + 0.2) * minute_a_km, 0.05);
}

TEST(TurnRestriction, OnlyLeavesOneWayOn) {
  DrawnRoads drawn(
      "a--b--c\n"
      "|  |  |\n"
      "|  d  |\n"
      "|  |  |\n"
      "e--f--g\n",
      Metres{100});
  drawn.restrict(Kind::only, {"a-b", "b-d"});
  const RoadGraph roads = drawn.build();
  const Position a = drawn.between("a", "b", 0.5), c = drawn.at("c");
  // Down by d and f and g, or back by a and e: both are longer than straight on (0.45).
  EXPECT_NEAR(*seconds_between(roads, a, c), (0.15 + 0.4 + 0.3 + 0.4) * minute_a_km, 0.05);
  EXPECT_NEAR(*seconds_between(roads, c, a), 0.45 * minute_a_km, 0.05);
}

TEST(TurnRestriction, OverAWayForbidsOnlyThatSequence) {
  const char* map =
      "a--b--c\n"
      "   |\n"
      "d--e--f\n";
  const auto build = [&](Kind kind) {
    DrawnRoads drawn(map, Metres{100});
    drawn.restrict(kind, {"a-b", "b-e", "d-e"});
    return drawn.build();
  };
  DrawnRoads drawn(map, Metres{100});
  const RoadGraph no = build(Kind::no), only = build(Kind::only);
  const auto s = [&](const RoadGraph& roads, const char* from, const char* to) {
    return seconds_between(roads, drawn.at(from), drawn.at(to)).value_or(-1);
  };
  EXPECT_NEAR(s(no, "a", "f"), 0.8 * minute_a_km, 0.05);
  EXPECT_NEAR(s(no, "c", "d"), 0.8 * minute_a_km, 0.05);
  EXPECT_NEAR(s(no, "d", "a"), 0.8 * minute_a_km, 0.05);
  EXPECT_NEAR(s(no, "a", "d"), (0.8 + 0.6) * minute_a_km, 0.05);  // by turning at c or f
  EXPECT_NEAR(s(only, "a", "d"), 0.8 * minute_a_km, 0.05);
  EXPECT_NEAR(s(only, "a", "f"), (0.8 + 0.6) * minute_a_km, 0.05);
  EXPECT_NEAR(s(only, "c", "f"), 0.8 * minute_a_km, 0.05);
}

TEST(TurnRestriction, OfAOneWayThatCannotBeDrivenIsLeftOut) {
  DrawnRoads drawn("a<-b--c", Metres{100});
  drawn.restrict(Kind::no, {"a-b", "b-c"});
  const RoadGraph roads = drawn.build();
  EXPECT_EQ(roads.restriction_count(), 0U);
  EXPECT_EQ(drawn.builder.counts().restrictions_off_map, 1U);
}

TEST(TurnRestriction, TwoOnlyFromOneRoadAllowEither) {
  DrawnRoads drawn(
      "   c\n"
      "   |\n"
      "a--b--d\n"
      "   |\n"
      "   e\n",
      Metres{100});
  drawn.restrict(Kind::only, {"a-b", "b-d"});
  drawn.restrict(Kind::only, {"a-b", "c-b"});
  const RoadGraph roads = drawn.build();
  const auto s = [&](const char* to) { return *seconds_between(roads, drawn.at("a"), drawn.at(to)); };
  EXPECT_NEAR(s("c"), 0.5 * minute_a_km, 0.05);
  EXPECT_NEAR(s("d"), 0.6 * minute_a_km, 0.05);
  EXPECT_GT(s("e"), 0.6 * minute_a_km);
}

TEST(RoadBuilder, MakesGraphsThatPassTheChecksForStoredOnes) {
  DrawnRoads drawn(
      "a--b->c--h\n"
      "|  |  |\n"
      "|  d  i\n"
      "|  |  |\n"
      "e--f--g\n",
      Metres{100});
  drawn.restrict(Kind::no, {"a-b", "b-d"});
  drawn.restrict(Kind::only, {"e-f", "f-g"});
  drawn.builder.block(drawn.point("i"));
  EXPECT_TRUE(RoadGraph::from_parts(drawn.build().parts()));
}

TEST(DriveTable, AgreesWithSingleRoutes) {
  DrawnRoads drawn(
      "a--b->c--h\n"
      "|  |  |\n"
      "|  d  i\n"
      "|  |  |\n"
      "e--f--g\n",
      Metres{100});
  drawn.restrict(Kind::no, {"a-b", "b-d"});
  const RoadGraph roads = drawn.build();
  std::vector<std::string> names{"a", "c", "d", "g", "h"};
  std::vector<Snap> places;
  for (const std::string& name : names) places.push_back(snapped(roads, drawn.at(name)));
  const DriveTable table = drive_table(roads, names, places);
  for (std::uint32_t i = 0; i < names.size(); ++i)
    for (std::uint32_t j = 0; j < names.size(); ++j) {
      const auto route = fastest_route(roads, places[i], places[j]);
      const auto& drive = table.drive(PlaceId{i}, PlaceId{j});
      ASSERT_EQ(route.has_value(), drive.has_value());
      if (!route) continue;
      EXPECT_DOUBLE_EQ(route->drive.time.count(), drive->time.count()) << names[i] << names[j];
      EXPECT_DOUBLE_EQ(route->drive.length.value, drive->length.value);
    }
}

TEST(DriverTurns, SayLeftAndRightAndStayQuietOnTheSameRoad) {
  DrawnRoads drawn(
      "         e\n"
      "         |\n"
      "a----b---c----d\n"
      "     |\n"
      "     f\n",
      Metres{100});
  for (const char* road : {"a-b", "b-c", "c-d"}) drawn.road(road).name = "High Street";
  drawn.road("e-c").name = "Mill Lane";
  drawn.road("b-f").name = "Ford Lane";
  const RoadGraph roads = drawn.build();
  EXPECT_EQ(turns_of(roads, drawn.at("a"), drawn.at("d")),
            (std::vector<std::string>{"Start on High Street, 1.4 km", "Arrive"}));
  EXPECT_EQ(turns_of(roads, drawn.at("a"), drawn.at("e")),
            (std::vector<std::string>{"Start on High Street, 900 m", "Left into Mill Lane, 200 m", "Arrive"}));
  EXPECT_EQ(turns_of(roads, drawn.at("a"), drawn.at("f")),
            (std::vector<std::string>{"Start on High Street, 500 m", "Right into Ford Lane, 200 m", "Arrive"}));
  EXPECT_EQ(turns_of(roads, drawn.at("e"), drawn.at("f")),
            (std::vector<std::string>{"Start on Mill Lane, 200 m", "Right into High Street, 400 m",
                                      "Left into Ford Lane, 200 m", "Arrive"}));
}

TEST(DriverTurns, CountRoundaboutExitsOnEitherSideOfTheRoad) {
  // Clockwise, as where traffic keeps left: from the south, the first exit is to the west.
  DrawnRoads left(
      "     n\n"
      "     |\n"
      "  a->b->c\n"
      "  ^     !\n"
      "w-h     d-e\n"
      "  ^     !\n"
      "  g<-f<-x\n"
      "     |\n"
      "     u\n",
      Metres{20});
  for (const char* road : {"a-b", "b-c", "c-d", "d-x", "f-x", "g-f", "h-g", "a-h"})
    left.road(road).attributes.roundabout = true;
  left.road("w-h").name = "West Road";
  left.road("n-b").name = "North Road";
  left.road("d-e").name = "East Road";
  const RoadGraph roads = left.build();
  const auto exit_to = [&](const char* place) {
    const auto route = fastest_route(roads, snapped(roads, left.at("u")), snapped(roads, left.at(place)));
    for (const Turn& turn : route->turns)
      if (turn.kind == Turn::Kind::roundabout) return std::pair(turn.exit, turn.road);
    return std::pair(0U, std::string());
  };
  EXPECT_EQ(exit_to("w"), std::pair(1U, std::string("West Road")));
  EXPECT_EQ(exit_to("n"), std::pair(2U, std::string("North Road")));
  EXPECT_EQ(exit_to("e"), std::pair(3U, std::string("East Road")));
}

TEST(Snap, FindsTheNearestRoadAndNotTheNearestJunction) {
  DrawnRoads drawn(
      "a--------------------b\n"
      "\n"
      "         c-d\n",
      Metres{100});
  const RoadGraph roads = drawn.build();
  Position place = drawn.between("a", "b", 0.5);
  place.latitude += 50 / 111132.0;
  const Snap found = snap(roads, place, Metres{60}).value();
  EXPECT_NEAR(found.distance.value, 50, 0.5);
  EXPECT_NEAR(found.share, 0.5, 1e-4);
  EXPECT_EQ(found.road, "unnamed minor road");
}

TEST(Snap, SaysHowFarTheNearestRoadIs) {
  DrawnRoads drawn("a--------b", Metres{100});
  drawn.road("a-b").name = "Mill Lane";
  const RoadGraph roads = drawn.build();
  Position place = drawn.at("a");
  place.latitude += 3000 / 111261.0;
  const auto refused = snap(roads, place, Metres{250});
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().kind, Problem::Kind::not_found);
  EXPECT_NE(refused.error().what.find("3.0 km from the nearest road a car may use (Mill Lane)"), std::string::npos)
      << refused.error().what;
  const auto far = snap(roads, {-33.9, 151.2}, Metres{250});
  ASSERT_FALSE(far);
  EXPECT_NE(far.error().what.find(" km from"), std::string::npos);
  EXPECT_FALSE(snap(roads, {95, 0}, Metres{250}));
  EXPECT_FALSE(snap(roads, {std::nan(""), 0}, Metres{250}));
}

TEST(Snap, PrefersRoadsThatJoinTheRestAndSaysSo) {
  DrawnRoads drawn(
      "a--b--c--d--e--f\n"
      "|  |  |  |  |  |\n"
      "g--h--i--j--k--l\n"
      "\n"
      "   x--y\n",
      Metres{50});
  drawn.road("x-y").name = "Island Lane";
  std::uint32_t last = drawn.point("f");  // more network, so that the island is small beside it
  for (int i = 0; i < 20; ++i) {
    const Position p = drawn.at("f");
    const std::uint32_t next = drawn.builder.add_point(Position{p.latitude + 0.001 * i, p.longitude + 0.01});
    drawn.builder.add_way(1000 + i, std::vector<std::uint32_t>{last, next}, RoadAttributes{RoadClass::service, 30, 30},
                          0);
    last = next;
  }
  const RoadGraph roads = drawn.build();
  const Snap found = snap(roads, drawn.between("x", "y", 0.5), Metres{250}).value();
  EXPECT_NEAR(found.distance.value, 100, 1);
  EXPECT_NE(found.note.find("Island Lane"), std::string::npos);
  const Snap island = snap(roads, drawn.between("x", "y", 0.5), Metres{20}).value();
  EXPECT_EQ(island.road, "Island Lane");
  EXPECT_NE(island.note.find("does not join"), std::string::npos);
}

}  // namespace
}  // namespace outbye
