// Everything that is drawn, gathered from extracts joined into one map.
#pragma once

#include <filesystem>
#include <functional>
#include <vector>

#include "core/base/result.h"
#include "formats/map_tiles/map_features.h"

namespace outbye {

// `go_on` is asked some times a second with the share done; false: stop, with a problem of kind cancelled. A thing that
// stands in two extracts is drawn once; areas whose outline is not all there (the extract was cut through them) are
// left out. Errors: not_found, bad_input.
Result<MapFeatures> read_map(const std::vector<std::filesystem::path>& extracts,
                             const std::function<bool(double share)>& go_on);

}  // namespace outbye
