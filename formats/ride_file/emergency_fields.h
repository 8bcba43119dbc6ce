// Who to call in the ride file: "emergency", and the telephone numbers of people. All are typed in by people.
#pragma once

#include "engine/ride.h"
#include "formats/json_text/json_fields.h"

namespace outbye {

// A telephone number as people write it: at least two figures, with spaces and any of + ( ) - . / x # * between. Others
// are reported; the text is kept as typed.
void read_phone(JsonFields& in, std::string_view name, std::string& into);

void read_emergency(JsonFields& in, Ride& ride);
// An empty object when nothing is set.
Json write_emergency(const RideEmergency& emergency);

}  // namespace outbye
