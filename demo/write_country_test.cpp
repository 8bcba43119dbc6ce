// What is written can be read: by our readers, by libosmium alone, by gpxpy, and by the published GPX schema.
#include "demo/write_country.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <osmium/handler.hpp>
#include <osmium/io/any_input.hpp>
#include <osmium/visitor.hpp>

#include "demo/country_roads.h"
#include "demo/demo_ride.h"
#include "formats/elevation/hgt.h"
#include "formats/file_io/file_io.h"
#include "formats/gpx/gpx.h"
#include "formats/osm/load_roads.h"
#include "formats/ride_file/ride_file.h"

namespace outbye::demo {
namespace {

namespace fs = std::filesystem;

const Country& country() {
  static const Country made = *make_country({.seed = Seed{7}, .road_nodes = 24000});
  return made;
}

class Folder {
 public:
  explicit Folder(const std::string& name)
      : path_(fs::temp_directory_path() / (name + "." + std::to_string(getpid()))) {}
  ~Folder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  std::string path() const { return path_.string(); }
  std::string path(const std::string& file) const { return (path_ / file).string(); }

 private:
  fs::path path_;
};

std::string bytes_of(const std::string& path) {
  const Result<std::string> bytes = read_whole_file(path);
  EXPECT_TRUE(bytes) << path;
  return bytes ? *bytes : "";
}

TEST(WrittenCountry, IsTheSameBytesForTheSameSeed) {
  for (const MapFormat format : {MapFormat::pbf, MapFormat::osm}) {
    const Folder one("outbye_demo_one"), two("outbye_demo_two");
    const auto first = write_country(*make_country({Seed{4}, 6000}), one.path(), format);
    const auto second = write_country(*make_country({Seed{4}, 6000}), two.path(), format);
    ASSERT_TRUE(first && second);
    ASSERT_EQ(first->size(), second->size());
    EXPECT_GE(first->size(), 4U);
    for (std::size_t i = 0; i < first->size(); ++i)
      EXPECT_TRUE(bytes_of((*first)[i]) == bytes_of((*second)[i])) << (*first)[i];
  }
}

TEST(WrittenCountry, IsAnotherForAnotherSeed) {
  const Country a = *make_country({Seed{4}, 6000});
  const Country b = *make_country({Seed{5}, 6000});
  EXPECT_NE(course_gpx(a), course_gpx(b));
}

struct Counter : osmium::handler::Handler {
  std::size_t nodes{}, ways{}, relations{}, refs{};
  void node(const osmium::Node&) { ++nodes; }
  void way(const osmium::Way& w) {
    ++ways;
    refs += w.nodes().size();
  }
  void relation(const osmium::Relation& r) { relations += std::size_t{r.members().size() == 3}; }
};

TEST(WrittenMap, HoldsAllThatWasMadeWhenReadByLibosmium) {
  const Folder folder("outbye_demo_map");
  for (const MapFormat format : {MapFormat::pbf, MapFormat::osm}) {
    const auto paths = write_country(country(), folder.path(), format);
    ASSERT_TRUE(paths);
    Counter counted;
    osmium::io::Reader reader(paths->front());
    osmium::apply(reader, counted);
    reader.close();
    std::size_t refs = 0;
    for (const CountryWay& way : country().ways) refs += way.nodes.size();
    EXPECT_EQ(counted.nodes, country().nodes.size());
    EXPECT_EQ(counted.ways, country().ways.size());
    EXPECT_EQ(counted.relations, country().restrictions.size());
    EXPECT_EQ(counted.refs, refs);
  }
}

TEST(WrittenMap, GivesTheRoadsThatTheCountryGivesWithoutAFile) {
  const Folder folder("outbye_demo_roads");
  const auto paths = write_country(country(), folder.path(), MapFormat::pbf);
  ASSERT_TRUE(paths);
  const Result<LoadedRoads> read = read_roads({paths->front()}, {});
  const Result<RoadGraph> made = build_roads(country());
  ASSERT_TRUE(read) << read.error().what;
  ASSERT_TRUE(made) << made.error().what;
  EXPECT_EQ(read->graph.node_count(), made->node_count());
  EXPECT_EQ(read->graph.edge_count(), made->edge_count());
  EXPECT_EQ(read->graph.restriction_count(), made->restriction_count());
  EXPECT_GT(made->restriction_count(), 0U);
  EXPECT_NEAR(read->graph.total_length().value, made->total_length().value, 1e-3);
}

TEST(WrittenCourse, IsReadBackWithItsLoopsAndWaypoints) {
  const Result<GpxDocument> gpx = read_gpx(course_gpx(country()), "course.gpx");
  ASSERT_TRUE(gpx) << gpx.error().what;
  EXPECT_TRUE(gpx->warnings.empty());
  ASSERT_EQ(gpx->tracks.size(), country().loops.size());
  for (std::size_t l = 0; l < gpx->tracks.size(); ++l) {
    EXPECT_EQ(gpx->tracks[l].name, country().loops[l].name);
    ASSERT_EQ(gpx->tracks[l].segments.size(), 1U);
    EXPECT_EQ(gpx->tracks[l].segments[0].points.size(), country().loops[l].nodes.size());
  }
  ASSERT_EQ(gpx->waypoints.size(), country().crew_points.size() + 1);
  EXPECT_EQ(gpx->waypoints[0].name, country().venue_name);
  EXPECT_EQ(gpx->waypoints[0].position, country().nodes[country().venue]);
}

// Runs a command quietly; its exit status.
int run(const std::string& command) {
  const int status = std::system((command + " >/dev/null 2>&1").c_str());
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

TEST(WrittenCourse, IsReadByGpxpy) {
  if (run("/usr/bin/python3 -c 'import gpxpy'") != 0) GTEST_SKIP() << "python3-gpxpy is not installed";
  const Folder folder("outbye_demo_gpxpy");
  ASSERT_TRUE(write_country(country(), folder.path(), MapFormat::pbf));
  double length = 0;
  for (const CountryLoop& loop : country().loops) length += loop.length;
  // gpxpy measures on a sphere of 6378.137 km: within 0.6 % of the plane here.
  const std::string script =
      "import gpxpy, sys; g = gpxpy.parse(open(sys.argv[1])); ok = len(g.tracks) == 3 and "
      "abs(g.length_2d() / float(sys.argv[2]) - 1) < 0.006; sys.exit(0 if ok else 3)";
  EXPECT_EQ(run("/usr/bin/python3 -c '" + script + "' " + folder.path("course.gpx") + " " + std::to_string(length)), 0);
}

TEST(WrittenCourse, KeepsThePublishedSchema) {
  const std::string schema = std::string(OUTBYE_SHARED) + "/data/reference/gpx-1.1.xsd";
  if (!fs::exists(schema)) GTEST_SKIP() << schema << " is not there";
  if (run("xmllint --version") != 0) GTEST_SKIP() << "xmllint (libxml2-utils) is not installed";
  const Folder folder("outbye_demo_xsd");
  ASSERT_TRUE(write_country(country(), folder.path(), MapFormat::pbf));
  EXPECT_EQ(run("xmllint --noout --schema " + schema + " " + folder.path("course.gpx")), 0);
}

TEST(WrittenHeights, AgreeWithTheTerrainToAMetre) {
  const auto tiles = height_tiles(country());
  ASSERT_FALSE(tiles.empty());
  ElevationTiles read;
  for (const auto& [name, bytes] : tiles) {
    Result<ElevationTile> tile = read_hgt(bytes, name);
    ASSERT_TRUE(tile) << tile.error().what;
    read.push_back(std::move(*tile));
  }
  const ElevationSource heights = elevation_source(std::move(read));
  for (const CountryLoop& loop : country().loops)
    for (const std::uint32_t node : loop.nodes) {
      const Position p = country().nodes[node];
      const std::optional<Metres> height = heights(p);
      ASSERT_TRUE(height);
      // Half a metre of rounding, and the tile's finer grid cuts the corners of the terrain's.
      EXPECT_NEAR(height->value, country().terrain.height(p).value, 1.0);
    }
}

TEST(WrittenRide, IsReadBackWithoutAProblem) {
  const Folder folder("outbye_demo_ride");
  ASSERT_TRUE(write_country(country(), folder.path(), MapFormat::pbf));
  const Result<Ride> ride = read_ride_file(bytes_of(folder.path("ride.json")), "ride.json");
  ASSERT_TRUE(ride) << ride.error().where << " " << ride.error().what;
  EXPECT_EQ(ride->crew_points.size(), country().crew_points.size());
  EXPECT_EQ(ride->loops.size(), 3U);
  for (const std::vector<std::string>& files : {ride->course_files, ride->road_files, ride->elevation_files})
    for (const std::string& file : files) EXPECT_TRUE(fs::exists(folder.path(file))) << file;
  int closed = 0, timed = 0;
  for (const RideCrewPoint& point : ride->crew_points) {
    closed += point.is_closed ? 1 : 0;
    timed += point.open.empty() ? 0 : 1;
  }
  EXPECT_EQ(closed, 1);
  EXPECT_EQ(timed, 1);
}

TEST(WrittenCountry, RefusesAFolderThatCannotBeMade) {
  const auto written = write_country(country(), "/dev/null/here", MapFormat::pbf);
  ASSERT_FALSE(written);
  EXPECT_EQ(written.error().where, "/dev/null/here");
}

}  // namespace
}  // namespace outbye::demo
