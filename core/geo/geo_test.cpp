// Geodesics are checked against Karney's test set (GeodTest, doi 10.5281/zenodo.32156) and against GeographicLib's
// GeodSolve, which is run as a program; the rest against geodesics.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "core/base/random.h"
#include "core/geo/bounding_box.h"
#include "core/geo/ellipsoid.h"
#include "core/geo/geodesic.h"
#include "core/geo/nearest.h"
#include "core/geo/sphere.h"

namespace outbye {
namespace {

double between(Rng& rng, double from, double to) { return from + (to - from) * uniform(rng); }
Position any_position(Rng& rng) {
  const double latitude = between(rng, -90, 90);
  const double longitude = between(rng, -180, 180);
  return {latitude, longitude};
}

TEST(Geodesic, AgreesWithKarneysTestSet) {
  const std::string name = std::string(OUTBYE_SHARED) + "/data/reference/GeodTest-100.dat";
  std::ifstream file(name);
  if (!file) GTEST_SKIP() << "no " << name;
  double lat1, lon1, azi1, lat2, lon2, azi2, s12, a12, m12, area;
  int lines = 0;
  double worst = 0, worst_end = 0;
  while (file >> lat1 >> lon1 >> azi1 >> lat2 >> lon2 >> azi2 >> s12 >> a12 >> m12 >> area) {
    ++lines;
    const Geodesic line = geodesic_inverse({lat1, lon1}, {lat2, lon2});
    worst = std::max(worst, std::abs(line.distance.value - s12));
    EXPECT_EQ(line.distance, geodesic_distance({lat1, lon1}, {lat2, lon2}));
    // Near antipodes the azimuth turns fast with the end point, which the file gives to 1e-18 degrees.
    EXPECT_NEAR(std::remainder(line.azimuth.value - azi1, 360), 0, 1e-4) << lines;
    const GeodesicEnd end = geodesic_direct({lat1, lon1}, {azi1}, {s12});
    worst_end = std::max(worst_end, geodesic_distance(end.position, {lat2, lon2}).value);
    EXPECT_NEAR(std::remainder(end.final_azimuth.value - azi2, 360), 0, 1e-7) << lines;
  }
  EXPECT_EQ(lines, 100);
  EXPECT_LT(worst, 1e-7);      // m
  EXPECT_LT(worst_end, 1e-7);  // m
  RecordProperty("worst_inverse_nm", std::to_string(worst * 1e9));
}

// Pairs of every sort: short steps of a track, long, along meridians and the equator, over the seam, at the poles.
std::vector<std::pair<Position, Position>> pairs_of_every_sort() {
  Rng rng{Seed{20}};
  std::vector<std::pair<Position, Position>> pairs;
  for (int i = 0; i < 300; ++i) {
    const Position a = any_position(rng);
    const double size = std::pow(10.0, between(rng, -7, 0));
    const double north = between(rng, -size, size);
    const double east = between(rng, -size, size);
    pairs.push_back({a, {std::clamp(a.latitude + north, -90.0, 90.0), std::remainder(a.longitude + east, 360)}});
    pairs.push_back({a, any_position(rng)});
    pairs.push_back({a, {between(rng, -90, 90), a.longitude}});
    pairs.push_back({{0, a.longitude}, {0, between(rng, -180, 180)}});
    pairs.push_back({{a.latitude, 180 - size}, {a.latitude + north / 10 > 90 ? 90 : a.latitude, -180 + size}});
    pairs.push_back({{90, a.longitude}, any_position(rng)});
    pairs.push_back({{90 - size, a.longitude}, {90 - size, between(rng, -180, 180)}});
    pairs.push_back({a, a});
    pairs.push_back({a, {-a.latitude, std::remainder(a.longitude + 180 + between(rng, -0.5, 0.5), 360)}});
  }
  return pairs;
}

TEST(Geodesic, AgreesWithGeodSolveOnPairsOfEverySort) {
  if (std::system("command -v GeodSolve >/dev/null") != 0) GTEST_SKIP() << "GeodSolve is not installed";
  const auto pairs = pairs_of_every_sort();
  const std::string input = testing::TempDir() + "outbye_geodsolve.txt";
  {
    std::ofstream file(input);
    file.precision(17);
    for (const auto& [a, b] : pairs) {
      file << a.latitude << ' ' << a.longitude << ' ' << b.latitude << ' ' << b.longitude << '\n';
    }
  }
  std::FILE* pipe = popen(("GeodSolve -i -p 10 < '" + input + "'").c_str(), "r");
  ASSERT_NE(pipe, nullptr);
  double worst = 0;
  for (const auto& [a, b] : pairs) {
    double azimuth = 0, final_azimuth = 0, distance = 0;
    ASSERT_EQ(std::fscanf(pipe, "%lf %lf %lf", &azimuth, &final_azimuth, &distance), 3);
    const Geodesic line = geodesic_inverse(a, b);
    worst = std::max(worst, std::abs(line.distance.value - distance));
    EXPECT_NEAR(line.distance.value, distance, 1e-7)
        << a.latitude << ' ' << a.longitude << " to " << b.latitude << ' ' << b.longitude;
    // On lines of a metre or more that end neither at a pole nor nearly at the antipode the azimuth is well defined.
    if (distance > 1 && distance < 19.9e6 && std::abs(a.latitude) < 89 && std::abs(b.latitude) < 89) {
      EXPECT_NEAR(std::remainder(line.azimuth.value - azimuth, 360), 0, 1e-6) << distance;
    }
  }
  pclose(pipe);
  RecordProperty("worst_nm", std::to_string(worst * 1e9));
}

TEST(Geodesic, IsAsLongBackAsForth) {
  for (const auto& [a, b] : pairs_of_every_sort()) {
    EXPECT_NEAR(geodesic_distance(a, b).value, geodesic_distance(b, a).value, 1e-7);
  }
}

TEST(Geodesic, DirectUndoesInverse) {
  Rng rng{Seed{3}};
  for (int i = 0; i < 1000; ++i) {
    const Position a = any_position(rng), b = any_position(rng);
    const Geodesic line = geodesic_inverse(a, b);
    EXPECT_LT(geodesic_distance(geodesic_direct(a, line.azimuth, line.distance).position, b).value, 1e-6);
  }
}

TEST(EarthVector, GoesThereAndBack) {
  Rng rng{Seed{4}};
  for (int i = 0; i < 1000; ++i) {
    const Position a = any_position(rng);
    EXPECT_LT(geodesic_distance(position_at(earth_vector(a)), a).value, 1e-7);
  }
  EXPECT_EQ(position_at(earth_vector({90, 0})).latitude, 90);
}

TEST(GroundDistance, IsTheGeodesicWithinAMillimetreUpToTenKilometres) {
  Rng rng{Seed{5}};
  for (int i = 0; i < 1000; ++i) {
    const Position a = any_position(rng);
    const Metres d{std::pow(10.0, between(rng, 0, 4))};
    const Position b = geodesic_direct(a, {between(rng, -180, 180)}, d).position;
    const EarthVector gap = earth_vector(b) - earth_vector(a);
    EXPECT_NEAR(ground_distance(std::sqrt(dot(gap, gap))).value, d.value, 1e-3);
  }
}

// The reference: the geodesic from the asked position to the nearest of points laid along the segment's geodesic, by
// golden section (the distance has one minimum on a short segment).
Metres searched_distance(Position p, Position a, Position b) {
  const Geodesic line = geodesic_inverse(a, b);
  const auto distance = [&](double t) {
    return geodesic_distance(p, geodesic_direct(a, line.azimuth, t * line.distance).position).value;
  };
  const double golden = 0.6180339887498949;
  double from = 0, to = 1;
  while (to - from > 1e-9) {
    const double left = to - golden * (to - from);
    const double right = from + golden * (to - from);
    (distance(left) < distance(right) ? to : from) = distance(left) < distance(right) ? right : left;
  }
  return {distance((from + to) / 2)};
}

TEST(NearestOnSegment, IsGoodToACentimetreUpToFiveKilometres) {
  Rng rng{Seed{6}};
  for (int i = 0; i < 400; ++i) {
    // Every tenth across the seam, every tenth round a pole.
    Position a = any_position(rng);
    if (i % 10 == 0) a.longitude = i % 20 == 0 ? 179.995 : -179.995;
    if (i % 10 == 1) a.latitude = i % 20 == 1 ? 89.99 : -89.99;
    const Position b = geodesic_direct(a, {between(rng, -180, 180)}, {between(rng, 1, 5000)}).position;
    const Position p = geodesic_direct(a, {between(rng, -180, 180)}, {between(rng, 0, 5000)}).position;
    const NearestPoint nearest = nearest_on_segment(p, a, b);
    EXPECT_NEAR(nearest.distance.value, searched_distance(p, a, b).value, 0.01) << i;
    EXPECT_NEAR(geodesic_distance(p, nearest.position).value, nearest.distance.value, 0.01) << i;
    EXPECT_NEAR(geodesic_distance(a, nearest.position).value, nearest.fraction * geodesic_distance(a, b).value, 0.01)
        << i;
  }
}

TEST(NearestOnLine, IsTheNearestOfItsSegments) {
  Rng rng{Seed{7}};
  std::vector<Position> line{{52, 179.99}};
  for (int i = 0; i < 40; ++i)
    line.push_back(geodesic_direct(line.back(), {between(rng, 0, 150)}, {between(rng, 0, 200)}).position);
  for (int i = 0; i < 200; ++i) {
    const Position p = geodesic_direct(line[20], {between(rng, -180, 180)}, {between(rng, 0, 3000)}).position;
    double least = 1e9;
    for (std::size_t k = 0; k + 1 < line.size(); ++k) {
      least = std::min(least, nearest_on_segment(p, line[k], line[k + 1]).distance.value);
    }
    EXPECT_NEAR(nearest_on_line(p, line)->distance.value, least, 1e-3);
  }
  EXPECT_FALSE(nearest_on_line({0, 0}, {}));
  EXPECT_NEAR(nearest_on_line({0, 0}, std::vector<Position>{{0, 1}})->distance.value, 111319.491, 0.5);
}

TEST(SphereDistance, IsWithinItsStatedErrorOfTheGeodesic) {
  Rng rng{Seed{8}};
  for (int i = 0; i < 2000; ++i) {
    const Position a = any_position(rng), b = any_position(rng);
    const double geodesic = geodesic_distance(a, b).value;
    EXPECT_NEAR(sphere_distance(a, b).value / geodesic, 1, 0.0057);
  }
  EXPECT_NEAR(sphere_distance({50, 11}, {50, 11.0000001}).value, 0.00715, 0.0001);  // no cancellation
}

TEST(InitialAzimuth, IsWithinItsStatedErrorOfTheGeodesic) {
  Rng rng{Seed{9}};
  for (int i = 0; i < 2000; ++i) {
    Position a = any_position(rng);
    a.latitude *= 0.9;
    const Position b = geodesic_direct(a, {between(rng, -180, 180)}, {between(rng, 1, 20000)}).position;
    const double geodesic = geodesic_inverse(a, b).azimuth.value;
    EXPECT_NEAR(std::remainder(initial_azimuth(a, b).value - geodesic, 360), 0, 0.2);
  }
  EXPECT_NEAR(initial_azimuth({0, 179.9}, {0, -179.9}).value, 90, 1e-9);
  EXPECT_EQ(turn({350}, {10}).value, 20);
}

TEST(BoundingBox, TakesTheShortWayRoundTheWorld) {
  const auto box = bounding_box(std::vector<Position>{{-17, 179.5}, {-18, -179.5}, {-16, 179.9}});
  EXPECT_EQ(*box, (BoundingBox{-18, 179.5, -16, -179.5}));
  EXPECT_TRUE(contains(*box, {-17, 180}));
  EXPECT_TRUE(contains(*box, {-17, -180}));
  EXPECT_FALSE(contains(*box, {-17, 0}));
  EXPECT_NEAR(width(*box), 1, 1e-12);
  EXPECT_FALSE(bounding_box({}));
  EXPECT_EQ(*bounding_box(std::vector<Position>{{1, 2}}), (BoundingBox{1, 2, 1, 2}));
}

TEST(BoundingBox, HoldsItsPointsAndGrownHoldsAllWithinTheMargin) {
  Rng rng{Seed{10}};
  for (int i = 0; i < 500; ++i) {
    std::vector<Position> points;
    Position centre = any_position(rng);
    if (i % 5 == 0) centre.longitude = 180;
    if (i % 7 == 0) centre.latitude = 89.9;
    for (int k = 0; k < 5; ++k) {
      points.push_back(geodesic_direct(centre, {between(rng, -180, 180)}, {between(rng, 0, 50000)}).position);
    }
    const BoundingBox box = *bounding_box(points);
    const Metres margin{std::pow(10.0, between(rng, 1, 5))};
    const BoundingBox wide = grown(box, margin);
    for (const Position p : points) {
      EXPECT_TRUE(contains(box, p));
      const Position out = geodesic_direct(p, {between(rng, -180, 180)}, uniform(rng) * margin).position;
      EXPECT_TRUE(contains(wide, out)) << i << ' ' << out.latitude << ' ' << out.longitude;
      EXPECT_TRUE(overlap(box, wide));
    }
  }
  EXPECT_FALSE(overlap({0, 0, 1, 1}, {0, 2, 1, 3}));
  EXPECT_TRUE(overlap({0, 179, 1, -179}, {0, -180, 1, -178}));
}

}  // namespace
}  // namespace outbye
