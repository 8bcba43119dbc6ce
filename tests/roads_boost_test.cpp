// Shortest drives against Boost.Graph's Dijkstra on random road graphs, and restrictions against a search that
// enumerates every allowed sequence of roads.
#include <gtest/gtest.h>

#include <algorithm>
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/dijkstra_shortest_paths.hpp>
#include <cstdio>
#include <limits>
#include <map>
#include <queue>
#include <vector>

#include "core/base/random.h"
#include "core/roads/drive_search.h"
#include "core/roads/road_builder.h"
#include "core/roads/route.h"

namespace outbye {
namespace {

constexpr double never = std::numeric_limits<double>::infinity();

struct RandomMap {
  RoadBuilder builder;
  std::vector<std::pair<std::uint32_t, std::uint32_t>> roads;  // points, one way each; its id is its index
  std::vector<RoadAttributes> attributes;
  std::vector<FixedPosition> positions;
};

RandomMap random_map(Rng& rng, std::size_t points, std::size_t roads) {
  RandomMap map;
  for (std::size_t i = 0; i < points; ++i) {
    const double latitude = 52 + 0.05 * uniform(rng);
    map.positions.push_back(fixed_position({latitude, 0.08 * uniform(rng)}));
    map.builder.add_point(map.positions.back());
  }
  for (std::size_t i = 0; i < roads; ++i) {
    const auto from = static_cast<std::uint32_t>(uniform_below(rng, points));
    const auto to = static_cast<std::uint32_t>(uniform_below(rng, points));
    if (from == to) continue;
    RoadAttributes road;
    road.forward = 20 + 80 * uniform(rng);
    road.backward = uniform(rng) < 0.25 ? 0 : 20 + 80 * uniform(rng);
    const std::vector<std::uint32_t> ends{from, to};
    map.builder.add_way(static_cast<std::int64_t>(map.roads.size()), ends, road, 0);
    map.roads.emplace_back(from, to);
    map.attributes.push_back(road);
  }
  return map;
}

// Source: Boost.Graph, dijkstra_shortest_paths. A place in the middle of an edge is a vertex of its own there.
TEST(DriveSearch, AgreesWithBoostOnRandomGraphs) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    Rng rng(Seed{seed});
    const std::size_t points = 5 + uniform_below(rng, 120);
    RandomMap map = random_map(rng, points, points + uniform_below(rng, 2 * points));
    const auto built = map.builder.build();
    if (!built) continue;
    const RoadGraph& roads = *built;
    std::vector<Snap> places;
    for (int i = 0; i < 8; ++i) {
      const auto edge = static_cast<std::uint32_t>(uniform_below(rng, roads.edge_count()));
      const double share = uniform(rng) < 0.2 ? 0.0 : uniform(rng);
      places.push_back({{}, {}, "", edge, share, ""});
    }
    using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS, boost::no_property,
                                        boost::property<boost::edge_weight_t, double>>;
    Graph graph(roads.node_count() + places.size());
    for (std::uint32_t e = 0; e < roads.edge_count(); ++e) {
      const RoadEdge& edge = roads.edges()[e];
      std::vector<std::pair<double, std::size_t>> along{{0.0, edge.tail}, {1.0, edge.head}};
      for (std::size_t p = 0; p < places.size(); ++p)
        if (places[p].edge == e) along.emplace_back(places[p].share, roads.node_count() + p);
      std::sort(along.begin() + 2, along.end());
      std::vector<std::pair<double, std::size_t>> order{along[0]};
      order.insert(order.end(), along.begin() + 2, along.end());
      order.push_back(along[1]);
      for (std::size_t i = 1; i < order.size(); ++i) {
        const double share = order[i].first - order[i - 1].first;
        // Two places at one spot are joined both ways, one-way or not.
        if (edge.forward < never) add_edge(order[i - 1].second, order[i].second, share * edge.forward, graph);
        if (edge.backward < never || (share == 0 && i > 1 && i + 1 < order.size()))
          add_edge(order[i].second, order[i - 1].second, edge.backward < never ? share * edge.backward : 0.0, graph);
      }
    }
    DriveSearch search(roads);
    for (std::size_t from = 0; from < places.size(); ++from) {
      std::vector<double> distance(num_vertices(graph));
      dijkstra_shortest_paths(graph, roads.node_count() + from, boost::distance_map(distance.data()));
      const auto found = search.find(places[from], places, false);
      for (std::size_t to = 0; to < places.size(); ++to) {
        const double theirs = distance[roads.node_count() + to];
        if (!found[to])
          EXPECT_GT(theirs, 1e300) << "seed " << seed;
        else
          EXPECT_NEAR(found[to]->seconds, theirs, 1e-9 * theirs + 1e-9) << "seed " << seed << " " << from << " " << to;
      }
    }
  }
}

// The fastest drive by trying sequences of arcs in order of time and checking each against the list of forbidden ones
// as they stand: no copies of nodes, no automaton. Infinite when there is none.
double by_sequences(const RoadGraph& roads, const std::vector<std::vector<std::uint32_t>>& no, const Snap& from,
                    const Snap& to) {
  struct Step {
    double seconds;
    std::vector<std::uint32_t> arcs;  // the last three driven
    bool operator<(const Step& other) const { return seconds > other.seconds; }
  };
  const RoadGraphParts& p = roads.parts();
  const auto end_of = [&](std::uint32_t arc) {
    const RoadEdge& edge = p.edges[p.arcs[arc].link / 2];
    return p.arcs[arc].link % 2 == 0 ? edge.head : edge.tail;
  };
  const auto part = [&](std::uint32_t arc, double share) {  // time from the beginning of an arc to a share of its edge
    return p.arcs[arc].seconds * (p.arcs[arc].link % 2 == 0 ? share : 1 - share);
  };
  double best = never;
  std::priority_queue<Step> queue;
  for (const std::uint32_t arc : p.edges[from.edge].arcs) {
    if (arc == no_road_index) continue;
    if (to.edge == from.edge && part(arc, to.share) >= part(arc, from.share))
      best = std::min(best, part(arc, to.share) - part(arc, from.share));
    queue.push({p.arcs[arc].seconds - part(arc, from.share), {arc}});
  }
  std::map<std::vector<std::uint32_t>, bool> seen;
  while (!queue.empty()) {
    const Step step = queue.top();
    queue.pop();
    if (step.seconds >= best) break;
    if (!seen.emplace(step.arcs, true).second) continue;
    const std::uint32_t node = end_of(step.arcs.back());
    const bool dead_end = p.state_first[node + 1] - p.state_first[node] == 1;
    for (std::uint32_t a = p.state_first[node]; a < p.state_first[node + 1]; ++a) {
      if (p.arcs[a].link == (p.arcs[step.arcs.back()].link ^ 1U) && !dead_end) continue;
      std::vector<std::uint32_t> arcs = step.arcs;
      arcs.push_back(a);
      const bool forbidden = std::any_of(no.begin(), no.end(), [&](const auto& s) {
        return s.size() <= arcs.size() && std::equal(s.rbegin(), s.rend(), arcs.rbegin());
      });
      if (forbidden) continue;
      if (p.arcs[a].link / 2 == to.edge) best = std::min(best, step.seconds + part(a, to.share));
      if (arcs.size() > 3) arcs.erase(arcs.begin());
      queue.push({step.seconds + p.arcs[a].seconds, arcs});
    }
  }
  return best;
}

TEST(TurnRestrictions, AgreeWithCheckingEverySequenceOnRandomGraphs) {
  std::size_t compared = 0, hindered = 0, skipped = 0;
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    Rng rng(Seed{seed});
    const std::size_t points = 5 + uniform_below(rng, 12);
    RandomMap map = random_map(rng, points, 2 * points);
    const auto free = map.builder.build();
    if (!free) continue;
    ASSERT_EQ(free->edge_count(), map.roads.size());  // every way is one edge, and edge numbers are way ids
    const RoadGraphParts& p = free->parts();
    const auto ends = [&](std::uint32_t arc) {
      const RoadEdge& edge = p.edges[p.arcs[arc].link / 2];
      return p.arcs[arc].link % 2 == 0 ? std::pair(edge.tail, edge.head) : std::pair(edge.head, edge.tail);
    };
    // Two or three different roads that can be driven one after another in just one way.
    std::vector<std::vector<std::uint32_t>> no;
    for (int i = 0; i < 40; ++i) {
      std::vector<std::uint32_t> edges;
      const std::size_t size = 2 + uniform_below(rng, 2);
      while (edges.size() < size) {
        const auto edge = static_cast<std::uint32_t>(uniform_below(rng, map.roads.size()));
        if (std::find(edges.begin(), edges.end(), edge) == edges.end()) edges.push_back(edge);
      }
      std::vector<std::vector<std::uint32_t>> chains{{}};
      for (const std::uint32_t edge : edges) {
        std::vector<std::vector<std::uint32_t>> longer;
        for (const auto& chain : chains)
          for (const std::uint32_t arc : p.edges[edge].arcs) {
            if (arc == no_road_index || (!chain.empty() && ends(chain.back()).second != ends(arc).first)) continue;
            longer.push_back(chain);
            longer.back().push_back(arc);
          }
        chains = longer;
      }
      if (chains.size() != 1) continue;
      TurnRestriction r;
      r.kind = RestrictionTag::Kind::no;
      r.from = edges.front();
      r.to = edges.back();
      if (size == 3) {
        r.via_ways = {edges[1]};
      } else {
        const FixedPosition at = p.nodes[ends(chains.front().back()).first];
        for (const auto& [from, to] : map.roads)
          for (const std::uint32_t point : {from, to})
            if (map.positions[point] == at) r.via_point = point;
      }
      map.builder.add_restriction(r);
      no.push_back(chains.front());
    }
    const auto built = map.builder.build();
    if (map.builder.counts().restrictions_used != no.size()) {
      ++skipped;  // two roads that join twice: unclear to the builder
      continue;
    }
    DriveSearch search(*built), free_search(*free);
    for (int i = 0; i < 40; ++i) {
      const auto any_place = [&] {
        const auto edge = static_cast<std::uint32_t>(uniform_below(rng, built->edge_count()));
        return Snap{{}, {}, "", edge, uniform(rng), ""};
      };
      const Snap from = any_place(), to = any_place();
      const double exact = by_sequences(*built, no, from, to);
      if (exact == never) continue;  // then turning back on the road is allowed, which sequences are not asked about
      const auto found = search.find(from, std::span(&to, 1), false),
                 freely = free_search.find(from, std::span(&to, 1), false);
      ASSERT_TRUE(found.front()) << "seed " << seed;
      EXPECT_NEAR(found.front()->seconds, exact, 1e-9 * exact + 1e-9) << "seed " << seed << " drive " << i;
      ++compared;
      hindered += exact > freely.front()->seconds + 1e-6;
    }
  }
  std::printf("  %zu drives compared, %zu of them longer for the restrictions; %zu maps left out\n", compared, hindered,
              skipped);
  EXPECT_GT(compared, 1000U);
  EXPECT_GT(hindered, 50U);
  EXPECT_LT(skipped, 50U);
}

}  // namespace
}  // namespace outbye
