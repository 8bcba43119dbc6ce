#include "demo/country.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "demo/trails.h"

namespace outbye::demo {
namespace {

constexpr double nodes_per_square_km = 40.0;  // of road nodes on the whole square: a lived-in rural country
constexpr double site_spacing = 690.0;        // metres between lone junctions

CountryLoop loop_of(const SiteLoop& sites, const Net& net, const Drawing& drawing, std::string name) {
  CountryLoop loop;
  loop.name = std::move(name);
  for (std::size_t k = 0; k < sites.links.size(); ++k) {
    std::vector<std::uint32_t> nodes = drawing.link_nodes[sites.links[k]];
    if (net.links[sites.links[k]].from != sites.sites[k]) std::reverse(nodes.begin(), nodes.end());
    loop.nodes.insert(loop.nodes.end(), nodes.begin() + (k > 0 ? 1 : 0), nodes.end());
  }
  for (std::size_t k = 1; k < loop.nodes.size(); ++k)
    loop.length += distance(drawing.spots[loop.nodes[k - 1]], drawing.spots[loop.nodes[k]]);
  return loop;
}

// "Quozzwick Park", after the nearest place.
std::string venue_name(const Net& net, Spot venue) {
  const auto nearer = [&](const Place& a, const Place& b) {
    return distance(a.centre, venue) < distance(b.centre, venue);
  };
  return std::min_element(net.places.begin(), net.places.end(), nearer)->name + " Park";
}

struct LaidOut {
  LaidCourse course;
  std::vector<CountryLoop> loops;
  std::vector<CountryCrewPoint> crew_points;
};

// How many of the things that make planning hard a course has; at most 10.
int hardness(const LaidOut& laid, const Net& net, const Terrain& terrain, double loop_length) {
  int score = 0;
  const auto has = [&](CrewPointKind kind) {
    return std::any_of(laid.crew_points.begin(), laid.crew_points.end(),
                       [&](const CountryCrewPoint& p) { return p.kind == kind; });
  };
  for (const CrewPointKind kind : {CrewPointKind::shared_by_loops, CrewPointKind::twice_in_a_loop,
                                   CrewPointKind::out_and_back, CrewPointKind::one_of_a_pair})
    score += has(kind) ? 1 : 0;
  for (const CountryLoop& loop : laid.loops) score += std::abs(loop.length - loop_length) < 0.04 * loop_length ? 1 : 0;
  const std::uint32_t home = terrain.bank(net.sites[laid.course.venue].spot);
  const auto beyond = std::count_if(laid.crew_points.begin(), laid.crew_points.end(), [&](const CountryCrewPoint& p) {
    return terrain.bank(spot_of(p.position)) != home;
  });
  score += beyond >= 1 ? 1 : 0;
  score += beyond >= 3 ? 1 : 0;
  return score + (laid.crew_points.size() >= 10 ? 1 : 0);
}

// Tries the headings of the first loop in turn and keeps the course that is hardest to crew.
std::optional<LaidOut> lay_out(const Net& net, const Drawing& drawing, const Terrain& terrain, double loop_length) {
  std::optional<LaidOut> best;
  int most = -1;
  constexpr int headings = 24;
  for (int i = 0; i < headings && most < 10; ++i) {
    const double heading = 2.0 * std::numbers::pi * i / headings;
    std::optional<LaidCourse> course = lay_course(net, drawing.is_roundabout, loop_length, heading);
    if (!course) continue;
    LaidOut laid{.course = std::move(*course), .loops = {}, .crew_points = {}};
    const char* const names[] = {"Red loop", "Blue loop", "Yellow loop"};
    for (std::size_t k = 0; k < laid.course.loops.size(); ++k)
      laid.loops.push_back(loop_of(laid.course.loops[k], net, drawing, names[k]));
    laid.crew_points = place_crew_points(net, drawing, laid.course, laid.loops, terrain);
    if (const int score = hardness(laid, net, terrain, loop_length); score > most) {
      most = score;
      best = std::move(laid);
    }
  }
  return best;
}

}  // namespace

Result<Country> make_country(const CountrySettings& settings) {
  if (settings.road_nodes < 2000 || settings.road_nodes > 2'000'000)
    return bad_input("number of road nodes " + std::to_string(settings.road_nodes), "is not within 2000 to 2000000");
  const double side = 1000.0 * std::sqrt(static_cast<double>(settings.road_nodes) / nodes_per_square_km);
  Country country{.settings = settings, .terrain = Terrain(settings.seed, side)};
  Net net;
  net.places = make_places(country.terrain, settings.seed);
  net.sites = make_sites(country.terrain, net.places, settings.seed, site_spacing);
  if (net.places.size() < 2 || net.sites.size() < 20)
    return impossible("seed " + std::to_string(settings.seed.value),
                      "gives an island too small to live on; try another");
  make_links(net, country.terrain, settings.seed, site_spacing);
  classify(net, country.terrain, settings.seed);
  make_lines(net, country.terrain, settings.seed);
  Drawing drawing = draw(net, country.terrain, settings.seed, settings.road_nodes);

  // A loop is about 1.35 times as long as the ring it follows, which must fit between the venue and the coast.
  const double loop_length = std::min(26800.0, 0.36 * side * std::numbers::pi * 1.35);
  std::optional<LaidOut> laid = lay_out(net, drawing, country.terrain, loop_length);
  if (!laid)
    return impossible("seed " + std::to_string(settings.seed.value), "leaves no room for three loops; try another");
  country.loops = std::move(laid->loops);
  country.crew_points = std::move(laid->crew_points);
  country.venue = country.loops.front().nodes.front();
  country.venue_name = venue_name(net, net.sites[laid->course.venue].spot);
  country.ride_name = country.venue_name.substr(0, country.venue_name.find(' ')) + " Eighty";
  country.places = std::move(net.places);
  country.nodes = std::move(drawing.nodes);
  country.node_tags = std::move(drawing.node_tags);
  country.ways = std::move(drawing.ways);
  country.restrictions = std::move(drawing.restrictions);
  country.road_nodes = drawing.road_nodes;
  return country;
}

}  // namespace outbye::demo
