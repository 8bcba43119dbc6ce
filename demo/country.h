// An invented rural country, made from a seed: terrain, roads and trails as OpenStreetMap has them, and an endurance
// ride on it. Same settings, same country. Nothing in it exists: it lies in open sea, and its names are made of
// invented syllables.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/base/random.h"
#include "core/base/result.h"
#include "core/base/units.h"
#include "core/geo/position.h"
#include "demo/net.h"
#include "demo/terrain.h"

namespace outbye::demo {

struct CountrySettings {
  Seed seed{7};
  std::size_t road_nodes{24000};  // nodes on ways that a car may use, reached within 10 %: 2 000 to 2 000 000
};

using Tag = std::pair<std::string, std::string>;

// Ids as in the files: node i has id i + 1.
struct NodeTags {
  std::uint32_t node{};
  std::vector<Tag> tags;
};
struct CountryWay {
  std::int64_t id{};
  std::vector<std::uint32_t> nodes;  // indices
  std::vector<Tag> tags;
};
struct TurnRestriction {
  std::int64_t id{};
  std::int64_t from_way{};
  std::uint32_t via_node{};
  std::int64_t to_way{};
  std::string kind;  // "no_right_turn"
};

struct CountryLoop {
  std::string name;
  std::vector<std::uint32_t> nodes;  // from the venue to the venue, each step along a way
  double length{};                   // metres on the plane
};

// A passing that the course was laid for.
struct IntendedPass {
  std::uint32_t loop{};
  double along{};  // metres from the start of the loop, on the plane
};
enum class CrewPointKind : std::uint8_t { plain, shared_by_loops, twice_in_a_loop, out_and_back, one_of_a_pair };
struct CountryCrewPoint {
  std::string name;
  Position position;  // on a road verge, 5 to 25 m off the course
  std::string note;
  CrewPointKind kind{};
  std::vector<IntendedPass> passes;  // in order of the ride
};

struct Country {
  CountrySettings settings{};
  Terrain terrain;
  std::vector<Place> places{};
  std::vector<Position> nodes{};
  std::vector<NodeTags> node_tags{};  // by node
  std::vector<CountryWay> ways{};     // by id
  std::vector<TurnRestriction> restrictions{};
  std::size_t road_nodes{};  // as made
  std::string ride_name{};
  std::string venue_name{};
  std::uint32_t venue{};  // node
  std::vector<CountryLoop> loops{};
  std::vector<CountryCrewPoint> crew_points{};
};

// Errors: bad_input when the size is out of range; impossible when no course fits (another seed will do).
Result<Country> make_country(const CountrySettings& settings);

}  // namespace outbye::demo
