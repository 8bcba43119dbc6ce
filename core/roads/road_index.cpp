#include "core/roads/road_index.h"

#include <algorithm>
#include <cmath>

#include "core/roads/ground_length.h"

namespace outbye {
namespace {

// The strongly connected component of every node, by Tarjan's method without recursion; sizes by component.
struct Components {
  std::vector<std::uint32_t> of_node;
  std::vector<std::uint32_t> size;
};
Components strong_components(const RoadGraphParts& parts) {
  const auto nodes = static_cast<std::uint32_t>(parts.nodes.size());
  Components result;
  result.of_node.assign(nodes, no_road_index);
  std::vector<std::uint32_t> low(nodes, 0), stack, open, next_arc(nodes);  // low 0: not seen
  std::uint32_t order = 0;
  const auto head_node = [&](std::uint32_t state) { return state < nodes ? state : parts.copy_of[state - nodes]; };
  std::vector<std::uint32_t> index(nodes, 0);
  for (std::uint32_t root = 0; root < nodes; ++root) {
    if (index[root] != 0) continue;
    open.push_back(root);
    index[root] = low[root] = ++order;
    next_arc[root] = parts.state_first[root];
    stack.push_back(root);
    while (!open.empty()) {
      const std::uint32_t v = open.back();
      if (next_arc[v] < parts.state_first[v + 1]) {
        const std::uint32_t w = head_node(parts.arcs[next_arc[v]++].head);
        if (index[w] == 0) {
          index[w] = low[w] = ++order;
          next_arc[w] = parts.state_first[w];
          stack.push_back(w);
          open.push_back(w);
        } else if (result.of_node[w] == no_road_index) {
          low[v] = std::min(low[v], index[w]);
        }
        continue;
      }
      open.pop_back();
      if (!open.empty()) low[open.back()] = std::min(low[open.back()], low[v]);
      if (low[v] != index[v]) continue;
      const auto component = static_cast<std::uint32_t>(result.size.size());
      std::uint32_t size = 0, w = 0;
      do {
        w = stack.back();
        stack.pop_back();
        result.of_node[w] = component;
        ++size;
      } while (w != v);
      result.size.push_back(size);
    }
  }
  return result;
}

// Calls visit(cell) for the cells of the grid that a straight piece touches.
template <class Visit>
void visit_cells(const RoadGrid& grid, FixedPosition a, FixedPosition b, const Visit& visit) {
  const double height = (static_cast<double>(grid.high.latitude) - grid.low.latitude) / grid.rows;
  const double width = (static_cast<double>(grid.high.longitude) - grid.low.longitude) / grid.columns;
  const auto row_of = [&](double latitude) {
    return height > 0 ? std::clamp<double>(std::floor((latitude - grid.low.latitude) / height), 0, grid.rows - 1.0) : 0;
  };
  const auto column_of = [&](double longitude) {
    return width > 0 ? std::clamp<double>(std::floor((longitude - grid.low.longitude) / width), 0, grid.columns - 1.0)
                     : 0;
  };
  if (a.latitude > b.latitude) std::swap(a, b);
  const double rise = static_cast<double>(b.latitude) - a.latitude,
               run = static_cast<double>(b.longitude) - a.longitude;
  const auto first = static_cast<std::uint32_t>(row_of(a.latitude)),
             last = static_cast<std::uint32_t>(row_of(b.latitude));
  for (std::uint32_t row = first; row <= last; ++row) {
    double from = 0, to = 1;  // share of the piece inside this row
    if (first != last) {
      from = std::clamp((grid.low.latitude + row * height - a.latitude) / rise, 0.0, 1.0);
      to = std::clamp((grid.low.latitude + (row + 1) * height - a.latitude) / rise, 0.0, 1.0);
    }
    double west = a.longitude + from * run, east = a.longitude + to * run;
    if (west > east) std::swap(west, east);
    const auto c0 = static_cast<std::uint32_t>(column_of(west)), c1 = static_cast<std::uint32_t>(column_of(east));
    for (std::uint32_t c = c0; c <= c1; ++c) visit(row * grid.columns + c);
  }
}

}  // namespace

void mark_joined(RoadGraphParts& parts) {
  const Components components = strong_components(parts);
  if (components.size.empty()) return;
  const std::uint32_t largest = *std::max_element(components.size.begin(), components.size.end());
  for (RoadEdge& edge : parts.edges) {
    const std::uint32_t component = components.of_node[edge.tail];
    const bool joined = component == components.of_node[edge.head] && components.size[component] * 10 >= largest &&
                        components.size[component] > 1;
    if (joined) edge.flags |= RoadEdge::joined;
  }
}

void mark_dead_ends(RoadGraphParts& parts) {
  const std::size_t nodes = parts.nodes.size();
  parts.way_out.assign(nodes, no_road_index);
  std::vector<std::uint32_t> degree(nodes, 0), incident(nodes, 0);  // the exclusive or of the edges still there
  std::vector<std::uint8_t> keep(nodes, 0);
  for (const std::uint32_t node : parts.copy_of) keep[node] = 1;
  std::vector<std::uint8_t> keep_too(keep);
  for (std::uint32_t e = 0; e < parts.edges.size(); ++e) {
    const RoadEdge& edge = parts.edges[e];
    for (const std::uint32_t end : {edge.tail, edge.head}) {
      ++degree[end];
      incident[end] ^= e;
    }
    if (keep[edge.tail]) keep_too[edge.head] = 1;
    if (keep[edge.head]) keep_too[edge.tail] = 1;
  }
  for (std::uint32_t start = 0; start < nodes; ++start) {
    std::uint32_t node = start;
    while (degree[node] == 1 && !keep_too[node] && parts.way_out[node] == no_road_index) {
      const std::uint32_t e = incident[node];
      const std::uint32_t other = parts.edges[e].tail ^ parts.edges[e].head ^ node;
      parts.way_out[node] = other;
      degree[node] = 0;
      --degree[other];
      incident[other] ^= e;
      if (other > start) break;  // its own turn comes
      node = other;
    }
  }
}

void make_grid(RoadGraphParts& parts) {
  RoadGrid& grid = parts.grid;
  grid = RoadGrid{};
  grid.low = grid.high = parts.geometry.front();
  for (const FixedPosition& at : parts.geometry) {
    grid.low = {std::min(grid.low.latitude, at.latitude), std::min(grid.low.longitude, at.longitude)};
    grid.high = {std::max(grid.high.latitude, at.latitude), std::max(grid.high.longitude, at.longitude)};
  }
  const GroundScale scale = ground_scale(0.5 * (static_cast<double>(grid.low.latitude) + grid.high.latitude));
  const double height = (static_cast<double>(grid.high.latitude) - grid.low.latitude) * scale.latitude;
  const double width = (static_cast<double>(grid.high.longitude) - grid.low.longitude) * scale.longitude;
  const double wanted = std::sqrt(height * width / (2.0 * static_cast<double>(parts.edges.size())));
  const double side = std::max({150.0, wanted, height / 8192.0, width / 8192.0});
  grid.rows = static_cast<std::uint32_t>(std::floor(height / side)) + 1;
  grid.columns = static_cast<std::uint32_t>(std::floor(width / side)) + 1;

  const std::size_t cells = std::size_t{grid.rows} * grid.columns;
  std::vector<std::uint32_t> last(cells, no_road_index);  // the edge seen last in each cell: each is listed once
  grid.first.assign(cells + 1, 0);
  const auto for_each_touch = [&](const auto& visit) {
    std::fill(last.begin(), last.end(), no_road_index);
    for (std::uint32_t e = 0; e < parts.edges.size(); ++e) {
      const std::size_t end = e + 1 < parts.edges.size() ? parts.edges[e + 1].geometry : parts.geometry.size();
      for (std::size_t i = parts.edges[e].geometry; i + 1 < end; ++i)
        visit_cells(grid, parts.geometry[i], parts.geometry[i + 1], [&](std::uint32_t cell) {
          if (last[cell] == e) return;
          last[cell] = e;
          visit(cell, e);
        });
    }
  };
  for_each_touch([&](std::uint32_t cell, std::uint32_t) { ++grid.first[cell + 1]; });
  for (std::size_t c = 0; c < cells; ++c) grid.first[c + 1] += grid.first[c];
  grid.edges.resize(grid.first.back());
  std::vector<std::uint32_t> next(grid.first.begin(), grid.first.end() - 1);
  for_each_touch([&](std::uint32_t cell, std::uint32_t edge) { grid.edges[next[cell]++] = edge; });
}

}  // namespace outbye
