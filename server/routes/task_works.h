// The kinds of long work there are.
#pragma once

#include <map>
#include <string>

#include "server/disk/blobs.h"
#include "server/engine_calls/engine_calls.h"
#include "server/map/ride_maps.h"
#include "server/storage/store.h"
#include "server/tasks/task_runner.h"

namespace outbye {

// "import_map": the map to look at, and the roads to drive on. "plan": the plan of the stored ride, which planRide then
// answers at once. What is referred to must outlive them.
std::map<std::string, TaskWork> task_works(Store& store, const Blobs& blobs, EngineCalls& engine, RideMaps& maps);

}  // namespace outbye
