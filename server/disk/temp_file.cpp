#include "server/disk/temp_file.h"

#define XXH_INLINE_ALL
#include <fcntl.h>
#include <unistd.h>
#include <xxhash.h>

#include <algorithm>
#include <cerrno>
#include <system_error>

#include "formats/file_io/hash_text.h"

namespace outbye {

namespace fs = std::filesystem;

struct TempFile::Hash {
  XXH3_state_t* state{XXH3_createState()};
  Hash() { XXH3_128bits_reset(state); }
  Hash(const Hash&) = delete;
  Hash& operator=(const Hash&) = delete;
  ~Hash() { XXH3_freeState(state); }
};

std::vector<Trouble> disk_trouble(const std::string& where, int error) {
  const bool is_full = error == ENOSPC || error == EDQUOT || error == EFBIG;
  return {{Trouble::Kind::storage, where,
           is_full ? "the disk is full: free some space and try again; what was saved before is still there"
                   : "the disk refuses: " + std::generic_category().message(error) +
                         "; what was saved before is still there"}};
}

TempFile::TempFile() : hash_(std::make_unique<Hash>()) {}

TempFile::TempFile(TempFile&& other) noexcept
    : fd_(std::exchange(other.fd_, -1)),
      path_(std::move(other.path_)),
      size_(other.size_),
      start_(std::move(other.start_)),
      hash_(std::move(other.hash_)) {
  other.path_.clear();
}

TempFile& TempFile::operator=(TempFile&& other) noexcept {
  if (this == &other) return *this;
  drop();
  fd_ = std::exchange(other.fd_, -1);
  path_ = std::move(other.path_);
  other.path_.clear();
  size_ = other.size_;
  start_ = std::move(other.start_);
  hash_ = std::move(other.hash_);
  return *this;
}

TempFile::~TempFile() { drop(); }

void TempFile::drop() {
  if (fd_ >= 0) ::close(fd_);
  fd_ = -1;
  if (!path_.empty()) ::unlink(path_.c_str());
  path_.clear();
}

Answer<TempFile> TempFile::make(const fs::path& folder) {
  TempFile file;
  std::string name = (folder / "coming-XXXXXX").string();
  file.fd_ = ::mkostemp(name.data(), O_CLOEXEC);
  if (file.fd_ < 0) return tl::make_unexpected(disk_trouble("store", errno));
  file.path_ = name;
  return file;
}

Answer<void> TempFile::write(std::string_view bytes) {
  XXH3_128bits_update(hash_->state, bytes.data(), bytes.size());
  constexpr std::size_t kept = 4096;
  if (start_.size() < kept) start_ += bytes.substr(0, kept - start_.size());
  size_ += bytes.size();
  while (!bytes.empty()) {
    const ssize_t n = ::write(fd_, bytes.data(), bytes.size());
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return tl::make_unexpected(disk_trouble("store", errno));
    bytes.remove_prefix(static_cast<std::size_t>(n));
  }
  return {};
}

std::string TempFile::hash() const { return hash_text(XXH3_128bits_digest(hash_->state)); }

std::string TempFile::start() const { return start_; }

Answer<void> TempFile::put(const fs::path& target) {
  if (::fsync(fd_) != 0 || ::rename(path_.c_str(), target.c_str()) != 0) {
    const int error = errno;
    drop();
    return tl::make_unexpected(disk_trouble("store", error));
  }
  path_.clear();
  drop();
  // The name itself is on the disk once its folder is.
  const int folder = ::open(target.parent_path().c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (folder < 0 || ::fsync(folder) != 0) {
    const int error = errno;
    if (folder >= 0) ::close(folder);
    return tl::make_unexpected(disk_trouble("store", error));
  }
  ::close(folder);
  return {};
}

}  // namespace outbye
