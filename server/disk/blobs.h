// Bytes under the hash of their content: the same file of two rides is kept once, and none is ever changed.
#pragma once

#include <filesystem>
#include <string>

#include "server/disk/temp_file.h"

namespace outbye {

class Blobs {
 public:
  // Makes the folder when missing and clears what a killed server left half-written. Errors: storage.
  static Answer<Blobs> open(const std::filesystem::path& folder);

  Answer<TempFile> begin() const { return TempFile::make(folder_); }
  // Returns the hash once the bytes are safely on the disk.
  Answer<std::string> keep(TempFile file) const;
  // `hash` as keep() returned it: 32 hexadecimal digits, anything else has no path.
  std::filesystem::path path(const std::string& hash) const;
  const std::filesystem::path& folder() const { return folder_; }

 private:
  explicit Blobs(std::filesystem::path folder) : folder_(std::move(folder)) {}
  std::filesystem::path folder_;
};

}  // namespace outbye
