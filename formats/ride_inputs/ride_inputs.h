// From files to the engine's inputs: the ride file and everything it names.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/roads/road_graph.h"
#include "engine/use_cases.h"

namespace outbye {

// `inputs.roads` points into `roads`, so this is moved, never copied.
struct LoadedRide {
  RideInputs inputs;
  std::unique_ptr<RoadGraph> roads;
  Warnings warnings;  // of the files
};

template <class T>
using Outcome = tl::expected<T, std::vector<Problem>>;  // a ride file may have many problems at once

enum class WithRoads { no, yes };

// Where road maps are kept once they are read (empty: nowhere), and who is told how far the reading is.
struct Reading {
  std::string cache_folder;
  Progress progress;
};

// A file to open, and what it is called in messages.
struct FoundFile {
  std::string path;
  std::string shown;
};
// Where the files of a ride are, by the names that it gives them. A name that is nowhere gives a path at which nothing
// is.
using FindFile = std::function<FoundFile(const std::string& name)>;
FindFile files_in(const std::string& folder);  // "" or ending in '/'; an absolute name is its own path

// Reads a ride file and the files it names, which are relative to it. Road maps by way of the cache.
Outcome<LoadedRide> load_ride(const std::string& path, WithRoads with_roads, const Reading& reading);

// The same for a ride made in memory.
Outcome<LoadedRide> load_files_of(Ride ride, const FindFile& find, WithRoads with_roads, const Reading& reading);

// Says what a file is that was given in place of another: by its first bytes, not its name. Empty: nothing known.
std::string looks_like(std::string_view bytes);

// A file that should be JSON, from its first character.
bool is_json(std::string_view bytes);

}  // namespace outbye
