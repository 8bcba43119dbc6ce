// The store in a folder of this machine.
#pragma once

#include <filesystem>
#include <functional>
#include <memory>

#include "server/disk/blobs.h"
#include "server/storage/store.h"

namespace outbye {

struct OpenStore {
  std::unique_ptr<Store> store;
  Blobs blobs;
};

// Makes the folder when missing; `now` gives the time. Only one program at a time has a store open. Errors: storage,
// conflict when another has it.
Answer<OpenStore> open_store(const std::filesystem::path& folder, std::function<Instant()> now);

}  // namespace outbye
