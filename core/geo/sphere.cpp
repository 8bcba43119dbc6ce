#include "core/geo/sphere.h"

#include <algorithm>
#include <cmath>

namespace outbye {
namespace {

constexpr double radians = 0.017453292519943295;  // pi / 180

double squared(double x) { return x * x; }

}  // namespace

Metres sphere_distance(Position a, Position b) {
  const double north = (b.latitude - a.latitude) * radians;
  const double east = (b.longitude - a.longitude) * radians;
  const double h = squared(std::sin(north / 2)) +
                   std::cos(a.latitude * radians) * std::cos(b.latitude * radians) * squared(std::sin(east / 2));
  return {2 * 6371008.8 * std::asin(std::sqrt(std::min(1.0, h)))};
}

Degrees initial_azimuth(Position from, Position to) {
  const double east = (to.longitude - from.longitude) * radians;
  const double start = from.latitude * radians;
  const double end = to.latitude * radians;
  // sin(end - start) rather than the difference of products, which cancels on short lines.
  const double northward = std::sin(end - start) + 2 * std::sin(start) * std::cos(end) * squared(std::sin(east / 2));
  const double azimuth = std::atan2(std::sin(east) * std::cos(end), northward) / radians;
  return {azimuth < 0 ? azimuth + 360 : azimuth};
}

Degrees turn(Degrees from, Degrees to) { return {std::remainder(to.value - from.value, 360.0)}; }

}  // namespace outbye
