#include "formats/map_tiles/map_look.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <initializer_list>

namespace outbye {
namespace {

constexpr std::size_t longest_name = 200;  // bytes

std::string_view tag(Tags tags, std::string_view key) {
  const auto at = std::find_if(tags.begin(), tags.end(), [&](const Tag& t) { return t.first == key; });
  return at == tags.end() ? std::string_view() : at->second;
}

bool is_one_of(std::string_view value, std::initializer_list<std::string_view> values) {
  return std::find(values.begin(), values.end(), value) != values.end();
}

bool says_yes(std::string_view value) { return !value.empty() && value != "no"; }

// Cut at a whole character of UTF-8.
std::string short_name(std::string_view name) {
  if (name.size() <= longest_name) return std::string(name);
  std::size_t end = longest_name;
  while (end > 0 && (static_cast<unsigned char>(name[end]) & 0xC0U) == 0x80U) --end;
  return std::string(name.substr(0, end));
}

void add_text(MapAttributes& to, std::string_view key, std::string_view value) {
  if (!value.empty()) to.emplace_back(key, short_name(value));
}

struct Class {
  std::string_view value;
  std::string_view name;
  int min_zoom;
};

template <std::size_t n>
const Class* class_of(const std::array<Class, n>& classes, std::string_view value) {
  if (value.empty()) return nullptr;
  const auto at = std::find_if(classes.begin(), classes.end(), [&](const Class& c) { return c.value == value; });
  return at == classes.end() ? nullptr : &*at;
}

constexpr std::array road_classes{Class{"motorway", "motorway", 8},    Class{"motorway_link", "motorway", 10},
                                  Class{"trunk", "trunk", 8},          Class{"trunk_link", "trunk", 10},
                                  Class{"primary", "primary", 8},      Class{"primary_link", "primary", 11},
                                  Class{"secondary", "secondary", 9},  Class{"secondary_link", "secondary", 11},
                                  Class{"tertiary", "tertiary", 10},   Class{"tertiary_link", "tertiary", 12},
                                  Class{"unclassified", "minor", 11},  Class{"residential", "minor", 12},
                                  Class{"living_street", "minor", 12}, Class{"road", "minor", 12},
                                  Class{"service", "service", 13},     Class{"track", "track", 12},
                                  Class{"bridleway", "bridleway", 12}, Class{"path", "path", 13},
                                  Class{"footway", "path", 13},        Class{"cycleway", "path", 13},
                                  Class{"pedestrian", "path", 13},     Class{"steps", "path", 13}};

constexpr std::array railway_classes{Class{"rail", "rail", 10}, Class{"narrow_gauge", "rail", 11},
                                     Class{"light_rail", "rail", 11}, Class{"preserved", "rail", 11},
                                     Class{"tram", "tram", 13}};

constexpr std::array waterway_classes{Class{"river", "river", 8}, Class{"canal", "canal", 10},
                                      Class{"stream", "stream", 12}, Class{"ditch", "ditch", 13},
                                      Class{"drain", "ditch", 13}};

constexpr std::array natural_land{
    Class{"wood", "wood", 8},        Class{"scrub", "heath", 10},    Class{"heath", "heath", 10},
    Class{"moor", "heath", 10},      Class{"fell", "heath", 10},     Class{"grassland", "grass", 11},
    Class{"wetland", "wetland", 10}, Class{"beach", "bare", 11},     Class{"sand", "bare", 11},
    Class{"shingle", "bare", 11},    Class{"bare_rock", "bare", 11}, Class{"scree", "bare", 11}};

constexpr std::array landuse_land{Class{"forest", "wood", 8},
                                  Class{"grass", "grass", 13},
                                  Class{"meadow", "grass", 11},
                                  Class{"village_green", "grass", 12},
                                  Class{"recreation_ground", "grass", 12},
                                  Class{"cemetery", "grass", 12},
                                  Class{"orchard", "orchard", 11},
                                  Class{"vineyard", "orchard", 11},
                                  Class{"quarry", "bare", 11},
                                  Class{"residential", "built_up", 8},
                                  Class{"commercial", "built_up", 9},
                                  Class{"retail", "built_up", 9},
                                  Class{"industrial", "built_up", 9},
                                  Class{"farmyard", "built_up", 12}};

constexpr std::array leisure_land{Class{"park", "grass", 11}, Class{"golf_course", "grass", 11},
                                  Class{"common", "grass", 11}, Class{"recreation_ground", "grass", 12}};

constexpr std::array place_classes{Class{"city", "city", 8},        Class{"town", "town", 8},
                                   Class{"village", "village", 10}, Class{"suburb", "suburb", 12},
                                   Class{"hamlet", "hamlet", 12},   Class{"isolated_dwelling", "farm", 13},
                                   Class{"farm", "farm", 13},       Class{"locality", "locality", 14}};

// Tunnels are drawn faint, bridges over what they cross.
void add_level(MapAttributes& to, Tags tags) {
  if (says_yes(tag(tags, "tunnel"))) {
    to.emplace_back("level", std::int64_t{-1});
  } else if (says_yes(tag(tags, "bridge"))) {
    to.emplace_back("level", std::int64_t{1});
  }
}

std::optional<MapLook> road_look(Tags tags) {
  const Class* road = class_of(road_classes, tag(tags, "highway"));
  if (road == nullptr || tag(tags, "area") == "yes") return std::nullopt;
  std::string_view name = road->name;
  int min_zoom = road->min_zoom;
  // A path for horses is one, whatever else it is called.
  if (name == "path" && is_one_of(tag(tags, "horse"), {"yes", "designated"})) {
    name = "bridleway";
    min_zoom = 12;
  }
  if (is_one_of(tag(tags, "service"), {"parking_aisle", "driveway"})) min_zoom = 14;
  MapLook look{MapLayer::roads, min_zoom, {{"class", std::string(name)}}};
  add_text(look.attributes, "name", tag(tags, "name"));
  add_text(look.attributes, "ref", tag(tags, "ref"));
  add_level(look.attributes, tags);
  if (is_one_of(tag(tags, "access"), {"private", "no"})) look.attributes.emplace_back("private", std::int64_t{1});
  return look;
}

std::optional<MapLook> named(MapLayer layer, const Class* found, Tags tags) {
  if (found == nullptr) return std::nullopt;
  MapLook look{layer, found->min_zoom, {{"class", std::string(found->name)}}};
  add_text(look.attributes, "name", tag(tags, "name"));
  return look;
}

bool is_drinkable_spring(Tags tags) { return tag(tags, "natural") == "spring" && tag(tags, "drinking_water") == "yes"; }

bool is_open_to_us(Tags tags) { return !is_one_of(tag(tags, "access"), {"private", "no", "customers", "permit"}); }

// The class of what is marked by a sign on the map; empty: nothing. Water and fuel are in the tiles before they are
// drawn: the page looks for them along the drives.
Class sign_of(Tags tags) {
  const std::string_view amenity = tag(tags, "amenity"), made = tag(tags, "man_made");
  if (is_one_of(tag(tags, "natural"), {"peak", "hill"})) return {"", "peak", 11};
  if (amenity == "fuel") return {"", "fuel", 10};
  if (amenity == "parking" && is_open_to_us(tags)) return {"", "parking", 13};
  if (amenity == "watering_place") return {"", "trough", 10};
  const bool is_tap = is_one_of(amenity, {"drinking_water", "water_point"}) || made == "water_tap";
  if (is_tap && is_open_to_us(tags) && tag(tags, "drinking_water") != "no") return {"", "water", 10};
  if (is_drinkable_spring(tags)) return {"", "water", 10};
  if (says_yes(tag(tags, "ford"))) return {"", "ford", 13};
  if (tag(tags, "barrier") == "cattle_grid") return {"", "cattle grid", 14};
  return {"", "", 0};
}

}  // namespace

std::string_view layer_name(MapLayer layer) {
  constexpr std::array<std::string_view, map_layer_count> names{"land",  "water",     "waterways", "railways",
                                                                "roads", "buildings", "places",    "points"};
  return names[static_cast<std::size_t>(layer)];
}

std::optional<MapLook> line_look(Tags tags) {
  if (const auto road = road_look(tags)) return road;
  if (auto water = named(MapLayer::waterways, class_of(waterway_classes, tag(tags, "waterway")), tags)) {
    if (says_yes(tag(tags, "tunnel"))) return std::nullopt;  // under ground
    return water;
  }
  if (auto rails = named(MapLayer::railways, class_of(railway_classes, tag(tags, "railway")), tags)) {
    rails->attributes.resize(1);  // no names
    if (says_yes(tag(tags, "service"))) rails->min_zoom = 13;
    add_level(rails->attributes, tags);
    return rails;
  }
  if (tag(tags, "natural") == "coastline") return MapLook{MapLayer::waterways, 8, {{"class", std::string("coast")}}};
  return std::nullopt;
}

std::optional<MapLook> area_look(Tags tags) {
  const std::string_view natural = tag(tags, "natural"), landuse = tag(tags, "landuse");
  if (natural == "water" || is_one_of(landuse, {"reservoir", "basin"}) ||
      is_one_of(tag(tags, "waterway"), {"riverbank", "dock"})) {
    MapLook look{MapLayer::water, 8, {}};
    add_text(look.attributes, "name", tag(tags, "name"));
    return look;
  }
  if (says_yes(tag(tags, "building"))) return MapLook{MapLayer::buildings, 14, {}};
  const Class* land = class_of(natural_land, natural);
  if (land == nullptr) land = class_of(landuse_land, landuse);
  if (land == nullptr) land = class_of(leisure_land, tag(tags, "leisure"));
  if (land != nullptr) {
    MapLook look{MapLayer::land, land->min_zoom, {{"class", std::string(land->name)}}};
    if (land->name == "wood") add_text(look.attributes, "name", tag(tags, "name"));
    return look;
  }
  if (tag(tags, "amenity") == "parking") return MapLook{MapLayer::land, 13, {{"class", std::string("parking")}}};
  return std::nullopt;
}

std::optional<MapLook> point_look(Tags tags) {
  if (const Class* place = class_of(place_classes, tag(tags, "place"))) {
    if (tag(tags, "name").empty()) return std::nullopt;
    return named(MapLayer::places, place, tags);
  }
  const Class sign = sign_of(tags);
  auto look = named(MapLayer::points, sign.name.empty() ? nullptr : &sign, tags);
  if (!look) return std::nullopt;
  if (sign.name == "peak") {
    int metres = 0;
    const std::string_view ele = tag(tags, "ele");
    const auto [end, error] = std::from_chars(ele.data(), ele.data() + ele.size(), metres);
    const bool is_number = error == std::errc() && (end == ele.data() + ele.size() || *end == '.' || *end == ' ');
    if (is_number) look->attributes.emplace_back("metres", std::int64_t{metres});
  }
  return look;
}

}  // namespace outbye
