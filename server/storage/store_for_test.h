// A store whose clock the test need not wait for.
#pragma once

#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <memory>

#include "server/storage/sqlite_store.h"
#include "tests/support/store_folder.h"

namespace outbye::test {

// Its clock goes on by a second at each look.
inline OpenStore open_for_test(const std::filesystem::path& folder) {
  auto now = std::make_shared<int>(0);
  auto open = open_store(folder, [now] { return Instant{Seconds{1'780'000'000.0 + (*now)++}}; });
  if (!open) {
    ADD_FAILURE() << open.error().front().where << ": " << open.error().front().what;
    std::abort();
  }
  return std::move(*open);
}

}  // namespace outbye::test
