// A road graph as bytes and back, for a cache on the same kind of machine (little-endian, as all we build for).
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "core/base/result.h"
#include "core/roads/road_graph.h"

namespace outbye {

// Goes up whenever the layout or the meaning of a graph changes: older bytes are then refused.
inline constexpr std::uint32_t road_store_version = 3;

std::vector<std::byte> to_bytes(const RoadGraph& roads);

// Errors: bad_input on any bytes that are not a graph of this version; never reads outside, whatever they are.
Result<RoadGraph> road_graph_from_bytes(std::span<const std::byte> bytes);

}  // namespace outbye
