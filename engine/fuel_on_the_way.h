// Where the cars can have fuel on the way that they drive. Internal to engine.
#pragma once

#include <vector>

#include "core/kit/kit_facts.h"
#include "engine/use_cases.h"

namespace outbye {

// The pumps marked in the ride, and those of the map (none without `roads`) within 500 m of a drive, each where a car
// comes nearest to it first; a car that passes none has the nearest within 5 km. At most four a car, in order of time.
std::vector<KitPump> pumps_on_the_way(const RidePlan& plan, const RoadGraph* roads);

}  // namespace outbye
