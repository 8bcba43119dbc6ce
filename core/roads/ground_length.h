// Length of a short piece of road on the WGS84 ellipsoid.
#pragma once

#include <cmath>

#include "core/roads/road_class.h"

namespace outbye {

// Metres for one unit (1e-7 degrees) of latitude and longitude at a latitude.
struct GroundScale {
  double latitude{};
  double longitude{};
};
// Radii of curvature of the meridian and the prime vertical (Rapp, Geometric Geodesy I, 1991, section 3.5).
inline GroundScale ground_scale(double latitude_units) {
  constexpr double a = 6378137.0, e2 = 0.00669437999014132;  // WGS84
  constexpr double unit = 1e-7 * 3.14159265358979323846 / 180.0;
  const double latitude = latitude_units * unit;
  const double sine = std::sin(latitude), cosine = std::cos(latitude);
  const double w2 = 1.0 - e2 * sine * sine;
  const double n = a / std::sqrt(w2);
  return {n * (1.0 - e2) / w2 * unit, n * cosine * unit};
}

// East minus west the short way round, also across the antimeridian.
inline double longitude_units_between(std::int32_t from, std::int32_t to) {
  double difference = static_cast<double>(to) - static_cast<double>(from);
  if (difference > 1.8e9) difference -= 3.6e9;
  if (difference < -1.8e9) difference += 3.6e9;
  return difference;
}

// Metres along the ground, by the radii at the middle latitude: within 1e-6 of the geodesic for pieces under 10 km
// below 75 degrees of latitude (ground_length_test.cpp).
inline double ground_length(FixedPosition from, FixedPosition to) {
  const double north = static_cast<double>(to.latitude) - static_cast<double>(from.latitude);
  const double east = longitude_units_between(from.longitude, to.longitude);
  const GroundScale scale = ground_scale(0.5 * (static_cast<double>(from.latitude) + static_cast<double>(to.latitude)));
  const double y = north * scale.latitude, x = east * scale.longitude;
  return std::sqrt(x * x + y * y);
}

}  // namespace outbye
