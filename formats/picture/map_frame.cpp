#include "formats/picture/map_frame.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "core/geo/stray_points.h"

namespace outbye {
namespace {

constexpr double metres_per_degree = 111'195.08;  // on the sphere of GRS80 mean radius, 6 371 008.8 m
constexpr double pi = 3.14159265358979323846;

double wrapped(double degrees) {
  while (degrees > 180) degrees -= 360;
  while (degrees < -180) degrees += 360;
  return degrees;
}

double distance_to_segment(Spot p, Spot a, Spot b) {
  const double dx = b.x - a.x, dy = b.y - a.y;
  const double square = dx * dx + dy * dy;
  const double share = square > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / square, 0.0, 1.0) : 0.0;
  return std::hypot(p.x - a.x - share * dx, p.y - a.y - share * dy);
}

}  // namespace

MapFrame::MapFrame(const std::vector<Position>& positions, Box box, double margin) {
  middle_ = {(box.left + box.right) / 2, (box.top + box.bottom) / 2};
  double south = 0, north = 0, west = 0, east = 0;  // longitudes relative to the first position
  const double reference = positions.empty() ? 0.0 : positions[0].longitude;
  bool is_first = true;
  for (const auto& position : positions) {
    const double east_of = wrapped(position.longitude - reference);
    south = is_first ? position.latitude : std::min(south, position.latitude);
    north = is_first ? position.latitude : std::max(north, position.latitude);
    west = is_first ? east_of : std::min(west, east_of);
    east = is_first ? east_of : std::max(east, east_of);
    is_first = false;
  }
  middle_latitude_ = (south + north) / 2;
  middle_longitude_ = reference + (west + east) / 2;
  shrink_ = std::max(std::cos(middle_latitude_ * pi / 180), 0.01);
  const double width = std::max((east - west) * shrink_ * metres_per_degree, 1000.0);
  const double height = std::max((north - south) * metres_per_degree, 1000.0);
  scale_ = std::min((box.right - box.left - 2 * margin) / width, (box.bottom - box.top - 2 * margin) / height);
}

Spot MapFrame::spot(Position position) const {
  return {middle_.x + wrapped(position.longitude - middle_longitude_) * shrink_ * metres_per_degree * scale_,
          middle_.y - (position.latitude - middle_latitude_) * metres_per_degree * scale_};
}

std::vector<std::size_t> kept_when_simplified(const std::vector<Spot>& line, double tolerance) {
  if (line.empty()) return {};
  std::vector<bool> is_kept(line.size(), false);
  is_kept.front() = is_kept.back() = true;
  const auto off = [&line](std::size_t i, std::size_t from, std::size_t to) {
    return distance_to_segment(line[i], line[from], line[to]);
  };
  keep_stray_points(0, line.size() - 1, tolerance, off, is_kept);
  std::vector<std::size_t> kept;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (is_kept[i]) kept.push_back(i);
  }
  return kept;
}

std::vector<Spot> simplified(const std::vector<Spot>& line, double tolerance) {
  std::vector<Spot> result;
  for (const std::size_t i : kept_when_simplified(line, tolerance)) result.push_back(line[i]);
  return result;
}

std::vector<Spot> beside(const std::vector<Spot>& line, double distance) {
  std::vector<Spot> result;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const Spot before = line[i == 0 ? 0 : i - 1];
    const Spot after = line[i + 1 == line.size() ? i : i + 1];
    const double dx = after.x - before.x, dy = after.y - before.y;
    const double length = std::hypot(dx, dy);
    if (length < 1e-9) {  // a turn back on the spot
      result.push_back(line[i]);
      continue;
    }
    result.push_back({line[i].x - distance * dy / length, line[i].y + distance * dx / length});
  }
  return result;
}

double round_length(double longest) {
  const double power = std::pow(10.0, std::floor(std::log10(longest)));
  for (const double factor : {5.0, 2.0}) {
    if (factor * power <= longest) return factor * power;
  }
  return power;
}

}  // namespace outbye
