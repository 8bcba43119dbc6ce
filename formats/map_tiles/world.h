// The square that web maps are cut from: Web Mercator (EPSG:3857), from 180 W eastwards and from 85.0511 N southwards,
// 2^30 units a side, so that a unit is 37 mm at the equator. A tile of zoom z has 2^(30 - z) of them, and its own grid
// of 4096 a side falls on theirs.
#pragma once

#include <cstdint>

#include "core/geo/bounding_box.h"
#include "core/geo/position.h"

namespace outbye {

inline constexpr int world_bits = 30;
inline constexpr int tile_bits = 12;
inline constexpr std::int32_t world_size = std::int32_t{1} << world_bits;
inline constexpr std::int32_t tile_extent = std::int32_t{1} << tile_bits;

struct WorldPoint {
  std::int32_t x{}, y{};
  friend bool operator==(WorldPoint, WorldPoint) = default;
};

// Beyond the square's north and south ends: on them.
WorldPoint world_point(Position position);
Position position_of(WorldPoint point);

struct TileId {
  int z{};
  std::int64_t x{}, y{};
  friend bool operator==(const TileId&, const TileId&) = default;
};

// World units along a side of a tile.
constexpr std::int32_t tile_side(int z) { return world_size >> z; }
// World units in one unit of a tile's own grid.
constexpr std::int32_t tile_unit(int z) { return std::int32_t{1} << (world_bits - tile_bits - z); }

// Published as "Slippy map tilenames" (OpenStreetMap wiki): x = floor(2^z (lon + 180) / 360),
// y = floor(2^z (1 - asinh(tan lat) / pi) / 2).
TileId tile_at(WorldPoint point, int z);

}  // namespace outbye
