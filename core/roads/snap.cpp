// The nearest drivable road to a place, by rings of grid cells around it.
#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/text.h"
#include "core/roads/ground_length.h"
#include "core/roads/route.h"

namespace outbye {
namespace {

struct Nearest {
  double metres{std::numeric_limits<double>::infinity()};
  std::uint32_t edge{no_road_index};
  std::size_t piece{};  // point of the geometry where the nearest straight piece begins
  double share{};       // along that piece
};

// Plane around the place: metres east and north of it. Within 0.1 % some 20 km around; farther off it only ranks.
struct Plane {
  FixedPosition origin;
  GroundScale scale;
  double x(std::int32_t longitude) const {
    return longitude_units_between(origin.longitude, longitude) * scale.longitude;
  }
  double y(std::int32_t latitude) const {
    return (static_cast<double>(latitude) - static_cast<double>(origin.latitude)) * scale.latitude;
  }
};

void look_at(const RoadGraphParts& parts, const Plane& plane, std::uint32_t edge, Nearest& best) {
  const std::size_t end = edge + 1 < parts.edges.size() ? parts.edges[edge + 1].geometry : parts.geometry.size();
  for (std::size_t i = parts.edges[edge].geometry; i + 1 < end; ++i) {
    const double ax = plane.x(parts.geometry[i].longitude), ay = plane.y(parts.geometry[i].latitude);
    const double dx = plane.x(parts.geometry[i + 1].longitude) - ax, dy = plane.y(parts.geometry[i + 1].latitude) - ay;
    const double squared = dx * dx + dy * dy;
    const double share = squared > 0 ? std::clamp(-(ax * dx + ay * dy) / squared, 0.0, 1.0) : 0.0;
    const double px = ax + share * dx, py = ay + share * dy;
    const double metres = std::sqrt(px * px + py * py);
    if (metres < best.metres || (metres == best.metres && edge < best.edge)) best = {metres, edge, i, share};
  }
}

// Nearest of the joined edges, and nearest of the others.
struct Both {
  Nearest joined, island;
};
Both search(const RoadGraphParts& parts, const Plane& plane, double island_limit) {
  const RoadGrid& grid = parts.grid;
  const double height =
      (static_cast<double>(grid.high.latitude) - grid.low.latitude) * plane.scale.latitude / grid.rows;
  // The columns are narrowest where the box is nearest a pole; their width here only bounds the rings from below.
  const double cell_units = (static_cast<double>(grid.high.longitude) - grid.low.longitude) / grid.columns;
  const double width = cell_units * plane.scale.longitude;
  const auto cell_of = [](double offset, double size, std::uint32_t count) {
    return size > 0 ? static_cast<std::int64_t>(std::clamp(std::floor(offset / size), 0.0, count - 1.0)) : 0;
  };
  const std::int64_t row = cell_of(plane.y(grid.low.latitude) * -1.0, height, grid.rows);
  const std::int64_t column = cell_of(plane.x(grid.low.longitude) * -1.0, width, grid.columns);
  Both best;
  const std::int64_t rings = std::max<std::int64_t>(grid.rows, grid.columns);
  const auto visit = [&](std::int64_t r, std::int64_t c) {
    if (r < 0 || c < 0 || r >= grid.rows || c >= grid.columns) return;
    const auto cell = static_cast<std::size_t>(r * grid.columns + c);
    for (std::uint32_t i = grid.first[cell]; i < grid.first[cell + 1]; ++i) {
      const std::uint32_t edge = grid.edges[i];
      look_at(parts, plane, edge, (parts.edges[edge].flags & RoadEdge::joined) != 0 ? best.joined : best.island);
    }
  };
  for (std::int64_t ring = 0; ring < rings; ++ring) {
    // Everything in this ring is at least `bound` from the place (whole cells lie between).
    const double narrowest = grid.rows == 1 ? width : grid.columns == 1 ? height : std::min(width, height);
    const double bound = static_cast<double>(ring - 1) * narrowest;
    if (bound > best.joined.metres) break;
    if (best.joined.edge == no_road_index && best.island.edge != no_road_index && bound > island_limit &&
        bound > best.island.metres)
      break;
    for (std::int64_t c = column - ring; c <= column + ring; ++c) {
      visit(row - ring, c);
      if (ring > 0) visit(row + ring, c);
    }
    for (std::int64_t r = row - ring + 1; r <= row + ring - 1; ++r) {
      visit(r, column - ring);
      visit(r, column + ring);
    }
  }
  return best;
}

Snap snap_at(const RoadGraph& roads, const Nearest& nearest) {
  const RoadGraphParts& parts = roads.parts();
  const RoadEdge& edge = parts.edges[nearest.edge];
  double before = 0;
  for (std::size_t i = edge.geometry; i < nearest.piece; ++i)
    before += ground_length(parts.geometry[i], parts.geometry[i + 1]);
  const FixedPosition a = parts.geometry[nearest.piece], b = parts.geometry[nearest.piece + 1];
  before += nearest.share * ground_length(a, b);
  Snap snap;
  snap.position = {1e-7 * (a.latitude + nearest.share * (static_cast<double>(b.latitude) - a.latitude)),
                   1e-7 * (a.longitude + nearest.share * longitude_units_between(a.longitude, b.longitude))};
  snap.distance = {nearest.metres};
  snap.road = roads.label(nearest.edge);
  snap.edge = nearest.edge;
  snap.share = edge.metres > 0 ? std::clamp(before / edge.metres, 0.0, 1.0) : 0.0;
  return snap;
}

std::string metres_or_km(double metres) {
  return metres < 1000 ? fixed(metres, 0) + " m" : fixed(metres / 1000, metres < 10000 ? 1 : 0) + " km";
}

}  // namespace

Result<Snap> snap(const RoadGraph& roads, Position place, Metres limit) {
  const std::string where = fixed(place.latitude, 5) + ", " + fixed(place.longitude, 5);
  if (!(std::abs(place.latitude) <= 90 && std::abs(place.longitude) <= 180))
    return bad_input(where, "is no position: latitude lies within -90..90 and longitude within -180..180 degrees");
  Plane plane{fixed_position(place), {}};
  plane.scale = ground_scale(plane.origin.latitude);
  const Both best = search(roads.parts(), plane, limit.value);
  const bool has_joined = best.joined.metres <= limit.value, has_island = best.island.metres <= limit.value;
  if (has_joined) {
    Snap result = snap_at(roads, best.joined);
    if (has_island && best.island.metres + 10 < best.joined.metres)
      result.note = "a nearer road (" + roads.label(best.island.edge) + ", " + metres_or_km(best.island.metres) +
                    ") does not join the rest of the map, so " + result.road + ", " + metres_or_km(best.joined.metres) +
                    " away, is used";
    return result;
  }
  if (has_island) {
    Snap result = snap_at(roads, best.island);
    result.note = result.road + " does not join the rest of the map: there may be no way to or from it";
    return result;
  }
  const Nearest& nearest = best.joined.metres <= best.island.metres ? best.joined : best.island;
  return not_found(where, "is " + metres_or_km(nearest.metres) + " from the nearest road a car may use (" +
                              roads.label(nearest.edge) + "); the limit is " + metres_or_km(limit.value) +
                              ". Move the place to a road, raise the limit, or use a map that covers it");
}

}  // namespace outbye
