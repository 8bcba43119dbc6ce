#include "formats/exports/csv_rows.h"

#include "core/base/text.h"
#include "formats/gpx/utf8.h"

namespace outbye {
namespace {

std::string cell(std::string_view raw) {
  std::string text = xml_text(raw);
  // A spreadsheet would run a name that looks like a formula.
  if (!text.empty() && std::string_view("=+-@\t\r").find(text.front()) != std::string_view::npos) {
    if (!parse_decimal(text)) text.insert(text.begin(), '\'');
  }
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  return quoted + "\"";
}

}  // namespace

std::string csv_row(const std::vector<std::string>& cells) {
  std::string line;
  for (std::size_t i = 0; i < cells.size(); ++i) line += (i == 0 ? "" : ",") + cell(cells[i]);
  return line + "\r\n";
}

std::string plain_decimal(double value) {
  std::string text = fixed(value, 6);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

}  // namespace outbye
