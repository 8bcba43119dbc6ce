#include "server/disk/blobs.h"

#include <algorithm>
#include <fstream>
#include <system_error>

namespace outbye {
namespace {

namespace fs = std::filesystem;

bool same_bytes(const fs::path& a, const fs::path& b) {
  std::ifstream one(a, std::ios::binary);
  std::ifstream two(b, std::ios::binary);
  std::string block_one(1 << 16, '\0');
  std::string block_two(1 << 16, '\0');
  while (one && two) {
    one.read(block_one.data(), static_cast<std::streamsize>(block_one.size()));
    two.read(block_two.data(), static_cast<std::streamsize>(block_two.size()));
    if (one.gcount() != two.gcount()) return false;
    const auto count = static_cast<std::size_t>(one.gcount());
    if (!std::equal(block_one.begin(), block_one.begin() + static_cast<std::ptrdiff_t>(count), block_two.begin())) {
      return false;
    }
  }
  return one.eof() && two.eof();
}

}  // namespace

Answer<Blobs> Blobs::open(const fs::path& folder) {
  std::error_code error;
  fs::create_directories(folder, error);
  if (error) return tl::make_unexpected(disk_trouble(folder.string(), error.value()));
  for (const auto& entry : fs::directory_iterator(folder, error)) {
    std::error_code ignored;
    if (entry.path().filename().string().rfind("coming-", 0) == 0) fs::remove(entry.path(), ignored);
  }
  if (error) return tl::make_unexpected(disk_trouble(folder.string(), error.value()));
  return Blobs(folder);
}

Answer<std::string> Blobs::keep(TempFile file) const {
  const std::string hash = file.hash();
  const fs::path target = path(hash);
  std::error_code error;
  if (fs::exists(target, error)) {
    // A blob is flushed before it gets its name, so one that is there is whole. Equal bytes are told by the bytes.
    if (same_bytes(file.path(), target)) return hash;
    return trouble(Trouble::Kind::storage, "store", "another file has the same hash, or was damaged on the disk");
  }
  if (auto ok = file.put(target); !ok) return tl::make_unexpected(ok.error());
  return hash;
}

fs::path Blobs::path(const std::string& hash) const {
  const bool is_hash = hash.size() == 32 && hash.find_first_not_of("0123456789abcdef") == std::string::npos;
  return is_hash ? folder_ / hash : folder_ / "none";
}

}  // namespace outbye
