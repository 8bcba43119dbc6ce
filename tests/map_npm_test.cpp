// Our vector tiles read by others: the npm package @mapbox/vector-tile 3.0.0 (BSD-3-Clause) says what is in them and
// where, and pyosmium (BSD-2-Clause) what should be. `./run test` installs both.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <map>
#include <numbers>
#include <sstream>

#include "core/base/random.h"
#include "formats/map_tiles/drawn_map_for_test.h"
#include "formats/map_tiles/map_tiles.h"
#include "formats/map_tiles/world.h"

namespace outbye {
namespace {

namespace fs = std::filesystem;

bool has_packages() {
  return fs::exists(OUTBYE_SOURCE "/tests/npm/node_modules/@mapbox/vector-tile/package.json") &&
         std::system("command -v node >/dev/null") == 0;
}
#define NEEDS_PACKAGES() \
  if (!has_packages()) GTEST_SKIP() << "node or tests/npm/node_modules is missing: npm ci --prefix tests/npm"

// A part of a feature, as the package reads it.
struct Part {
  TileId tile;
  std::string layer;
  int type{};
  int polygon{};
  bool is_hole{};
  std::string kind, name;
  std::vector<Position> points;
};

std::vector<std::string> split(const std::string& text, char at) {
  std::vector<std::string> words;
  std::istringstream in(text);
  for (std::string word; std::getline(in, word, at);) words.push_back(word);
  return words;
}

// The tiles of one zoom that can hold anything of the map.
std::vector<Part> parts_of(const fs::path& file, int z, const TestFolder& folder) {
  const auto map = open_map(file);
  EXPECT_TRUE(map);
  const BoundingBox& box = map->facts().bounds;
  const TileId first = tile_at(world_point({box.north, box.west}), z);
  const TileId last = tile_at(world_point({box.south, box.east}), z);
  const fs::path tiles = folder.path / ("tiles" + std::to_string(z));
  fs::create_directories(tiles);
  for (std::int64_t x = first.x - 1; x <= last.x + 1; ++x) {
    for (std::int64_t y = first.y - 1; y <= last.y + 1; ++y) {
      const auto tile = map_tile(*map, z, x, y);
      EXPECT_TRUE(tile);
      if (!tile || !*tile) continue;
      const std::string name = std::to_string(z) + "-" + std::to_string(x) + "-" + std::to_string(y) + ".pbf";
      std::ofstream(tiles / name, std::ios::binary) << **tile;
    }
  }
  const fs::path said = folder.path / "said";
  const std::string command =
      "node '" OUTBYE_SOURCE "/tests/tools/vector_tiles.mjs' '" + tiles.string() + "' > '" + said.string() + "'";
  EXPECT_EQ(std::system(command.c_str()), 0);
  std::vector<Part> parts;
  std::ifstream in(said);
  for (std::string line; std::getline(in, line);) {
    const auto words = split(line, '\t');
    Part part{{std::stoi(words[0]), std::stol(words[1]), std::stol(words[2])},
              words[3],
              std::stoi(words[4]),
              std::stoi(words[5]),
              words[6] == "1",
              words[7],
              words[8],
              {}};
    for (const std::string& point : split(words[9], ' ')) {
      const auto comma = point.find(',');
      part.points.push_back({std::stod(point.substr(comma + 1)), std::stod(point.substr(0, comma))});
    }
    parts.push_back(std::move(part));
  }
  return parts;
}

// Web Mercator with a side of 1, as published; in doubles, so apart from ours.
std::pair<double, double> on_square(Position p) {
  const double phi = p.latitude * std::numbers::pi / 180;
  return {(p.longitude + 180) / 360, (1 - std::log(std::tan(phi) + 1 / std::cos(phi)) / std::numbers::pi) / 2};
}
double unit(int z) { return 1.0 / (4096.0 * std::pow(2, z)); }

// How much of a line lies in the tile itself, without what reaches over its edges; side 1.
double length_in_tile(const Part& part) {
  const double n = std::pow(2, part.tile.z);
  const double west = double(part.tile.x) / n, north = double(part.tile.y) / n, east = west + 1 / n,
               south = north + 1 / n;
  double sum = 0;
  for (std::size_t i = 0; i + 1 < part.points.size(); ++i) {
    const auto [ax, ay] = on_square(part.points[i]);
    const auto [bx, by] = on_square(part.points[i + 1]);
    double from = 0, to = 1;
    const auto narrow = [&](double step, double room) {
      if (step == 0) {
        if (room < 0) to = -1;
      } else if (step < 0) {
        from = std::max(from, room / step);
      } else {
        to = std::min(to, room / step);
      }
    };
    narrow(ax - bx, ax - west);
    narrow(bx - ax, east - ax);
    narrow(ay - by, ay - north);
    narrow(by - ay, south - ay);
    if (from < to) sum += (to - from) * std::hypot(bx - ax, by - ay);
  }
  return sum;
}

bool is_within(const std::vector<Position>& ring, Position p) {
  bool inside = false;
  for (std::size_t i = 0, k = ring.size() - 1; i < ring.size(); k = i++) {
    const Position a = ring[i], b = ring[k];
    if ((a.latitude > p.latitude) != (b.latitude > p.latitude) &&
        p.longitude <
            (b.longitude - a.longitude) * (p.latitude - a.latitude) / (b.latitude - a.latitude) + a.longitude) {
      inside = !inside;
    }
  }
  return inside;
}

// Is the place painted in the tile that it lies in? The map has one kind of area, so each tile has one feature of them.
bool is_painted(const std::vector<Part>& parts, const std::string& layer, Position p, int z) {
  const TileId tile = tile_at(world_point(p), z);
  std::map<int, std::pair<bool, bool>> polygons;  // in its outer ring, in a hole
  for (const Part& part : parts) {
    if (part.layer != layer || !(part.tile == tile) || !is_within(part.points, p)) continue;
    (part.is_hole ? polygons[part.polygon].second : polygons[part.polygon].first) = true;
  }
  return std::any_of(polygons.begin(), polygons.end(),
                     [](const auto& polygon) { return polygon.second.first && !polygon.second.second; });
}

double between(Rng& rng, double from, double to) { return from + (to - from) * uniform(rng); }
const Position home{54.5, -2.5};

TEST(PlacesInTheTiles, AreThoseOfTheExtractWithinAUnit) {
  NEEDS_PACKAGES();
  const TestFolder folder("map-npm-places");
  Rng rng(Seed{11});
  DrawnMap drawn;
  std::map<std::string, Position> places;
  for (int i = 0; i < 300; ++i) {
    const Position at{between(rng, 54.4, 54.6), between(rng, -2.7, -2.4)};
    const std::string name = "P" + std::to_string(i);
    places[name] = at;
    drawn.node(at, {{"place", "village"}, {"name", name}});
  }
  ASSERT_TRUE(make_map({drawn.save(folder)}, folder.path / "a.mbtiles"));
  for (const int z : {10, 12, 14}) {
    std::size_t found = 0;
    for (const Part& part : parts_of(folder.path / "a.mbtiles", z, folder)) {
      ASSERT_EQ(part.layer, "places");
      const auto [x, y] = on_square(part.points[0]);
      const auto [wanted_x, wanted_y] = on_square(places.at(part.name));
      EXPECT_NEAR(x, wanted_x, 1.01 * unit(z));
      EXPECT_NEAR(y, wanted_y, 1.01 * unit(z));
      EXPECT_EQ(part.tile, tile_at(world_point(places.at(part.name)), z));  // and in that tile alone
      ++found;
    }
    EXPECT_EQ(found, places.size()) << z;
  }
}

TEST(CornersOfALine, AreInTheTilesWithinAUnit) {
  NEEDS_PACKAGES();
  const TestFolder folder("map-npm-corners");
  Rng rng(Seed{12});
  DrawnMap drawn;
  std::vector<Position> corners;
  for (int i = 0; i < 400; ++i) corners.push_back({between(rng, 54.4, 54.6), between(rng, -2.7, -2.4)});
  drawn.line(corners, {{"highway", "primary"}});
  ASSERT_TRUE(make_map({drawn.save(folder)}, folder.path / "a.mbtiles"));
  std::map<std::pair<std::int64_t, std::int64_t>, std::vector<Position>> by_tile;
  for (const Part& part : parts_of(folder.path / "a.mbtiles", 14, folder)) {
    auto& points = by_tile[{part.tile.x, part.tile.y}];
    points.insert(points.end(), part.points.begin(), part.points.end());
  }
  for (const Position corner : corners) {
    const TileId tile = tile_at(world_point(corner), 14);
    const auto [x, y] = on_square(corner);
    double nearest = 1;
    for (const Position p : by_tile[{tile.x, tile.y}]) {
      const auto [px, py] = on_square(p);
      nearest = std::min(nearest, std::max(std::fabs(px - x), std::fabs(py - y)));
    }
    EXPECT_LE(nearest, 1.01 * unit(14)) << corner.latitude << " " << corner.longitude;
  }
}

TEST(LinesInTheTiles, AreAsLongTogetherAsInTheExtract) {
  NEEDS_PACKAGES();
  const TestFolder folder("map-npm-lines");
  Rng rng(Seed{13});
  DrawnMap drawn;
  double drawn_length = 0;
  for (int i = 0; i < 60; ++i) {
    std::vector<Position> line;
    for (int k = 0; k < 6; ++k) line.push_back({between(rng, 54.4, 54.6), between(rng, -2.7, -2.4)});
    for (std::size_t k = 0; k + 1 < line.size(); ++k) {
      const auto [ax, ay] = on_square(line[k]);
      const auto [bx, by] = on_square(line[k + 1]);
      drawn_length += std::hypot(bx - ax, by - ay);
    }
    drawn.line(line, {{"highway", "primary"}});
  }
  ASSERT_TRUE(make_map({drawn.save(folder)}, folder.path / "a.mbtiles"));
  for (const int z : {8, 10, 12, 14}) {
    double length = 0;
    for (const Part& part : parts_of(folder.path / "a.mbtiles", z, folder)) length += length_in_tile(part);
    EXPECT_NEAR(length / drawn_length, 1, 2e-4) << z;
  }
}

TEST(AreaWithAHole, IsPaintedButForTheHole) {
  NEEDS_PACKAGES();
  const TestFolder folder("map-npm-hole");
  DrawnMap drawn;
  // The outer ring in two ways, one of them the wrong way round; the island in the hole is an outer ring of its own.
  const auto corners = square_around(home, 0.08);
  std::vector<int> nodes;
  for (const Position corner : corners) nodes.push_back(drawn.node(corner));
  const int first = drawn.way({nodes[0], nodes[1], nodes[2]}, {}),
            second = drawn.way({nodes[0], nodes[3], nodes[2]}, {});
  const int hole = drawn.ring(square_around(home, 0.04), {}), island = drawn.ring(square_around(home, 0.01), {});
  drawn.area({{first, "outer"}, {second, "outer"}, {hole, "inner"}, {island, "outer"}}, {{"natural", "wood"}});
  ASSERT_TRUE(make_map({drawn.save(folder)}, folder.path / "a.mbtiles"));
  for (const int z : {9, 12, 14}) {
    const auto parts = parts_of(folder.path / "a.mbtiles", z, folder);
    Rng rng(Seed{14});
    for (int i = 0; i < 3000; ++i) {
      const Position p{between(rng, 54.4, 54.6), between(rng, -2.7, -2.3)};
      const double d =
          std::max(std::fabs(p.latitude - home.latitude),
                   std::fabs(p.longitude - home.longitude) * std::cos(home.latitude * std::numbers::pi / 180));
      const double near_edge = std::min({std::fabs(d - 0.08), std::fabs(d - 0.04), std::fabs(d - 0.01)});
      if (near_edge < 360 * 5 * unit(z)) continue;
      EXPECT_EQ(is_painted(parts, "land", p, z), (d < 0.08 && d > 0.04) || d < 0.01)
          << z << ": " << p.latitude << " " << p.longitude;
    }
  }
}

TEST(AreaOfWhichAWayIsMissing, IsDrawnAsFarAsItClosesAndItsHolesAreNotPainted) {
  NEEDS_PACKAGES();
  const TestFolder folder("map-npm-missing");
  DrawnMap drawn;
  const Position north{54.6, -2.5};
  const auto corners = square_around(home, 0.04);
  std::vector<int> nodes;
  for (const Position corner : corners) nodes.push_back(drawn.node(corner));
  const int half = drawn.way({nodes[0], nodes[1], nodes[2]}, {});
  const int hole = drawn.ring(square_around(home, 0.02), {}), whole = drawn.ring(square_around(north, 0.02), {});
  drawn.area({{half, "outer"}, {999, "outer"}, {hole, "inner"}, {whole, "outer"}}, {{"natural", "wood"}});
  ASSERT_TRUE(make_map({drawn.save(folder)}, folder.path / "a.mbtiles"));
  const auto parts = parts_of(folder.path / "a.mbtiles", 14, folder);
  EXPECT_TRUE(is_painted(parts, "land", north, 14));
  EXPECT_FALSE(is_painted(parts, "land", home, 14));
}

// Real roads: the whole length of each class, tile by tile, against pyosmium's reading of the extract.
TEST(RoadsOfARealExtract, AreAllInTheTiles) {
  NEEDS_PACKAGES();
  const fs::path extract = OUTBYE_SHARED "/data/real/osm/rutland.osm.pbf";
  if (!fs::exists(extract)) GTEST_SKIP() << extract << " is not there";
  if (std::system("/usr/bin/python3 -c 'import osmium' 2>/dev/null") != 0) {
    GTEST_SKIP() << "python3-pyosmium is not installed";
  }
  const TestFolder folder("map-npm-real");
  ASSERT_TRUE(make_map({extract}, folder.path / "a.mbtiles"));
  const std::string command = "/usr/bin/python3 '" OUTBYE_SOURCE "/tests/tools/osm_lengths.py' '" + extract.string() +
                              "' > '" + (folder.path / "lengths").string() + "'";
  ASSERT_EQ(std::system(command.c_str()), 0);
  std::map<std::string, double> wanted, found;
  std::ifstream lengths(folder.path / "lengths");
  std::string value;
  for (double length = 0; lengths >> value >> length;) {
    const auto link = value.find("_link");
    const std::string kind = value.substr(0, link);
    if (kind == "unclassified" || kind == "residential" || kind == "living_street" || kind == "road") {
      wanted["minor"] += length;
    } else {
      wanted[kind] += length;
    }
  }
  for (const Part& part : parts_of(folder.path / "a.mbtiles", 14, folder)) {
    if (part.layer == "roads") found[part.kind] += length_in_tile(part);
  }
  for (const char* kind : {"trunk", "primary", "secondary", "tertiary", "minor", "service", "track"}) {
    ASSERT_GT(wanted[kind], 0) << kind;
    // Corners on a grid of 0.4 m (at this latitude 0.6 m on the square) and left out where they stray less than one.
    EXPECT_NEAR(found[kind] / wanted[kind], 1, 0.005) << kind;
    std::printf("%s: %.5f of its length\n", kind, found[kind] / wanted[kind]);
  }
}

}  // namespace
}  // namespace outbye
