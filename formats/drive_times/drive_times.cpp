#include "formats/drive_times/drive_times.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "core/base/text.h"
#include "formats/csv/csv.h"

namespace outbye {
namespace {

using Cell = CsvCell;
using Row = CsvRow;

std::string at_line(const std::string& file, std::size_t line) { return csv_line(file, line); }

std::optional<double> number(std::string_view text, char separator) { return csv_number(text, separator); }

// Minutes, or h:mm.
std::optional<Seconds> duration(std::string_view text, char separator) {
  if (text.ends_with("min")) text = trimmed(text.substr(0, text.size() - 3));
  if (const std::size_t colon = text.find(':'); colon != std::string_view::npos) {
    const auto hours = parse_decimal(text.substr(0, colon)), mins = parse_decimal(text.substr(colon + 1));
    if (!hours || !mins || text.size() - colon != 3 || *mins < 0 || *mins >= 60 || *hours < 0 ||
        *hours != std::floor(*hours) || *mins != std::floor(*mins))
      return std::nullopt;
    return minutes(60 * *hours + *mins);
  }
  if (const auto value = number(text, separator)) return minutes(*value);
  return std::nullopt;
}

constexpr double longest_minutes = 24 * 60;

// Errors without a place: the caller knows the line.
Result<Seconds> drive_time(const Cell& cell, char separator, const std::string& where) {
  const auto time = duration(cell.text, separator);
  if (!time)
    return bad_input(where, "has \"" + cell.text +
                                "\" where a drive time belongs; write minutes like 12 or 12.5, or h:mm like 1:05");
  if (!(time->count() > 0))
    return bad_input(where, "has a drive of " + cell.text + " min; a drive takes more than 0 minutes");
  if (in_minutes(*time) > longest_minutes)
    return bad_input(where, "has a drive of more than 24 hours (" + cell.text + "); write minutes, not seconds");
  return *time;
}

struct Entry {
  Drive drive;
  std::size_t line{};
};

class Places {
 public:
  PlaceId number_of(const std::string& name) {
    const auto [found, is_new] = numbers_.try_emplace(name, static_cast<std::uint32_t>(names_.size()));
    if (is_new) names_.push_back(name);
    return PlaceId{found->second};
  }
  bool has(const std::string& name) const { return numbers_.contains(name); }
  std::vector<std::string> names() const { return names_; }

 private:
  std::map<std::string, std::uint32_t> numbers_;
  std::vector<std::string> names_;
};

bool is_one_of(std::string_view word, std::initializer_list<std::string_view> words) {
  return std::any_of(words.begin(), words.end(), [&](std::string_view w) { return edit_distance(word, w) == 0; });
}

Result<DriveTable> read_list(const std::vector<Row>& rows, std::size_t first, char separator, const std::string& file) {
  Places places;
  std::map<std::pair<PlaceId, PlaceId>, Entry> entries;
  for (std::size_t r = first; r < rows.size(); ++r) {
    const std::vector<Cell>& cells = rows[r].cells;
    const std::string where = at_line(file, rows[r].line);
    if (cells.size() < 3 || cells.size() > 4)
      return bad_input(where,
                       "has " + std::to_string(cells.size()) + " values; write from, to, minutes and, if known, km");
    if (cells[0].text.empty() || cells[1].text.empty()) return bad_input(where, "lacks the name of a place");
    if (cells[0].text == cells[1].text)
      return bad_input(where, "drives from " + cells[0].text + " to itself; name two places");
    const auto time = drive_time(cells[2], separator, where);
    if (!time) return tl::make_unexpected(time.error());
    Metres length{};
    if (cells.size() == 4 && !cells[3].text.empty()) {
      std::string_view text = cells[3].text;
      if (text.ends_with("km")) text = trimmed(text.substr(0, text.size() - 2));
      const auto km = number(text, separator);
      if (!km || *km < 0 || *km > 5000)
        return bad_input(
            where, "has \"" + cells[3].text + "\" where kilometres belong; write a number like 8.4 or leave it empty");
      length = kilometres(*km);
    }
    const PlaceId from = places.number_of(cells[0].text), to = places.number_of(cells[1].text);
    const auto [found, is_new] = entries.try_emplace({from, to}, Entry{{*time, length}, rows[r].line});
    if (!is_new)
      return bad_input(where, "gives the drive from " + cells[0].text + " to " + cells[1].text +
                                  " again (first in line " + std::to_string(found->second.line) +
                                  "); keep one of the two");
  }
  DriveTable table(places.names());
  for (const auto& [pair, entry] : entries) {
    table.set(pair.first, pair.second, entry.drive);
    if (!entries.contains({pair.second, pair.first})) table.set(pair.second, pair.first, entry.drive);
  }
  return table;
}

Result<DriveTable> read_matrix(const std::vector<Row>& rows, char separator, const std::string& file) {
  const std::vector<Cell>& header = rows.front().cells;
  const std::string header_line = at_line(file, rows.front().line);
  Places places;
  for (std::size_t c = 1; c < header.size(); ++c) {
    if (header[c].text.empty())
      return bad_input(header_line, "lacks the name of the place in column " + std::to_string(c + 1));
    if (places.has(header[c].text)) return bad_input(header_line, "names " + header[c].text + " twice");
    places.number_of(header[c].text);
  }
  DriveTable table(places.names());
  std::map<std::string, std::size_t> line_of;
  for (std::size_t r = 1; r < rows.size(); ++r) {
    const std::vector<Cell>& cells = rows[r].cells;
    const std::string where = at_line(file, rows[r].line);
    const std::string& name = cells.front().text;
    if (!places.has(name)) {
      std::vector<std::string_view> known;
      const std::vector<std::string> names = places.names();
      for (const std::string& place : names) known.push_back(place);
      const auto near = nearest_name(name, known);
      return bad_input(
          where, "starts from \"" + name + "\", which the first row does not name" +
                     (near ? "; did you mean " + std::string(*near) + "?" : "; the same places head rows and columns"));
    }
    if (const auto [found, is_new] = line_of.try_emplace(name, rows[r].line); !is_new)
      return bad_input(where, "is a second row for " + name + " (first in line " + std::to_string(found->second) + ")");
    if (cells.size() > header.size())
      return bad_input(where, "has " + std::to_string(cells.size() - 1) + " values for " +
                                  std::to_string(header.size() - 1) + " places");
    const PlaceId from = places.number_of(name);
    for (std::size_t c = 1; c < cells.size(); ++c) {
      const PlaceId to{static_cast<std::uint32_t>(c - 1)};
      const std::string& text = cells[c].text;
      if (from == to) {
        if (text.empty() || text == "-") continue;
        if (const auto time = duration(text, separator); time && time->count() == 0) continue;
        return bad_input(where,
                         "has \"" + text + "\" for the drive from " + name + " to itself; write 0 or leave it empty");
      }
      if (text.empty() || text == "-") continue;  // no way
      const auto time = drive_time(cells[c], separator, where + ", column " + std::to_string(c + 1));
      if (!time) return tl::make_unexpected(time.error());
      table.set(from, to, Drive{*time, {}});
    }
  }
  if (line_of.size() < places.names().size())
    for (const std::string& place : places.names())
      if (!line_of.contains(place))
        return bad_input(file, "has a column for " + place + " but no row; add the drives that start there");
  return table;
}

}  // namespace

Result<DriveTable> read_drive_times(std::string_view text, std::string file) {
  if (text.starts_with("\xef\xbb\xbf")) text.remove_prefix(3);
  if (text.find('\0') != std::string_view::npos)
    return bad_input(file, "is not a text file; save the drive times as CSV (UTF-8)");
  const char separator = csv_separator(text);
  const auto rows = read_csv(text, separator, file);
  if (!rows) return tl::make_unexpected(rows.error());
  if (rows->empty()) return bad_input(file, "has no drive times; write lines like: Venue, CP1, 12");
  const std::vector<Cell>& first = rows->front().cells;
  const bool is_heading = first.size() >= 3 && is_one_of(first[0].text, {"from", "start"}) &&
                          is_one_of(first[1].text, {"to", "end", "destination"});
  if (is_heading) {
    if (rows->size() == 1) return bad_input(file, "has a heading but no drive times; write lines like: Venue, CP1, 12");
    return read_list(*rows, 1, separator, file);
  }
  // A matrix: no cell of its first row is a time, and as many rows follow as it names places, each headed by one.
  const bool has_time =
      std::any_of(first.begin(), first.end(), [&](const Cell& c) { return duration(c.text, separator).has_value(); });
  const bool is_list_line = (first.size() == 3 || first.size() == 4) && duration(first[2].text, separator).has_value();
  if (!is_list_line && first.size() >= 2 && rows->size() >= 2 && (!has_time || first.front().text.empty()))
    return read_matrix(*rows, separator, file);
  return read_list(*rows, 0, separator, file);
}

}  // namespace outbye
