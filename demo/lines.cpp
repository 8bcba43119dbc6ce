// How a link runs over the ground: it bends to keep off the steep, and never strays over a river it does not cross.
#include <algorithm>
#include <cmath>

#include "demo/net.h"

namespace outbye::demo {
namespace {

struct Bending {
  const Terrain& terrain;
  Seed seed;
  std::uint64_t link;
  double freedom;  // share of a stretch by which its middle may be moved
  bool crosses;
  std::uint64_t step{};
};

void bend(Bending& b, Spot from, Spot to, std::vector<Spot>& line) {
  const double length = distance(from, to);
  if (length < 85.0) return;
  const Spot across{-(to.y - from.y) / length, (to.x - from.x) / length};
  const double wanted = 0.5 * (b.terrain.height(from) + b.terrain.height(to));
  const double shift = chance(b.seed, b.link, ++b.step, 30) - 0.5;
  Spot best = 0.5 * (from + to);
  double least = 1e300;
  for (int k = -2; k <= 2; ++k) {
    const double offset = (0.5 * k + 0.5 * shift) * b.freedom * length;
    const Spot s = 0.5 * (from + to) + offset * across;
    double cost = 2.5 * std::abs(b.terrain.height(s) - wanted) + 0.10 * std::abs(offset) +
                  0.06 * length * chance(b.seed, b.link, b.step, 31 + static_cast<std::uint64_t>(k + 2));
    if (!b.crosses && b.terrain.bank(s) != b.terrain.bank(from)) cost += 1e6;
    if (cost < least) {
      least = cost;
      best = s;
    }
  }
  bend(b, from, best, line);
  line.push_back(best);
  bend(b, best, to, line);
}

double freedom(RoadClass road) {
  switch (road) {
    case RoadClass::primary:
      return 0.07;
    case RoadClass::secondary:
      return 0.10;
    case RoadClass::residential:
    case RoadClass::footpath:
      return 0.06;
    default:
      return 0.13;
  }
}

// Catmull and Rom's spline through the line, eight pieces a stretch.
std::vector<Spot> smoothed(const std::vector<Spot>& line) {
  std::vector<Spot> fine{line.front()};
  constexpr int pieces = 8;
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const Spot p1 = line[i];
    const Spot p2 = line[i + 1];
    const Spot p0 = i > 0 ? line[i - 1] : p1;
    const Spot p3 = i + 2 < line.size() ? line[i + 2] : p2;
    for (int k = 1; k <= pieces; ++k) {
      const double t = static_cast<double>(k) / pieces;
      const Spot a = 2.0 * p1;
      const Spot b = p2 - p0;
      const Spot c = 2.0 * p0 - 5.0 * p1 + 4.0 * p2 - p3;
      const Spot d = 3.0 * p1 - p0 - 3.0 * p2 + p3;
      fine.push_back(k == pieces ? p2 : 0.5 * (a + t * (b + t * (c + t * d))));
    }
  }
  return fine;
}

double length_of(const std::vector<Spot>& line) {
  double sum = 0;
  for (std::size_t i = 1; i < line.size(); ++i) sum += distance(line[i - 1], line[i]);
  return sum;
}

}  // namespace

void make_lines(Net& net, const Terrain& terrain, Seed seed) {
  for (std::uint32_t i = 0; i < net.links.size(); ++i) {
    Link& link = net.links[i];
    std::vector<Spot> rough{net.sites[link.from].spot};
    Bending bending{terrain, seed, i, freedom(link.road), link.crosses_river};
    bend(bending, rough.front(), net.sites[link.to].spot, rough);
    rough.push_back(net.sites[link.to].spot);
    link.line = smoothed(rough);
    link.length = length_of(link.line);
  }
}

}  // namespace outbye::demo
