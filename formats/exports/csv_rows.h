// Rows of comma-separated values (RFC 4180) that a spreadsheet takes as they are. Internal to formats/exports.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace outbye {

// With CRLF; quotes doubled; text that a spreadsheet would take for a formula gets an apostrophe.
std::string csv_row(const std::vector<std::string>& cells);
// As few decimals as tell it, at most six: "9.5".
std::string plain_decimal(double value);

}  // namespace outbye
