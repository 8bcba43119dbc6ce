// The catalogue of kit as a JSON file (docs/kit.md), and the one that comes with Outbye.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/kit/kit_item.h"
#include "formats/json_text/json_fields.h"

namespace outbye {

constexpr int kit_catalogue_version = 1;

// A catalogue, or every problem that keeps the file from being one (at least one then).
struct KitCatalogueReading {
  std::optional<KitCatalogue> catalogue;
  std::vector<Problem> problems;
};

// `file` is used in messages only.
KitCatalogueReading check_kit_catalogue(std::string_view text, const std::string& file);

std::string write_kit_catalogue(const KitCatalogue& catalogue);

// Built into the program.
const KitCatalogue& preset_kit();

// One thing inside another file. Calls at.finish(). `mark`: when the file says none.
KitItem read_kit_item(JsonFields& at, KitMark mark);
Json write_kit_item(const KitItem& item);

}  // namespace outbye
