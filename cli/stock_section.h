// The water and ice of each car for people, in 80 columns.
#pragma once

#include <string>
#include <vector>

#include "cli/console.h"
#include "engine/stock.h"

namespace outbye {

// A section a car; empty without cars that have stops.
std::string stock_sections(const std::vector<CarStock>& stocks, const Style& style);

}  // namespace outbye
