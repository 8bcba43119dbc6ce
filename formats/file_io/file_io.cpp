#include "formats/file_io/file_io.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <optional>
#include <system_error>
#include <vector>

#include "core/base/text.h"

namespace outbye {
namespace {

namespace fs = std::filesystem;

fs::path folder_of(const std::string& path) {
  const fs::path folder = fs::path(path).parent_path();
  return folder.empty() ? fs::path(".") : folder;
}

// "; did you mean 'ride.json'?" when the folder holds a name that is a slip of the pen away.
std::string nearest_file(const std::string& path) {
  std::vector<std::string> names;
  std::error_code error;
  for (fs::directory_iterator it(folder_of(path), error), end; !error && it != end && names.size() < 5000;
       it.increment(error)) {
    names.push_back(it->path().filename().string());
  }
  std::sort(names.begin(), names.end());
  const std::vector<std::string_view> views(names.begin(), names.end());
  const auto nearest = nearest_name(fs::path(path).filename().string(), views);
  if (!nearest) return "";
  return "; did you mean '" + (fs::path(path).parent_path() / std::string(*nearest)).string() + "'?";
}

std::string reason(int error) { return std::generic_category().message(error); }

class Descriptor {
 public:
  explicit Descriptor(int fd) : fd_(fd) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (fd_ >= 0) ::close(fd_);
  }
  int get() const { return fd_; }
  bool close() {
    const int fd = fd_;
    fd_ = -1;
    return ::close(fd) == 0;
  }

 private:
  int fd_;
};

bool write_all(int fd, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t n = ::write(fd, bytes.data(), bytes.size());
    if (n < 0) {
      if (errno == EINTR) continue;
      return false;
    }
    bytes.remove_prefix(static_cast<std::size_t>(n));
  }
  return true;
}

Result<void> refused_by_disk(const std::string& path, int error) {
  return problem(Problem::Kind::cancelled, path, "cannot be written: " + reason(error) + "; nothing was changed");
}

}  // namespace

Result<std::string> read_whole_file(const std::string& path, std::uintmax_t limit) {
  struct stat status {};
  if (::stat(path.c_str(), &status) != 0) {
    if (errno == ENOENT || errno == ENOTDIR) return not_found(path, "no such file" + nearest_file(path));
    return bad_input(path, "cannot be opened: " + reason(errno));
  }
  if (S_ISDIR(status.st_mode)) return bad_input(path, "is a folder; name a file in it");
  if (S_ISREG(status.st_mode) && static_cast<std::uintmax_t>(status.st_size) > limit) {
    return bad_input(path, "is " + std::to_string(status.st_size / 1000000) + " MB, more than the " +
                               std::to_string(limit / 1000000) +
                               " MB that outbye reads; cut it to the area of the ride");
  }
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (file.get() < 0) return bad_input(path, "cannot be opened: " + reason(errno));
  std::string bytes;
  if (S_ISREG(status.st_mode)) bytes.reserve(static_cast<std::size_t>(status.st_size));
  char buffer[1 << 16];
  while (true) {
    const ssize_t n = ::read(file.get(), buffer, sizeof buffer);
    if (n == 0) break;
    if (n < 0) {
      if (errno == EINTR) continue;
      return bad_input(path, "cannot be read: " + reason(errno));
    }
    bytes.append(buffer, static_cast<std::size_t>(n));
    if (bytes.size() > limit) return bad_input(path, "is larger than outbye reads; cut it to the area of the ride");
  }
  return bytes;
}

Result<void> check_writable(const std::string& path, Existing existing) {
  if (path.empty()) return bad_input("output file", "has an empty name; give a file name");
  struct stat status {};
  if (::stat(path.c_str(), &status) == 0) {
    if (S_ISDIR(status.st_mode)) return bad_input(path, "is a folder; give the name of a file to write");
    if (S_ISREG(status.st_mode) && existing == Existing::keep) {
      return bad_input(path, "is already there; give another name, or --force to replace it");
    }
    if (!S_ISREG(status.st_mode)) return {};
  }
  const fs::path folder = folder_of(path);
  if (::stat(folder.c_str(), &status) != 0) {
    return bad_input(path, "cannot be written: there is no folder '" + folder.string() + "'; make it first");
  }
  if (!S_ISDIR(status.st_mode)) {
    return bad_input(path, "cannot be written: '" + folder.string() + "' is not a folder");
  }
  if (::access(folder.c_str(), W_OK | X_OK) != 0) {
    return bad_input(path, "cannot be written: " + reason(errno) + "; choose another folder");
  }
  return {};
}

Result<void> write_whole_file(const std::string& path, std::string_view bytes, Existing existing) {
  if (auto ok = check_writable(path, existing); !ok) return ok;
  struct stat status {};
  if (::stat(path.c_str(), &status) == 0 && !S_ISREG(status.st_mode)) {
    Descriptor device(::open(path.c_str(), O_WRONLY | O_CLOEXEC));
    if (device.get() < 0 || !write_all(device.get(), bytes)) return refused_by_disk(path, errno);
    return {};
  }
  // A symbolic link is followed, so that the link stays and its target is replaced.
  std::error_code ignored;
  const fs::path target = fs::is_symlink(path, ignored) ? fs::weakly_canonical(path, ignored) : fs::path(path);
  std::string beside = (folder_of(target.string()) / ("." + target.filename().string() + ".XXXXXX")).string();
  Descriptor file(::mkstemp(beside.data()));
  if (file.get() < 0) return refused_by_disk(path, errno);
  const auto give_up = [&](int error) {
    ::unlink(beside.c_str());
    return refused_by_disk(path, error);
  };
  // mkstemp makes the file private; give it what open() would have given.
  const mode_t mask = ::umask(0);
  ::umask(mask);
  if (!write_all(file.get(), bytes) || ::fchmod(file.get(), 0666 & ~mask) != 0 || ::fsync(file.get()) != 0) {
    return give_up(errno);
  }
  if (!file.close()) return give_up(errno);
  if (existing == Existing::keep) {
    // link() refuses an existing name in one step, also against another process that came first.
    if (::link(beside.c_str(), target.c_str()) == 0) {
      ::unlink(beside.c_str());
      return {};
    }
    if (errno == EEXIST) {
      ::unlink(beside.c_str());
      return bad_input(path, "is already there; give another name, or --force to replace it");
    }
    // Some file systems know no hard links: fall through to rename.
  }
  if (::rename(beside.c_str(), target.c_str()) != 0) return give_up(errno);
  return {};
}

}  // namespace outbye
