// The catalogue of kit that a ride works with: the bundled one, with the ride's own files in it.
#pragma once

#include <string>

#include "core/kit/kit_item.h"
#include "formats/ride_inputs/ride_inputs.h"

namespace outbye {

// `ride_file`: where the ride was read from, for messages. Errors: those of the files, and names in the ride's kit that
// nothing has.
Outcome<KitCatalogue> kit_catalogue_of(const Ride& ride, const std::string& ride_file, const FindFile& find);
// Its kit files are relative to `ride_file`.
Outcome<KitCatalogue> kit_catalogue_of(const Ride& ride, const std::string& ride_file);

}  // namespace outbye
