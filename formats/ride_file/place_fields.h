// What is known of the place of a crew point in the ride file: crew_points[].approach, hazards, allowed, recce, photos
// and passes.
#pragma once

#include "engine/ride.h"
#include "formats/json_text/json_fields.h"

namespace outbye {

// Reported: a pass corrected twice.
void read_place(JsonFields& point, RideCrewPoint& into);
void write_place(Json& item, const RideCrewPoint& point);

// {"lat", "lon"} of the field; nothing when absent or reported.
std::optional<Position> read_position(JsonFields& in, std::string_view name);
Json write_position(const Position& p);

}  // namespace outbye
