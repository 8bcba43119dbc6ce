// The net of roads and trails: where they meet (sites), what joins the sites (links), and the places they serve.
// Roads are a relative neighbourhood graph of the sites (Toussaint 1980), which looks like a rural road map and is
// connected; trails are Gabriel-graph edges that no road took. Both are planar.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "core/base/random.h"
#include "demo/terrain.h"

namespace outbye::demo {

enum class RoadClass : std::uint8_t {
  primary,
  secondary,
  tertiary,
  unclassified,
  residential,
  service,
  track,
  bridleway,
  footpath
};
constexpr bool is_for_cars(RoadClass c) { return c < RoadClass::bridleway; }
constexpr bool is_through(RoadClass c) { return c <= RoadClass::tertiary; }

enum class PlaceKind : std::uint8_t { town, large_village, village, hamlet };

struct Place {
  std::string name;
  PlaceKind kind{};
  Spot centre;
  double radius{};       // metres: built up within
  std::uint32_t site{};  // the site at its centre
};

constexpr std::uint32_t nowhere = 0xFFFFFFFF;

struct Site {
  Spot spot;
  std::uint32_t place{nowhere};  // index of the place it lies in
};

struct Link {
  std::uint32_t from{};
  std::uint32_t to{};
  RoadClass road{RoadClass::unclassified};
  std::uint8_t grade{};  // tracks: 1 (hard) .. 5 (soft)
  bool crosses_river{};  // on a bridge for roads, through a ford for trails
  bool is_private{};
  bool is_one_way{};
  bool has_gate{};
  bool has_ford{};         // a beck runs over the road
  std::uint32_t street{};  // links of one street share a number
  double length{};         // metres of `line`
  std::vector<Spot> line;  // from `from` to `to`, both included
};

struct Net {
  std::vector<Site> sites;
  std::vector<Place> places;
  std::vector<Link> links;
};

// The links at each site, by site: links[start[s]] .. links[start[s + 1] - 1] are indices into Net::links.
struct LinksAt {
  std::vector<std::uint32_t> start;
  std::vector<std::uint32_t> links;
  explicit LinksAt(const Net& net);
};
inline std::uint32_t other_end(const Link& link, std::uint32_t site) { return link.from == site ? link.to : link.from; }

// Union and find with path halving.
class Groups {
 public:
  explicit Groups(std::size_t n);
  std::uint32_t find(std::uint32_t a);
  bool join(std::uint32_t a, std::uint32_t b);  // false: already together

 private:
  std::vector<std::uint32_t> parent_;
};

// The steps in order. `spacing`: metres between lone sites.
std::vector<Place> make_places(const Terrain& terrain, Seed seed);  // sites.cpp
std::vector<Site> make_sites(const Terrain& terrain, std::vector<Place>& places, Seed seed, double spacing);
void make_links(Net& net, const Terrain& terrain, Seed seed, double spacing);  // links.cpp
void classify(Net& net, const Terrain& terrain, Seed seed);                    // classes.cpp
void make_lines(Net& net, const Terrain& terrain, Seed seed);                  // lines.cpp

}  // namespace outbye::demo
