// A car's boot in the ride file: cars[].boot.
#pragma once

#include <optional>

#include "engine/ride_boot.h"
#include "formats/json_text/json_fields.h"

namespace outbye {

// Reads the field "boot" of a car. Reported: measures out of range, a shape that is not there, boxes that stick out,
// payload that people have used up.
void read_boot(JsonFields& car, std::optional<RideBoot>& boot);
Json write_boot(const RideBoot& boot);

}  // namespace outbye
