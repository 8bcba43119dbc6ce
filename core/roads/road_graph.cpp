#include "core/roads/road_graph.h"

#include <algorithm>
#include <cmath>

namespace outbye {
namespace {

// `first` starts at 0, never falls and ends at `total`.
bool is_partition(const std::vector<std::uint32_t>& first, std::size_t groups, std::size_t total) {
  if (first.size() != groups + 1 || first.front() != 0 || first.back() != total) return false;
  return std::is_sorted(first.begin(), first.end());
}

bool is_duration(double seconds) { return seconds >= 0; }  // infinity allowed, not-a-number refused

std::string_view fault_of(const RoadGraphParts& p) {
  const std::size_t nodes = p.nodes.size(), edges = p.edges.size(), states = nodes + p.copy_of.size();
  if (nodes >= no_road_index / 2 || edges >= no_road_index / 2 || p.arcs.size() >= no_road_index) return "too large";
  if (p.name_first.size() < 2 || !is_partition(p.name_first, p.name_first.size() - 1, p.names.size())) return "names";
  if (!is_partition(p.state_first, states, p.arcs.size())) return "states";
  if (p.way_out.size() != nodes) return "dead ends";
  for (const std::uint32_t node : p.way_out)
    if (node != no_road_index && node >= nodes) return "dead ends";
  for (const std::uint32_t node : p.copy_of)
    if (node >= nodes) return "copies of nodes";
  const std::uint32_t plain_arcs = p.state_first[nodes];
  std::uint32_t begin = 0;
  for (std::size_t i = 0; i < edges; ++i) {
    const RoadEdge& e = p.edges[i];
    const std::size_t end = i + 1 < edges ? p.edges[i + 1].geometry : p.geometry.size();
    if (e.tail >= nodes || e.head >= nodes || e.geometry != begin || end < begin + std::size_t{2} ||
        end > p.geometry.size() || e.name >= p.name_first.size() - 1 ||
        static_cast<std::size_t>(e.road_class) >= road_class_count || !std::isfinite(e.metres) || e.metres < 0 ||
        !is_duration(e.forward) || !is_duration(e.backward))
      return "edges";
    begin = static_cast<std::uint32_t>(end);
    for (std::uint32_t direction = 0; direction < 2; ++direction) {
      const std::uint32_t arc = e.arcs[direction];
      if (std::isfinite(direction == 0 ? e.forward : e.backward) != (arc != no_road_index)) return "edges";
      if (arc == no_road_index) continue;
      const std::uint32_t from = direction == 0 ? e.tail : e.head;
      if (arc >= plain_arcs || p.arcs[arc].link != 2 * i + direction || arc < p.state_first[from] ||
          arc >= p.state_first[from + 1])
        return "edges";
    }
  }
  for (const RoadArc& arc : p.arcs) {
    if (arc.head >= states || arc.link / 2 >= edges || !std::isfinite(arc.seconds) || arc.seconds < 0 ||
        !std::isfinite(arc.metres) || arc.metres < 0)
      return "arcs";
    const std::uint32_t node = arc.head < nodes ? arc.head : p.copy_of[arc.head - nodes];
    const RoadEdge& e = p.edges[arc.link / 2];
    if (node != (arc.link % 2 == 0 ? e.head : e.tail)) return "arcs";
  }
  const std::uint64_t cells = std::uint64_t{p.grid.rows} * p.grid.columns;
  if (cells == 0 || cells > no_road_index || p.grid.high.latitude < p.grid.low.latitude ||
      p.grid.high.longitude < p.grid.low.longitude || !is_partition(p.grid.first, cells, p.grid.edges.size()))
    return "grid";
  for (const std::uint32_t edge : p.grid.edges)
    if (edge >= edges) return "grid";
  const auto is_on_earth = [](FixedPosition at) {
    return std::abs(std::int64_t{at.latitude}) <= 900000000 && std::abs(std::int64_t{at.longitude}) <= 1800000000;
  };
  for (const RoadPump& pump : p.pumps)
    if (pump.name >= p.name_first.size() - 1 || !is_on_earth(pump.position)) return "pumps";
  for (const FixedPosition& at : p.geometry)
    if (!is_on_earth(at)) return "geometry";
  return {};
}

}  // namespace

Result<RoadGraph> RoadGraph::from_parts(RoadGraphParts parts) {
  if (const std::string_view fault = fault_of(parts); !fault.empty())
    return bad_input("road graph", "is damaged (" + std::string(fault) + ")");
  return RoadGraph(std::move(parts));
}

std::vector<Position> RoadGraph::geometry(std::uint32_t edge) const {
  const std::size_t begin = parts_.edges[edge].geometry;
  const std::size_t end = edge + 1 < parts_.edges.size() ? parts_.edges[edge + 1].geometry : parts_.geometry.size();
  std::vector<Position> result;
  result.reserve(end - begin);
  for (std::size_t i = begin; i < end; ++i) result.push_back(position_of(parts_.geometry[i]));
  return result;
}

std::string_view RoadGraph::name_numbered(std::uint32_t name) const {
  return std::string_view(parts_.names)
      .substr(parts_.name_first[name], parts_.name_first[name + 1] - parts_.name_first[name]);
}

std::string_view RoadGraph::name(std::uint32_t edge) const { return name_numbered(parts_.edges[edge].name); }
std::string_view RoadGraph::name_of(const RoadPump& pump) const { return name_numbered(pump.name); }

std::string RoadGraph::label(std::uint32_t edge) const {
  const std::string_view text = name(edge);
  if (!text.empty()) return std::string(text);
  return "unnamed " + std::string(words_for(parts_.edges[edge].road_class));
}

RoadGraph::Box RoadGraph::box() const {
  std::vector<std::int32_t> latitudes, longitudes;
  const auto add = [&](const RoadEdge& edge) {
    for (const std::uint32_t node : {edge.tail, edge.head}) {
      latitudes.push_back(parts_.nodes[node].latitude);
      longitudes.push_back(parts_.nodes[node].longitude);
    }
  };
  for (const RoadEdge& edge : parts_.edges)
    if (edge.road_class >= RoadClass::tertiary && edge.road_class != RoadClass::ferry) add(edge);
  if (latitudes.empty())
    for (const RoadEdge& edge : parts_.edges) add(edge);
  std::sort(latitudes.begin(), latitudes.end());
  std::sort(longitudes.begin(), longitudes.end());
  const std::size_t cut = latitudes.size() / 200, last = latitudes.size() - 1 - cut;
  return {position_of({latitudes[cut], longitudes[cut]}), position_of({latitudes[last], longitudes[last]})};
}

Metres RoadGraph::total_length() const {
  Metres total{};
  for (const RoadEdge& edge : parts_.edges) total += Metres{edge.metres};
  return total;
}

}  // namespace outbye
