#include "formats/osm/load_roads.h"

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <sstream>

#include "core/roads/road_store.h"
#include "core/roads/route.h"

namespace outbye {
namespace {

namespace fs = std::filesystem;

class RoadFiles : public testing::Test {
 protected:
  void SetUp() override {
    folder_ =
        fs::temp_directory_path() / ("outbye-roads-" + std::to_string(testing::UnitTest::GetInstance()->random_seed()) +
                                     testing::UnitTest::GetInstance()->current_test_info()->name());
    fs::remove_all(folder_);
    fs::create_directories(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }
  fs::path write(const std::string& name, const std::string& bytes) const {
    std::ofstream(folder_ / name, std::ios::binary) << bytes;
    return folder_ / name;
  }
  static std::string bytes_of(const fs::path& file) {
    std::ifstream stream(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
  }
  fs::path folder_;
};

// Two lanes that meet at node 2, a private drive, and a header box that is nonsense.
std::string small_map(const std::string& more = "") {
  return R"(<?xml version="1.0" encoding="UTF-8"?>
<osm version="0.6"><bounds minlat="0" minlon="0" maxlat="90" maxlon="180"/>
<node id="1" lat="52.0" lon="-0.5" version="1"/><node id="2" lat="52.01" lon="-0.5" version="1"/>
<node id="3" lat="52.02" lon="-0.5" version="1"/><node id="4" lat="52.01" lon="-0.49" version="1"/>
<node id="5" lat="52.0" lon="-0.49" version="1"/><node id="99" lat="-10" lon="100" version="1"/>
<way id="10" version="1"><nd ref="1"/><nd ref="2"/><nd ref="3"/><tag k="highway" v="unclassified"/><tag k="name" v="Mill Lane"/></way>
<way id="11" version="1"><nd ref="2"/><nd ref="4"/><tag k="highway" v="tertiary"/><tag k="maxspeed" v="30 mph"/></way>
<way id="12" version="1"><nd ref="4"/><nd ref="5"/><tag k="highway" v="service"/><tag k="access" v="private"/></way>
)" + more +
         "</osm>\n";
}

TEST_F(RoadFiles, AreReadAsXml) {
  const auto roads = read_roads({write("map.osm", small_map())}, {});
  ASSERT_TRUE(roads) << roads.error().what;
  EXPECT_EQ(roads->graph.node_count(), 4U);
  EXPECT_EQ(roads->graph.edge_count(), 3U);
  EXPECT_TRUE(roads->warnings.empty());
}

TEST_F(RoadFiles, KnowThePumpsAlsoOnceStored) {
  const auto roads = read_roads({write("map.osm", small_map(R"(
<node id="20" lat="52.005" lon="-0.5" version="1"><tag k="amenity" v="fuel"/><tag k="name" v="Mill Garage"/></node>
<node id="21" lat="52.006" lon="-0.5" version="1"><tag k="amenity" v="fuel"/><tag k="access" v="private"/></node>
<node id="22" lat="52.007" lon="-0.5" version="1"/><node id="23" lat="52.007" lon="-0.501" version="1"/>
<way id="13" version="1"><nd ref="22"/><nd ref="23"/><nd ref="22"/><tag k="amenity" v="fuel"/><tag k="brand" v="Olm"/></way>
)"))},
                                {});
  ASSERT_TRUE(roads) << roads.error().what;
  const auto again = road_graph_from_bytes(to_bytes(roads->graph));
  ASSERT_TRUE(again);
  for (const RoadGraph* graph : {&roads->graph, &*again}) {
    ASSERT_EQ(graph->pumps().size(), 2U);
    EXPECT_EQ(graph->name_of(graph->pumps()[0]), "Mill Garage");
    EXPECT_NEAR(position_of(graph->pumps()[0].position).latitude, 52.005, 1e-7);
    EXPECT_EQ(graph->name_of(graph->pumps()[1]), "Olm");
  }
}

TEST_F(RoadFiles, TakeTheBoxFromTheRoads) {
  const auto roads = read_roads({write("map.osm", small_map())}, {});
  ASSERT_TRUE(roads);
  EXPECT_NEAR(roads->graph.box().south_west.latitude, 52.0, 1e-7);
  EXPECT_NEAR(roads->graph.box().north_east.longitude, -0.49, 1e-7);
}

TEST_F(RoadFiles, AreToldApartByContentAndNotByName) { EXPECT_TRUE(read_roads({write("map.dat", small_map())}, {})); }

TEST_F(RoadFiles, MayOverlapAndComeInAnyOrder) {
  const fs::path west = write("west.osm", small_map());
  const fs::path east = write("east.osm", R"(<osm version="0.6">
<node id="4" lat="52.01" lon="-0.49" version="1"/><node id="6" lat="52.01" lon="-0.48" version="1"/>
<node id="2" lat="52.01" lon="-0.5" version="1"/>
<way id="13" version="1"><nd ref="4"/><nd ref="6"/><tag k="highway" v="residential"/></way>
<way id="11" version="1"><nd ref="2"/><nd ref="4"/><tag k="highway" v="tertiary"/><tag k="maxspeed" v="30 mph"/></way></osm>)");
  const auto one = read_roads({west, east}, {}), other = read_roads({east, west}, {});
  ASSERT_TRUE(one && other);
  EXPECT_EQ(one->graph.edge_count(), 4U);
  const auto minutes_in = [](const RoadGraph& roads) {
    const auto from = snap(roads, {52.02, -0.5}, Metres{50}), to = snap(roads, {52.01, -0.48}, Metres{50});
    return fastest_route(roads, *from, *to)->drive.time.count();
  };
  EXPECT_DOUBLE_EQ(minutes_in(one->graph), minutes_in(other->graph));
}

TEST_F(RoadFiles, KeepTurnRestrictionsAndCountTheConditionalOnes) {
  const auto restriction = [](int id, const char* tags, const char* except = "") {
    return "<relation id=\"" + std::to_string(id) +
           "\" version=\"1\"><member type=\"way\" ref=\"10\" role=\"from\"/><member type=\"node\" ref=\"2\" "
           "role=\"via\"/>"
           "<member type=\"way\" ref=\"11\" role=\"to\"/><tag k=\"type\" v=\"restriction\"/>" +
           tags + except + "</relation>";
  };
  const auto conditional = read_roads(
      {write("c.osm", small_map(restriction(1, "<tag k=\"restriction:conditional\" v=\"no_left_turn @ (Mo-Fr)\"/>")))},
      {});
  ASSERT_TRUE(conditional);
  ASSERT_EQ(conditional->warnings.size(), 1U);
  EXPECT_NE(conditional->warnings[0].what.find("1 turn restriction holds only at certain times"), std::string::npos);
  // Way 10 passes over the junction instead of ending there: which half is meant is not clear.
  const auto unclear =
      read_roads({write("u.osm", small_map(restriction(2, "<tag k=\"restriction\" v=\"no_left_turn\"/>")))}, {});
  ASSERT_TRUE(unclear);
  EXPECT_EQ(unclear->graph.restriction_count(), 0U);
  EXPECT_EQ(unclear->warnings.size(), 1U);
  const auto excepted =
      read_roads({write("e.osm", small_map(restriction(3, "<tag k=\"restriction\" v=\"no_left_turn\"/>",
                                                       "<tag k=\"except\" v=\"motorcar\"/>")))},
                 {});
  ASSERT_TRUE(excepted);
  EXPECT_TRUE(excepted->warnings.empty());
}

TEST_F(RoadFiles, CutRoadsWherePointsAreMissingAndSaySo) {
  const auto roads = read_roads(
      {write("map.osm", small_map(R"(<way id="14" version="1"><nd ref="3"/><nd ref="77"/><nd ref="5"/><nd ref="1"/>
<tag k="highway" v="service"/></way>)"))},
      {});
  ASSERT_TRUE(roads);
  ASSERT_EQ(roads->warnings.size(), 1U);
  EXPECT_NE(roads->warnings[0].what.find("1 point of a road is missing"), std::string::npos);
  EXPECT_EQ(roads->graph.edge_count(), 4U);
}

TEST_F(RoadFiles, AreRefusedWithTheReason) {
  struct Bad {
    std::string name, bytes, what;
  };
  const std::string real_pbf("\0\0\0\x0d\x0a\x09OSMHeader\x18\x7c", 17);
  const std::vector<Bad> rows{
      {"empty.osm.pbf", "", "is empty"},
      {"notes.osm.pbf", "Dear diary", "is not an OpenStreetMap map"},
      {"cut.osm.pbf", real_pbf, "damaged or cut short"},
      {"cut.osm", small_map().substr(0, small_map().size() - 40), "damaged or cut short"},
      {"course.osm", "<?xml version=\"1.0\"?><gpx></gpx>", "is a GPX file"},
      {"day.osm", "<?xml version=\"1.0\"?><osmChange version=\"0.6\"></osmChange>", "is a change file"},
      {"other.osm", "<?xml version=\"1.0\"?><html></html>", "no OpenStreetMap map"},
      {"none.osm", "<osm version=\"0.6\"><node id=\"1\" lat=\"52\" lon=\"0\" version=\"1\"/></osm>",
       "no road that a car may use (1 points, 0 ways)"},
      {"bare.osm",
       "<osm version=\"0.6\"><way id=\"1\" version=\"1\"><nd ref=\"1\"/><nd ref=\"2\"/><tag k=\"highway\" "
       "v=\"primary\"/></way></osm>",
       "none of their points"},
      {"cut.osm.gz", "\x1f\x8b\x08", "damaged or cut short"},
      {"cut.osm.bz2", "BZh9nothing", "damaged or cut short"}};
  for (const Bad& bad : rows) {
    const auto roads = load_roads({write(bad.name, bad.bytes)}, {}, folder_ / "cache");
    ASSERT_FALSE(roads) << bad.name;
    EXPECT_NE(roads.error().what.find(bad.what), std::string::npos) << bad.name << ": " << roads.error().what;
    EXPECT_NE(roads.error().where.find(bad.name), std::string::npos) << roads.error().where;
  }
  EXPECT_EQ(read_roads({folder_ / "missing.osm.pbf"}, {}).error().kind, Problem::Kind::not_found);
  EXPECT_NE(read_roads({folder_}, {}).error().what.find("is a folder"), std::string::npos);
  EXPECT_FALSE(read_roads({}, {}));
  EXPECT_FALSE(fs::exists(folder_ / "cache"));
}

TEST_F(RoadFiles, ComeFromTheCacheTheSecondTime) {
  const fs::path map = write("map.osm", small_map()), cache = folder_ / "cache";
  const auto first = load_roads({map}, {}, cache), second = load_roads({map}, {}, cache);
  ASSERT_TRUE(first && second);
  EXPECT_FALSE(first->from_cache);
  EXPECT_TRUE(second->from_cache);
  EXPECT_EQ(to_bytes(first->graph), to_bytes(second->graph));
  EXPECT_EQ(std::distance(fs::directory_iterator(cache), fs::directory_iterator()), 1);
}

TEST_F(RoadFiles, AreReadAnewWhenContentOrOptionsChange) {
  const fs::path map = write("map.osm", small_map()), cache = folder_ / "cache";
  ASSERT_TRUE(load_roads({map}, {}, cache));
  RoadOptions plain;
  plain.speeds = plain_class_speeds();
  EXPECT_FALSE(load_roads({map}, plain, cache)->from_cache);
  RoadOptions france;
  france.country = "FR";
  EXPECT_FALSE(load_roads({map}, france, cache)->from_cache);
  write("map.osm", small_map("<node id=\"7\" lat=\"52.0\" lon=\"-0.4\" version=\"1\"/>"));
  EXPECT_FALSE(load_roads({map}, {}, cache)->from_cache);
  EXPECT_TRUE(load_roads({map}, {}, cache)->from_cache);
}

TEST_F(RoadFiles, SurviveADamagedCache) {
  const fs::path map = write("map.osm", small_map()), cache = folder_ / "cache";
  const fs::path file = load_roads({map}, {}, cache)->cache_file;
  const std::string good = bytes_of(file);
  for (std::size_t at = 0; at < good.size(); at += 1 + good.size() / 97) {
    std::string bad = good;
    bad[at] = static_cast<char>(bad[at] ^ 0x41);
    std::ofstream(file, std::ios::binary) << bad;
    const auto roads = load_roads({map}, {}, cache);
    ASSERT_TRUE(roads);
    EXPECT_FALSE(roads->from_cache) << "byte " << at;
    std::ofstream(file, std::ios::binary) << good.substr(0, at);
    EXPECT_FALSE(load_roads({map}, {}, cache)->from_cache) << "cut at " << at;
    EXPECT_EQ(bytes_of(file), good);
  }
}

TEST_F(RoadFiles, DoWithoutACacheThatCannotBeWritten) {
  const fs::path map = write("map.osm", small_map()), occupied = write("file", "x");
  const auto roads = load_roads({map}, {}, occupied / "cache");
  ASSERT_TRUE(roads);
  ASSERT_EQ(roads->warnings.size(), 1U);
  EXPECT_NE(roads->warnings[0].what.find("cannot be written"), std::string::npos);
}

TEST_F(RoadFiles, TellOfProgress) {
  std::vector<double> shares;
  ASSERT_TRUE(read_roads({write("map.osm", small_map())}, {}, {[&](const std::string& step, double share) {
                           EXPECT_FALSE(step.empty());
                           shares.push_back(share);
                         }}));
  ASSERT_FALSE(shares.empty());
  EXPECT_TRUE(std::is_sorted(shares.begin(), shares.end()));
  EXPECT_EQ(shares.back(), 1.0);
}

TEST_F(RoadFiles, StopWhenAskedAndLeaveNoCache) {
  Progress stop;
  stop.is_cancelled = [] { return true; };
  const auto roads = load_roads({write("map.osm", small_map())}, {}, folder_ / "cache", stop);
  ASSERT_FALSE(roads);
  EXPECT_EQ(roads.error().kind, Problem::Kind::cancelled);
  EXPECT_FALSE(fs::exists(folder_ / "cache"));
}

// Bytes that pass no hash check: what from_bytes() alone must survive.
TEST_F(RoadFiles, StoredGraphsNeverReadOutside) {
  const auto roads = read_roads({write("map.osm", small_map())}, {});
  const std::vector<std::byte> good = to_bytes(roads->graph);
  ASSERT_TRUE(road_graph_from_bytes(good));
  std::size_t accepted = 0;
  for (std::size_t at = 0; at < good.size(); ++at) {
    EXPECT_FALSE(road_graph_from_bytes(std::span(good).first(at)));
    for (const int flip : {0x01, 0x80, 0xff}) {
      std::vector<std::byte> bad = good;
      bad[at] ^= static_cast<std::byte>(flip);
      const auto read = road_graph_from_bytes(bad);
      if (!read) continue;
      ++accepted;  // a changed name or time: odd, but safe to use
      const auto from = snap(*read, {52.02, -0.5}, Metres{500}), to = snap(*read, {52.01, -0.49}, Metres{500});
      if (from && to) static_cast<void>(fastest_route(*read, *from, *to));
    }
  }
  EXPECT_LT(accepted, 3 * good.size());
}

TEST(RealMap, BoxOfHeidelbergComesFromItsRoads) {
  const fs::path map = fs::path(OUTBYE_SHARED) / "data/real/osm/heidelberg.osm.pbf";
  if (!fs::exists(map)) GTEST_SKIP() << "no reference data at " << map;
  const auto roads = read_roads({map}, {});
  ASSERT_TRUE(roads) << roads.error().what;
  const RoadGraph::Box box = roads->graph.box();
  EXPECT_GT(box.south_west.latitude, 49.2);
  EXPECT_LT(box.north_east.latitude, 49.6);
  EXPECT_GT(box.south_west.longitude, 8.4);
  EXPECT_LT(box.north_east.longitude, 9.0);
  EXPECT_GT(roads->graph.restriction_count(), 300U);
}

}  // namespace
}  // namespace outbye
