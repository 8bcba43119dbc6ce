// The files of a ride as the engine and the map want them. Internal to routes.
#pragma once

#include "server/disk/blobs.h"
#include "server/engine_calls/ride_question.h"
#include "server/map/ride_maps.h"
#include "server/storage/store.h"

namespace outbye {

Answer<StoredFiles> stored_files(Store& store, const Blobs& blobs, const std::string& ride);
// Its map extracts; empty when it has none.
Answer<std::vector<Extract>> extracts_of(Store& store, const Blobs& blobs, const std::string& ride);

}  // namespace outbye
