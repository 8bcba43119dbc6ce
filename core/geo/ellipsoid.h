// The WGS84 ellipsoid, and positions on it as earth-centred vectors: no seam at 180 degrees, no singular poles.
#pragma once

#include "core/base/units.h"
#include "core/geo/position.h"

namespace outbye {

// NIMA TR8350.2, World Geodetic System 1984, table 3.1.
inline constexpr double wgs84_equatorial_radius = 6378137.0;  // m
inline constexpr double wgs84_flattening = 1 / 298.257223563;
inline constexpr double wgs84_polar_radius = wgs84_equatorial_radius * (1 - wgs84_flattening);

// Metres from the centre of the Earth: x towards 0 N 0 E, y towards 0 N 90 E, z towards the north pole.
struct EarthVector {
  double x{}, y{}, z{};
  friend constexpr EarthVector operator+(EarthVector a, EarthVector b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
  friend constexpr EarthVector operator-(EarthVector a, EarthVector b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
  friend constexpr EarthVector operator*(double k, EarthVector a) { return {k * a.x, k * a.y, k * a.z}; }
};
constexpr double dot(EarthVector a, EarthVector b) { return a.x * b.x + a.y * b.y + a.z * b.z; }

// On the ellipsoid (height 0).
EarthVector earth_vector(Position position);
// The position above or below the vector, which must lie within 100 m of the ellipsoid; good to 0.4 m there, and to
// 2 mm within half a metre.
Position position_at(EarthVector vector);

// The way over the ground between two vectors on the ellipsoid that are `chord` metres apart in a straight line.
// Within 1 mm of the geodesic up to 10 km, 0.4 m up to 100 km.
Metres ground_distance(double chord);

}  // namespace outbye
