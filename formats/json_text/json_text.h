// JSON text in and out: strict parsing with line and column, and a layout that a person can read and diff.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

#include "core/base/result.h"

namespace outbye {

using Json = nlohmann::ordered_json;  // fields stay in the order in which they are written

// Errors: bad_input at "FILE, line 3, column 14". A name twice in one object is refused, and so is nesting beyond
// 64 levels (deeper than any file of ours).
Result<Json> parse_json(std::string_view text, const std::string& file);

// Two spaces a level; what fits into 100 columns and holds no deeper object stays on one line. Ends with a line end.
std::string pretty_json(const Json& value);

// A number as a person writes it: 40 rather than 40.0.
Json plain_number(double value);

}  // namespace outbye
