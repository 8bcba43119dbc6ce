// The people of the crew in the ride file: "helpers".
#pragma once

#include "engine/ride.h"
#include "formats/json_text/json_fields.h"

namespace outbye {

// Reads and checks "helpers"; the cars of the ride must have been read before.
void read_helpers(JsonFields& in, Ride& ride);
Json write_helpers(const std::vector<RideHelper>& helpers);

}  // namespace outbye
