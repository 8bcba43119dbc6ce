// What things look like on the map, by their tags: the layer, the class in it, from which zoom on, and what is written
// beside it. The layers and classes are listed in README.md and drawn by web/src/map.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "core/roads/road_rules.h"

namespace outbye {

enum class MapLayer : std::uint8_t { land, water, waterways, railways, roads, buildings, places, points };
inline constexpr std::size_t map_layer_count = 8;
std::string_view layer_name(MapLayer layer);

using MapValue = std::variant<std::string, std::int64_t>;
using MapAttributes = std::vector<std::pair<std::string_view, MapValue>>;  // keys are literals

struct MapLook {
  MapLayer layer{};
  int min_zoom{};  // not drawn farther out
  MapAttributes attributes;
};

// As a line, as an area and as a point. One way can be two of them: a parking place is drawn as an area and marked by a
// point in it. Nothing: not on our map.
std::optional<MapLook> line_look(Tags tags);
std::optional<MapLook> area_look(Tags tags);
std::optional<MapLook> point_look(Tags tags);

}  // namespace outbye
