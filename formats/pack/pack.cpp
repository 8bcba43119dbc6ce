#include "formats/pack/pack.h"

#include <algorithm>
#include <map>

#include "formats/exports/exports.h"
#include "formats/pack/page_json.h"
#include "formats/pack/single_file.h"

namespace outbye {
namespace {

std::string words_of(Sheet sheet) {
  switch (sheet) {
    case Sheet::crew_book:
      return "Crew book";
    case Sheet::rider_card:
      return "Rider's card";
    case Sheet::kit_list:
      return "Kit and shopping list";
    case Sheet::boot_plan:
      return "Boot plan";
    case Sheet::spotter:
      break;
  }
  return "Spotter's sheet";
}

// Where each file is found from the page.
using AddressOf = std::function<std::string(const std::string& name, const std::string& bytes)>;

PageSources page_sources(const PackSources& from, Instant made, const AddressOf& address) {
  PageSources page{from.plan, from.parts, from.roads, {}, "", {}, from.notes};
  for (const SheetFile& sheet : from.sheets) {
    page.sheets.push_back({std::string(sheet_name(sheet.sheet)), words_of(sheet.sheet),
                           address("sheets/" + sheet.name, sheet.bytes), sheet.bytes.size()});
  }
  page.calendar = address("day.ics", plan_calendar(from.plan, {}, made));
  std::map<std::string, std::string> photos;
  for (std::size_t p = 0; p < from.photos.size(); ++p) {
    const PackedPhoto& photo = from.photos[p];
    photos[photo.file] = address("photos/" + plain_file_name(photo.file, p + 1), photo.bytes);
  }
  page.photo = [photos = std::move(photos)](const std::string& file) {
    const auto found = photos.find(file);
    return found == photos.end() ? std::string() : found->second;
  };
  return page;
}

}  // namespace

Result<std::vector<PackedFile>> packed_folder(const PackSources& from, Instant made) {
  std::map<std::string, std::string> files;
  for (const PackedFile& file : from.web) files[file.name] = file.bytes;
  if (files.count("index.html") == 0)
    return bad_input("index.html", "is not in the page's folder; ./run web builds it");
  const PageSources page = page_sources(from, made, [&files](const std::string& name, const std::string& bytes) {
    files[name] = bytes;
    return name;
  });
  auto icons = icon_files();
  if (!icons) return tl::make_unexpected(icons.error());
  for (PackedFile& icon : *icons) files[icon.name] = std::move(icon.bytes);
  files["manifest.webmanifest"] = manifest_json(from.plan.ride);
  files["outbye_day.js"] = from.engine;
  files["outbye_day.wasm"] = from.engine_wasm;
  files["ride.json"] = from.packed_ride;
  files["page.json"] = page_json(page, made).dump();
  files.erase("files.json");
  std::vector<PackedFile> all;
  for (auto& [name, bytes] : files) all.push_back({name, std::move(bytes)});
  all.push_back({"files.json", files_json(all)});
  return all;
}

Result<std::string> packed_page(const PackSources& from, Instant made) {
  const PageSources page = page_sources(from, made, [](const std::string& name, const std::string& bytes) {
    return data_address(type_by_name(name), bytes);
  });
  auto icons = icon_files();
  if (!icons) return tl::make_unexpected(icons.error());
  std::vector<PackedFile> web = from.web;
  web.insert(web.end(), icons->begin(), icons->end());
  return single_file(web, {page_json(page, made).dump(), from.packed_ride, from.engine, from.engine_wasm});
}

}  // namespace outbye
