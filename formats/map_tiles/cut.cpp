#include "formats/map_tiles/cut.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "core/geo/stray_points.h"

namespace outbye {
namespace {

double squared_distance(WorldPoint p, WorldPoint a, WorldPoint b) {
  const double dx = double{1} * b.x - a.x, dy = double{1} * b.y - a.y;
  const double px = double{1} * p.x - a.x, py = double{1} * p.y - a.y;
  const double length = dx * dx + dy * dy;
  const double t = length > 0 ? std::clamp((px * dx + py * dy) / length, 0.0, 1.0) : 0.0;
  const double ex = px - t * dx, ey = py - t * dy;
  return ex * ex + ey * ey;
}

std::int32_t at_share(std::int32_t from, std::int32_t to, double t) {
  return static_cast<std::int32_t>(std::lround(from + t * (double{1} * to - from)));
}

}  // namespace

std::vector<WorldPoint> simplified(std::span<const WorldPoint> line, double tolerance) {
  if (line.size() < 3) return {line.begin(), line.end()};
  const std::size_t last = line.size() - 1;
  const auto off = [line](std::size_t i, std::size_t from, std::size_t to) {
    return squared_distance(line[i], line[from], line[to]);
  };
  const double squared_tolerance = tolerance * tolerance;
  std::vector<bool> kept(line.size());
  kept.front() = kept[last] = true;
  if (line.front() == line[last]) {
    std::size_t far = 0;
    double most = 0;
    for (std::size_t i = 1; i < last; ++i) {
      const double distance = squared_distance(line[i], line.front(), line.front());
      if (distance > most) {
        most = distance;
        far = i;
      }
    }
    kept[far] = true;
    keep_stray_points(0, far, squared_tolerance, off, kept);
    keep_stray_points(far, last, squared_tolerance, off, kept);
  } else {
    keep_stray_points(0, last, squared_tolerance, off, kept);
  }
  std::vector<WorldPoint> result;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (kept[i]) result.push_back(line[i]);
  }
  return result;
}

WorldBox box_of(std::span<const WorldPoint> points) {
  WorldBox box{points.front().x, points.front().y, points.front().x, points.front().y};
  for (const WorldPoint p : points) {
    box.west = std::min(box.west, p.x);
    box.east = std::max(box.east, p.x);
    box.north = std::min(box.north, p.y);
    box.south = std::max(box.south, p.y);
  }
  return box;
}

std::vector<std::vector<WorldPoint>> line_within(std::span<const WorldPoint> line, const WorldBox& box) {
  std::vector<std::vector<WorldPoint>> pieces;
  bool is_open = false;  // the last piece ends where the next segment begins
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const WorldPoint a = line[i], b = line[i + 1];
    // Liang and Barsky 1984: the share of the segment that is inside.
    double from = 0, to = 1;
    const auto narrow = [&](double step, double room) {  // step * t <= room
      if (step == 0) return room >= 0;
      const double t = room / step;
      if (step < 0) {
        from = std::max(from, t);
      } else {
        to = std::min(to, t);
      }
      return from <= to;
    };
    const double dx = double{1} * b.x - a.x, dy = double{1} * b.y - a.y;
    const bool is_inside = narrow(-dx, double{1} * a.x - box.west) && narrow(dx, double{1} * box.east - a.x) &&
                           narrow(-dy, double{1} * a.y - box.north) && narrow(dy, double{1} * box.south - a.y);
    if (!is_inside || (from == to && (dx != 0 || dy != 0))) {
      is_open = false;
      continue;
    }
    const WorldPoint start = from == 0 ? a : WorldPoint{at_share(a.x, b.x, from), at_share(a.y, b.y, from)};
    const WorldPoint end = to == 1 ? b : WorldPoint{at_share(a.x, b.x, to), at_share(a.y, b.y, to)};
    if (!is_open || from > 0) pieces.push_back({start});
    pieces.back().push_back(end);
    is_open = to == 1;
  }
  return pieces;
}

std::vector<WorldPoint> ring_within(std::span<const WorldPoint> ring, const WorldBox& box) {
  std::vector<WorldPoint> points(ring.begin(), ring.end());
  if (!points.empty() && points.front() == points.back()) points.pop_back();
  std::vector<WorldPoint> next;
  // `inside` and `crossing` of one edge line after the other.
  const auto cut = [&](const auto& inside, const auto& crossing) {
    next.clear();
    for (std::size_t i = 0; i < points.size(); ++i) {
      const WorldPoint a = points[i == 0 ? points.size() - 1 : i - 1], b = points[i];
      if (inside(a) != inside(b)) next.push_back(crossing(a, b));
      if (inside(b)) next.push_back(b);
    }
    points.swap(next);
  };
  const auto at_x = [](std::int32_t x) {
    return [x](WorldPoint a, WorldPoint b) {
      return WorldPoint{x, at_share(a.y, b.y, (double{1} * x - a.x) / (double{1} * b.x - a.x))};
    };
  };
  const auto at_y = [](std::int32_t y) {
    return [y](WorldPoint a, WorldPoint b) {
      return WorldPoint{at_share(a.x, b.x, (double{1} * y - a.y) / (double{1} * b.y - a.y)), y};
    };
  };
  cut([&](WorldPoint p) { return p.x >= box.west; }, at_x(box.west));
  cut([&](WorldPoint p) { return p.x <= box.east; }, at_x(box.east));
  cut([&](WorldPoint p) { return p.y >= box.north; }, at_y(box.north));
  cut([&](WorldPoint p) { return p.y <= box.south; }, at_y(box.south));
  if (points.size() < 3) return {};
  points.push_back(points.front());
  return points;
}

double twice_area(std::span<const WorldPoint> ring) {
  double sum = 0;
  const WorldPoint origin = ring.front();  // near it the products stay exact
  for (std::size_t i = 0; i + 1 < ring.size(); ++i) {
    const double ax = double{1} * ring[i].x - origin.x, ay = double{1} * ring[i].y - origin.y;
    const double bx = double{1} * ring[i + 1].x - origin.x, by = double{1} * ring[i + 1].y - origin.y;
    sum += ax * by - bx * ay;
  }
  return sum;
}

}  // namespace outbye
