#include "cli/write_folder.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <set>
#include <system_error>

#include "formats/json_text/json_text.h"

namespace outbye {
namespace {

namespace fs = std::filesystem;

std::string reason(int error) { return std::generic_category().message(error); }

Result<void> refused_by_disk(const std::string& path, const std::string& why) {
  return problem(Problem::Kind::cancelled, path, "cannot be written: " + why + "; nothing was changed");
}

// Without a slash at its end, and through a link to what it names.
fs::path target_of(const std::string& path) {
  std::error_code error;
  const fs::path whole = fs::absolute(path, error);
  fs::path target = fs::weakly_canonical(whole, error);
  if (error) target = whole;
  return target.has_filename() ? target : target.parent_path();
}

// The names that files.json of a packed ride lists, and its own. Nothing when it is none.
std::optional<std::set<std::string>> own_files(const fs::path& folder) {
  const auto text = read_whole_file((folder / "files.json").string(), 10'000'000);
  if (!text) return std::nullopt;
  const Json list = Json::parse(*text, nullptr, false);
  if (!list.is_object() || list.value("format", "") != "outbye packed files" || !list.contains("files") ||
      !list["files"].is_array()) {
    return std::nullopt;
  }
  std::set<std::string> names{"files.json"};
  for (const Json& file : list["files"]) {
    if (file.is_object() && file.contains("file") && file["file"].is_string()) names.insert(file["file"]);
  }
  return names;
}

// Taken away with all that is in it, unless it was kept.
class Part {
 public:
  explicit Part(fs::path path) : path_(std::move(path)) {}
  Part(const Part&) = delete;
  Part& operator=(const Part&) = delete;
  ~Part() {
    std::error_code ignored;
    if (!path_.empty()) fs::remove_all(path_, ignored);
  }
  const fs::path& path() const { return path_; }
  void keep() { path_.clear(); }

 private:
  fs::path path_;
};

Result<void> write_all(const fs::path& folder, const std::vector<PackedFile>& files) {
  for (const PackedFile& file : files) {
    const fs::path path = folder / file.name;
    std::error_code error;
    fs::create_directories(path.parent_path(), error);
    if (error) return refused_by_disk(path.string(), error.message());
    if (auto ok = write_whole_file(path.string(), file.bytes, Existing::keep); !ok) return ok;
  }
  return {};
}

// What is in `from` and not its own, put into `to` as well.
Result<void> take_along(const fs::path& from, const fs::path& to, const std::set<std::string>& own) {
  std::error_code error;
  for (fs::recursive_directory_iterator it(from, error), end; !error && it != end; it.increment(error)) {
    const fs::path name = it->path().lexically_relative(from);
    if (own.count(name.generic_string()) > 0) continue;
    if (it->is_directory(error) && !it->is_symlink(error)) continue;  // made for what is in it
    const fs::path there = to / name;
    if (fs::exists(fs::symlink_status(there, error))) {
      return bad_input(it->path().string(),
                       "is not of the packed ride there, but one of its files would take its place; move it, "
                       "or give another folder");
    }
    fs::create_directories(there.parent_path(), error);
    fs::create_hard_link(it->path(), there, error);
    if (error) {
      error.clear();
      fs::copy(it->path(), there, fs::copy_options::copy_symlinks, error);
    }
    if (error) return refused_by_disk(it->path().string(), error.message());
  }
  if (error) return refused_by_disk(from.string(), error.message());
  return {};
}

}  // namespace

Result<void> check_folder(const std::string& path, Existing existing) {
  if (path.empty()) return bad_input("--out", "has an empty name; give the name of a folder");
  const fs::path target = target_of(path);
  struct stat status {};
  if (::stat(target.c_str(), &status) == 0) {
    if (!S_ISDIR(status.st_mode)) return bad_input(path, "is a file; give the name of a folder to make");
    std::error_code error;
    const bool is_empty = fs::is_empty(target, error);
    if (error) return bad_input(path, "cannot be looked into: " + error.message());
    if (!is_empty && existing == Existing::keep) {
      return bad_input(path, "is already there; give another name, or --force to replace the packed ride in it");
    }
    if (!is_empty && !own_files(target)) {
      return bad_input(path, "is a folder of other things (no packed ride's files.json is in it); give another name");
    }
  }
  const fs::path parent = target.parent_path();
  if (::stat(parent.c_str(), &status) != 0 || !S_ISDIR(status.st_mode)) {
    return bad_input(path, "cannot be made: there is no folder '" + parent.string() + "'; make it first");
  }
  if (::access(parent.c_str(), W_OK | X_OK) != 0) {
    return bad_input(path, "cannot be made: " + reason(errno) + "; choose another folder");
  }
  return {};
}

Result<void> write_whole_folder(const std::string& path, const std::vector<PackedFile>& files, Existing existing) {
  if (auto ok = check_folder(path, existing); !ok) return ok;
  const fs::path target = target_of(path);
  std::string name = target.string() + ".part-XXXXXX";
  if (::mkdtemp(name.data()) == nullptr) return refused_by_disk(path, reason(errno));
  Part part{fs::path(name)};
  // mkdtemp() lets nobody else in; a web server may be another user.
  const mode_t mask = ::umask(0);
  ::umask(mask);
  ::chmod(name.c_str(), 0777 & ~mask);
  if (auto ok = write_all(part.path(), files); !ok) return ok;
  std::error_code error;
  const bool is_there = fs::exists(target, error) && !fs::is_empty(target, error);
  if (!is_there) {
    if (::rename(name.c_str(), target.c_str()) != 0) return refused_by_disk(path, reason(errno));
    part.keep();
    return {};
  }
  const auto own = own_files(target);
  if (!own) return bad_input(path, "is a folder of other things; give another name");
  if (auto ok = take_along(target, part.path(), *own); !ok) return ok;
  // The old folder takes the new one's name beside it, and goes.
  if (::renameat2(AT_FDCWD, name.c_str(), AT_FDCWD, target.c_str(), RENAME_EXCHANGE) == 0) return {};
  const std::string old = name + "-old";
  if (::rename(target.c_str(), old.c_str()) != 0) return refused_by_disk(path, reason(errno));
  if (::rename(name.c_str(), target.c_str()) != 0) {
    const int why = errno;
    ::rename(old.c_str(), target.c_str());
    return refused_by_disk(path, reason(why));
  }
  part.keep();
  fs::remove_all(old, error);
  return {};
}

}  // namespace outbye
