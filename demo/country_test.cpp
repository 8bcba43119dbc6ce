// The invented country: what the demo and the road benchmarks rely on.
#include "demo/country.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <map>
#include <set>

#include "core/course/course.h"
#include "core/geo/geodesic.h"
#include "core/roads/route.h"
#include "demo/country_roads.h"

namespace outbye::demo {
namespace {

const Country& small_country() {
  static const Country country = *make_country({.seed = Seed{7}, .road_nodes = 24000});
  return country;
}

std::string value_of(const CountryWay& way, const std::string& key) {
  for (const auto& [k, v] : way.tags)
    if (k == key) return v;
  return "";
}

bool is_for_cars(const CountryWay& way) {
  static const std::set<std::string> classes{"primary",     "secondary", "tertiary", "unclassified",
                                             "residential", "service",   "track"};
  return classes.contains(value_of(way, "highway"));
}

std::size_t count_road_nodes(const Country& country) {
  std::set<std::uint32_t> nodes;
  for (const CountryWay& way : country.ways)
    if (is_for_cars(way)) nodes.insert(way.nodes.begin(), way.nodes.end());
  return nodes.size();
}

Course course_of(const Country& country) {
  std::vector<LoopSource> sources;
  for (const CountryLoop& loop : country.loops) {
    Track track;
    track.name = loop.name;
    track.segments.emplace_back();
    for (const std::uint32_t node : loop.nodes) {
      TrackPoint point;
      point.position = country.nodes[node];
      point.number = static_cast<std::uint32_t>(track.segments[0].points.size() + 1);
      track.segments[0].points.push_back(point);
    }
    sources.push_back({loop.name, {track}, false});
  }
  std::vector<CrewPoint> points;
  for (const CountryCrewPoint& made : country.crew_points) points.push_back({made.name, made.position, made.note});
  const auto heights = [&](Position p) { return std::optional<Metres>(country.terrain.height(p)); };
  const Result<Course> course = build_course(sources, points, {}, heights);
  EXPECT_TRUE(course) << course.error().where << " " << course.error().what;
  return *course;
}

TEST(Country, HasTheWantedNumberOfRoadNodesWithinTenPercent) {
  for (const std::size_t wanted : {2000UL, 5000UL, 10000UL, 100000UL})
    for (const std::uint64_t seed : {1U, 7U}) {
      const Result<Country> country = make_country({Seed{seed}, wanted});
      ASSERT_TRUE(country) << wanted << " " << seed << " " << country.error().what;
      const auto made = static_cast<double>(count_road_nodes(*country));
      EXPECT_NEAR(made / static_cast<double>(wanted), 1.0, 0.10) << "seed " << seed;
      EXPECT_EQ(static_cast<std::size_t>(made), country->road_nodes);
    }
}

TEST(Country, RefusesASizeOutOfRange) {
  const Result<Country> country = make_country({Seed{7}, 1999});
  ASSERT_FALSE(country);
  EXPECT_EQ(country.error().what, "is not within 2000 to 2000000");
}

TEST(Country, EveryLoopStartsAndEndsAtTheVenue) {
  for (const std::size_t nodes : {2000UL, 24000UL}) {
    const Country country = *make_country({Seed{3}, nodes});
    ASSERT_EQ(country.loops.size(), 3U);
    for (const CountryLoop& loop : country.loops) {
      EXPECT_LT(geodesic_distance(country.nodes[loop.nodes.front()], country.nodes[country.venue]).value, 1.0);
      EXPECT_LT(geodesic_distance(country.nodes[loop.nodes.back()], country.nodes[country.venue]).value, 1.0);
    }
  }
}

TEST(Country, CourseKeepsToWaysThatHorsesMayUse) {
  const Country& country = small_country();
  std::set<std::pair<std::uint32_t, std::uint32_t>> steps;
  for (const CountryWay& way : country.ways) {
    const std::string highway = value_of(way, "highway");
    if (highway.empty() || highway == "footway" || value_of(way, "access") == "private") continue;
    for (std::size_t k = 1; k < way.nodes.size(); ++k) steps.insert(std::minmax(way.nodes[k - 1], way.nodes[k]));
  }
  for (const CountryLoop& loop : country.loops)
    for (std::size_t k = 1; k < loop.nodes.size(); ++k)
      EXPECT_TRUE(steps.contains(std::minmax(loop.nodes[k - 1], loop.nodes[k]))) << loop.name << " step " << k;
}

TEST(Country, CourseIsMostlyOffTheMainRoads) {
  const Country& country = small_country();
  std::map<std::pair<std::uint32_t, std::uint32_t>, std::string> class_of;
  for (const CountryWay& way : country.ways)
    for (std::size_t k = 1; k < way.nodes.size(); ++k)
      class_of[std::minmax(way.nodes[k - 1], way.nodes[k])] = value_of(way, "highway");
  double trail = 0, main_road = 0, all = 0;
  for (const CountryLoop& loop : country.loops)
    for (std::size_t k = 1; k < loop.nodes.size(); ++k) {
      const std::string highway = class_of[std::minmax(loop.nodes[k - 1], loop.nodes[k])];
      const double length = geodesic_distance(country.nodes[loop.nodes[k - 1]], country.nodes[loop.nodes[k]]).value;
      all += length;
      if (highway == "bridleway" || highway == "track") trail += length;
      if (highway == "primary" || highway == "secondary") main_road += length;
    }
  EXPECT_GT(trail / all, 0.5);
  EXPECT_LT(main_road / all, 0.05);
}

TEST(Country, RideIsAboutEightyKilometresWithTenToTwelveCrewPoints) {
  const Country& country = small_country();
  EXPECT_NEAR(in_kilometres(course_of(country).length), 80.0, 4.0);
  EXPECT_GE(country.crew_points.size(), 10U);
  EXPECT_LE(country.crew_points.size(), 12U);
}

TEST(Country, CrewPointsStandFiveToTwentyFiveMetresOffTheCourse) {
  for (const Pass& pass : course_of(small_country()).passes) {
    EXPECT_GE(pass.distance.value, 5.0) << small_country().crew_points[pass.crew_point.value].name;
    EXPECT_LE(pass.distance.value, 25.0) << small_country().crew_points[pass.crew_point.value].name;
  }
}

TEST(Country, EveryCrewPointHasExactlyThePassesItWasMadeFor) {
  for (const std::uint64_t seed : {7U, 11U, 12U}) {
    const Country country = *make_country({Seed{seed}, 24000});
    const Course course = course_of(country);
    std::size_t intended = 0;
    for (std::uint32_t p = 0; p < country.crew_points.size(); ++p) {
      std::vector<Pass> found;
      for (const Pass& pass : course.passes)
        if (pass.crew_point.value == p) found.push_back(pass);
      const std::vector<IntendedPass>& meant = country.crew_points[p].passes;
      intended += meant.size();
      ASSERT_EQ(found.size(), meant.size()) << country.crew_points[p].name << " seed " << seed;
      for (std::size_t k = 0; k < meant.size(); ++k) {
        EXPECT_EQ(found[k].loop.value, meant[k].loop);
        EXPECT_NEAR(found[k].along.value, meant[k].along, 60.0);
      }
    }
    EXPECT_EQ(course.passes.size(), intended);
  }
}

TEST(Country, OffersWhatMakesCrewingHard) {
  const Country& country = small_country();
  bool shared = false, twice = false, out_and_back = false;
  std::vector<Position> pair;
  for (const CountryCrewPoint& point : country.crew_points) {
    std::set<std::uint32_t> loops;
    for (const IntendedPass& pass : point.passes) loops.insert(pass.loop);
    shared |= loops.size() > 1;
    twice |= point.passes.size() > loops.size();
    out_and_back |= point.kind == CrewPointKind::out_and_back;
    if (point.kind == CrewPointKind::one_of_a_pair) pair.push_back(point.position);
  }
  EXPECT_TRUE(shared);
  EXPECT_TRUE(twice);
  EXPECT_TRUE(out_and_back);
  ASSERT_EQ(pair.size(), 2U);
  EXPECT_GT(geodesic_distance(pair[0], pair[1]).value, 200.0);
  EXPECT_LT(geodesic_distance(pair[0], pair[1]).value, 700.0);
}

TEST(Country, OutAndBackIsRiddenTheSameWayHome) {
  const Country& country = small_country();
  for (const CountryCrewPoint& point : country.crew_points) {
    if (point.kind != CrewPointKind::out_and_back) continue;
    const std::vector<std::uint32_t>& nodes = country.loops[point.passes[0].loop].nodes;
    std::size_t tip = 1;
    while (tip + 1 < nodes.size() && nodes[tip - 1] != nodes[tip + 1]) ++tip;
    ASSERT_LT(tip + 1, nodes.size());
    EXPECT_LT(geodesic_distance(country.nodes[nodes[tip]], point.position).value, 60.0);
    std::size_t k = 1;
    while (k < tip && tip + k < nodes.size() && nodes[tip - k] == nodes[tip + k]) ++k;
    EXPECT_GT(k, 10U) << "steps ridden back";
  }
}

TEST(Country, RoadsHangTogether) {
  for (const std::size_t size : {2000UL, 24000UL, 100000UL}) {
    const Country country = *make_country({Seed{7}, size});
    const Result<RoadGraph> roads = build_roads(country);
    ASSERT_TRUE(roads) << roads.error().what;
    double all = 0, joined = 0;
    for (const RoadEdge& edge : roads->edges()) {
      all += edge.metres;
      if ((edge.flags & RoadEdge::joined) != 0) joined += edge.metres;
    }
    EXPECT_GT(joined / all, 0.97) << size;
  }
}

TEST(Country, CarsReachEveryCrewPointAndTheRoadIsLongerThanTheTrail) {
  const Country& country = small_country();
  const Result<RoadGraph> roads = build_roads(country);
  ASSERT_TRUE(roads);
  std::vector<std::string> names{country.venue_name};
  std::vector<Position> places{country.nodes[country.venue]};
  for (const CountryCrewPoint& point : country.crew_points) {
    names.push_back(point.name);
    places.push_back(point.position);
  }
  std::vector<Snap> snaps;
  for (const Position& place : places) {
    const Result<Snap> snapped = snap(*roads, place, Metres{30});
    ASSERT_TRUE(snapped) << names[snaps.size()] << ": " << snapped.error().what;
    snaps.push_back(*snapped);
  }
  const DriveTable drives = drive_table(*roads, names, snaps);
  for (std::uint32_t i = 0; i < names.size(); ++i)
    for (std::uint32_t k = 0; k < names.size(); ++k)
      EXPECT_TRUE(drives.drive(PlaceId{i}, PlaceId{k})) << names[i] << " to " << names[k];

  // From each pass to the next, by road over by trail: 1.2 to 2.0 is common practice (no source); a bridge makes more.
  const Course course = course_of(country);
  std::vector<double> factors;
  double road = 0, crow = 0;
  for (std::size_t k = 1; k < course.passes.size(); ++k) {
    const Pass& a = course.passes[k - 1];
    const Pass& b = course.passes[k];
    if (a.loop != b.loop || a.crew_point == b.crew_point) continue;
    const Metres drive = drives.drive(PlaceId{a.crew_point.value + 1}, PlaceId{b.crew_point.value + 1})->length;
    factors.push_back(drive / (b.along - a.along));
    road += drive.value;
    crow += geodesic_distance(a.position, b.position).value;
  }
  std::sort(factors.begin(), factors.end());
  ASSERT_GE(factors.size(), 8U);
  std::printf("road over trail: least %.2f, median %.2f, most %.2f; road over crow's way %.2f\n", factors.front(),
              factors[factors.size() / 2], factors.back(), road / crow);
  EXPECT_GT(factors[factors.size() / 2], 1.1);
  EXPECT_LT(factors[factors.size() / 2], 2.0);
  EXPECT_GT(factors.back(), 1.5) << "no drive is a real detour";
  EXPECT_GT(road / crow, 1.3);
}

TEST(Country, RoadsCrossTheRiverOnBridgesOnly) {
  const Country& country = small_country();
  std::size_t bridges = 0;
  for (const CountryWay& way : country.ways) {
    if (!is_for_cars(way)) continue;
    if (value_of(way, "bridge") == "yes") {
      ++bridges;
      continue;
    }
    for (std::size_t k = 1; k < way.nodes.size(); ++k)
      EXPECT_EQ(country.terrain.bank(spot_of(country.nodes[way.nodes[k - 1]])),
                country.terrain.bank(spot_of(country.nodes[way.nodes[k]])))
          << "way " << way.id;
  }
  EXPECT_GE(bridges, 3U);
  EXPECT_LE(bridges, 30U);
}

TEST(Country, HasEveryKindOfRoadAndObstacle) {
  const Country& country = small_country();
  std::map<std::string, int> count;
  for (const CountryWay& way : country.ways) {
    for (const char* key : {"highway", "junction", "oneway", "access", "tracktype"})
      ++count[key + ("=" + value_of(way, key))];
    if (value_of(way, "maxspeed").ends_with(" mph")) ++count["mph"];
  }
  for (const NodeTags& node : country.node_tags)
    for (const auto& [key, value] : node.tags) ++count[key + "=" + value];
  for (const char* wanted :
       {"highway=primary", "highway=secondary",   "highway=tertiary",  "highway=unclassified", "highway=residential",
        "highway=service", "highway=track",       "highway=bridleway", "highway=footway",      "junction=roundabout",
        "oneway=yes",      "access=private",      "tracktype=grade1",  "tracktype=grade5",     "mph",
        "barrier=gate",    "barrier=cattle_grid", "ford=yes",          "place=village",        "place=town",
        "amenity=fuel"})
    EXPECT_GT(count[wanted], 0) << wanted;
  EXPECT_GT(country.restrictions.size(), 0U);
}

TEST(Country, NamesAreUnique) {
  const Country country = *make_country({Seed{7}, 100000});
  std::set<std::string> names;
  for (const Place& place : country.places) EXPECT_TRUE(names.insert(place.name).second) << place.name;
  for (const CountryCrewPoint& point : country.crew_points) EXPECT_TRUE(names.insert(point.name).second) << point.name;
}

TEST(Terrain, IsContinuous) {
  const Terrain& terrain = small_country().terrain;
  Rng rng(Seed{5});
  for (int i = 0; i < 20000; ++i) {
    const double x = (uniform(rng) - 0.5) * 1.1 * terrain.side();
    const double y = (uniform(rng) - 0.5) * 1.1 * terrain.side();
    const double here = terrain.height(Spot{x, y});
    EXPECT_NEAR(terrain.height(Spot{x + 0.5, y}), here, 0.5);
    EXPECT_NEAR(terrain.height(Spot{x, y + 0.5}), here, 0.5);
    EXPECT_GE(here, 0.0);
    EXPECT_LT(here, 420.0);
  }
}

TEST(Terrain, IsSeaAroundTheCountry) {
  const Terrain& terrain = small_country().terrain;
  for (const double far : {-0.6, 0.6}) {
    EXPECT_EQ(terrain.height(Spot{far * terrain.side(), 0}), 0.0);
    EXPECT_EQ(terrain.height(Spot{0, far * terrain.side()}), 0.0);
  }
}

}  // namespace
}  // namespace outbye::demo
