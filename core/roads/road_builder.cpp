#include "core/roads/road_builder.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/roads/ground_length.h"
#include "core/roads/road_index.h"
#include "core/roads/road_turns.h"

namespace outbye {
namespace {

constexpr double never = std::numeric_limits<double>::infinity();

// Arcs sorted by tail (counting sort); the edges learn the numbers of their arcs.
void make_arcs(RoadGraphParts& parts) {
  parts.state_first.assign(parts.nodes.size() + 1, 0);
  for (const RoadEdge& e : parts.edges) {
    if (e.forward < never) ++parts.state_first[e.tail + 1];
    if (e.backward < never) ++parts.state_first[e.head + 1];
  }
  for (std::size_t i = 1; i < parts.state_first.size(); ++i) parts.state_first[i] += parts.state_first[i - 1];
  parts.arcs.resize(parts.state_first.back());
  std::vector<std::uint32_t> next(parts.state_first.begin(), parts.state_first.end() - 1);
  for (std::uint32_t i = 0; i < parts.edges.size(); ++i) {
    RoadEdge& e = parts.edges[i];
    if (e.forward < never) {
      e.arcs[0] = next[e.tail]++;
      parts.arcs[e.arcs[0]] = {e.head, 2 * i, e.forward, e.metres};
    }
    if (e.backward < never) {
      e.arcs[1] = next[e.head]++;
      parts.arcs[e.arcs[1]] = {e.tail, 2 * i + 1, e.backward, e.metres};
    }
  }
}

// Interleaves the bits of latitude and longitude (the Z-order of Morton, IBM 1966): near numbers are near places.
std::uint64_t place_number(FixedPosition at) {
  const auto spread = [](std::int32_t value) {
    std::uint64_t x = static_cast<std::uint32_t>(value) ^ 0x80000000U;  // negative values first
    x = (x | x << 16) & 0x0000ffff0000ffffU;
    x = (x | x << 8) & 0x00ff00ff00ff00ffU;
    x = (x | x << 4) & 0x0f0f0f0f0f0f0f0fU;
    x = (x | x << 2) & 0x3333333333333333U;
    return (x | x << 1) & 0x5555555555555555U;
  };
  return spread(at.latitude) << 1 | spread(at.longitude);
}

// Numbers the nodes anew so that neighbours lie close in memory too: a search then waits less for it.
void number_by_place(RoadGraphParts& parts, std::vector<std::uint32_t>& node_of_point) {
  std::vector<std::pair<std::uint64_t, std::uint32_t>> order;
  order.reserve(parts.nodes.size());
  for (std::uint32_t node = 0; node < parts.nodes.size(); ++node)
    order.emplace_back(place_number(parts.nodes[node]), node);
  std::sort(order.begin(), order.end());
  std::vector<std::uint32_t> new_number(order.size());
  std::vector<FixedPosition> nodes(order.size());
  for (std::uint32_t i = 0; i < order.size(); ++i) {
    new_number[order[i].second] = i;
    nodes[i] = parts.nodes[order[i].second];
  }
  parts.nodes = std::move(nodes);
  for (RoadEdge& edge : parts.edges) {
    edge.tail = new_number[edge.tail];
    edge.head = new_number[edge.head];
  }
  for (std::uint32_t& node : node_of_point)
    if (node != no_road_index) node = new_number[node];
}

// The edges of one way, in its order. Those of a way that is cut (a barrier, a missing point) do not all join.
struct EdgeRange {
  std::uint32_t first{};
  std::uint32_t last{};  // one past
};

enum class Found { yes, off_map, unclear };

// Turns restrictions on ways into restrictions on arcs.
class RestrictionReader {
 public:
  RestrictionReader(const RoadGraphParts& parts, const std::vector<std::uint32_t>& node_of_point)
      : parts_(parts), node_of_point_(node_of_point) {}

  Found read(const TurnRestriction& mapped, std::optional<EdgeRange> from, std::optional<EdgeRange> to,
             const std::vector<std::optional<EdgeRange>>& via, ArcRestriction& result) const {
    if (!from || !to) return Found::off_map;
    std::uint32_t node = no_road_index;
    std::vector<std::uint32_t> through;
    if (mapped.via_point) {
      if (*mapped.via_point >= node_of_point_.size()) return Found::off_map;
      node = node_of_point_[*mapped.via_point];
      if (node == no_road_index) return Found::unclear;
    } else {
      if (via.empty()) return Found::unclear;
      for (const auto& way : via)
        if (!way) return Found::off_map;
      const auto start = shared_end(*from, *via.front());
      if (!start) return Found::unclear;
      node = *start;
      for (std::size_t i = 0; i < via.size(); ++i) {
        const auto end = shared_end(i + 1 < via.size() ? *via[i + 1] : *to, *via[i]);
        if (!end || !drive_along(*via[i], node, *end, through)) return Found::unclear;
        node = *end;
      }
    }
    const std::uint32_t entry = through.empty() ? node : tail_of(through.front());
    const auto in = arcs_at(*from, entry, false);
    const auto out = arcs_at(*to, node, true);
    if (in.empty() || out.empty()) return Found::off_map;  // against a one-way: nothing to forbid
    const bool turns_back = mapped.from == mapped.to && through.empty();
    result.only = mapped.kind == RestrictionTag::Kind::only;
    if (turns_back) {
      // Back along the same way: only the arc that undoes the way in.
      if (in.size() != 1) return Found::unclear;
      result.exits.clear();
      for (const std::uint32_t arc : out)
        if (parts_.arcs[arc].link == (parts_.arcs[in.front()].link ^ 1U)) result.exits.push_back(arc);
      if (result.exits.empty()) return Found::unclear;
    } else {
      if (in.size() != 1 || out.size() != 1) return Found::unclear;
      result.exits = out;
    }
    result.arcs = in;
    result.arcs.insert(result.arcs.end(), through.begin(), through.end());
    return Found::yes;
  }

 private:
  std::uint32_t tail_of(std::uint32_t arc) const {
    const std::uint32_t link = parts_.arcs[arc].link;
    return link % 2 == 0 ? parts_.edges[link / 2].tail : parts_.edges[link / 2].head;
  }
  // Arcs of a way that leave (or arrive at) a node.
  std::vector<std::uint32_t> arcs_at(EdgeRange way, std::uint32_t node, bool leaving) const {
    std::vector<std::uint32_t> result;
    for (std::uint32_t e = way.first; e < way.last; ++e)
      for (const std::uint32_t arc : parts_.edges[e].arcs) {
        if (arc == no_road_index) continue;
        if ((leaving ? tail_of(arc) : parts_.arcs[arc].head) == node) result.push_back(arc);
      }
    return result;
  }
  // Where the way `of` begins or ends on the way `along`.
  std::optional<std::uint32_t> shared_end(EdgeRange of, EdgeRange along) const {
    for (const std::uint32_t end : {parts_.edges[of.last - 1].head, parts_.edges[of.first].tail})
      for (std::uint32_t e = along.first; e < along.last; ++e)
        if (parts_.edges[e].tail == end || parts_.edges[e].head == end) return end;
    return std::nullopt;
  }
  bool drive_along(EdgeRange way, std::uint32_t from, std::uint32_t to, std::vector<std::uint32_t>& arcs) const {
    for (const bool forward : {true, false}) {
      std::vector<std::uint32_t> path;
      std::uint32_t at = no_road_index;
      for (std::uint32_t i = 0; i < way.last - way.first; ++i) {
        const RoadEdge& e = parts_.edges[forward ? way.first + i : way.last - 1 - i];
        const std::uint32_t arc = e.arcs[forward ? 0 : 1];
        const std::uint32_t tail = forward ? e.tail : e.head, head = forward ? e.head : e.tail;
        if (at != tail) {
          path.clear();
          at = tail == from ? from : no_road_index;
        }
        if (at == no_road_index) continue;
        if (arc == no_road_index) {
          at = no_road_index;
          continue;
        }
        path.push_back(arc);
        at = head;
        if (at == to) {
          arcs.insert(arcs.end(), path.begin(), path.end());
          return true;
        }
      }
    }
    return false;
  }

  const RoadGraphParts& parts_;
  const std::vector<std::uint32_t>& node_of_point_;
};

}  // namespace

std::uint32_t RoadBuilder::name(std::string_view text) {
  if (text.empty()) return 0;
  const auto next = static_cast<std::uint32_t>(name_first_.size() - 1);
  const auto [found, is_new] = name_numbers_.try_emplace(std::string(text), next);
  if (is_new) {
    names_ += text;
    name_first_.push_back(static_cast<std::uint32_t>(names_.size()));
  }
  return found->second;
}

void RoadBuilder::add_way(std::int64_t id, std::span<const std::uint32_t> points, const RoadAttributes& attributes,
                          std::uint32_t name) {
  ways_.push_back({id, static_cast<std::uint32_t>(way_points_.size()), name, attributes});
  way_points_.insert(way_points_.end(), points.begin(), points.end());
}

// Splits the ways where they meet, end, or are blocked.
std::vector<std::uint32_t> RoadBuilder::make_edges(RoadGraphParts& parts) {
  const auto points_of = [&](std::size_t way) {
    const std::size_t begin = ways_[way].first_point;
    const std::size_t end = way + 1 < ways_.size() ? ways_[way + 1].first_point : way_points_.size();
    return std::span(way_points_).subspan(begin, end - begin);
  };
  std::vector<std::uint8_t> uses(points_.size(), 0);  // 2 or more: a node
  const auto use = [&](std::uint32_t point, int times) {
    uses[point] = static_cast<std::uint8_t>(std::min(uses[point] + times, 2));
  };
  for (std::size_t w = 0; w < ways_.size(); ++w) {
    std::uint32_t before = no_road_index;
    for (std::uint32_t& point : points_of(w)) {
      if (point != no_road_index && point >= points_.size()) point = no_road_index;
      if (point == before) continue;
      if (point != no_road_index) use(point, before == no_road_index ? 2 : 1);
      if (point == no_road_index) use(before, 2);
      before = point;
    }
    if (before != no_road_index) use(before, 2);
  }
  enum : std::uint8_t { blocked = 1, gate = 2 };
  std::vector<std::uint8_t> barrier(blocked_.empty() && gates_.empty() ? 0 : points_.size(), 0);
  for (const std::uint32_t point : gates_) {
    barrier[point] = gate;
    use(point, 2);
  }
  for (const std::uint32_t point : blocked_) barrier[point] = blocked;
  const auto barrier_at = [&](std::uint32_t point) { return barrier.empty() ? std::uint8_t{0} : barrier[point]; };

  std::vector<std::uint32_t> node_of_point(points_.size(), no_road_index);
  const auto new_node = [&](std::uint32_t point) {
    parts.nodes.push_back(points_[point]);
    return static_cast<std::uint32_t>(parts.nodes.size() - 1);
  };
  const auto node_at = [&](std::uint32_t point) {
    if (barrier_at(point) == blocked) return new_node(point);  // nothing joins here: each road ends on its own
    if (node_of_point[point] == no_road_index) node_of_point[point] = new_node(point);
    return node_of_point[point];
  };
  const auto add_edge = [&](const Way& way, std::span<const std::uint32_t> piece) {
    RoadEdge edge;
    edge.tail = node_at(piece.front());
    edge.head = node_at(piece.back());
    edge.geometry = static_cast<std::uint32_t>(parts.geometry.size());
    for (const std::uint32_t point : piece) parts.geometry.push_back(points_[point]);
    for (std::size_t i = 1; i < piece.size(); ++i)
      edge.metres += ground_length(points_[piece[i - 1]], points_[piece[i]]);
    const RoadAttributes& road = way.attributes;
    edge.name = way.name;
    edge.road_class = road.road_class;
    if (road.forward > 0) edge.forward = edge.metres * 3.6 / road.forward;
    if (road.backward > 0) edge.backward = edge.metres * 3.6 / road.backward;
    const bool has_gate = barrier_at(piece.front()) == gate || barrier_at(piece.back()) == gate;
    edge.flags = static_cast<std::uint8_t>((road.roundabout ? RoadEdge::roundabout : 0) |
                                           (road.destination_only ? RoadEdge::destination_only : 0) |
                                           (road.ford ? RoadEdge::ford : 0) | (has_gate ? RoadEdge::gate : 0));
    parts.edges.push_back(edge);
  };
  parts.edges.reserve(ways_.size() + ways_.size() / 2);
  parts.geometry.reserve(way_points_.size() + ways_.size() / 2);
  way_edges_.reserve(ways_.size() + 1);
  way_edges_.push_back(0);
  std::vector<std::uint32_t> piece;
  for (std::size_t w = 0; w < ways_.size(); ++w) {
    piece.clear();
    for (const std::uint32_t point : points_of(w)) {
      if (point == no_road_index) {
        if (!piece.empty()) ++counts_.pieces_cut;
        piece.clear();
        continue;
      }
      if (!piece.empty() && piece.back() == point) continue;
      piece.push_back(point);
      if (piece.size() < 2 || (uses[point] < 2 && barrier_at(point) != blocked)) continue;
      add_edge(ways_[w], piece);
      piece.assign(1, point);
    }
    way_edges_.push_back(static_cast<std::uint32_t>(parts.edges.size()));
  }
  return node_of_point;
}

// Brings the restrictions from ways and points to arcs.
void RoadBuilder::restrict_turns(RoadGraphParts& parts, const std::vector<std::uint32_t>& node_of_point) {
  std::vector<std::pair<std::int64_t, std::uint32_t>> by_id;  // only the ways that restrictions name
  std::vector<std::int64_t> wanted;
  for (const TurnRestriction& r : restrictions_) {
    wanted.insert(wanted.end(), r.via_ways.begin(), r.via_ways.end());
    wanted.insert(wanted.end(), {r.from, r.to});
  }
  std::sort(wanted.begin(), wanted.end());
  for (std::uint32_t w = 0; w < ways_.size(); ++w)
    if (std::binary_search(wanted.begin(), wanted.end(), ways_[w].id)) by_id.emplace_back(ways_[w].id, w);
  std::sort(by_id.begin(), by_id.end());
  const auto edges_of = [&](std::int64_t id) -> std::optional<EdgeRange> {
    const auto found = std::lower_bound(by_id.begin(), by_id.end(), std::pair{id, std::uint32_t{0}});
    if (found == by_id.end() || found->first != id) return std::nullopt;
    const EdgeRange range{way_edges_[found->second], way_edges_[found->second + 1]};
    if (range.first == range.last) return std::nullopt;
    return range;
  };
  const RestrictionReader reader(parts, node_of_point);
  std::vector<ArcRestriction> on_arcs;
  for (const TurnRestriction& r : restrictions_) {
    std::vector<std::optional<EdgeRange>> via;
    for (const std::int64_t way : r.via_ways) via.push_back(edges_of(way));
    ArcRestriction restriction;
    switch (reader.read(r, edges_of(r.from), edges_of(r.to), via, restriction)) {
      case Found::yes:
        on_arcs.push_back(std::move(restriction));
        break;
      case Found::off_map:
        ++counts_.restrictions_off_map;
        break;
      case Found::unclear:
        ++counts_.restrictions_unclear;
        break;
    }
  }
  counts_.restrictions_used = static_cast<std::uint32_t>(on_arcs.size());
  parts.restrictions = counts_.restrictions_used;
  add_restrictions(parts, on_arcs);
}

Result<RoadGraph> RoadBuilder::build() {
  counts_ = {};
  way_edges_.clear();
  RoadGraphParts parts;
  std::vector<std::uint32_t> node_of_point = make_edges(parts);
  if (parts.edges.empty()) return not_found("road map", "has no road that a car may use");
  number_by_place(parts, node_of_point);
  parts.name_first = name_first_;
  parts.names = names_;
  parts.pumps = pumps_;
  make_arcs(parts);
  restrict_turns(parts, node_of_point);
  mark_joined(parts);
  mark_dead_ends(parts);
  make_grid(parts);
  return RoadGraph(std::move(parts));  // made here, so not checked again
}

}  // namespace outbye
