#include "formats/ride_inputs/kit_files.h"

#include <filesystem>

#include "core/kit/choose_kit.h"
#include "formats/file_io/file_io.h"
#include "formats/kit_catalogue/kit_catalogue.h"

namespace outbye {

Outcome<KitCatalogue> kit_catalogue_of(const Ride& ride, const std::string& ride_file) {
  const std::string folder = std::filesystem::path(ride_file).parent_path().string();
  return kit_catalogue_of(ride, ride_file, files_in(folder.empty() ? "" : folder + "/"));
}

Outcome<KitCatalogue> kit_catalogue_of(const Ride& ride, const std::string& ride_file, const FindFile& find) {
  KitCatalogue catalogue = preset_kit();
  for (const auto& name : ride.kit_files) {
    const FoundFile file = find(name);
    const std::string& path = file.shown;
    auto text = read_whole_file(file.path, 10'000'000);
    if (!text) {
      text.error().where = path;
      return tl::make_unexpected(std::vector<Problem>{text.error()});
    }
    if (const auto other = looks_like(*text); !other.empty() && !is_json(*text)) {
      return tl::make_unexpected(std::vector<Problem>{
          {Problem::Kind::bad_input, path, "is " + other + ", but a catalogue of kit is a JSON file"}});
    }
    auto reading = check_kit_catalogue(*text, path);
    if (!reading.catalogue) return tl::make_unexpected(std::move(reading.problems));
    catalogue = with_own_items(std::move(catalogue), reading.catalogue->items);
  }
  auto unknown = unknown_kit_names(catalogue, ride.kit);
  for (auto& problem : unknown) problem.where = (ride_file.empty() ? "" : ride_file + ": ") + problem.where;
  if (!unknown.empty()) return tl::make_unexpected(std::move(unknown));
  return catalogue;
}

}  // namespace outbye
