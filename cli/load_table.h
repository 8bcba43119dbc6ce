// A planned load in words.
#pragma once

#include <string>

#include "cli/console.h"
#include "formats/answer_json/answer_json.h"

namespace outbye {

// At most 80 columns.
std::string load_table(const RidePlan& plan, const LoadAnswer& answer, const Style& style);

}  // namespace outbye
