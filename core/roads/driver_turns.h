// A driver's list of turns along a drive. Used by route.cpp.
#pragma once

#include <cstdint>
#include <vector>

#include "core/roads/road_graph.h"
#include "core/roads/route.h"

namespace outbye {

// One edge of a drive, or the part of it that is driven.
struct DrivenEdge {
  std::uint32_t link{};          // 2 * edge, + 1 when driven from head to tail
  std::vector<Position> points;  // in the order driven
  Metres metres{};
  Seconds seconds{};
};

// Starts with Turn::start and ends with Turn::arrive. Going straight on along the same road says nothing; a bend is no
// turn where no other road leaves. Left and right come from the geometry, so traffic on either side is served.
std::vector<Turn> driver_turns(const RoadGraph& roads, const std::vector<DrivenEdge>& driven);

}  // namespace outbye
