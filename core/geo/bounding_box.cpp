#include "core/geo/bounding_box.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace outbye {
namespace {

constexpr double radians = 0.017453292519943295;  // pi / 180

// Degrees eastwards from one longitude to another, 0..360.
double eastwards(double from, double to) {
  const double way = std::fmod(to - from, 360.0);
  return way < 0 ? way + 360 : way;
}
double wrapped(double longitude) {
  return longitude > 180 ? longitude - 360 : (longitude < -180 ? longitude + 360 : longitude);
}

bool spans_all(const BoundingBox& box) { return box.west == -180 && box.east == 180; }

}  // namespace

std::optional<BoundingBox> bounding_box(std::span<const Position> positions) {
  if (positions.empty()) return std::nullopt;
  BoundingBox box{90, 0, -90, 0};
  std::vector<double> longitudes;
  longitudes.reserve(positions.size());
  for (const Position p : positions) {
    box.south = std::min(box.south, p.latitude);
    box.north = std::max(box.north, p.latitude);
    longitudes.push_back(p.longitude);
  }
  // The box leaves out the widest gap between neighbouring longitudes, round the world.
  std::sort(longitudes.begin(), longitudes.end());
  box.west = longitudes.front();
  box.east = longitudes.back();
  double widest = 360 - (box.east - box.west);
  for (std::size_t i = 0; i + 1 < longitudes.size(); ++i) {
    const double gap = longitudes[i + 1] - longitudes[i];
    if (gap > widest) {
      widest = gap;
      box.west = longitudes[i + 1];
      box.east = longitudes[i];
    }
  }
  return box;
}

double width(const BoundingBox& box) { return spans_all(box) ? 360 : eastwards(box.west, box.east); }

bool contains(const BoundingBox& box, Position position) {
  if (position.latitude < box.south || position.latitude > box.north) return false;
  return eastwards(box.west, position.longitude) <= width(box);
}

bool overlap(const BoundingBox& a, const BoundingBox& b) {
  if (a.north < b.south || b.north < a.south) return false;
  return eastwards(a.west, b.west) <= width(a) || eastwards(b.west, a.west) <= width(b);
}

BoundingBox grown(const BoundingBox& box, Metres margin) {
  // A degree of latitude is at least 110 574 m (at the equator, WGS84); of longitude at least 111 319 m x
  // cos(latitude). A circle reaches farthest east poleward of its centre: asin(sin r / cos latitude); 1 % covers the
  // ellipsoid.
  const double degrees = 1.01 * margin.value / 110574.0;
  BoundingBox result = box;
  result.south = std::max(-90.0, box.south - degrees);
  result.north = std::min(90.0, box.north + degrees);
  const double farthest = std::max(std::abs(box.south), std::abs(box.north));
  const double ratio = std::sin(std::min(degrees, 90.0) * radians) / std::max(1e-12, std::cos(farthest * radians));
  const double sideways = ratio < 1 ? std::asin(ratio) / radians : 180;
  if (farthest + degrees >= 90 || width(box) + 2 * sideways >= 360) {
    result.west = -180;
    result.east = 180;
    return result;
  }
  result.west = wrapped(box.west - sideways);
  result.east = wrapped(box.east + sideways);
  return result;
}

}  // namespace outbye
