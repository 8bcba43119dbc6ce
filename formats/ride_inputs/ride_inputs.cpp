#include "formats/ride_inputs/ride_inputs.h"

#include <filesystem>

#include "core/base/text.h"
#include "formats/drive_times/drive_times.h"
#include "formats/elevation/hgt.h"
#include "formats/file_io/file_io.h"
#include "formats/gpx/gpx.h"
#include "formats/osm/load_roads.h"
#include "formats/ride_file/ride_file.h"
#include "formats/rule_book/rule_book_file.h"
#include "formats/weather/weather_csv.h"

namespace outbye {
namespace {

namespace fs = std::filesystem;

tl::unexpected<std::vector<Problem>> refused(Problem problem) {
  return tl::make_unexpected(std::vector<Problem>{std::move(problem)});
}

Result<std::string> read_found(const FoundFile& file, std::uintmax_t limit) {
  auto bytes = read_whole_file(file.path, limit);
  if (!bytes && file.path != file.shown) bytes.error().where = file.shown;
  return bytes;
}
constexpr std::uintmax_t most_text = 10'000'000;
constexpr std::uintmax_t most_bytes = std::uintmax_t{4} << 30;

void keep(Warnings& into, const Warnings& more) { into.insert(into.end(), more.begin(), more.end()); }

Result<GpxDocument> read_course(const FoundFile& file) {
  const std::string& path = file.shown;
  auto bytes = read_found(file, most_bytes);
  if (!bytes) return tl::make_unexpected(bytes.error());
  if (const auto other = looks_like(*bytes); !other.empty() && other != "an XML file") {
    return bad_input(path, "is " + other + ", but a course is a GPX file");
  }
  return read_gpx(*bytes, path);
}

Result<Weather> read_weather_of(const Ride& ride, const FoundFile& file) {
  const std::string& path = file.shown;
  auto text = read_found(file, most_text);
  if (!text) return tl::make_unexpected(text.error());
  if (const auto other = looks_like(*text); !other.empty()) {
    return bad_input(path, "is " + other + ", but the weather is a table in CSV");
  }
  return read_weather_csv(*text, path, ride.clock, ride.start);
}

// The bundled books, and before them the ride's own files, so that a book of the same id replaces a bundled one.
Outcome<std::vector<RuleBook>> rule_books_of(const Ride& ride, const FindFile& find) {
  std::vector<RuleBook> books;
  for (const auto& name : ride.rule_files) {
    const FoundFile file = find(name);
    auto text = read_found(file, most_text);
    if (!text) return refused(text.error());
    auto reading = check_rule_book(*text, file.shown);
    if (!reading.book) return tl::make_unexpected(std::move(reading.problems));
    books.push_back(std::move(*reading.book));
  }
  const auto& presets = preset_books();
  books.insert(books.end(), presets.begin(), presets.end());
  return books;
}

Result<void> read_roads_of(LoadedRide& loaded, const FindFile& find, const Reading& reading) {
  std::vector<fs::path> extracts;
  for (const auto& file : loaded.inputs.ride.road_files) extracts.emplace_back(find(file).path);
  RoadOptions options;
  options.country = loaded.inputs.ride.country;
  options.ferries = loaded.inputs.ride.ferries;
  auto roads = load_roads(extracts, options, reading.cache_folder, reading.progress);
  if (!roads) return tl::make_unexpected(roads.error());
  loaded.roads = std::make_unique<RoadGraph>(std::move(roads->graph));
  loaded.inputs.roads = loaded.roads.get();
  keep(loaded.warnings, roads->warnings);
  return {};
}

}  // namespace

std::string looks_like(std::string_view bytes) {
  const auto begins = [&](std::string_view mark) { return bytes.substr(0, mark.size()) == mark; };
  if (begins("\x89PNG")) return "a PNG picture";
  if (begins("\xff\xd8\xff")) return "a JPEG picture";
  if (begins("%PDF")) return "a PDF document";
  if (begins("PK\x03\x04")) return "a ZIP archive";
  if (begins("\x1f\x8b")) return "a gzip archive";
  if (bytes.substr(0, 64).find("OSMHeader") != std::string_view::npos) return "an OpenStreetMap extract";
  if (bytes.size() >= 12 && bytes.substr(8, 4) == ".FIT") return "a FIT recording";
  if (begins("\xef\xbb\xbf")) bytes.remove_prefix(3);
  const auto start = trimmed(bytes.substr(0, 512));
  if (start.substr(0, 1) == "{") return "a JSON file";
  if (start.substr(0, 1) == "<") return "an XML file";
  return "";
}

bool is_json(std::string_view bytes) { return looks_like(bytes) == "a JSON file"; }

FindFile files_in(const std::string& folder) {
  return [folder](const std::string& name) {
    const std::string path = fs::path(name).is_absolute() ? name : folder + name;
    return FoundFile{path, path};
  };
}

Outcome<LoadedRide> load_files_of(Ride ride, const FindFile& find, WithRoads with_roads, const Reading& reading) {
  LoadedRide loaded;
  for (const auto& file : ride.course_files) {
    auto course = read_course(find(file));
    if (!course) return refused(course.error());
    keep(loaded.warnings, course->warnings);
    loaded.inputs.course_files.push_back(std::move(*course));
  }
  ElevationTiles tiles;
  for (const auto& name : ride.elevation_files) {
    const FoundFile file = find(name);
    auto bytes = read_found(file, most_bytes);
    if (!bytes) return refused(bytes.error());
    auto tile = read_hgt(*bytes, file.shown);
    if (!tile) return refused(tile.error());
    tiles.push_back(std::move(*tile));
  }
  if (!tiles.empty()) loaded.inputs.elevation = elevation_source(std::move(tiles));
  if (ride.drive_times_file) {
    const FoundFile file = find(*ride.drive_times_file);
    const std::string& path = file.shown;
    auto text = read_found(file, 50'000'000);
    if (!text) return refused(text.error());
    if (const auto other = looks_like(*text); !other.empty()) {
      return refused({Problem::Kind::bad_input, path, "is " + other + ", but drive times are a table in CSV"});
    }
    auto table = read_drive_times(*text, path);
    if (!table) return refused(table.error());
    loaded.inputs.drive_times = std::move(*table);
  }
  if (ride.weather_file) {
    auto weather = read_weather_of(ride, find(*ride.weather_file));
    if (!weather) return refused(weather.error());
    ride.weather = std::move(*weather);
  }
  auto books = rule_books_of(ride, find);
  if (!books) return tl::make_unexpected(books.error());
  loaded.inputs.rule_books = std::move(*books);
  loaded.inputs.ride = std::move(ride);
  if (with_roads == WithRoads::yes && !loaded.inputs.ride.road_files.empty()) {
    if (auto ok = read_roads_of(loaded, find, reading); !ok) return refused(ok.error());
  }
  return loaded;
}

Outcome<LoadedRide> load_ride(const std::string& path, WithRoads with_roads, const Reading& reading) {
  auto text = read_whole_file(path, 50'000'000);
  if (!text) return refused(text.error());
  if (!is_json(*text)) {
    const auto other = looks_like(*text);
    if (other == "an XML file") {
      return refused({Problem::Kind::bad_input, path,
                      "is an XML file, not a ride file; `outbye new RIDE.json --course " + path +
                          "` makes a ride file from a course"});
    }
    if (!other.empty()) {
      return refused({Problem::Kind::bad_input, path, "is " + other + ", not a ride file; `outbye new` makes one"});
    }
  }
  auto file = check_ride_file(*text, path);
  if (!file.ride) return tl::make_unexpected(std::move(file.problems));
  const std::string folder = fs::path(path).parent_path().string();
  return load_files_of(std::move(*file.ride), files_in(folder.empty() ? "" : folder + "/"), with_roads, reading);
}

}  // namespace outbye
