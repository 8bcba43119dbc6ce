#include "server/engine_calls/input_cache.h"

#include <algorithm>

#include "formats/osm/map_country.h"

namespace outbye {
namespace {

std::string hash_of(const std::string& name, const StoredFiles& files) {
  const auto found = files.find(name);
  return found == files.end() ? "" : found->second.hash;
}

// What of a ride decides how its files are read, roads apart: their names (a tile's says where it lies) and bytes.
std::string key_of_files(const Ride& ride, const StoredFiles& files) {
  std::string key;
  const auto add = [&](const char* what, const std::vector<std::string>& names) {
    key += std::string(what) + "\n";
    for (const std::string& name : names) key += name + "\t" + hash_of(name, files) + "\n";
  };
  add("course", ride.course_files);
  add("elevation", ride.elevation_files);
  if (ride.drive_times_file) add("drives", {*ride.drive_times_file});
  add("rules", ride.rule_files);
  return key;
}

// Of the roads: their bytes in any order, the country and the ferries.
std::string key_of_roads(const Ride& ride, const StoredFiles& files) {
  std::vector<std::string> hashes;
  for (const std::string& name : ride.road_files) hashes.push_back(hash_of(name, files));
  std::sort(hashes.begin(), hashes.end());
  std::string key = ride.country + (ride.ferries ? " ferries" : "");
  for (const std::string& hash : hashes) key += "\n" + hash;
  return key;
}

}  // namespace

Answer<std::shared_ptr<const LoadedRide>> InputCache::files_of(const Ride& ride, const StoredFiles& files) {
  const std::string key = key_of_files(ride, files);
  if (auto found = files_.find(key)) return found;
  Ride only;  // the names of the files: all that reading them looks at
  only.course_files = ride.course_files;
  only.elevation_files = ride.elevation_files;
  only.drive_times_file = ride.drive_times_file;
  only.rule_files = ride.rule_files;
  auto loaded = load_files_of(std::move(only), find_in(files), WithRoads::no, {});
  if (!loaded) return tl::make_unexpected(in_names_of(files, loaded.error()));
  std::shared_ptr<const LoadedRide> made = std::make_shared<const LoadedRide>(std::move(*loaded));
  files_.keep(key, made);
  return made;
}

Answer<std::shared_ptr<const LoadedRoads>> InputCache::roads_of(const Ride& ride, const StoredFiles& files,
                                                                const Progress& progress) {
  const std::string key = key_of_roads(ride, files);
  if (auto found = roads_.find(key)) return found;
  const std::lock_guard reading(reading_);
  if (auto found = roads_.find(key)) return found;  // another call has read them meanwhile
  std::vector<std::filesystem::path> extracts;
  const FindFile find = find_in(files);
  for (const std::string& name : ride.road_files) {
    if (hash_of(name, files).empty()) {
      return trouble(Trouble::Kind::not_found, name,
                     "is named by the ride, but there is no such file in it yet; add the file, or take the name out");
    }
    extracts.emplace_back(find(name).path);
  }
  RoadOptions options;
  options.country = ride.country;
  options.ferries = ride.ferries;
  const Progress named{[&](const std::string& step, double share) { tell(progress, in_names_of(files, step), share); },
                       progress.is_cancelled};
  auto loaded = load_roads(extracts, options, road_cache_, named);
  if (!loaded) return tl::make_unexpected(in_names_of(files, {loaded.error()}));
  for (Warning& warning : loaded->warnings) {
    warning.where = in_names_of(files, std::move(warning.where));
    warning.what = in_names_of(files, std::move(warning.what));
  }
  std::shared_ptr<const LoadedRoads> made = std::make_shared<const LoadedRoads>(std::move(*loaded));
  roads_.keep(key, made);
  return made;
}

Answer<void> InputCache::read_roads_ahead(const StoredFiles& files, std::string country, const Progress& progress) {
  Ride ride;
  std::vector<std::filesystem::path> extracts;
  for (const auto& [name, file] : files) {
    if (file.kind != "map") continue;
    ride.road_files.push_back(name);
    extracts.push_back(file.path);
  }
  if (country.empty()) country = map_country(extracts).value_or(ride.country);
  ride.country = country;
  const auto roads = roads_of(ride, files, progress);
  if (!roads) return tl::make_unexpected(roads.error());
  return {};
}

Answer<ReadyRide> InputCache::ready(Ride ride, const StoredFiles& files, WithRoads with_roads,
                                    const Progress& progress) {
  const auto read = files_of(ride, files);
  if (!read) return tl::make_unexpected(read.error());
  ReadyRide ready{(*read)->inputs, nullptr, (*read)->warnings};
  if (ride.weather_file) {
    // Read anew each time: the table's hours are those of the ride's day.
    Ride weather;
    weather.weather_file = ride.weather_file;
    weather.clock = ride.clock;
    weather.start = ride.start;
    auto with_weather = load_files_of(std::move(weather), find_in(files), WithRoads::no, {});
    if (!with_weather) return tl::make_unexpected(in_names_of(files, with_weather.error()));
    ride.weather = with_weather->inputs.ride.weather;
  }
  if (with_roads == WithRoads::yes && !ride.road_files.empty()) {
    auto roads = roads_of(ride, files, progress);
    if (!roads) return tl::make_unexpected(roads.error());
    ready.roads = std::move(*roads);
    ready.inputs.roads = &ready.roads->graph;
    ready.warnings.insert(ready.warnings.end(), ready.roads->warnings.begin(), ready.roads->warnings.end());
  }
  ready.inputs.ride = std::move(ride);
  return ready;
}

}  // namespace outbye
