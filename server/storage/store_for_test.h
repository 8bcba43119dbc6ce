// A store in a folder of its own, gone with the test.
#pragma once

#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>

#include "server/storage/sqlite_store.h"

namespace outbye::test {

class StoreFolder {
 public:
  StoreFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "outbye-store-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) std::abort();
    path_ = name;
  }
  StoreFolder(const StoreFolder&) = delete;
  StoreFolder& operator=(const StoreFolder&) = delete;
  ~StoreFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

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
