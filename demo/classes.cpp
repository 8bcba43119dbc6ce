// What each road is: the fastest ways between places become main roads, the rest lanes, streets, drives and tracks.
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <queue>
#include <tuple>

#include "demo/net.h"

namespace outbye::demo {
namespace {

double class_cost(const Link& link) {
  switch (link.road) {
    case RoadClass::primary:
      return 0.55;
    case RoadClass::secondary:
      return 0.65;
    case RoadClass::tertiary:
      return 0.8;
    default:
      return 1.0;
  }
}
constexpr double least_cost = 0.55;  // of class_cost, for the bound of A*

// A* over roads; the scratch memory is kept between searches and cleared by what was touched.
class WayFinder {
 public:
  WayFinder(Net& net, const Terrain& terrain)
      : net_(net),
        at_(net),
        cost_(net.sites.size(), unreached),
        into_(net.sites.size(), nowhere),
        effort_(net.links.size()) {
    for (std::size_t i = 0; i < net.links.size(); ++i) {
      const Link& link = net.links[i];
      const Spot a = net.sites[link.from].spot;
      const Spot b = net.sites[link.to].spot;
      effort_[i] =
          distance(a, b) + 4.0 * std::abs(terrain.height(a) - terrain.height(b)) + (link.crosses_river ? 300.0 : 0.0);
    }
  }

  // Makes every link of the best way at least of class `road`.
  void upgrade(std::uint32_t from, std::uint32_t to, RoadClass road) {
    const Spot goal = net_.sites[to].spot;
    const auto bound = [&](std::uint32_t s) { return least_cost * distance(net_.sites[s].spot, goal); };
    using Entry = std::pair<double, std::uint32_t>;
    std::priority_queue<Entry, std::vector<Entry>, std::greater<>> queue;
    cost_[from] = 0;
    touched_.push_back(from);
    queue.emplace(bound(from), from);
    while (!queue.empty()) {
      const auto [estimate, site] = queue.top();
      queue.pop();
      if (site == to) break;
      if (estimate > cost_[site] + bound(site) + 1e-9) continue;
      for (std::uint32_t k = at_.start[site]; k < at_.start[site + 1]; ++k) {
        const std::uint32_t i = at_.links[k];
        const Link& link = net_.links[i];
        if (link.road > RoadClass::unclassified) continue;
        const std::uint32_t next = other_end(link, site);
        const double cost = cost_[site] + effort_[i] * class_cost(link);
        if (cost >= cost_[next]) continue;
        if (cost_[next] == unreached) touched_.push_back(next);
        cost_[next] = cost;
        into_[next] = i;
        queue.emplace(cost + bound(next), next);
      }
    }
    if (cost_[to] != unreached)
      for (std::uint32_t site = to; site != from; site = other_end(net_.links[into_[site]], site)) {
        Link& link = net_.links[into_[site]];
        link.road = std::min(link.road, road);
      }
    for (const std::uint32_t site : touched_) cost_[site] = unreached;
    touched_.clear();
  }

 private:
  static constexpr double unreached = std::numeric_limits<double>::infinity();
  Net& net_;
  LinksAt at_;
  std::vector<double> cost_;
  std::vector<std::uint32_t> into_;
  std::vector<double> effort_;
  std::vector<std::uint32_t> touched_;
};

void make_main_roads(Net& net, const Terrain& terrain) {
  WayFinder finder(net, terrain);
  struct Rule {
    PlaceKind from, up_to;  // places of kind `from` are joined to the nearest of kind `up_to` or larger
    std::size_t count;
    RoadClass road;
  };
  const Rule rules[] = {{PlaceKind::town, PlaceKind::town, 3, RoadClass::primary},
                        {PlaceKind::town, PlaceKind::large_village, 2, RoadClass::primary},
                        {PlaceKind::large_village, PlaceKind::large_village, 2, RoadClass::secondary},
                        {PlaceKind::village, PlaceKind::village, 2, RoadClass::tertiary},
                        {PlaceKind::hamlet, PlaceKind::village, 1, RoadClass::tertiary}};
  for (const Rule& rule : rules)
    for (std::uint32_t p = 0; p < net.places.size(); ++p) {
      if (net.places[p].kind != rule.from) continue;
      if (rule.from == PlaceKind::hamlet && p % 2 == 0) continue;  // every other hamlet lies off the yellow roads
      std::vector<std::pair<double, std::uint32_t>> others;
      for (std::uint32_t q = 0; q < net.places.size(); ++q)
        if (q != p && net.places[q].kind <= rule.up_to)
          others.emplace_back(distance(net.places[p].centre, net.places[q].centre), q);
      const std::size_t count = std::min(rule.count, others.size());
      std::partial_sort(others.begin(), others.begin() + static_cast<std::ptrdiff_t>(count), others.end());
      for (std::size_t k = 0; k < count; ++k)
        if (others[k].first < 30000) finder.upgrade(net.places[p].site, net.places[others[k].second].site, rule.road);
    }
}

// Lanes that nothing depends on become tracks and drives; streets in a place are residential.
void make_small_roads(Net& net, const Terrain& terrain, Seed seed) {
  std::vector<std::uint32_t> roads_at(net.sites.size());
  for (const Link& link : net.links)
    if (is_for_cars(link.road) && link.grade == 0) {
      ++roads_at[link.from];
      ++roads_at[link.to];
    }
  std::vector<std::uint32_t> order(net.links.size());
  std::iota(order.begin(), order.end(), 0U);
  std::stable_sort(order.begin(), order.end(), [&](std::uint32_t i, std::uint32_t k) {
    const auto rank = [&](std::uint32_t j) { return is_through(net.links[j].road) ? 0 : 1; };
    return rank(i) < rank(k);
  });
  Groups joined(net.sites.size());
  for (const std::uint32_t i : order) {
    Link& link = net.links[i];
    if (!is_for_cars(link.road) || link.grade != 0 || link.is_one_way) continue;
    const bool is_needed = joined.join(link.from, link.to);
    if (link.road != RoadClass::unclassified) continue;
    const Site& a = net.sites[link.from];
    const Site& b = net.sites[link.to];
    const double draw = chance(seed, link.from, link.to, 21);
    const double other = chance(seed, link.from, link.to, 22);
    const bool is_dead_end = roads_at[link.from] == 1 || roads_at[link.to] == 1;
    const double up = std::clamp((terrain.height(0.5 * (a.spot + b.spot)) - 100.0) / 250.0, 0.0, 0.4);
    if (a.place != nowhere && a.place == b.place) {
      link.road = RoadClass::residential;
    } else if (is_dead_end && !link.crosses_river) {
      if (draw < 0.35) {
        link.road = RoadClass::service;
        link.is_private = other < 0.3;
      } else if (draw < 0.75 + up) {
        link.road = RoadClass::track;
        link.grade = static_cast<std::uint8_t>(1 + static_cast<int>(other * 4.9));
        link.has_gate = other < 0.4;
        link.is_private = other > 0.9;
      }
    } else if (!is_needed && !link.crosses_river && draw < 0.45 + up) {
      link.road = RoadClass::track;
      link.grade = static_cast<std::uint8_t>(1 + static_cast<int>(other * 2.9));
      link.has_gate = other < 0.3;
      link.is_private = other > 0.93;
    } else if (draw > 0.985) {
      link.has_ford = true;
    } else if (draw > 0.965 && up > 0.1) {
      link.has_gate = true;  // a cattle grid
    }
  }
}

// Links of one class that run on through a site make one street.
void make_streets(Net& net) {
  Groups streets(net.links.size());
  const LinksAt at(net);
  for (std::uint32_t s = 0; s < net.sites.size(); ++s) {
    struct Pair {
      double bend;
      std::uint32_t i, k;
    };
    std::vector<Pair> pairs;
    for (std::uint32_t p = at.start[s]; p < at.start[s + 1]; ++p)
      for (std::uint32_t q = p + 1; q < at.start[s + 1]; ++q) {
        const Link& a = net.links[at.links[p]];
        const Link& b = net.links[at.links[q]];
        if (a.road != b.road || !is_for_cars(a.road) || a.is_one_way != b.is_one_way) continue;
        const Spot u = net.sites[other_end(a, s)].spot - net.sites[s].spot;
        const Spot v = net.sites[s].spot - net.sites[other_end(b, s)].spot;
        const double bend = std::abs(std::atan2(u.x * v.y - u.y * v.x, u.x * v.x + u.y * v.y));
        if (bend < 1.1) pairs.push_back({bend, at.links[p], at.links[q]});
      }
    std::sort(pairs.begin(), pairs.end(), [](const Pair& a, const Pair& b) {
      return std::make_tuple(a.bend, a.i, a.k) < std::make_tuple(b.bend, b.i, b.k);
    });
    std::vector<std::uint32_t> done;
    const auto is_done = [&](std::uint32_t i) { return std::find(done.begin(), done.end(), i) != done.end(); };
    for (const Pair& pair : pairs) {
      if (is_done(pair.i) || is_done(pair.k)) continue;
      streets.join(pair.i, pair.k);
      done.push_back(pair.i);
      done.push_back(pair.k);
    }
  }
  for (std::uint32_t i = 0; i < net.links.size(); ++i) net.links[i].street = streets.find(i);
}

}  // namespace

void classify(Net& net, const Terrain& terrain, Seed seed) {
  make_main_roads(net, terrain);
  make_small_roads(net, terrain, seed);
  make_streets(net);
}

}  // namespace outbye::demo
