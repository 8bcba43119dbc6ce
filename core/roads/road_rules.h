// Which roads a car may use, in which direction and how fast, from OpenStreetMap tags. Table driven; docs/routing.md
// says where each table comes from. Speeds are km/h. The planned speed is the lower of the legal limit and what class
// and surface allow, so no time ever beats a limit.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>

#include "core/base/units.h"
#include "core/roads/road_class.h"

namespace outbye {

// Key and value of one tag. Order does not matter; a key appears once.
using Tag = std::pair<std::string_view, std::string_view>;
using Tags = std::span<const Tag>;

// What an ordinary car does on each class of road when nothing slows it down.
struct SpeedProfile {
  std::array<double, road_class_count> class_speed{};  // km/h, by RoadClass; 0: not used at all
  bool national_limits{true};  // where no limit is tagged, the country's default for town or open road
  bool surface_caps{true};     // gravel, mud, bad smoothness and track grade slow a car down
};
// motorway 112, trunk and primary 96, secondary 88, tertiary 80, unclassified 64, residential and living street 48,
// service 32, track 20, ferry 10 km/h, with national limits and surface caps.
SpeedProfile ordinary_car();
// The same class speeds or the tagged limit where lower, and nothing else; no tracks. For comparison with other tools.
SpeedProfile plain_class_speeds();

struct RoadOptions {
  SpeedProfile speeds{ordinary_car()};
  std::string country{"GB"};  // ISO 3166-1 alpha-2; unknown: a cautious default
  // Tracks: never; only those a car can manage (grade 1 or 2 or a firm surface, or a car is expressly allowed); any.
  enum class Tracks { never, firm, any } tracks{Tracks::firm};
  bool ferries{};
};

// One way, ready for the graph.
struct RoadAttributes {
  RoadClass road_class{RoadClass::unclassified};
  double forward{};  // km/h; 0: may not be driven in this direction
  double backward{};
  bool roundabout{};
  bool destination_only{};
  bool ford{};
};

// Nothing: not a road for a car.
std::optional<RoadAttributes> interpret_way(Tags tags, const RoadOptions& options);

// "Mill Lane (B640)"; empty when there is neither name nor number.
std::string road_label(Tags tags);

enum class NodeBarrier { open, gate, blocked };  // gate: passable, may have to be opened
NodeBarrier interpret_node(Tags tags);

// A legal limit as tagged: "50", "30 mph", "10 knots", "walk", "none" (infinite), "DE:urban", "GB:nsl_single",
// "RO:rural". Nothing when it cannot be read ("signals", "variable").
std::optional<KmPerHour> parse_limit(std::string_view text);

// Default legal limits of a country, km/h; infinite: none.
struct NationalLimits {
  std::string_view country;
  double town;
  double open_road;
  double dual_carriageway;  // physically divided, or a road for motor vehicles only
  double motorway;
  double living_street;
  std::string_view source;  // "memory" or the published source
};
std::span<const NationalLimits> national_limits_table();
// The row of the country, or the cautious default (the last row).
const NationalLimits& national_limits(std::string_view country);
// True where traffic keeps to the left.
bool drives_on_left(std::string_view country);

struct RestrictionTag {
  enum class Kind { no, only } kind{};
};
struct RestrictionReading {
  std::optional<RestrictionTag> restriction;  // nothing: does not concern a car
  bool is_conditional{};                      // only at times: left out, to be counted
  bool is_unknown{};                          // not a kind we know
};
// Tags of a relation of type restriction.
RestrictionReading interpret_restriction(Tags tags);

}  // namespace outbye
