// The demo ride in the store of the local server.
#pragma once

#include <string>

#include "server/storage/sqlite_store.h"

namespace outbye {

// Puts a ride file with the files that it names into the store, unless a ride of that name is there (a removed one
// counts). Errors: those of the files and the store.
Answer<void> put_demo_ride(const OpenStore& open, const std::string& ride_file);

}  // namespace outbye
