#include "formats/map_tiles/world.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace outbye {
namespace {

constexpr double side = world_size;

std::int32_t on_square(double v) { return static_cast<std::int32_t>(std::lround(std::clamp(v, 0.0, side))); }

}  // namespace

WorldPoint world_point(Position position) {
  const double latitude = std::clamp(position.latitude, -89.9, 89.9) * std::numbers::pi / 180;
  return {on_square(side * (position.longitude + 180) / 360),
          on_square(side * (1 - std::asinh(std::tan(latitude)) / std::numbers::pi) / 2)};
}

Position position_of(WorldPoint point) {
  const double north = std::numbers::pi * (1 - 2.0 * point.y / side);
  return {std::atan(std::sinh(north)) * 180 / std::numbers::pi, 360.0 * point.x / side - 180};
}

TileId tile_at(WorldPoint point, int z) {
  const std::int64_t last = (std::int64_t{1} << z) - 1;
  return {z, std::min<std::int64_t>(point.x >> (world_bits - z), last),
          std::min<std::int64_t>(point.y >> (world_bits - z), last)};
}

}  // namespace outbye
