#include "cli/pack_sources.h"

#include <algorithm>
#include <filesystem>
#include <system_error>

#include "formats/file_io/file_io.h"
#include "formats/ride_inputs/ride_inputs.h"

namespace outbye {
namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t most_bytes = std::uintmax_t{50} << 20;  // of one file
constexpr std::size_t most_files = 2000;
constexpr std::uintmax_t most_photo_bytes = std::uintmax_t{10} << 20;

// The first of these folders, counted from the program's, that has the file; else the first.
fs::path beside_program(const std::string& given, std::initializer_list<const char*> folders, const char* file) {
  if (!given.empty()) return given;
  std::error_code error;
  const fs::path program = fs::read_symlink("/proc/self/exe", error).parent_path();
  for (const char* folder : folders) {
    if (fs::exists(program / folder / file, error)) return program / folder;
  }
  return program / *folders.begin();
}

}  // namespace

Result<std::vector<PackedFile>> read_built_page(const std::string& given) {
  std::error_code error;
  // Built as day.html or as index.html: in the folder that is handed out it is the page itself.
  fs::path folder = beside_program(given, {"day-page", "../build/day-page", "../web/dist-day"}, "index.html");
  if (!fs::exists(folder / "index.html", error)) {
    folder = beside_program(given, {"day-page", "../build/day-page", "../web/dist-day"}, "day.html");
  }
  const bool has_index = fs::exists(folder / "index.html", error);
  if (!has_index && !fs::exists(folder / "day.html", error)) {
    return not_found(folder.lexically_normal().string(),
                     "is no built page of the day; ./run web builds it, --page names its folder");
  }
  std::vector<PackedFile> files;
  for (fs::recursive_directory_iterator it(folder, error), end; !error && it != end; it.increment(error)) {
    std::error_code ignored;
    const std::string name = it->path().lexically_relative(folder).generic_string();
    const std::string ending = it->path().extension().string();
    if (!fs::is_regular_file(it->symlink_status(ignored)) || ending == ".map" || ending == ".br" || ending == ".gz")
      continue;
    if (files.size() >= most_files)
      return bad_input(folder.string(), "holds more files than a page has; --page names another");
    auto bytes = read_whole_file(it->path().string(), most_bytes);
    if (!bytes) return tl::make_unexpected(bytes.error());
    files.push_back({!has_index && name == "day.html" ? "index.html" : name, std::move(*bytes)});
  }
  if (error) return bad_input(folder.string(), "cannot be read: " + error.message());
  std::sort(files.begin(), files.end(), [](const PackedFile& a, const PackedFile& b) { return a.name < b.name; });
  return files;
}

Result<BuiltEngine> read_built_engine(const std::string& given) {
  const fs::path folder = beside_program(given, {"wasm", "../build/wasm"}, "outbye_day.wasm");
  BuiltEngine engine;
  for (const auto& [name, into] :
       {std::pair{"outbye_day.js", &engine.script}, std::pair{"outbye_day.wasm", &engine.wasm}}) {
    std::error_code error;
    if (!fs::exists(folder / name, error)) {
      return not_found((folder / name).lexically_normal().string(),
                       "is not there: it is the engine for the phone; ./run wasm builds it, --engine names its folder");
    }
    auto bytes = read_whole_file((folder / name).string(), most_bytes);
    if (!bytes) return tl::make_unexpected(bytes.error());
    *into = std::move(*bytes);
  }
  if (engine.wasm.compare(0, 4, std::string("\0asm", 4)) != 0) {
    return bad_input((folder / "outbye_day.wasm").lexically_normal().string(),
                     "is no WebAssembly; ./run wasm builds it");
  }
  return engine;
}

std::vector<PackedPhoto> read_photos(const Ride& ride, const std::string& ride_file, std::vector<std::string>& notes) {
  std::vector<PackedPhoto> photos;
  const fs::path folder = fs::path(ride_file).parent_path();
  const FindFile find = files_in(folder.empty() ? "" : folder.string() + "/");
  for (const RideCrewPoint& point : ride.crew_points) {
    for (const RidePhoto& photo : point.photos) {
      const bool is_known =
          std::any_of(photos.begin(), photos.end(), [&](const PackedPhoto& one) { return one.file == photo.file; });
      if (is_known) continue;
      auto bytes = read_whole_file(find(photo.file).path, most_photo_bytes);
      if (bytes) {
        photos.push_back({photo.file, std::move(*bytes)});
      } else {
        notes.push_back("The photo of " + point.name + " is left out: " + bytes.error().where + " " +
                        bytes.error().what + ".");
      }
    }
  }
  return photos;
}

}  // namespace outbye
