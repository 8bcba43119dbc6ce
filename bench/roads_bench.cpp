// Roads: import against a bare read of the same file, a 50 x 50 matrix against one Routino process a pair, and growth
// from ten thousand to a million nodes. Answers are checked before anything is timed; a wrong one ends the program
// with 1. Parts whose input is missing are skipped with the reason. Times are medians, with the spread from least to
// most.
#include <fcntl.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <functional>
#include <limits>
#include <osmium/io/any_input.hpp>
#include <osmium/io/reader.hpp>
#include <queue>
#include <string>
#include <vector>

#include "core/base/random.h"
#include "core/base/text.h"
#include "core/roads/route.h"
#include "demo/country.h"
#include "demo/country_roads.h"
#include "demo/write_country.h"
#include "formats/osm/load_roads.h"

extern char** environ;

namespace {

using namespace outbye;
namespace fs = std::filesystem;

int wrong = 0;
void claim(bool is_true, const std::string& what) {
  if (is_true) return;
  std::printf("WRONG: %s\n", what.c_str());
  ++wrong;
}

struct Timing {
  double median{}, least{}, most{};  // wall, ms
  double cpu{};                      // median of processor time, all threads, ms
};

struct Sample {
  double wall;
  double cpu;
};
Sample sample(const std::function<void()>& work) {
  const auto wall = std::chrono::steady_clock::now();
  const std::clock_t cpu = std::clock();
  work();
  const double cpu_ms = 1000.0 * static_cast<double>(std::clock() - cpu) / CLOCKS_PER_SEC;
  return {std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - wall).count(), cpu_ms};
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

// The works take turns, so that what else the machine does falls on all alike.
std::vector<Timing> time_in_turn(int runs, const std::vector<std::function<void()>>& works) {
  std::vector<std::vector<double>> wall(works.size()), cpu(works.size());
  for (int i = 0; i < runs; ++i)
    for (std::size_t w = 0; w < works.size(); ++w) {
      const Sample s = sample(works[w]);
      wall[w].push_back(s.wall);
      cpu[w].push_back(s.cpu);
    }
  std::vector<Timing> timings;
  for (std::size_t w = 0; w < works.size(); ++w)
    timings.push_back({median(wall[w]), *std::min_element(wall[w].begin(), wall[w].end()),
                       *std::max_element(wall[w].begin(), wall[w].end()), median(cpu[w])});
  return timings;
}

std::string spread(const Timing& t) {
  return fixed(t.median, 1) + " (" + fixed(t.least, 1) + ".." + fixed(t.most, 1) + ")";
}

struct BareRead {
  std::size_t nodes{}, others{};
};
BareRead bare_read(const std::string& file) {
  BareRead counted;
  osmium::io::Reader reader(file);
  while (const osmium::memory::Buffer buffer = reader.read())
    for (const auto& item : buffer) ++(item.type() == osmium::item_type::node ? counted.nodes : counted.others);
  reader.close();
  return counted;
}

// Road positions, of roads that join the bulk: all over the map, or within so many metres of the made country's middle.
std::vector<Snap> any_places(const RoadGraph& roads, std::size_t count, Seed seed, double within = 1e9) {
  Rng rng(seed);
  std::vector<Snap> places;
  while (places.size() < count) {
    const auto edge = static_cast<std::uint32_t>(uniform_below(rng, roads.edge_count()));
    const double which = uniform(rng);
    if ((roads.edges()[edge].flags & RoadEdge::joined) == 0) continue;
    const std::vector<Position> line = roads.geometry(edge);
    const auto point = line[static_cast<std::size_t>(which * static_cast<double>(line.size()))];
    if (within < 1e9 && demo::distance(demo::spot_of(point), {}) > within) continue;
    if (const Result<Snap> snapped = snap(roads, point, Metres{50})) places.push_back(*snapped);
  }
  return places;
}
std::vector<std::string> numbers(std::size_t count) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < count; ++i) names.push_back(std::to_string(i));
  return names;
}

// A plain Dijkstra over arcs, written apart from the library, with its rule that nobody turns back but at a dead end:
// seconds to every place (infinite: no way), and the states reached until the last place is certain.
struct PlainSearch {
  std::vector<double> seconds;
  std::size_t settled{};
};
PlainSearch plain_search(const RoadGraph& roads, const Snap& from, const std::vector<Snap>& to) {
  constexpr double infinite = std::numeric_limits<double>::infinity();
  const RoadGraphParts& parts = roads.parts();
  PlainSearch answer;
  answer.seconds.assign(to.size(), infinite);
  std::vector<std::vector<std::size_t>> targets_at(parts.edges.size());
  for (std::size_t t = 0; t < to.size(); ++t) targets_at[to[t].edge].push_back(t);
  std::vector<double> best(parts.arcs.size(), infinite);  // at the end of the arc
  std::vector<bool> is_reached(parts.state_first.size() - 1);
  using Entry = std::pair<double, std::uint32_t>;
  std::priority_queue<Entry, std::vector<Entry>, std::greater<>> queue;
  const auto reach = [&](std::uint32_t arc, double seconds) {
    if (seconds >= best[arc]) return;
    best[arc] = seconds;
    queue.emplace(seconds, arc);
  };
  const RoadEdge& first = parts.edges[from.edge];
  for (const std::uint32_t way : {0U, 1U}) {
    const double whole = way == 0 ? first.forward : first.backward;
    if (!std::isfinite(whole)) continue;
    reach(first.arcs[way], (way == 0 ? 1.0 - from.share : from.share) * whole);
    for (const std::size_t t : targets_at[from.edge]) {
      const double ahead = way == 0 ? to[t].share - from.share : from.share - to[t].share;
      if (ahead >= 0) answer.seconds[t] = std::min(answer.seconds[t], ahead * whole);
    }
  }
  while (!queue.empty()) {
    const auto [seconds, into] = queue.top();
    queue.pop();
    if (seconds > best[into]) continue;
    if (seconds > *std::max_element(answer.seconds.begin(), answer.seconds.end())) break;
    const std::uint32_t state = parts.arcs[into].head;
    if (!is_reached[state]) ++answer.settled;
    is_reached[state] = true;
    const std::uint32_t node = state < parts.nodes.size() ? state : parts.copy_of[state - parts.nodes.size()];
    const bool is_dead_end = parts.state_first[node + 1] - parts.state_first[node] == 1;
    for (std::uint32_t a = parts.state_first[state]; a < parts.state_first[state + 1]; ++a) {
      const RoadArc& arc = parts.arcs[a];
      if (arc.link == (parts.arcs[into].link ^ 1U) && !is_dead_end) continue;
      reach(a, seconds + arc.seconds);
      for (const std::size_t t : targets_at[arc.link / 2]) {
        const double share = arc.link % 2 == 0 ? to[t].share : 1.0 - to[t].share;
        answer.seconds[t] = std::min(answer.seconds[t], seconds + share * arc.seconds);
      }
    }
  }
  return answer;
}

// Matrix against single routes and against the plain search, on `rows` rows. States settled a row, on average.
double check_matrix(const RoadGraph& roads, const std::vector<Snap>& places, std::size_t rows, const std::string& map) {
  const DriveTable table = drive_table(roads, numbers(places.size()), places);
  std::size_t settled = 0, equal = 0, turned = 0, single = 0;
  for (std::uint32_t i = 0; i < rows; ++i) {
    const PlainSearch plain = plain_search(roads, places[i], places);
    settled += plain.settled;
    for (std::uint32_t k = 0; k < places.size(); ++k) {
      if (i == k) continue;
      const auto drive = table.drive(PlaceId{i}, PlaceId{k});
      const std::string pair = map + " " + std::to_string(i) + " to " + std::to_string(k);
      if (std::isfinite(plain.seconds[k])) {
        const bool is_equal = drive && std::abs(drive->time.count() - plain.seconds[k]) < 1e-6;
        claim(is_equal, pair + ": " + (drive ? fixed(drive->time.count(), 3) : "no way") + " s, plain search " +
                            fixed(plain.seconds[k], 3) + " s");
        equal += is_equal ? 1 : 0;
      } else if (drive) {
        ++turned;  // no way but by turning back on the road, which the library then allows
      }
      if ((i + k) % 7 == 0) {
        const auto route = fastest_route(roads, places[i], places[k]);
        claim(route.has_value() == drive.has_value(), pair + ": a route or a matrix entry, not both");
        if (route && drive)
          claim(std::abs(route->drive.time.count() - drive->time.count()) < 1e-6, pair + ": route differs from matrix");
        ++single;
      }
    }
  }
  std::printf(
      "  %-12s checked: %zu drives equal to a plain search, %zu by turning back only, %zu single routes equal\n",
      map.c_str(), equal, turned, single);
  claim(equal > 0, map + ": nothing compared");
  return static_cast<double>(settled) / static_cast<double>(rows);
}

struct Map {
  std::string name;
  std::string file;
  std::size_t size{};  // road nodes as made; 0: a real map
};

void bench_import(const std::vector<Map>& maps) {
  std::printf("\n(a) Import ready to route against a bare libosmium read of the same file; goal: at most 2.0 x\n");
  std::printf("  %-12s %9s %24s %24s %7s %7s\n", "map", "nodes", "import ms", "bare read ms", "wall x", "cpu x");
  for (const Map& map : maps) {
    const BareRead counted = bare_read(map.file);
    const auto once = read_roads({map.file}, RoadOptions{});
    claim(once && counted.nodes > 0, map.name + ": cannot be read");
    if (!once) continue;
    const int runs = map.size >= 500000 ? 5 : 11;
    const auto t =
        time_in_turn(runs, {[&] { (void)read_roads({map.file}, RoadOptions{}); }, [&] { bare_read(map.file); }});
    std::printf("  %-12s %9zu %24s %24s %7.2f %7.2f\n", map.name.c_str(), counted.nodes, spread(t[0]).c_str(),
                spread(t[1]).c_str(), t[0].median / t[1].median, t[0].cpu / t[1].cpu);
  }
}

bool run_quietly(const std::vector<std::string>& words) {
  std::vector<char*> argv;
  for (const std::string& word : words) argv.push_back(const_cast<char*>(word.c_str()));
  argv.push_back(nullptr);
  posix_spawn_file_actions_t quiet;
  posix_spawn_file_actions_init(&quiet);
  posix_spawn_file_actions_addopen(&quiet, 1, "/dev/null", O_WRONLY, 0);
  posix_spawn_file_actions_addopen(&quiet, 2, "/dev/null", O_WRONLY, 0);
  pid_t child{};
  const int failed = posix_spawnp(&child, argv[0], &quiet, nullptr, argv.data(), environ);
  posix_spawn_file_actions_destroy(&quiet);
  if (failed != 0) return false;
  int status = 0;
  waitpid(child, &status, 0);
  return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

double children_cpu_ms() {
  rusage used{};
  getrusage(RUSAGE_CHILDREN, &used);
  return 1000.0 * static_cast<double>(used.ru_utime.tv_sec + used.ru_stime.tv_sec) +
         0.001 * static_cast<double>(used.ru_utime.tv_usec + used.ru_stime.tv_usec);
}

void bench_matrix(const std::vector<Map>& maps, const fs::path& folder) {
  constexpr std::size_t places_count = 50;
  constexpr int pairs_timed = 100;
  std::printf(
      "\n(b) 50 x 50 matrix against one Routino process a pair (100 pairs timed, scaled to 2450); goal: 100 x\n");
  if (!run_quietly({"planetsplitter", "--help"}) && !fs::exists("/usr/bin/planetsplitter")) {
    std::printf("  skipped: Routino is not installed\n");
    return;
  }
  std::printf("  %-12s %24s %18s %18s %9s %9s\n", "map", "matrix ms", "Routino ms a pair", "cpu ms a pair", "wall x",
              "cpu x");
  for (const Map& map : maps) {
    if (map.size >= 500000) continue;  // its database takes minutes to prepare
    const auto roads = read_roads({map.file}, RoadOptions{});
    if (!roads) continue;
    const std::vector<Snap> places = any_places(roads->graph, places_count, Seed{1});
    check_matrix(roads->graph, places, 10, map.name);
    const std::string share = "/usr/share/routino/";
    if (!run_quietly({"planetsplitter", "--dir=" + folder.string(), "--prefix=" + map.name,
                      "--tagging=" + share + "tagging.xml", map.file})) {
      std::printf("  %-12s skipped: planetsplitter could not read it\n", map.name.c_str());
      continue;
    }
    std::vector<double> wall;
    int found = 0;
    const double before = children_cpu_ms();
    Rng rng(Seed{2});
    for (int i = 0; i < pairs_timed; ++i) {
      const std::size_t a = static_cast<std::size_t>(uniform_below(rng, places_count));
      const std::size_t b = (a + 1 + static_cast<std::size_t>(uniform_below(rng, places_count - 1))) % places_count;
      const auto words = std::vector<std::string>{"routino-router",
                                                  "--dir=" + folder.string(),
                                                  "--prefix=" + map.name,
                                                  "--profiles=" + share + "profiles.xml",
                                                  "--translations=" + share + "translations.xml",
                                                  "--transport=motorcar",
                                                  "--quickest",
                                                  "--lat1=" + fixed(places[a].position.latitude, 7),
                                                  "--lon1=" + fixed(places[a].position.longitude, 7),
                                                  "--lat2=" + fixed(places[b].position.latitude, 7),
                                                  "--lon2=" + fixed(places[b].position.longitude, 7),
                                                  "--output-none",
                                                  "--quiet"};
      wall.push_back(sample([&] { found += run_quietly(words) ? 1 : 0; }).wall);
    }
    const double cpu = (children_cpu_ms() - before) / pairs_timed;
    claim(found > pairs_timed / 2, map.name + ": Routino found a way for few pairs only");
    const auto names = numbers(places_count);
    const auto t = time_in_turn(11, {[&] { (void)drive_table(roads->graph, names, places); }})[0];
    const double all = places_count * (places_count - 1);
    std::printf("  %-12s %24s %18.2f %18.2f %9.0f %9.0f  (%d of 100 found)\n", map.name.c_str(), spread(t).c_str(),
                median(wall), cpu, median(wall) * all / t.median, cpu * all / t.cpu, found);
  }
}

// Processor time by count, and beside it how often that of the first map.
struct Growth {
  double first{};
  std::string next(double value, int decimals) {
    if (first == 0) first = value;
    return fixed(value, decimals) + " (" + fixed(value / first, 2) + ")";
  }
};

void bench_growth(const std::vector<Map>& maps) {
  std::printf(
      "\n(c) Growth, processor time; goal: a node costs at most 1.2 x of what it costs at 10 thousand (x in "
      "brackets)\n");
  std::printf(
      "  near: 50 places within 6 km, as on a ride; far: 50 places all over the map; route: the longest of 12 far "
      "ones\n");
  std::printf("  %-12s %8s %7s %14s %14s %14s %14s %13s\n", "map", "nodes", "states", "import us/node",
              "near matrix ms", "near ns/state", "far ns/state", "route ns/state");
  Growth import, near_matrix, near_state, far_state, route_state;
  for (const Map& map : maps) {
    if (map.size == 0) continue;
    const BareRead counted = bare_read(map.file);
    const auto roads = read_roads({map.file}, RoadOptions{});
    if (!roads) continue;
    const RoadGraph& graph = roads->graph;
    const std::vector<Snap> far = any_places(graph, 50, Seed{3});
    const std::vector<Snap> near = any_places(graph, 50, Seed{4}, 6000);
    const double near_settled = check_matrix(graph, near, 20, map.name);
    const double far_settled = check_matrix(graph, far, map.size > 500000 ? 5 : 20, map.name);
    std::size_t route_settled = 0;
    std::uint32_t to = 1;
    for (std::uint32_t k = 1; k < 12; ++k)
      if (const auto plain = plain_search(graph, far[0], {far[k]}); plain.settled > route_settled) {
        route_settled = plain.settled;
        to = k;
      }
    const auto names = numbers(50);
    const auto t = time_in_turn(
        map.size >= 500000 ? 5 : 15,
        {[&] { (void)read_roads({map.file}, RoadOptions{}); }, [&] { (void)drive_table(graph, names, near); },
         [&] { (void)drive_table(graph, names, far); }, [&] { (void)fastest_route(graph, far[0], far[to]); }});
    std::printf("  %-12s %8zu %7zu %14s %14s %14s %14s %13s\n", map.name.c_str(), counted.nodes,
                graph.parts().state_first.size() - 1,
                import.next(1000.0 * t[0].cpu / static_cast<double>(counted.nodes), 3).c_str(),
                near_matrix.next(t[1].cpu, 1).c_str(),
                near_state.next(1e6 * t[1].cpu / (50.0 * near_settled), 0).c_str(),
                far_state.next(1e6 * t[2].cpu / (50.0 * far_settled), 0).c_str(),
                route_state.next(1e6 * t[3].cpu / static_cast<double>(route_settled), 0).c_str());
  }
}

}  // namespace

int main() {
  const fs::path folder = fs::temp_directory_path() / ("roads_bench." + std::to_string(getpid()));
  fs::create_directories(folder);
  std::vector<Map> maps;
  for (const char* name : {"rutland", "heidelberg"}) {
    const std::string file = std::string(OUTBYE_SHARED) + "/data/real/osm/" + name + ".osm.pbf";
    if (fs::exists(file))
      maps.push_back({name, file, 0});
    else
      std::printf("%s skipped: %s is not there\n", name, file.c_str());
  }
  for (const std::size_t size : {10000UL, 100000UL, 1000000UL}) {
    const auto country = demo::make_country({Seed{7}, size});
    const std::string name = "made-" + std::to_string(size / 1000) + "k";
    const std::string file = (folder / (name + ".osm.pbf")).string();
    if (!country || !demo::write_map(*country, file)) {
      claim(false, name + ": cannot be made");
      continue;
    }
    maps.push_back({name, file, size});
  }
  bench_import(maps);
  bench_matrix(maps, folder);
  bench_growth(maps);
  std::error_code ignored;
  fs::remove_all(folder, ignored);
  return wrong == 0 ? 0 : 1;
}
