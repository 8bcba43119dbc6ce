#include "formats/picture/road_background.h"

#include <algorithm>
#include <array>
#include <string>

namespace outbye {
namespace {

constexpr std::size_t ranks = 4;
constexpr RoadKey keys[ranks] = {
    {"main road", "class=\"road\" stroke=\"#bdb7a9\" stroke-width=\"3.2\""},
    {"country road", "class=\"road\" stroke=\"#cbc6ba\" stroke-width=\"2.2\""},
    {"lane or street", "class=\"road\" stroke=\"#d6d2c8\" stroke-width=\"1.3\""},
    {"track or drive", "class=\"road\" stroke=\"#d0ccc2\" stroke-width=\".8\" stroke-dasharray=\"3 2\""},
};

std::size_t rank_of(RoadClass road_class) {
  switch (road_class) {
    case RoadClass::motorway:
    case RoadClass::trunk:
    case RoadClass::primary:
      return 0;
    case RoadClass::secondary:
    case RoadClass::tertiary:
      return 1;
    case RoadClass::unclassified:
    case RoadClass::residential:
    case RoadClass::living_street:
    case RoadClass::ferry:
      return 2;
    case RoadClass::service:
    case RoadClass::track:
      return 3;
  }
  return 3;
}

// A town would turn the paper grey: beyond this many edges on the map the least important ranks are left out.
constexpr std::size_t most_edges = 12'000;

}  // namespace

std::vector<RoadKey> draw_roads(Svg& svg, const RoadGraph& roads, const MapFrame& frame, const Box& map) {
  std::array<std::vector<std::uint32_t>, ranks> on_map;
  for (std::uint32_t e = 0; e < roads.edge_count(); ++e) {
    const RoadEdge& edge = roads.edges()[e];
    Box bounds{1e9, 1e9, -1e9, -1e9};
    const auto& points = roads.parts().geometry;
    const std::size_t end = e + 1 < roads.edge_count() ? roads.edges()[e + 1].geometry : points.size();
    for (std::size_t i = edge.geometry; i < end; ++i) {
      const Spot at = frame.spot(position_of(points[i]));
      bounds = {std::min(bounds.left, at.x), std::min(bounds.top, at.y), std::max(bounds.right, at.x),
                std::max(bounds.bottom, at.y)};
    }
    // closed intervals: a road due north has no width
    if (bounds.left > map.right || bounds.right < map.left || bounds.top > map.bottom || bounds.bottom < map.top)
      continue;
    on_map[rank_of(edge.road_class)].push_back(e);
  }
  std::size_t shown = 0;
  std::size_t last = 0;  // rank to draw
  for (std::size_t rank = 0; rank < ranks; ++rank) {
    shown += on_map[rank].size();
    if (rank > 0 && shown > most_edges) break;
    last = rank;
  }
  std::vector<RoadKey> drawn;
  for (std::size_t rank = last + 1; rank-- > 0;) {
    if (on_map[rank].empty()) continue;
    std::string d;
    for (const std::uint32_t e : on_map[rank]) {
      std::vector<Spot> line;
      for (const auto& position : roads.geometry(e)) line.push_back(frame.spot(position));
      line = simplified(line, 0.4);
      for (std::size_t i = 0; i < line.size(); ++i) d += (i == 0 ? "M" : i == 1 ? "L" : " ") + pair(line[i]);
    }
    svg.shape(d, keys[rank].attributes);
    drawn.insert(drawn.begin(), keys[rank]);
  }
  return drawn;
}

}  // namespace outbye
