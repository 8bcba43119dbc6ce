// Tables as text: RFC 4180 with what spreadsheets add (semicolons, tabs, decimal commas), comments and blank lines.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"

namespace outbye {

struct CsvCell {
  std::string text;
  bool quoted{};
};
struct CsvRow {
  std::size_t line{};  // where it begins, 1-based
  std::vector<CsvCell> cells;
};

// "weather.csv, line 3": where a problem is.
std::string csv_line(const std::string& file, std::size_t line);

// The separator of the file: the one of tab, semicolon and comma that its first row with any has, in that order.
char csv_separator(std::string_view text);

// Rows with # comments and blank lines left out; a quoted cell may hold line ends; empty cells at the end are dropped.
// Errors: bad_input at the line, for quotation marks that do not match.
Result<std::vector<CsvRow>> read_csv(std::string_view text, char separator, const std::string& file);

// A number; with another separator than the comma, a decimal comma is understood.
std::optional<double> csv_number(std::string_view text, char separator);

}  // namespace outbye
