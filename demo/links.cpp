// Which sites are joined: relative neighbours by road, other Gabriel neighbours by trail, rivers crossed at few places.
#include <algorithm>
#include <cmath>
#include <numeric>
#include <tuple>

#include "demo/net.h"

namespace outbye::demo {

LinksAt::LinksAt(const Net& net) : start(net.sites.size() + 1), links(2 * net.links.size()) {
  for (const Link& link : net.links) {
    ++start[link.from + 1];
    ++start[link.to + 1];
  }
  std::partial_sum(start.begin(), start.end(), start.begin());
  std::vector<std::uint32_t> next(start.begin(), start.end() - 1);
  for (std::uint32_t k = 0; k < net.links.size(); ++k) {
    links[next[net.links[k].from]++] = k;
    links[next[net.links[k].to]++] = k;
  }
}

Groups::Groups(std::size_t n) : parent_(n) { std::iota(parent_.begin(), parent_.end(), 0U); }

std::uint32_t Groups::find(std::uint32_t a) {
  while (parent_[a] != a) a = parent_[a] = parent_[parent_[a]];
  return a;
}

bool Groups::join(std::uint32_t a, std::uint32_t b) {
  a = find(a);
  b = find(b);
  if (a == b) return false;
  parent_[std::max(a, b)] = std::min(a, b);
  return true;
}

namespace {

struct Candidate {
  std::uint32_t a;
  std::uint32_t b;
  double length;
  bool is_road;  // a relative-neighbour edge; else Gabriel only
  bool crosses;
};

// Sites in square cells, for looking about.
class Cells {
 public:
  Cells(const std::vector<Site>& sites, double side, double cell)
      : sites_(sites), cell_(cell), half_(0.5 * side), width_(static_cast<int>(side / cell) + 3) {
    items_.resize(static_cast<std::size_t>(width_) * static_cast<std::size_t>(width_));
    for (std::uint32_t i = 0; i < sites.size(); ++i)
      items_[index(column(sites[i].spot.x), column(sites[i].spot.y))].push_back(i);
  }
  // Sites within `reach` of site a, nearest first, equally near ones by number.
  void near(std::uint32_t a, double reach, std::vector<std::pair<double, std::uint32_t>>& found) const {
    found.clear();
    const Spot s = sites_[a].spot;
    const int r = static_cast<int>(std::ceil(reach / cell_));
    for (int y = std::max(0, column(s.y) - r); y <= std::min(width_ - 1, column(s.y) + r); ++y)
      for (int x = std::max(0, column(s.x) - r); x <= std::min(width_ - 1, column(s.x) + r); ++x)
        for (const std::uint32_t b : items_[index(x, y)])
          if (const double d = distance(s, sites_[b].spot); b != a && d <= reach) found.emplace_back(d, b);
    std::sort(found.begin(), found.end());
  }

 private:
  int column(double v) const { return std::clamp(static_cast<int>((v + half_) / cell_) + 1, 0, width_ - 1); }
  std::size_t index(int x, int y) const {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) + static_cast<std::size_t>(x);
  }
  const std::vector<Site>& sites_;
  double cell_;
  double half_;
  int width_;
  std::vector<std::vector<std::uint32_t>> items_;
};

std::vector<Candidate> neighbours(const Net& net, const Terrain& terrain, double spacing) {
  const Cells cells(net.sites, terrain.side(), spacing);
  std::vector<Candidate> candidates;
  std::vector<std::pair<double, std::uint32_t>> near;
  for (std::uint32_t a = 0; a < net.sites.size(); ++a) {
    cells.near(a, 3.0 * spacing, near);
    const Spot from = net.sites[a].spot;
    for (std::size_t j = 0; j < near.size(); ++j) {
      const auto [d, b] = near[j];
      if (b < a) continue;
      const Spot to = net.sites[b].spot;
      const Spot middle = 0.5 * (from + to);
      bool is_gabriel = true;
      bool is_relative = true;
      // Whatever lies between must be nearer to a than b is, so only the sites before j can.
      for (std::size_t k = 0; k < j && is_gabriel; ++k) {
        const Spot c = net.sites[near[k].second].spot;
        if (distance(c, to) < d) is_relative = false;
        if (distance(c, middle) < 0.5 * d) is_gabriel = false;
      }
      if (!is_gabriel) continue;
      if (!terrain.is_land(middle) || !terrain.is_land(0.75 * from + 0.25 * to) ||
          !terrain.is_land(0.25 * from + 0.75 * to))
        continue;
      candidates.push_back({a, b, d, is_relative, terrain.bank(from) != terrain.bank(to)});
    }
  }
  return candidates;
}

// Marks the river crossings that are kept: a road bridge each few kilometres of river, a horse ford a little oftener.
std::vector<bool> kept_crossings(const Net& net, const std::vector<Candidate>& candidates, const Terrain& terrain,
                                 bool roads, double apart, const std::vector<bool>& also_there) {
  std::vector<bool> kept(candidates.size());
  std::vector<std::vector<std::pair<double, std::size_t>>> by_river(terrain.rivers().size());
  const auto northing = [&](std::size_t i) {
    return 0.5 * (net.sites[candidates[i].a].spot.y + net.sites[candidates[i].b].spot.y);
  };
  const auto river_of = [&](std::size_t i) {
    return std::min(terrain.bank(net.sites[candidates[i].a].spot), terrain.bank(net.sites[candidates[i].b].spot));
  };
  for (std::size_t i = 0; i < candidates.size(); ++i)
    if (candidates[i].crosses && (roads == candidates[i].is_road || !roads))
      by_river[river_of(i)].emplace_back(northing(i), i);
  for (auto& river : by_river) {
    std::sort(river.begin(), river.end());
    double last = -1e9;
    for (const auto& [y, i] : river) {
      if (also_there[i]) {
        last = y;
        continue;
      }
      bool next_is_near = false;
      for (const auto& [other, k] : river)
        if (also_there[k] && std::abs(other - y) < apart) next_is_near = true;
      if (y - last < apart || next_is_near) continue;
      kept[i] = true;
      last = y;
    }
  }
  return kept;
}

}  // namespace

void make_links(Net& net, const Terrain& terrain, Seed seed, double spacing) {
  const std::vector<Candidate> candidates = neighbours(net, terrain, spacing);
  const std::vector<bool> none(candidates.size());
  const std::vector<bool> bridges = kept_crossings(net, candidates, terrain, true, 5200.0, none);
  const std::vector<bool> fords = kept_crossings(net, candidates, terrain, false, 1300.0, bridges);

  // Roads: relative neighbours, then whatever still joins two parts, shortest first.
  std::vector<bool> is_road(candidates.size());
  Groups parts(net.sites.size());
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    is_road[i] = candidates[i].is_road && (!candidates[i].crosses || bridges[i]);
    if (is_road[i]) parts.join(candidates[i].a, candidates[i].b);
  }
  std::vector<std::size_t> order(candidates.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&](std::size_t i, std::size_t k) {
    // A link over the river is the last resort.
    return std::make_tuple(candidates[i].crosses, candidates[i].length, i) <
           std::make_tuple(candidates[k].crosses, candidates[k].length, k);
  });
  for (const std::size_t i : order)
    if (!is_road[i] && parts.join(candidates[i].a, candidates[i].b)) is_road[i] = true;

  for (std::size_t i = 0; i < candidates.size(); ++i) {
    const Candidate& c = candidates[i];
    Link link;
    link.from = c.a;
    link.to = c.b;
    link.crosses_river = c.crosses;
    if (!is_road[i]) {
      const bool in_place = net.sites[c.a].place != nowhere && net.sites[c.a].place == net.sites[c.b].place;
      const double draw = chance(seed, c.a, c.b, 20);
      if (in_place) {
        if (draw > 0.55) continue;
        link.road = draw < 0.25 ? RoadClass::residential : RoadClass::footpath;
        link.is_one_way = link.road == RoadClass::residential;
        if (c.crosses) continue;
      } else if (c.crosses) {
        if (!fords[i]) continue;
        link.road = RoadClass::bridleway;
      } else {
        if (draw > 0.82) continue;
        link.road = draw < 0.50 ? RoadClass::bridleway : draw < 0.72 ? RoadClass::track : RoadClass::footpath;
        if (link.road == RoadClass::track) link.grade = static_cast<std::uint8_t>(3 + (draw < 0.6) + (draw < 0.54));
      }
    }
    net.links.push_back(link);
  }
}

}  // namespace outbye::demo
