// The layout of the store, step by step. Internal to storage.
#pragma once

#include "server/storage/database.h"

namespace outbye {

// The number of the newest layout.
std::uint64_t newest_layout();

// Takes a store from whatever layout it has to the newest, each step whole or not at all. Errors: storage, also for a
// store of a newer outbye, which is left alone.
Answer<void> migrate(Database& database);

}  // namespace outbye
