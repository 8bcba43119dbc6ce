// What is drawn, all of it, before it is cut into tiles: shapes on the world square with an index of what they are.
#pragma once

#include <cstdint>
#include <map>
#include <span>
#include <vector>

#include "formats/map_tiles/map_look.h"
#include "formats/map_tiles/world.h"

namespace outbye {

enum class MapShape : std::uint8_t { point, line, area };

// A part is a point, a line, or a ring (first point repeated at its end). Rings of an area: each outer one, then its
// holes; the direction they run in is of no meaning yet.
struct MapPart {
  std::uint32_t first{}, count{};  // in MapFeatures::points
  bool is_hole{};
};

struct MapFeature {
  MapLayer layer{};
  MapShape shape{};
  std::uint8_t min_zoom{};
  std::uint32_t attributes{};  // in MapFeatures::attributes
  std::uint32_t first_part{}, part_count{};
};

class MapFeatures {
 public:
  // Begins a feature; parts added then belong to it.
  void begin(MapShape shape, const MapLook& look);
  void add_part(std::span<const WorldPoint> part, bool is_hole = false);

  std::vector<MapFeature> features;
  std::vector<MapPart> parts;
  std::vector<WorldPoint> points;
  std::vector<MapAttributes> attributes;  // each but once

  std::span<const MapPart> parts_of(const MapFeature& feature) const {
    return std::span(parts).subspan(feature.first_part, feature.part_count);
  }
  std::span<const WorldPoint> points_of(const MapPart& part) const {
    return std::span(points).subspan(part.first, part.count);
  }

 private:
  std::map<MapAttributes, std::uint32_t> known_;
};

// Lines that are alike and end where exactly one other of them begins become one: names then have room, and a road does
// not fall into pieces when it is simplified. Where three meet, none are joined.
struct LooseLine {
  std::uint32_t kind{};  // lines of different kinds are never joined
  std::vector<WorldPoint> points;
};
std::vector<LooseLine> joined_lines(std::vector<LooseLine> lines);

}  // namespace outbye
