#include "core/geo/ellipsoid.h"

#include <cmath>

namespace outbye {
namespace {

constexpr double radians = 0.017453292519943295;  // pi / 180
constexpr double eccentricity_squared = wgs84_flattening * (2 - wgs84_flattening);

}  // namespace

EarthVector earth_vector(Position position) {
  const double latitude = position.latitude * radians;
  const double longitude = position.longitude * radians;
  const double sine = std::sin(latitude);
  const double cosine = std::cos(latitude);
  const double normal = wgs84_equatorial_radius / std::sqrt(1 - eccentricity_squared * sine * sine);
  return {normal * cosine * std::cos(longitude), normal * cosine * std::sin(longitude),
          normal * (1 - eccentricity_squared) * sine};
}

Position position_at(EarthVector vector) {
  const double across = std::hypot(vector.x, vector.y);
  const double latitude = std::atan2(vector.z, (1 - eccentricity_squared) * across);  // exact at height 0
  const double longitude = across > 0 ? std::atan2(vector.y, vector.x) : 0;
  return {latitude / radians, longitude / radians};
}

Metres ground_distance(double chord) {
  constexpr double mean_radius = 6371008.8;  // of the three semi-axes
  return {chord * (1 + chord * chord / (24 * mean_radius * mean_radius))};
}

}  // namespace outbye
