// The water and ice of each car for people, in 80 columns, and as JSON (docs/stock.md lists the fields).
#pragma once

#include <string>
#include <vector>

#include "cli/console.h"
#include "engine/stock.h"
#include "formats/json_text/json_text.h"

namespace outbye {

// A section a car; empty without cars that have stops.
std::string stock_sections(const std::vector<CarStock>& stocks, const Style& style);

Json stock_json(const std::vector<CarStock>& stocks);

}  // namespace outbye
