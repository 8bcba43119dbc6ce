// Shapes made simpler, and cut to a box. World units throughout.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "formats/map_tiles/world.h"

namespace outbye {

// The ends and every point that strays more than `tolerance` from the straight line without it (Douglas and Peucker
// 1973). A ring (first point repeated at its end) is taken as two halves, and stays a ring.
std::vector<WorldPoint> simplified(std::span<const WorldPoint> line, double tolerance);

struct WorldBox {
  std::int32_t west{}, north{}, east{}, south{};  // y runs southwards; both ends inside
};
WorldBox box_of(std::span<const WorldPoint> points);

// The pieces of a line inside a box. A piece has two points or more; what only touches the box from outside is left
// out.
std::vector<std::vector<WorldPoint>> line_within(std::span<const WorldPoint> line, const WorldBox& box);

// A ring cut to a box (Sutherland and Hodgman 1974): where it leaves the box and comes back it runs along the edge,
// there and back if need be, which paints nothing. Empty when nothing is inside; else a ring.
std::vector<WorldPoint> ring_within(std::span<const WorldPoint> ring, const WorldBox& box);

// Twice the area of a ring, positive where it runs clockwise on the map (y southwards).
double twice_area(std::span<const WorldPoint> ring);

}  // namespace outbye
