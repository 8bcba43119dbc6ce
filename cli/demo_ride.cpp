#include "cli/demo_ride.h"

#include <algorithm>
#include <filesystem>

#include "formats/file_io/file_io.h"
#include "formats/ride_file/ride_file.h"
#include "server/storage/file_kind.h"

namespace outbye {
namespace {

Answer<RideFile> kept(const OpenStore& open, const std::string& path, const std::string& name) {
  const auto bytes = read_whole_file(path, 512'000'000);
  if (!bytes) return tl::make_unexpected(trouble_of(std::vector<Problem>{bytes.error()}));
  const auto kind = file_kind(std::string_view(*bytes).substr(0, 4096), bytes->size(), name);
  if (!kind) return tl::make_unexpected(kind.error());
  auto file = open.blobs.begin();
  if (!file) return tl::make_unexpected(file.error());
  if (auto ok = file->write(*bytes); !ok) return tl::make_unexpected(ok.error());
  const auto hash = open.blobs.keep(std::move(*file));
  if (!hash) return tl::make_unexpected(hash.error());
  return RideFile{name, *kind, bytes->size(), "", *hash};
}

std::vector<std::string> files_of(const Ride& ride) {
  std::vector<std::string> names;
  for (const auto* list :
       {&ride.course_files, &ride.road_files, &ride.elevation_files, &ride.rule_files, &ride.kit_files}) {
    names.insert(names.end(), list->begin(), list->end());
  }
  if (ride.drive_times_file) names.push_back(*ride.drive_times_file);
  if (ride.weather_file) names.push_back(*ride.weather_file);
  return names;
}

}  // namespace

Answer<void> put_demo_ride(const OpenStore& open, const std::string& ride_file) {
  const auto text = read_whole_file(ride_file, 1'000'000);
  if (!text) return tl::make_unexpected(trouble_of(std::vector<Problem>{text.error()}));
  const auto reading = check_ride_file(*text, ride_file);
  if (!reading.ride) return tl::make_unexpected(trouble_of(reading.problems));
  const auto rides = open.store->rides();
  if (!rides) return tl::make_unexpected(rides.error());
  const bool is_there = std::any_of(rides->begin(), rides->end(),
                                    [&](const RideEntry& entry) { return entry.name == reading.ride->name; });
  if (is_there) return {};
  const std::filesystem::path folder = std::filesystem::path(ride_file).parent_path();
  std::vector<RideFile> files;
  for (const std::string& name : files_of(*reading.ride)) {
    auto file = kept(open, (folder / name).string(), name);
    if (!file) return tl::make_unexpected(file.error());
    files.push_back(std::move(*file));
  }
  const auto id = open.store->make_ride({*text, "{}"}, "demo");
  if (!id) return tl::make_unexpected(id.error());
  for (RideFile& file : files) {
    if (auto added = open.store->add_file(*id, std::move(file)); !added) return tl::make_unexpected(added.error());
  }
  return {};
}

}  // namespace outbye
