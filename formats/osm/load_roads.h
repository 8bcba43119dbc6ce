// Road maps from OpenStreetMap extracts: .osm.pbf, .osm, .osm.gz, .osm.bz2 (told apart by content, not by name).
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "core/base/progress.h"
#include "core/base/result.h"
#include "core/roads/road_builder.h"
#include "core/roads/road_graph.h"
#include "core/roads/road_rules.h"

namespace outbye {

struct LoadedRoads {
  RoadGraph graph;
  Warnings warnings;  // turn restrictions left out, points missing, with counts
  bool from_cache{};
  std::filesystem::path cache_file;  // empty when there is none
};

// Reads the extracts straight away, joined into one map. Errors: not_found (no such file), bad_input (not a map,
// damaged, no drivable roads, ways without their points), cancelled.
Result<LoadedRoads> read_roads(const std::vector<std::filesystem::path>& extracts, const RoadOptions& options,
                               const Progress& progress = {});

// The same by way of a cache in `cache_dir` (made when missing), keyed by the content of the extracts, the options and
// the version of the format. A damaged or outdated cache file is made anew; when the cache cannot be written the
// roads are still returned, with a warning. An empty `cache_dir`: no cache.
Result<LoadedRoads> load_roads(const std::vector<std::filesystem::path>& extracts, const RoadOptions& options,
                               const std::filesystem::path& cache_dir, const Progress& progress = {});

}  // namespace outbye
