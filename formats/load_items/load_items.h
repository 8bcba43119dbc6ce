// Things to load as a file: {"version": 1, "items": [{"name": "Blue can", "size_mm": [290, 245, 458], "mass_kg": 26,
// "water_litres": 25, "bears_kg": 26, "needed": ["pass", "Ford"], "count": 3}]}. docs/load.md has every field.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "engine/load.h"

namespace outbye {

constexpr int load_items_version = 1;

struct LoadItemsReading {
  std::vector<BootItem> items;  // pieces of a kind follow one another: "Blue can 1", "Blue can 2"
  std::vector<Problem> problems;
};

// `file` is used in messages only.
LoadItemsReading read_load_items(std::string_view text, const std::string& file);

}  // namespace outbye
