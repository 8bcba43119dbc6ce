// All features of one zoom, cut into its tiles.
#pragma once

#include <functional>
#include <string>

#include "core/base/result.h"
#include "formats/map_tiles/map_features.h"
#include "formats/map_tiles/world.h"

namespace outbye {

// Calls `take` with every tile that holds anything, by y, then x, as bytes of a vector tile; stops at its first
// problem. What is drawn at a zoom is simplified to half a pixel of a 512 pixel tile (at the last zoom, which the page
// enlarges, to an eighth), and reaches 8 pixels beyond the edges of its tile, so that lines are whole across them;
// points are in one tile only. Asks `go_on` now and then with the share done; cancelled when it says no.
Result<void> cut_tiles(const MapFeatures& map, int z, const std::function<bool(double share)>& go_on,
                       const std::function<Result<void>(TileId tile, std::string bytes)>& take);

}  // namespace outbye
