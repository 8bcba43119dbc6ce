// The nearest point of a line to a position. Works across 180 degrees and at the poles.
#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "core/base/units.h"
#include "core/geo/ellipsoid.h"
#include "core/geo/position.h"

namespace outbye {

struct NearestPoint {
  std::size_t segment{};  // from points[segment] to points[segment + 1]
  double fraction{};      // along that segment, 0..1
  Position position;      // on the line
  Metres distance{};      // from the position asked about
};

// Segments are straight in space and so run up to length^2 / 51 000 km under the ground (2 cm at 1 km, 0.5 m at 5 km);
// the nearest point is lifted back to the surface. Distance and place are good to 1 cm for segments and distances up to
// 5 km.
NearestPoint nearest_on_segment(Position position, Position from, Position to);

// Nothing for an empty line; a line of one point is that point. Of equally near points the first wins.
std::optional<NearestPoint> nearest_on_line(Position position, std::span<const Position> line);

// The same for many questions about one line: the fraction (0..1) along the segment where it is nearest to `point`.
inline double nearest_fraction(EarthVector point, EarthVector from, EarthVector to) {
  const EarthVector along = to - from;
  const double length_squared = dot(along, along);
  if (length_squared == 0) return 0;
  const double fraction = dot(point - from, along) / length_squared;
  return fraction < 0 ? 0 : (fraction > 1 ? 1 : fraction);
}
// The square of the straight distance from `point` to the segment.
inline double squared_distance(EarthVector point, EarthVector from, EarthVector to) {
  const EarthVector gap = point - (from + nearest_fraction(point, from, to) * (to - from));
  return dot(gap, gap);
}

}  // namespace outbye
