// Drivable roads as the quiet background of the map, wider for more important classes.
#pragma once

#include <vector>

#include "core/roads/road_graph.h"
#include "formats/picture/map_frame.h"
#include "formats/picture/svg.h"

namespace outbye {

struct RoadKey {
  const char* words;
  const char* attributes;  // of the line
};
// What was drawn, most important first: rows of the legend.
std::vector<RoadKey> draw_roads(Svg& svg, const RoadGraph& roads, const MapFrame& frame, const Box& map);

}  // namespace outbye
