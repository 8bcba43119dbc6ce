// Access, direction and speed of a way; barriers; turn restriction tags.
#include "core/roads/road_rules.h"

#include <algorithm>
#include <limits>

namespace outbye {
namespace {

constexpr double unlimited = std::numeric_limits<double>::infinity();

std::string_view value_of(Tags tags, std::string_view key) {
  for (const Tag& tag : tags)
    if (tag.first == key) return tag.second;
  return {};
}

// The keys that decide about a way. Most tags say something else (names, lanes, lighting): they are left out once,
// since each rule then looks through the few that are left.
constexpr auto rule_keys = std::to_array<std::string_view>({"4wd_only",
                                                            "access",
                                                            "dual_carriageway",
                                                            "ford",
                                                            "highway",
                                                            "impassable",
                                                            "junction",
                                                            "maxspeed",
                                                            "maxspeed:backward",
                                                            "maxspeed:forward",
                                                            "maxspeed:type",
                                                            "motor_vehicle",
                                                            "motor_vehicle:backward",
                                                            "motor_vehicle:forward",
                                                            "motorcar",
                                                            "motorcar:backward",
                                                            "motorcar:forward",
                                                            "motorroad",
                                                            "oneway",
                                                            "oneway:motor_vehicle",
                                                            "oneway:motorcar",
                                                            "oneway:vehicle",
                                                            "route",
                                                            "service",
                                                            "smoothness",
                                                            "source:maxspeed",
                                                            "surface",
                                                            "tracktype",
                                                            "vehicle",
                                                            "vehicle:backward",
                                                            "vehicle:forward",
                                                            "zone:maxspeed",
                                                            "zone:traffic"});
struct RuleTags {
  std::array<Tag, rule_keys.size()> tags;
  std::size_t count{};
  explicit RuleTags(Tags all) {
    for (const Tag& tag : all) {
      const bool decides = std::find(rule_keys.begin(), rule_keys.end(), tag.first) != rule_keys.end();
      if (decides && count < tags.size()) tags[count++] = tag;
    }
  }
  Tags view() const { return Tags(tags).first(count); }
};

template <class T, std::size_t N>
const T* find_row(const std::array<std::pair<std::string_view, T>, N>& rows, std::string_view key) {
  for (const auto& row : rows)
    if (row.first == key) return &row.second;
  return nullptr;
}

constexpr std::array<std::pair<std::string_view, RoadClass>, 19> highways{{
    {"motorway", RoadClass::motorway},
    {"motorway_link", RoadClass::motorway},
    {"trunk", RoadClass::trunk},
    {"trunk_link", RoadClass::trunk},
    {"primary", RoadClass::primary},
    {"primary_link", RoadClass::primary},
    {"secondary", RoadClass::secondary},
    {"secondary_link", RoadClass::secondary},
    {"tertiary", RoadClass::tertiary},
    {"tertiary_link", RoadClass::tertiary},
    {"unclassified", RoadClass::unclassified},
    {"road", RoadClass::unclassified},
    {"residential", RoadClass::residential},
    {"living_street", RoadClass::living_street},
    {"service", RoadClass::service},
    {"track", RoadClass::track},
    {"byway", RoadClass::track},         // old tagging
    {"unsurfaced", RoadClass::track},    // old tagging
    {"minor", RoadClass::unclassified},  // old tagging
}};

enum class Access { unset, open, destination, closed };

// What is not listed (agricultural, forestry, delivery, permit, private, residents, military, ...) is closed to a crew.
Access access_value(std::string_view list) {
  if (list.empty()) return Access::unset;
  Access best = Access::closed;
  while (true) {
    const std::size_t cut = list.find(';');
    std::string_view word = list.substr(0, cut);
    while (word.starts_with(' ')) word.remove_prefix(1);
    while (word.ends_with(' ')) word.remove_suffix(1);
    for (const std::string_view open : {"yes", "permissive", "designated", "official", "public", "unknown"})
      if (word == open) best = Access::open;
    for (const std::string_view business : {"destination", "customers", "visitors"})
      if (word == business && best == Access::closed) best = Access::destination;
    if (cut == std::string_view::npos) return best;
    list.remove_prefix(cut + 1);
  }
}

// The most specific key that is there decides: motorcar before motor_vehicle before vehicle before access.
constexpr std::array<std::string_view, 4> access_keys{"motorcar", "motor_vehicle", "vehicle", "access"};
Access car_access(Tags tags) {
  for (const std::string_view key : access_keys)
    if (const Access found = access_value(value_of(tags, key)); found != Access::unset) return found;
  return Access::unset;
}

bool names_car_as_open(Tags tags) {  // not by the general key alone
  for (const std::string_view key : {"motorcar", "motor_vehicle", "vehicle"})
    if (const Access found = access_value(value_of(tags, key)); found != Access::unset)
      return found == Access::open || found == Access::destination;
  return false;
}

// km/h a car manages; common practice, no source. 0: not for a car.
constexpr std::array<std::pair<std::string_view, double>, 24> surface_speeds{{
    {"concrete:lanes", 40},
    {"concrete:plates", 60},
    {"paving_stones", 50},
    {"paving_stones:lanes", 40},
    {"sett", 40},
    {"cobblestone", 30},
    {"unhewn_cobblestone", 25},
    {"cobblestone:flattened", 40},
    {"metal", 40},
    {"wood", 40},
    {"compacted", 50},
    {"fine_gravel", 45},
    {"gravel", 40},
    {"pebblestone", 30},
    {"unpaved", 40},
    {"ground", 25},
    {"dirt", 25},
    {"earth", 25},
    {"grass_paver", 25},
    {"grass", 15},
    {"rock", 10},
    {"sand", 10},
    {"mud", 5},
    {"woodchips", 15},
}};
constexpr std::array<std::pair<std::string_view, double>, 8> smoothness_speeds{{
    {"excellent", unlimited},
    {"good", unlimited},
    {"intermediate", 60},
    {"bad", 40},
    {"very_bad", 15},
    {"horrible", 0},
    {"very_horrible", 0},
    {"impassable", 0},
}};
constexpr std::array<std::pair<std::string_view, double>, 5> grade_speeds{
    {{"grade1", 30}, {"grade2", 20}, {"grade3", 15}, {"grade4", 10}, {"grade5", 5}}};

bool is_firm_track(Tags tags) {
  const std::string_view smoothness = value_of(tags, "smoothness");
  for (const std::string_view bad : {"bad", "very_bad", "horrible", "very_horrible", "impassable"})
    if (smoothness == bad) return false;
  if (const std::string_view grade = value_of(tags, "tracktype"); !grade.empty())
    return grade == "grade1" || grade == "grade2";
  for (const std::string_view firm : {"paved", "asphalt", "concrete", "concrete:plates", "concrete:lanes",
                                      "paving_stones", "compacted", "fine_gravel"})
    if (value_of(tags, "surface") == firm) return true;
  return false;
}

double surface_cap(Tags tags, RoadClass road_class) {
  double cap = unlimited;
  if (const double* speed = find_row(surface_speeds, value_of(tags, "surface"))) cap = std::min(cap, *speed);
  if (const double* speed = find_row(smoothness_speeds, value_of(tags, "smoothness"))) cap = std::min(cap, *speed);
  if (road_class == RoadClass::track)
    if (const double* speed = find_row(grade_speeds, value_of(tags, "tracktype"))) cap = std::min(cap, *speed);
  return cap;
}

double default_limit(Tags tags, RoadClass road_class, const RoadOptions& options) {
  const NationalLimits& limits = national_limits(options.country);
  switch (road_class) {
    case RoadClass::motorway:
      return limits.motorway;
    case RoadClass::living_street:
      return limits.living_street;
    case RoadClass::residential:
      return limits.town;
    case RoadClass::ferry:
      return unlimited;
    default:
      break;
  }
  const bool divided = value_of(tags, "dual_carriageway") == "yes" || value_of(tags, "motorroad") == "yes" ||
                       (road_class == RoadClass::trunk && value_of(tags, "oneway") == "yes");
  return divided ? limits.dual_carriageway : limits.open_road;
}

double legal_limit(Tags tags, std::string_view direction_key, RoadClass road_class, const RoadOptions& options) {
  if (const auto limit = parse_limit(value_of(tags, direction_key))) return limit->value;
  if (const auto limit = parse_limit(value_of(tags, "maxspeed"))) return limit->value;
  if (!options.speeds.national_limits) return unlimited;
  for (const std::string_view key : {"maxspeed:type", "source:maxspeed", "zone:maxspeed", "zone:traffic"})
    if (const auto limit = parse_limit(value_of(tags, key))) return limit->value;
  return default_limit(tags, road_class, options);
}

struct Directions {
  bool forward{true};
  bool backward{true};
};
Directions directions(Tags tags, std::string_view highway, bool roundabout) {
  Directions result;
  std::string_view oneway = value_of(tags, "oneway");
  for (const std::string_view key : {"oneway:vehicle", "oneway:motor_vehicle", "oneway:motorcar"})
    if (const std::string_view special = value_of(tags, key); !special.empty()) oneway = special;
  if (oneway.empty() && (roundabout || highway == "motorway")) oneway = "yes";
  if (oneway == "yes" || oneway == "true" || oneway == "1")
    result.backward = false;
  else if (oneway == "-1" || oneway == "reverse")
    result.forward = false;
  else if (oneway == "reversible")  // changes with the hour: not to be planned on
    result.forward = result.backward = false;
  for (const std::string_view key : {"motorcar:forward", "motor_vehicle:forward", "vehicle:forward"})
    if (const Access found = access_value(value_of(tags, key)); found != Access::unset) {
      if (found == Access::closed) result.forward = false;
      break;
    }
  for (const std::string_view key : {"motorcar:backward", "motor_vehicle:backward", "vehicle:backward"})
    if (const Access found = access_value(value_of(tags, key)); found != Access::unset) {
      if (found == Access::closed) result.backward = false;
      break;
    }
  return result;
}

}  // namespace

SpeedProfile ordinary_car() { return {{112, 96, 96, 88, 80, 64, 48, 48, 32, 30, 10}, true, true}; }
SpeedProfile plain_class_speeds() { return {{112, 96, 96, 88, 80, 64, 48, 48, 32, 0, 0}, false, false}; }

std::optional<RoadAttributes> interpret_way(Tags all_tags, const RoadOptions& options) {
  const std::string_view highway = value_of(all_tags, "highway");
  if (!find_row(highways, highway) && !options.ferries) return std::nullopt;
  const RuleTags kept(all_tags);
  const Tags tags = kept.view();
  RoadAttributes road;
  if (const RoadClass* known = find_row(highways, highway)) {
    road.road_class = *known;
  } else if (options.ferries && value_of(tags, "route") == "ferry" && names_car_as_open(tags)) {
    road.road_class = RoadClass::ferry;
  } else {
    return std::nullopt;
  }
  const Access access = car_access(tags);
  if (access == Access::closed || value_of(tags, "impassable") == "yes") return std::nullopt;
  if (value_of(tags, "service") == "emergency_access" && !names_car_as_open(tags)) return std::nullopt;
  if (road.road_class == RoadClass::track) {
    using Tracks = RoadOptions::Tracks;
    if (options.tracks == Tracks::never) return std::nullopt;
    if (options.tracks == Tracks::firm && !names_car_as_open(tags) && !is_firm_track(tags)) return std::nullopt;
  }
  if (value_of(tags, "4wd_only") == "yes" && options.tracks != RoadOptions::Tracks::any) return std::nullopt;

  double possible = options.speeds.class_speed[static_cast<std::size_t>(road.road_class)];
  if (options.speeds.surface_caps) possible = std::min(possible, surface_cap(tags, road.road_class));
  if (!(possible > 0)) return std::nullopt;

  const std::string_view junction = value_of(tags, "junction");
  road.roundabout = junction == "roundabout" || junction == "circular";
  const Directions open = directions(tags, highway, road.roundabout);
  if (!open.forward && !open.backward) return std::nullopt;
  if (open.forward) road.forward = std::min(possible, legal_limit(tags, "maxspeed:forward", road.road_class, options));
  if (open.backward)
    road.backward = std::min(possible, legal_limit(tags, "maxspeed:backward", road.road_class, options));
  road.destination_only = access == Access::destination;
  const std::string_view ford = value_of(tags, "ford");
  road.ford = !ford.empty() && ford != "no";
  return road;
}

std::string road_label(Tags tags) {
  const std::string_view name = value_of(tags, "name"), reference = value_of(tags, "ref");
  if (name.empty()) return std::string(reference);
  if (reference.empty() || reference == name) return std::string(name);
  return std::string(name) + " (" + std::string(reference) + ")";
}

NodeBarrier interpret_node(Tags tags) {
  const std::string_view barrier = value_of(tags, "barrier");
  if (barrier.empty() || barrier == "no") return NodeBarrier::open;
  constexpr std::array<std::string_view, 8> harmless{"cattle_grid", "entrance",          "toll_booth", "border_control",
                                                     "kerb",        "height_restrictor", "sally_port", "arch"};
  constexpr std::array<std::string_view, 5> gates{"gate", "lift_gate", "swing_gate", "hampshire_gate", "sliding_gate"};
  const bool is_gate = std::find(gates.begin(), gates.end(), barrier) != gates.end();
  switch (car_access(tags)) {
    case Access::open:
    case Access::destination:
      return is_gate ? NodeBarrier::gate : NodeBarrier::open;
    case Access::closed:
      return NodeBarrier::blocked;
    case Access::unset:
      break;
  }
  if (std::find(harmless.begin(), harmless.end(), barrier) != harmless.end()) return NodeBarrier::open;
  if (!is_gate) return NodeBarrier::blocked;  // bollard, block, chain, stile, kissing gate and all we do not know
  return value_of(tags, "locked") == "yes" ? NodeBarrier::blocked : NodeBarrier::gate;
}

RestrictionReading interpret_restriction(Tags tags) {
  RestrictionReading reading;
  std::string_view value = value_of(tags, "restriction:motorcar");
  if (value.empty()) value = value_of(tags, "restriction:motor_vehicle");
  if (value.empty()) {
    value = value_of(tags, "restriction");
    std::string_view except = value_of(tags, "except");
    while (!except.empty()) {
      const std::size_t cut = std::min(except.find(';'), except.size());
      std::string_view word = except.substr(0, cut);
      while (word.starts_with(' ')) word.remove_prefix(1);
      while (word.ends_with(' ')) word.remove_suffix(1);
      if (word == "motorcar" || word == "motor_vehicle" || word == "vehicle") return reading;
      except.remove_prefix(std::min(cut + 1, except.size()));
    }
  }
  const bool timed = !value_of(tags, "day_on").empty() || !value_of(tags, "hour_on").empty() ||
                     value.find('@') != std::string_view::npos;
  const bool conditional =
      !value_of(tags, "restriction:conditional").empty() || !value_of(tags, "restriction:motorcar:conditional").empty();
  if (timed || (value.empty() && conditional)) {
    reading.is_conditional = true;
    return reading;
  }
  if (value.empty()) return reading;  // of other vehicles only
  if (value.starts_with("no_"))
    reading.restriction = RestrictionTag{RestrictionTag::Kind::no};
  else if (value.starts_with("only_"))
    reading.restriction = RestrictionTag{RestrictionTag::Kind::only};
  else
    reading.is_unknown = true;
  return reading;
}

}  // namespace outbye
