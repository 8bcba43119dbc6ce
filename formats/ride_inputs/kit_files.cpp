#include "formats/ride_inputs/kit_files.h"

#include <filesystem>
#include <utility>

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
  std::vector<std::pair<std::string, std::vector<KitItem>>> own;  // by file
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
    own.emplace_back(path, std::move(reading.catalogue->items));
  }
  // Once all are read: a file may send things into the crates of another, or of the ride.
  const std::vector<KitItem> all = with_own_items(catalogue, ride.kit.own_items).items;
  std::vector<Problem> no_crates;
  for (const auto& [path, items] : own) {
    for (auto& problem : unknown_crates(items, all, "items")) {
      problem.where = path + ": " + problem.where;
      no_crates.push_back(std::move(problem));
    }
  }
  if (!no_crates.empty()) return tl::make_unexpected(std::move(no_crates));
  auto unknown = unknown_kit_names(catalogue, ride.kit);
  for (auto& problem : unknown) problem.where = (ride_file.empty() ? "" : ride_file + ": ") + problem.where;
  if (!unknown.empty()) return tl::make_unexpected(std::move(unknown));
  return catalogue;
}

}  // namespace outbye
