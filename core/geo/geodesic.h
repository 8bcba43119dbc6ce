// Geodesics on the WGS84 ellipsoid: how far, in which direction, and where that leads. The one place for course
// lengths. Karney, Algorithms for geodesics, J. Geodesy 87 (2013) 43-55, as implemented in Boost.Geometry; it converges
// for every pair of points (Vincenty's does not near antipodes). Within 0.1 micrometres of GeographicLib on lines up to
// 20 000 km.
#pragma once

#include "core/base/units.h"
#include "core/geo/position.h"

namespace outbye {

struct Geodesic {
  Metres distance{};
  Degrees azimuth{};        // at the start, -180..180; equal points: of no meaning
  Degrees final_azimuth{};  // at the end, in the direction of travel
};

struct GeodesicEnd {
  Position position;
  Degrees final_azimuth{};
};

// The inverse problem. About half a microsecond.
Geodesic geodesic_inverse(Position from, Position to);
Metres geodesic_distance(Position from, Position to);

// The direct problem. `distance` may be negative.
GeodesicEnd geodesic_direct(Position from, Degrees azimuth, Metres distance);

}  // namespace outbye
