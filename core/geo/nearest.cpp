#include "core/geo/nearest.h"

#include <cmath>

namespace outbye {
namespace {

NearestPoint lifted(EarthVector point, EarthVector from, EarthVector to, std::size_t segment) {
  NearestPoint nearest;
  nearest.segment = segment;
  nearest.fraction = nearest_fraction(point, from, to);
  nearest.position = position_at(from + nearest.fraction * (to - from));
  const EarthVector gap = point - earth_vector(nearest.position);
  nearest.distance = ground_distance(std::sqrt(dot(gap, gap)));
  return nearest;
}

}  // namespace

NearestPoint nearest_on_segment(Position position, Position from, Position to) {
  return lifted(earth_vector(position), earth_vector(from), earth_vector(to), 0);
}

std::optional<NearestPoint> nearest_on_line(Position position, std::span<const Position> line) {
  if (line.empty()) return std::nullopt;
  if (line.size() == 1) return nearest_on_segment(position, line[0], line[0]);
  const EarthVector point = earth_vector(position);
  EarthVector from = earth_vector(line[0]);
  NearestPoint best;
  double least = 0;
  EarthVector best_from = from, best_to = from;
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const EarthVector to = earth_vector(line[i + 1]);
    const double distance = squared_distance(point, from, to);
    if (i == 0 || distance < least) {
      least = distance;
      best.segment = i;
      best_from = from;
      best_to = to;
    }
    from = to;
  }
  return lifted(point, best_from, best_to, best.segment);
}

}  // namespace outbye
