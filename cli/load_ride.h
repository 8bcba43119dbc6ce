// The ride file on the command line, read and planned with progress on the console.
#pragma once

#include <functional>
#include <string>

#include "cli/console.h"
#include "formats/ride_inputs/ride_inputs.h"

namespace outbye {

// Told on the console; end_progress() is the caller's.
Reading reading_with(Console& console);

Outcome<LoadedRide> load_ride(const std::string& path, WithRoads with_roads, Console& console);
Outcome<LoadedRide> load_files_of(Ride ride, const std::string& folder, WithRoads with_roads, Console& console);

// A ride file, read and planned. `change` is done to the ride before it is planned.
struct PlannedRide {
  LoadedRide loaded;
  RidePlan plan;
};
Outcome<PlannedRide> load_and_plan(const std::string& path, Console& console,
                                   const std::function<void(Ride&)>& change = {});

// $OUTBYE_CACHE, else $XDG_CACHE_HOME/outbye, else ~/.cache/outbye; empty (no cache) when none of them is set.
std::string cache_folder();

}  // namespace outbye
