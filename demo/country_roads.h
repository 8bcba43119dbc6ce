// A country's roads ready to route, without a file in between: by the same rules as a map that is read.
#pragma once

#include "core/roads/road_graph.h"
#include "core/roads/road_rules.h"
#include "demo/country.h"

namespace outbye::demo {

// Errors: as RoadBuilder::build().
Result<RoadGraph> build_roads(const Country& country, const RoadOptions& options = {});

}  // namespace outbye::demo
