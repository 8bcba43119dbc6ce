// Drives on real maps against other tools: the same rules searched by networkx (tests/tools/roads_networkx.py, which
// shares no code with the engine) and Routino (tests/tools/roads_routino.py). docs/routing.md explains what differs.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

#include "core/base/random.h"
#include "core/roads/route.h"
#include "formats/osm/load_roads.h"

namespace outbye {
namespace {

namespace fs = std::filesystem;

struct Place {
  std::string name;
  Position position;
};
struct Case {
  std::string map;
  std::vector<std::string> courses;  // whose waypoints are the places; none: places drawn at random
};
void PrintTo(const Case& c, std::ostream* out) { *out << c.map; }

const fs::path real = fs::path(OUTBYE_SHARED) / "data" / "real";

// Waypoints by text alone: this test is not about reading GPX.
std::vector<Place> waypoints(const fs::path& file, const std::string& prefix) {
  std::ifstream stream(file);
  std::stringstream all;
  all << stream.rdbuf();
  const std::string text = all.str();
  std::vector<Place> places;
  for (std::size_t at = text.find("<wpt "); at != std::string::npos; at = text.find("<wpt ", at + 1)) {
    const auto number = [&](const char* key) { return std::strtod(text.c_str() + text.find(key, at) + 5, nullptr); };
    const std::size_t name = text.find("<name>", at) + 6;
    places.push_back({prefix + text.substr(name, text.find('<', name) - name), {number("lat="), number("lon=")}});
  }
  return places;
}

// Near roads, but not on them: up to some 30 m off a node.
std::vector<Place> random_places(const RoadGraph& roads, std::size_t count, Seed seed) {
  Rng rng(seed);
  std::vector<Place> places;
  while (places.size() < count) {
    const auto node = static_cast<std::uint32_t>(uniform_below(rng, roads.node_count()));
    Position at = roads.node_position(node);
    at.latitude += 0.0006 * (uniform(rng) - 0.5);
    at.longitude += 0.0009 * (uniform(rng) - 0.5);
    const auto snapped = snap(roads, at, Metres{100});
    if (snapped && snapped->note.empty()) places.push_back({"P" + std::to_string(places.size()), at});
  }
  return places;
}

std::vector<std::string> run_tool(const std::string& script, const fs::path& map, const std::string& input) {
  const fs::path file = fs::temp_directory_path() / ("outbye-" + script + "-" + map.stem().string() + ".txt");
  std::ofstream(file) << input;
  const std::string command = std::string("/usr/bin/python3 '") + OUTBYE_SOURCE + "/tests/tools/" + script + "' '" +
                              map.string() + "' < '" + file.string() + "'";
  std::vector<std::string> lines;
  if (FILE* pipe = popen(command.c_str(), "r")) {
    std::array<char, 512> line{};
    while (fgets(line.data(), line.size(), pipe)) lines.emplace_back(line.data());
    if (pclose(pipe) != 0) lines.clear();
  }
  fs::remove(file);
  return lines;
}

bool has_program(const std::string& check) { return std::system((check + " >/dev/null 2>&1").c_str()) == 0; }

class RealDrives : public testing::TestWithParam<Case> {
 protected:
  void SetUp() override {
    map_ = real / "osm" / (GetParam().map + ".osm.pbf");
    if (!fs::exists(map_)) GTEST_SKIP() << "no reference data at " << map_;
    RoadOptions options;
    options.speeds = plain_class_speeds();
    auto loaded = read_roads({map_}, options);
    ASSERT_TRUE(loaded) << loaded.error().where << " " << loaded.error().what;
    roads_.emplace(std::move(loaded->graph));
    for (const std::string& course : GetParam().courses) {
      const std::size_t first = places_.size();
      const auto points = waypoints(real / "course" / (course + ".gpx"), course.substr(0, 9) + ":");
      places_.insert(places_.end(), points.begin(), points.end());
      // Each leg, and the venue to and from each point.
      for (std::size_t i = first; i < places_.size(); ++i) {
        if (i + 1 < places_.size()) pairs_.emplace_back(i, i + 1);
        if (i > first) pairs_.emplace_back(first, i);
        if (i > first) pairs_.emplace_back(i, first);
      }
    }
    if (GetParam().courses.empty()) {
      places_ = random_places(*roads_, 12, Seed{7});
      for (std::size_t i = 0; i < places_.size(); ++i)
        for (std::size_t j = 0; j < places_.size(); ++j)
          if (i != j) pairs_.emplace_back(i, j);
    }
    std::sort(pairs_.begin(), pairs_.end());
    pairs_.erase(std::unique(pairs_.begin(), pairs_.end()), pairs_.end());
    for (const Place& place : places_) {
      const auto snapped = snap(*roads_, place.position, Metres{250});
      ASSERT_TRUE(snapped) << place.name << " " << snapped.error().what;
      snaps_.push_back(*snapped);
    }
  }
  std::string input() const {
    std::string text;
    for (std::size_t i = 0; i < places_.size(); ++i) {
      std::array<char, 80> line{};
      std::snprintf(line.data(), line.size(), "%zu %.7f %.7f\n", i, places_[i].position.latitude,
                    places_[i].position.longitude);
      text += line.data();
    }
    for (const auto& [from, to] : pairs_) text += "pair " + std::to_string(from) + " " + std::to_string(to) + "\n";
    return text;
  }
  std::string label(std::size_t from, std::size_t to) const { return places_[from].name + " to " + places_[to].name; }
  std::optional<Drive> drive(std::size_t from, std::size_t to) const {
    const auto route = fastest_route(*roads_, snaps_[from], snaps_[to]);
    return route ? std::optional(route->drive) : std::nullopt;
  }

  fs::path map_;
  std::optional<RoadGraph> roads_;
  std::vector<Place> places_;
  std::vector<Snap> snaps_;
  std::vector<std::pair<std::size_t, std::size_t>> pairs_;
};

// Source: networkx's Dijkstra on the same rules and speeds; lengths by GeographicLib. Tolerance 0.5 %, and 1 s or 10 m
// for the shortest.
TEST_P(RealDrives, AgreeWithAnotherSearchOnTheSameRules) {
  if (!has_program("/usr/bin/python3 -c 'import osmium, networkx'") || !has_program("GeodSolve --version"))
    GTEST_SKIP() << "needs python3-pyosmium, python3-networkx and geographiclib-tools";
  std::size_t compared = 0;
  double worst_time = 0, worst_length = 0;
  for (const std::string& line : run_tool("roads_networkx.py", map_, input())) {
    std::istringstream words(line);
    std::string first, seconds;
    words >> first;
    if (first == "snap") {
      std::size_t place = 0;
      double metres = 0;
      words >> place >> metres;
      EXPECT_NEAR(snaps_[place].distance.value, metres, 0.5) << places_[place].name << " on " << snaps_[place].road;
      continue;
    }
    const std::size_t from = std::stoul(first);
    std::size_t to = 0;
    double metres = 0;
    words >> to >> seconds >> metres;
    const auto ours = drive(from, to);
    ++compared;
    ASSERT_EQ(ours.has_value(), seconds != "none") << label(from, to);
    if (!ours) continue;
    const double theirs = std::stod(seconds);
    EXPECT_NEAR(ours->time.count(), theirs, std::max(1.0, 0.005 * theirs)) << label(from, to);
    EXPECT_NEAR(ours->length.value, metres, std::max(10.0, 0.005 * metres)) << label(from, to);
    worst_time = std::max(worst_time, std::abs(ours->time.count() - theirs) / std::max(theirs, 60.0));
    worst_length = std::max(worst_length, std::abs(ours->length.value - metres) / std::max(metres, 1000.0));
  }
  EXPECT_EQ(compared, pairs_.size());
  std::printf("  %s: %zu drives, largest difference %.4f %% in time, %.4f %% in length\n", GetParam().map.c_str(),
              compared, 100 * worst_time, 100 * worst_length);
}

// Source: Routino with neutral preferences; its track measured by GeographicLib. Lengths agree within 1 % (or 20 m)
// where both drive the same roads, and times agree within 5 % in the median. Larger ones are printed; docs/routing.md
// explains them.
TEST_P(RealDrives, AgreeWithRoutino) {
  if (!has_program("which routino-router planetsplitter GeodSolve"))
    GTEST_SKIP() << "needs routino, routino-common and geographiclib-tools";
  std::vector<double> differences;
  std::size_t other_road = 0, compared = 0, none = 0, large = 0;
  double cpu = 0;
  for (const std::string& line : run_tool("roads_routino.py", map_, input())) {
    std::istringstream words(line);
    std::size_t from = 0, to = 0;
    std::string said;
    double metres = 0, cpu_seconds = 0;
    words >> from >> to >> said >> metres >> cpu_seconds;
    cpu += cpu_seconds;
    ++compared;
    const auto ours = drive(from, to);
    if (said == "none" || !ours) {
      ++none;
      std::printf("  %s: %s\n", label(from, to).c_str(), ours ? "Routino finds no way" : "we find no way");
      continue;
    }
    const double difference = ours->time.count() / std::stod(said) - 1;
    differences.push_back(std::abs(difference));
    const bool same_roads = std::abs(ours->length.value - metres) <= std::max(20.0, 0.01 * metres);
    other_road += !same_roads;
    large += std::abs(difference) > 0.05;
    if (!same_roads || std::abs(difference) > 0.05)
      std::printf("  %s: %.2f against %.2f km, %.2f against %.2f min (%+.1f %%)\n", label(from, to).c_str(),
                  ours->length.value / 1000, metres / 1000, ours->time.count() / 60, std::stod(said) / 60,
                  100 * difference);
  }
  ASSERT_EQ(compared, pairs_.size());
  ASSERT_FALSE(differences.empty());
  std::sort(differences.begin(), differences.end());
  const double median = differences[differences.size() / 2];
  std::printf(
      "  %s: %zu drives, %zu by other roads, %zu without a way; median time difference %.2f %%, %zu over 5 %%; "
      "Routino's cpu %.2f ms a drive\n",
      GetParam().map.c_str(), compared, other_road, none, 100 * median, large,
      1000 * cpu / static_cast<double>(compared));
  EXPECT_LE(median, 0.05);
  EXPECT_LE(other_road * 6, compared) << "more than a sixth of the drives use other roads";
}

INSTANTIATE_TEST_SUITE_P(
    Maps, RealDrives,
    testing::Values(Case{"north-bayreuth", {"century-120", "novice-40", "fernholt-120", "fernholt-novice-40"}},
                    Case{"rutland", {"three-spinneys-85"}}, Case{"heidelberg", {"redstone-vale-90"}}, Case{"krems", {}},
                    Case{"beatty", {}}),
    [](const auto& map) {
      std::string name = map.param.map;
      std::replace(name.begin(), name.end(), '-', '_');
      return name;
    });

}  // namespace
}  // namespace outbye
