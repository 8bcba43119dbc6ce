#include "formats/map_tiles/map_tiles.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmath>
#include <csignal>
#include <numbers>
#include <set>
#include <thread>

#include "core/base/random.h"
#include "formats/map_tiles/cut.h"
#include "formats/map_tiles/drawn_map_for_test.h"
#include "formats/map_tiles/gzip.h"
#include "formats/map_tiles/map_features.h"
#include "formats/map_tiles/world.h"

namespace outbye {
namespace {

using testing::HasSubstr;
namespace fs = std::filesystem;

double between(Rng& rng, double from, double to) { return from + (to - from) * uniform(rng); }
const Position home{54.5, -2.5};

// ---- the pyramid

TEST(TileOfAPosition, IsThatOfThePublishedFormula) {
  Rng rng(Seed{3});
  for (int i = 0; i < 20000; ++i) {
    const Position p{between(rng, -85, 85), between(rng, -180, 180)};
    const int z = map_min_zoom + i % 7;
    const double n = std::pow(2, z), phi = p.latitude * std::numbers::pi / 180;
    // OpenStreetMap wiki, "Slippy map tilenames"; a rounded position may fall over an edge, so not within 40 mm of one.
    const double x = n * (p.longitude + 180) / 360;
    const double y = n * (1 - std::log(std::tan(phi) + 1 / std::cos(phi)) / std::numbers::pi) / 2;
    const double edge = n / world_size;
    if (std::fabs(x - std::round(x)) < edge || std::fabs(y - std::round(y)) < edge) continue;
    EXPECT_EQ(tile_at(world_point(p), z), (TileId{z, std::int64_t(std::floor(x)), std::int64_t(std::floor(y))}))
        << p.latitude << " " << p.longitude;
  }
}

TEST(TileCorner, LiesWhereThePublishedFormulaPutsIt) {
  for (int z = map_min_zoom; z <= map_max_zoom; ++z) {
    for (std::int64_t y = 0; y <= (std::int64_t{1} << z); y += 1 + (std::int64_t{1} << z) / 97) {
      const double n = std::pow(2, z);
      const double latitude = std::atan(std::sinh(std::numbers::pi * (1 - 2 * double(y) / n))) * 180 / std::numbers::pi;
      const auto side = tile_side(z);
      const Position corner = position_of(WorldPoint{std::int32_t(y * side), std::int32_t(y * side)});
      EXPECT_NEAR(corner.latitude, latitude, 1e-9);
      EXPECT_NEAR(corner.longitude, 360 * double(y) / n - 180, 1e-9);
    }
  }
}

TEST(WorldPoint, ComesBackToItsPositionWithinAFewCentimetres) {
  Rng rng(Seed{4});
  for (int i = 0; i < 2000; ++i) {
    const Position p{between(rng, -85, 85), between(rng, -180, 180)};
    const Position q = position_of(world_point(p));
    EXPECT_NEAR(q.latitude, p.latitude, 2e-7);  // half a unit is 19 mm at the equator
    EXPECT_NEAR(q.longitude, p.longitude, 2e-7);
  }
}

// ---- cutting

std::vector<WorldPoint> wandering_line(Rng& rng, int points, double step) {
  std::vector<WorldPoint> line;
  double x = between(rng, 1000, 9000), y = between(rng, 1000, 9000);
  for (int i = 0; i < points; ++i) {
    line.push_back({std::int32_t(x), std::int32_t(y)});
    x += between(rng, -step, step);
    y += between(rng, -step, step);
  }
  return line;
}
double length_of(const std::vector<WorldPoint>& line) {
  double sum = 0;
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    sum += std::hypot(line[i + 1].x - line[i].x, line[i + 1].y - line[i].y);
  }
  return sum;
}

TEST(LineWithin, LosesNothingBetweenNeighbouringBoxes) {
  Rng rng(Seed{5});
  for (int i = 0; i < 200; ++i) {
    const auto line = wandering_line(rng, 60, 900);
    double sum = 0;
    std::size_t pieces = 0;
    for (std::int32_t x = -20000; x < 30000; x += 1000) {
      for (std::int32_t y = -20000; y < 30000; y += 1000) {
        for (const auto& piece : line_within(line, {x, y, x + 1000, y + 1000})) {
          sum += length_of(piece);
          ++pieces;
        }
      }
    }
    EXPECT_NEAR(sum, length_of(line), 1.5 * static_cast<double>(pieces));  // each end is rounded
  }
}

TEST(LineWithin, IsTheLineItselfInsideTheBoxAndNothingOutside) {
  const std::vector<WorldPoint> line{{10, 10}, {20, 30}, {40, 5}};
  EXPECT_THAT(line_within(line, {0, 0, 100, 100}), testing::ElementsAre(line));
  EXPECT_TRUE(line_within(line, {50, 0, 100, 100}).empty());
}

TEST(LineWithin, IsTwoPiecesWhereALineLeavesAndComesBack) {
  const std::vector<WorldPoint> line{{0, 10}, {200, 10}, {200, 20}, {0, 20}};
  const auto pieces = line_within(line, {0, 0, 100, 100});
  ASSERT_EQ(pieces.size(), 2u);
  EXPECT_EQ(pieces[0].back(), (WorldPoint{100, 10}));
  EXPECT_EQ(pieces[1].front(), (WorldPoint{100, 20}));
}

TEST(RingWithin, KeepsTheAreaOverNeighbouringBoxes) {
  Rng rng(Seed{6});
  for (int i = 0; i < 200; ++i) {
    // A star around a middle, so that the ring does not cross itself.
    std::vector<WorldPoint> ring;
    for (int k = 0; k < 24; ++k) {
      const double angle = 2 * std::numbers::pi * k / 24, radius = between(rng, 500, 6000);
      ring.push_back({std::int32_t(10000 + radius * std::cos(angle)), std::int32_t(10000 + radius * std::sin(angle))});
    }
    ring.push_back(ring.front());
    double sum = 0;
    for (std::int32_t x = 0; x < 20000; x += 1000) {
      for (std::int32_t y = 0; y < 20000; y += 1000) {
        const auto piece = ring_within(ring, {x, y, x + 1000, y + 1000});
        if (!piece.empty()) sum += twice_area(piece);
      }
    }
    EXPECT_NEAR(sum / twice_area(ring), 1, 0.002);
  }
}

TEST(RingWithin, IsTheWholeBoxInsideAGreatRing) {
  const std::vector<WorldPoint> ring{{-5000, -5000}, {5000, -5000}, {5000, 5000}, {-5000, 5000}, {-5000, -5000}};
  EXPECT_EQ(twice_area(ring_within(ring, {0, 0, 100, 100})), 2 * 100 * 100);
}

TEST(Simplified, StaysWithinItsToleranceAndKeepsItsEnds) {
  Rng rng(Seed{7});
  for (int i = 0; i < 200; ++i) {
    const auto line = wandering_line(rng, 100, 30);
    const auto simple = simplified(line, 20);
    EXPECT_LT(simple.size(), line.size());
    EXPECT_EQ(simple.front(), line.front());
    EXPECT_EQ(simple.back(), line.back());
    for (const WorldPoint p : line) {
      double nearest = 1e9;
      for (std::size_t k = 0; k + 1 < simple.size(); ++k) {
        const double ax = simple[k].x, ay = simple[k].y, dx = simple[k + 1].x - ax, dy = simple[k + 1].y - ay;
        const double l = dx * dx + dy * dy;
        const double t = l > 0 ? std::clamp(((p.x - ax) * dx + (p.y - ay) * dy) / l, 0.0, 1.0) : 0;
        nearest = std::min(nearest, std::hypot(p.x - ax - t * dx, p.y - ay - t * dy));
      }
      EXPECT_LE(nearest, 20.001);
    }
  }
}

TEST(Simplified, KeepsARingARing) {
  const std::vector<WorldPoint> ring{{0, 0}, {50, 1}, {100, 0}, {100, 100}, {50, 99}, {0, 100}, {0, 0}};
  EXPECT_THAT(simplified(ring, 5), testing::ElementsAre(WorldPoint{0, 0}, WorldPoint{100, 0}, WorldPoint{100, 100},
                                                        WorldPoint{0, 100}, WorldPoint{0, 0}));
}

// ---- joining

TEST(JoinedLines, BecomeOneWhereTwoMeetWhicheverWayTheyRun) {
  const auto lines = joined_lines({{1, {{0, 0}, {1, 0}}}, {1, {{2, 0}, {1, 0}}}, {1, {{2, 0}, {3, 0}}}});
  ASSERT_EQ(lines.size(), 1u);
  EXPECT_THAT(lines[0].points,
              testing::ElementsAre(WorldPoint{0, 0}, WorldPoint{1, 0}, WorldPoint{2, 0}, WorldPoint{3, 0}));
}

TEST(JoinedLines, StayApartAtAForkAndWhenTheyAreOfDifferentKinds) {
  EXPECT_EQ(joined_lines({{1, {{0, 0}, {1, 0}}}, {1, {{1, 0}, {2, 0}}}, {1, {{1, 0}, {1, 1}}}}).size(), 3u);
  EXPECT_EQ(joined_lines({{1, {{0, 0}, {1, 0}}}, {2, {{1, 0}, {2, 0}}}}).size(), 2u);
}

TEST(JoinedLines, CloseARingOnce) {
  const auto lines = joined_lines({{1, {{0, 0}, {1, 0}}}, {1, {{1, 0}, {1, 1}}}, {1, {{1, 1}, {0, 0}}}});
  ASSERT_EQ(lines.size(), 1u);
  EXPECT_EQ(lines[0].points.size(), 4u);
}

TEST(JoinedLines, KeepTheLengthOfTangledNets) {
  Rng rng(Seed{8});
  for (int i = 0; i < 300; ++i) {
    std::vector<LooseLine> lines;
    double sum = 0;
    for (int k = 0; k < 40; ++k) {
      const auto corner = [&] {
        return WorldPoint{std::int32_t(between(rng, 0, 5)), std::int32_t(between(rng, 0, 5))};
      };
      const WorldPoint a = corner(), b = corner();
      if (a == b) continue;
      lines.push_back({std::uint32_t(k % 2), {a, b}});
      sum += length_of(lines.back().points);
    }
    double joined = 0;
    for (const LooseLine& line : joined_lines(lines)) joined += length_of(line.points);
    EXPECT_NEAR(joined, sum, 1e-9);
  }
}

// ---- gzip

TEST(Gzip, GivesTheBytesBackAndRefusesDamageAndBombs) {
  const std::string bytes(100000, 'x');
  const std::string packed = gzipped(bytes);
  EXPECT_EQ(gunzipped(packed, 1000000), bytes);
  EXPECT_FALSE(gunzipped(packed, 1000));
  EXPECT_FALSE(gunzipped(packed.substr(0, packed.size() - 3), 1000000));
  EXPECT_FALSE(gunzipped("no gzip", 1000000));
}

// ---- maps

DrawnMap village() {
  DrawnMap map;
  map.line({home, {54.51, -2.49}}, {{"highway", "primary"}, {"name", "High Road"}});
  map.node(home, {{"place", "village"}, {"name", "Nether Thwaite"}});
  return map;
}
std::string said(const Result<void>& result) {
  return result ? "made" : result.error().where + ": " + result.error().what;
}
std::vector<std::string> files_in(const TestFolder& folder) {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(folder.path)) names.push_back(entry.path().filename().string());
  std::sort(names.begin(), names.end());
  return names;
}

TEST(MakeMap, LeavesOneFileThatOpensWithItsFacts) {
  const TestFolder folder("map-one");
  const auto made = make_map({village().save(folder)}, folder.path / "a.mbtiles");
  ASSERT_TRUE(made) << said(made);
  EXPECT_THAT(files_in(folder), testing::ElementsAre("a.mbtiles", "map.osm"));
  const auto map = open_map(folder.path / "a.mbtiles");
  ASSERT_TRUE(map) << map.error().what;
  EXPECT_EQ(map->facts().attribution, "© OpenStreetMap contributors");
  EXPECT_NEAR(map->facts().bounds.south, 54.5, 1e-6);
  EXPECT_NEAR(map->facts().bounds.north, 54.51, 1e-6);
  EXPECT_NEAR(map->facts().bounds.west, -2.5, 1e-6);
  EXPECT_NEAR(map->facts().bounds.east, -2.49, 1e-6);
}

TEST(MakeMap, GivesTheSameBytesAgain) {
  const TestFolder folder("map-same");
  const auto extract = village().save(folder);
  ASSERT_TRUE(make_map({extract}, folder.path / "a.mbtiles"));
  ASSERT_TRUE(make_map({extract}, folder.path / "b.mbtiles"));
  const auto bytes = [&](const char* name) {
    std::ifstream file(folder.path / name, std::ios::binary);
    return std::string(std::istreambuf_iterator<char>(file), {});
  };
  EXPECT_EQ(bytes("a.mbtiles"), bytes("b.mbtiles"));
}

TEST(MakeMap, DrawsAThingOfTwoExtractsOnce) {
  const TestFolder folder("map-two");
  const auto extract = village().save(folder);
  ASSERT_TRUE(make_map({extract}, folder.path / "a.mbtiles"));
  ASSERT_TRUE(make_map({extract, village().save(folder, "other.osm")}, folder.path / "b.mbtiles"));
  const TileId at = tile_at(world_point(home), 14);
  const auto tile = [&](const char* name) {
    return map_tile(open_map(folder.path / name).value(), at.z, at.x, at.y).value().value();
  };
  EXPECT_EQ(tile("a.mbtiles"), tile("b.mbtiles"));
}

TEST(MakeMap, StoppedHalfWayLeavesTheFormerMapAndNothingElse) {
  const TestFolder folder("map-stop");
  const auto extract = village().save(folder);
  const auto out = folder.path / "a.mbtiles";
  std::ofstream(out) << "the former map";
  for (const double stop_at : {0.0, 0.3, 0.41, 0.69}) {
    double share = 0;
    const MapProgress progress{[&](const std::string&, double s) { share = s; }, [&] { return share >= stop_at; }};
    const auto made = make_map({extract}, out, progress);
    ASSERT_FALSE(made) << stop_at;
    EXPECT_EQ(made.error().kind, Problem::Kind::cancelled);
    EXPECT_THAT(files_in(folder), testing::ElementsAre("a.mbtiles", "map.osm"));
    EXPECT_EQ(fs::file_size(out), 14u);
  }
}

TEST(MakeMap, TellsItsProgressInRisingSharesUpToAll) {
  const TestFolder folder("map-progress");
  std::vector<double> shares;
  ASSERT_TRUE(make_map({village().save(folder)}, folder.path / "a.mbtiles",
                       {[&](const std::string&, double share) { shares.push_back(share); }, {}}));
  EXPECT_TRUE(std::is_sorted(shares.begin(), shares.end())) << testing::PrintToString(shares);
  EXPECT_EQ(shares.back(), 1.0);
}

TEST(MakeMap, SaysWhatIsWrongWithAnExtract) {
  const TestFolder folder("map-wrong");
  const auto out = folder.path / "a.mbtiles";
  EXPECT_THAT(said(make_map({folder.path / "none.osm.pbf"}, out)), HasSubstr("does not exist"));
  EXPECT_THAT(said(make_map({}, out)), HasSubstr("has no extract"));
  std::ofstream(folder.path / "text.osm") << "<?xml version=\"1.0\"?><osm version=\"0.6\"><node id=\"1\" lat";
  EXPECT_THAT(said(make_map({folder.path / "text.osm"}, out)), HasSubstr("damaged or cut short"));
  DrawnMap bare;
  bare.node(home);
  EXPECT_THAT(said(make_map({bare.save(folder)}, out)), HasSubstr("holds nothing that the map shows"));
  EXPECT_FALSE(fs::exists(out));
}

TEST(MakeMap, SaysWhenTheDiskRefusesAndLeavesNothing) {
  const TestFolder folder("map-disk");
  const auto extract = village().save(folder);
  const auto made = make_map({extract}, folder.path / "no such folder" / "a.mbtiles");
  EXPECT_EQ(made ? Problem::Kind::bad_input : made.error().kind, Problem::Kind::cancelled);
  // A process that may write no more than 8 kB into a file stands for a full disk.
  const pid_t child = ::fork();
  if (child == 0) {
    ::signal(SIGXFSZ, SIG_IGN);
    const rlimit little{8192, 8192};
    ::setrlimit(RLIMIT_FSIZE, &little);
    const auto full = make_map({extract}, folder.path / "a.mbtiles");
    ::_exit(!full && full.error().kind == Problem::Kind::cancelled ? 0 : 1);
  }
  int status = -1;
  ASSERT_EQ(::waitpid(child, &status, 0), child);
  EXPECT_EQ(status, 0);
  EXPECT_THAT(files_in(folder), testing::ElementsAre("map.osm"));
}

TEST(OpenMap, RefusesWhatIsNoMapOfOurs) {
  const TestFolder folder("map-open");
  EXPECT_EQ(open_map(folder.path / "none").error().kind, Problem::Kind::not_found);
  std::ofstream(folder.path / "text") << std::string(5000, 'x');
  EXPECT_THAT(open_map(folder.path / "text").error().what, HasSubstr("make it again"));
  ASSERT_TRUE(make_map({village().save(folder)}, folder.path / "a.mbtiles"));
  fs::resize_file(folder.path / "a.mbtiles", 2000);
  EXPECT_FALSE(open_map(folder.path / "a.mbtiles"));
}

TEST(MapTile, IsNothingWhereNothingIsDrawnOrNoTileCanBe) {
  const TestFolder folder("map-nothing");
  ASSERT_TRUE(make_map({village().save(folder)}, folder.path / "a.mbtiles"));
  const auto map = open_map(folder.path / "a.mbtiles");
  ASSERT_TRUE(map);
  const TileId at = tile_at(world_point(home), 14);
  EXPECT_TRUE(map_tile(*map, 14, at.x, at.y).value());
  for (const TileId none : {TileId{14, 0, 0}, TileId{14, -1, at.y}, TileId{14, at.x, std::int64_t{1} << 40},
                            TileId{7, 1, 1}, TileId{15, 2 * at.x, 2 * at.y}, TileId{-5, 0, 0}, TileId{99, 0, 0}}) {
    const auto tile = map_tile(*map, none.z, none.x, none.y);
    ASSERT_TRUE(tile) << none.z;
    EXPECT_FALSE(*tile) << none.z;
  }
}

TEST(MapTile, IsAnsweredToSeveralThreadsAtOnce) {
  const TestFolder folder("map-threads");
  ASSERT_TRUE(make_map({village().save(folder)}, folder.path / "a.mbtiles"));
  const auto map = open_map(folder.path / "a.mbtiles");
  ASSERT_TRUE(map);
  const TileId at = tile_at(world_point(home), 14);
  const auto tile = map_tile(*map, 14, at.x, at.y).value().value();
  std::vector<std::thread> threads;
  std::vector<int> wrong(4);
  for (int& count : wrong) {
    threads.emplace_back([&] {
      for (int i = 0; i < 200; ++i) count += map_tile(*map, 14, at.x, at.y).value_or(std::nullopt) != tile ? 1 : 0;
    });
  }
  for (std::thread& thread : threads) thread.join();
  EXPECT_THAT(wrong, testing::Each(0));
}

}  // namespace
}  // namespace outbye
