// The drivable road network as a compact directed graph, with turn restrictions, ready to route.
// Built once from ways (road_builder.h), then read-only. Owner: core/roads.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/index.h"
#include "core/base/result.h"
#include "core/base/units.h"
#include "core/geo/position.h"

namespace outbye {

class RoadGraph;

}  // namespace outbye
