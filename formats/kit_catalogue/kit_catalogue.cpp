#include "formats/kit_catalogue/kit_catalogue.h"

#include <array>
#include <utility>

#include "core/base/text.h"

namespace outbye {
namespace {

void check_amount(JsonFields& at, const KitItem& item) {
  // Amounts of one horse or car ("drinks-juno") belong to one ride, so a catalogue cannot count by them.
  constexpr std::array<std::string_view, 12> amounts{
      "drinking-water", "cooling-water", "washing-water",      "spare-water", "carried-water", "ice",
      "electrolyte",    "soaked-feed",   "rider-carbohydrate", "rider-fluid", "crew-fluid",    "crew-food"};
  if (item.count.amount.empty()) return;
  for (const auto name : amounts) {
    if (name == item.count.amount) return;
  }
  std::string what = "'" + item.count.amount + "' is no amount";
  if (const auto nearest = nearest_name(item.count.amount, amounts)) {
    what += "; did you mean '" + std::string(*nearest) + "'?";
  } else {
    what += "; docs/kit.md lists them";
  }
  at.report("count.amount", what);
}

}  // namespace

KitCatalogueReading check_kit_catalogue(std::string_view text, const std::string& file) {
  const auto json = parse_json(text, file);
  if (!json) return {std::nullopt, {json.error()}};
  Problems problems;
  KitCatalogue catalogue;
  JsonFields in(*json, file, "", problems);
  in.find("$schema");
  in.require("version", "write \"version\": 1");
  in.whole("version", 0, 1000000, [&](std::uint64_t version) {
    if (version == kit_catalogue_version) return;
    in.report("version",
              "is " + std::to_string(version) + "; this outbye reads version " + std::to_string(kit_catalogue_version));
  });
  in.text("source", catalogue.source, true);
  in.require("items", "a list of things; `outbye kit --catalogue` shows what it looks like");
  in.items("items", [&](const Json& item, const std::string& path) {
    JsonFields at(item, file, path, problems);
    KitItem read = read_kit_item(at, KitMark::own);
    check_amount(at, read);
    for (const auto& earlier : catalogue.items) {
      if (same_name(earlier.id, read.id)) at.report("id", "'" + read.id + "' is there twice; give each its own");
    }
    catalogue.items.push_back(std::move(read));
  });
  in.finish();
  if (!problems.empty()) return {std::nullopt, std::move(problems)};
  return {std::move(catalogue), {}};
}

std::string write_kit_catalogue(const KitCatalogue& catalogue) {
  Json json{{"version", kit_catalogue_version}};
  if (!catalogue.source.empty()) json["source"] = catalogue.source;
  json["items"] = Json::array();
  for (const auto& item : catalogue.items) json["items"].push_back(write_kit_item(item));
  return pretty_json(json);
}

}  // namespace outbye
