// Boxes of latitude and longitude that may cross the 180th meridian and reach the poles.
#pragma once

#include <optional>
#include <span>

#include "core/base/units.h"
#include "core/geo/position.h"

namespace outbye {

// From `west` eastwards to `east`; west > east: the box crosses 180 degrees.
struct BoundingBox {
  double south{}, west{}, north{}, east{};  // degrees
  friend bool operator==(const BoundingBox&, const BoundingBox&) = default;
};

// The smallest box around the positions: of all the arcs of longitude that hold them, the shortest. Nothing if empty.
std::optional<BoundingBox> bounding_box(std::span<const Position> positions);

bool contains(const BoundingBox& box, Position position);
bool overlap(const BoundingBox& a, const BoundingBox& b);

// Degrees from west to east, 0..360.
double width(const BoundingBox& box);

// A box that holds everything within `margin` (>= 0) of this one, and a little more. Over a pole: every longitude.
BoundingBox grown(const BoundingBox& box, Metres margin);

}  // namespace outbye
