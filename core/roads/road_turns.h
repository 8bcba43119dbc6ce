// From turn restrictions as mapped (ways and points) to the states of the graph. Used by the builder.
#pragma once

#include <cstdint>
#include <vector>

#include "core/roads/road_graph.h"

namespace outbye {

// A restriction on the graph: after driving `arcs` in order, the next arc must not be one of `exits` (no), or must be
// one of them (only).
struct ArcRestriction {
  std::vector<std::uint32_t> arcs;
  std::vector<std::uint32_t> exits;
  bool only{};
};

// Adds the copies of nodes that keep the restrictions. `parts` holds the plain arcs and nothing else yet.
void add_restrictions(RoadGraphParts& parts, const std::vector<ArcRestriction>& restrictions);

}  // namespace outbye
