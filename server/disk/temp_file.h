// A file that is written as its bytes come, hashed on the way, and gone again unless it is put in its place.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <string_view>

#include "server/answer/trouble.h"

namespace outbye {

class TempFile {
 public:
  // In `folder`, which is there. Errors: storage.
  static Answer<TempFile> make(const std::filesystem::path& folder);
  TempFile(TempFile&& other) noexcept;
  TempFile& operator=(TempFile&& other) noexcept;
  TempFile(const TempFile&) = delete;
  TempFile& operator=(const TempFile&) = delete;
  ~TempFile();

  Answer<void> write(std::string_view bytes);  // errors: storage
  std::uint64_t size() const { return size_; }
  std::string hash() const;   // of what was written: 128 bits in hexadecimal
  std::string start() const;  // the first bytes, at most 4096
  const std::filesystem::path& path() const { return path_; }

  // Flushes to the disk and renames to `target`. Errors: storage; then it is gone.
  Answer<void> put(const std::filesystem::path& target);

 private:
  struct Hash;
  TempFile();
  void drop();

  int fd_{-1};
  std::filesystem::path path_;
  std::uint64_t size_{};
  std::string start_;
  std::unique_ptr<Hash> hash_;
};

// Words for an error of the disk: "the disk is full: free some space and try again".
std::vector<Trouble> disk_trouble(const std::string& where, int error);

}  // namespace outbye
