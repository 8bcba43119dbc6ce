// A planned load in words and as JSON.
#pragma once

#include <optional>
#include <string>

#include "cli/console.h"
#include "engine/load.h"

namespace outbye {

struct LoadAnswer {
  RideLoad load;
  std::vector<std::optional<LoadAfterStop>> after;  // one a car when it was asked for, else empty
  Warnings warnings;                                // of the files and the plan
  std::vector<std::string> pictures;                // files written
};

// At most 80 columns.
std::string load_table(const RidePlan& plan, const LoadAnswer& answer, const Style& style);
std::string load_json(const RidePlan& plan, const LoadAnswer& answer);

}  // namespace outbye
