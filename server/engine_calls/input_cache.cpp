#include "server/engine_calls/input_cache.h"

namespace outbye {
namespace {

constexpr std::size_t most_kept = 3;  // with a map of their own each

// What of a ride decides how its files are read: their names (a tile's says where it lies) and bytes, and the roads'
// country and ferries.
std::string key_of(const Ride& ride, const StoredFiles& files, WithRoads with_roads) {
  std::string key;
  const auto add = [&](const char* what, const std::vector<std::string>& names) {
    key += what;
    for (const std::string& name : names) {
      const auto found = files.find(name);
      key += "\n" + name + "\t" + (found == files.end() ? "" : found->second.hash);
    }
    key += "\n";
  };
  add("course", ride.course_files);
  add("elevation", ride.elevation_files);
  if (ride.drive_times_file) add("drives", {*ride.drive_times_file});
  add("rules", ride.rule_files);
  if (with_roads == WithRoads::no) return key;
  add("roads", ride.road_files);
  return key + ride.country + (ride.ferries ? " ferries" : "");
}

// The ride with nothing but the names of its files: all that reading them should look at.
Ride files_only(const Ride& ride) {
  Ride only;
  only.course_files = ride.course_files;
  only.elevation_files = ride.elevation_files;
  only.drive_times_file = ride.drive_times_file;
  only.rule_files = ride.rule_files;
  only.road_files = ride.road_files;
  only.country = ride.country;
  only.ferries = ride.ferries;
  return only;
}

}  // namespace

std::shared_ptr<const LoadedRide> InputCache::kept(const std::string& key) {
  const std::lock_guard guard(lock_);
  for (auto it = kept_.begin(); it != kept_.end(); ++it) {
    if (it->first != key) continue;
    kept_.splice(kept_.begin(), kept_, it);
    return kept_.front().second;
  }
  return nullptr;
}

Answer<std::shared_ptr<const LoadedRide>> InputCache::files_of(const Ride& ride, const StoredFiles& files,
                                                               WithRoads with_roads, const Progress& progress) {
  const std::string key = key_of(ride, files, with_roads);
  if (auto found = kept(key)) return found;
  const std::lock_guard reading(reading_);
  if (auto found = kept(key)) return found;  // another call has read them meanwhile
  auto loaded = load_files_of(files_only(ride), find_in(files), with_roads, {road_cache_, progress});
  if (!loaded) return tl::make_unexpected(in_names_of(files, loaded.error()));
  auto made = std::make_shared<const LoadedRide>(std::move(*loaded));
  const std::lock_guard guard(lock_);
  kept_.emplace_front(key, made);
  if (kept_.size() > most_kept) kept_.pop_back();
  return std::shared_ptr<const LoadedRide>(std::move(made));
}

Answer<ReadyRide> InputCache::ready(Ride ride, const StoredFiles& files, WithRoads with_roads,
                                    const Progress& progress) {
  auto read = files_of(ride, files, with_roads, progress);
  if (!read) return tl::make_unexpected(read.error());
  ReadyRide ready{(*read)->inputs, *read, (*read)->warnings};
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
  ready.inputs.ride = std::move(ride);
  return ready;
}

}  // namespace outbye
