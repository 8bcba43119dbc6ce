// A ride and its files as one ZIP: ride.json and the files by the names that the ride gives them. No folders in it.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "server/answer/trouble.h"
#include "server/disk/temp_file.h"

namespace outbye {

struct BundledFile {
  std::string name;
  std::filesystem::path path;
};

// Written to `target`, which is there and empty. Errors: storage.
Answer<void> write_bundle(const std::string& ride, const std::vector<BundledFile>& files,
                          const std::filesystem::path& target);

struct BundleLimits {
  std::uint64_t ride_bytes{1 << 20};
  std::uint64_t file_bytes{std::uint64_t{512} << 20};  // of one file, unpacked
  std::uint64_t all_bytes{std::uint64_t{1} << 30};     // of all of them
  std::size_t files{200};
};

struct UnpackedFile {
  std::string name;
  TempFile bytes;
};
struct UnpackedBundle {
  std::string ride;  // the text of ride.json
  std::vector<UnpackedFile> files;
};

// Every byte is counted as it is unpacked: what the archive says of sizes is not believed. Errors: bad_input (not a
// ZIP, no ride.json, a name with a folder in it, a name twice, a secret archive), too_large, storage.
Answer<UnpackedBundle> read_bundle(const std::filesystem::path& archive, const BundleLimits& limits,
                                   const std::function<Answer<TempFile>()>& begin);

}  // namespace outbye
