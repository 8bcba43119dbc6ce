// One vector tile (Mapbox Vector Tile 2.1) from shapes on its own grid.
#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <span>
#include <string>
#include <tuple>
#include <vector>

#include "formats/map_tiles/map_features.h"

namespace outbye {

// A point of a tile's grid: 0..4096 inside, a little beyond at its edges.
struct TilePoint {
  std::int32_t x{}, y{};
  friend bool operator==(TilePoint, TilePoint) = default;
};

// The geometry of one feature of a tile as the standard writes it: commands with steps from point to point. Shapes that
// are alike go into one feature, so a street of houses is said once.
class TileGeometry {
 public:
  void add_point(TilePoint point);
  void add_line(std::span<const TilePoint> line);  // two points or more, neighbours different
  // A ring without its repeated first point, three points or more, clockwise on the map for an outer one and the other
  // way for a hole.
  void add_ring(std::span<const TilePoint> ring);
  // With the count of points, for a feature of points alone.
  std::vector<std::uint32_t> commands() const;

 private:
  void step_to(TilePoint point);
  std::vector<std::uint32_t> words_;
  TilePoint pen_;
  std::uint32_t points_{};  // MoveTo points of a feature of points
};

class TileDraft {
 public:
  TileGeometry& geometry(MapLayer layer, MapShape shape, std::uint32_t attributes);
  // The bytes of the tile. `attributes` as in MapFeatures.
  std::string written(const std::vector<MapAttributes>& attributes) const;

 private:
  struct Feature {
    MapShape shape{};
    std::uint32_t attributes{};
    TileGeometry geometry;
  };
  std::array<std::vector<Feature>, map_layer_count> layers_;  // in the order in which they came
  std::map<std::tuple<MapLayer, MapShape, std::uint32_t>, std::size_t> known_;
};

}  // namespace outbye
