#include "formats/csv/csv.h"

#include <algorithm>
#include <array>

#include "core/base/text.h"

namespace outbye {

std::string csv_line(const std::string& file, std::size_t line) { return file + ", line " + std::to_string(line); }

char csv_separator(std::string_view text) {
  while (!text.empty()) {
    const std::size_t cut = std::min(text.find('\n'), text.size());
    const std::string_view line = trimmed(text.substr(0, cut));
    text.remove_prefix(std::min(cut + 1, text.size()));
    if (line.empty() || line.front() == '#') continue;
    std::array<std::size_t, 3> counts{};
    bool quoted = false;
    for (const char c : line) {
      if (c == '"') quoted = !quoted;
      if (quoted) continue;
      counts[0] += c == '\t';
      counts[1] += c == ';';
      counts[2] += c == ',';
    }
    if (counts[0] > 0) return '\t';
    if (counts[1] > 0) return ';';
    if (counts[2] > 0) return ',';
  }
  return ',';
}

Result<std::vector<CsvRow>> read_csv(std::string_view text, char separator, const std::string& file) {
  std::vector<CsvRow> rows;
  std::size_t line = 1, i = 0;
  while (i < text.size()) {
    CsvRow row{line, {}};
    const std::size_t line_end = std::min(text.find('\n', i), text.size());
    const std::string_view whole = trimmed(text.substr(i, line_end - i));
    if (whole.empty() || whole.front() == '#') {
      i = line_end + 1;
      ++line;
      continue;
    }
    bool ended = false;
    while (!ended) {
      CsvCell cell;
      while (i < text.size() && text[i] == ' ') ++i;
      if (i < text.size() && text[i] == '"') {
        cell.quoted = true;
        ++i;
        bool closed = false;
        while (i < text.size() && !closed) {
          if (text[i] == '"' && i + 1 < text.size() && text[i + 1] == '"') {
            cell.text += '"';
            i += 2;
          } else if (text[i] == '"') {
            closed = true;
            ++i;
          } else {
            line += text[i] == '\n';
            cell.text += text[i++];
          }
        }
        if (!closed)
          return bad_input(csv_line(file, row.line), "has a quotation mark that is never closed; add the closing \"");
        while (i < text.size() && (text[i] == ' ' || text[i] == '\r')) ++i;
        if (i < text.size() && text[i] != separator && text[i] != '\n')
          return bad_input(csv_line(file, line),
                           "has text after a closing quotation mark; write \"\" for a quotation mark inside quotes");
      } else {
        while (i < text.size() && text[i] != separator && text[i] != '\n') cell.text += text[i++];
        cell.text = std::string(trimmed(cell.text));
      }
      row.cells.push_back(std::move(cell));
      ended = i >= text.size() || text[i] == '\n';
      if (!ended) ++i;  // the separator
    }
    ++i;
    ++line;
    while (row.cells.size() > 1 && row.cells.back().text.empty() && !row.cells.back().quoted) row.cells.pop_back();
    if (row.cells.size() > 1 || !row.cells.front().text.empty()) rows.push_back(std::move(row));
  }
  return rows;
}

std::optional<double> csv_number(std::string_view text, char separator) {
  std::string plain(text);
  if (separator != ',' && plain.find('.') == std::string::npos) std::replace(plain.begin(), plain.end(), ',', '.');
  return parse_decimal(plain);
}

}  // namespace outbye
