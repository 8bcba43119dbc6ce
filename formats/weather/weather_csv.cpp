#include "formats/weather/weather_csv.h"

#include <array>
#include <cmath>

#include "core/base/text.h"
#include "formats/csv/csv.h"
#include "formats/time_zone/time_zone.h"

namespace outbye {
namespace {

struct Column {
  std::string_view name;
  double from;
  double to;
  void (*set)(WeatherHour&, double);
};

constexpr std::array<Column, 8> columns{{
    {"temperature_c", -60, 60, [](WeatherHour& h, double v) { h.temperature = {v}; }},
    {"humidity_pct", 0, 100, [](WeatherHour& h, double v) { h.humidity = {v}; }},
    {"wind_ms", 0, 60, [](WeatherHour& h, double v) { h.wind = MetresPerSecond{v}; }},
    {"wind_kmh", 0, 216, [](WeatherHour& h, double v) { h.wind = MetresPerSecond{v / 3.6}; }},
    {"radiation_wm2", 0, 1500, [](WeatherHour& h, double v) { h.radiation = WattsPerSquareMetre{v}; }},
    {"cloud_pct", 0, 100, [](WeatherHour& h, double v) { h.cloud = v / 100.0; }},
    {"pressure_hpa", 500, 1100, [](WeatherHour& h, double v) { h.pressure = Hectopascals{v}; }},
    {"rain_mm", 0, 300, [](WeatherHour& h, double v) { h.rain_mm = v; }},
}};

struct Heading {
  std::vector<const Column*> columns;  // null: the time
};

Result<Heading> heading_of(const CsvRow& row, const std::string& file) {
  const std::string where = csv_line(file, row.line);
  Heading heading;
  std::vector<std::string_view> known{"time"};
  for (const auto& column : columns) known.push_back(column.name);
  std::vector<std::string> seen;
  for (const auto& cell : row.cells) {
    const Column* found = nullptr;
    for (const auto& column : columns) {
      if (same_name(column.name, cell.text)) found = &column;
    }
    if (found == nullptr && !same_name(cell.text, "time")) {
      const auto near = nearest_name(cell.text, known);
      return bad_input(where, "has a column \"" + cell.text + "\"" +
                                  (near ? "; did you mean " + std::string(*near) + "?"
                                        : "; the columns are time, temperature_c, humidity_pct, wind_ms or wind_kmh, "
                                          "radiation_wm2, cloud_pct, pressure_hpa, rain_mm"));
    }
    const std::string name = found == nullptr ? "time" : std::string(found->name);
    for (const auto& other : seen) {
      if (other == name) return bad_input(where, "has the column " + name + " twice; keep one");
    }
    seen.push_back(name);
    heading.columns.push_back(found);
  }
  for (const std::string_view needed : {"time", "temperature_c", "humidity_pct"}) {
    bool has = false;
    for (const auto& name : seen) has = has || name == needed;
    if (!has) {
      return bad_input(where, "lacks the column " + std::string(needed) +
                                  "; the first row names the columns: time, temperature_c, humidity_pct, ...");
    }
  }
  return heading;
}

bool is_clock_time(std::string_view text) {
  return text.size() >= 4 && text.size() <= 5 && text[text.size() - 3] == ':';
}

std::string iso_of_clock(std::string_view text, Instant day, const Clock& clock) {
  return local_date(day, clock) + "T" + (text.size() == 4 ? "0" : "") + std::string(text);
}

Result<Instant> instant_of(const std::string& text, const Clock& clock, const std::string& where) {
  const auto refused = [&](const Problem& p) {
    return bad_input(where, "time \"" + text + "\": " + p.where + " " + p.what + "; write 07:00 or 2026-06-13T07:00");
  };
  const auto written = parse_written_time(text);
  if (!written) return refused(written.error());
  const auto at = to_instant(*written, clock);
  if (!at) return refused(at.error());
  return *at;
}

Result<Instant> time_of(const std::string& text, const Clock& clock, Instant start, const Weather& before,
                        const std::string& where) {
  if (!is_clock_time(text)) return instant_of(text, clock, where);
  Instant day = before.empty() ? start : before.back().at;
  auto at = instant_of(iso_of_clock(text, day, clock), clock, where);
  if (at && !before.empty() && *at <= before.back().at) {
    const auto next = instant_of(iso_of_clock(text, *at + std::chrono::hours{24}, clock), clock, where);
    // Only from evening to morning is a new day; anything else is a slip, reported as out of order.
    if (next && *next - before.back().at <= std::chrono::hours{12}) return next;
  }
  return at;
}

}  // namespace

Result<Weather> read_weather_csv(std::string_view text, const std::string& file, const Clock& clock, Instant start) {
  if (text.starts_with("\xef\xbb\xbf")) text.remove_prefix(3);
  if (text.find('\0') != std::string_view::npos) {
    return bad_input(file, "is not a text file; save the weather as CSV (UTF-8)");
  }
  const char separator = csv_separator(text);
  const auto rows = read_csv(text, separator, file);
  if (!rows) return tl::make_unexpected(rows.error());
  if (rows->empty()) return bad_input(file, "is empty; the first row names the columns: time, temperature_c, ...");
  const auto heading = heading_of(rows->front(), file);
  if (!heading) return tl::make_unexpected(heading.error());
  Weather weather;
  for (std::size_t r = 1; r < rows->size(); ++r) {
    const CsvRow& row = (*rows)[r];
    const std::string where = csv_line(file, row.line);
    if (row.cells.size() > heading->columns.size()) {
      return bad_input(where, "has " + std::to_string(row.cells.size()) + " values for " +
                                  std::to_string(heading->columns.size()) + " columns");
    }
    WeatherHour hour;
    for (std::size_t c = 0; c < heading->columns.size(); ++c) {
      const std::string cell = c < row.cells.size() ? row.cells[c].text : "";
      const Column* column = heading->columns[c];
      if (column == nullptr) {
        const auto at = time_of(cell, clock, start, weather, where);
        if (!at) return tl::make_unexpected(at.error());
        hour.at = *at;
        continue;
      }
      if (cell.empty()) {
        if (column == &columns[0] || column == &columns[1]) {
          return bad_input(where, "lacks " + std::string(column->name) + "; every hour has it, or leave the row out");
        }
        continue;
      }
      const auto value = csv_number(cell, separator);
      if (!value || !(*value >= column->from && *value <= column->to)) {
        return bad_input(where, std::string(column->name) + " is \"" + cell + "\", but must be a number from " +
                                    fixed(column->from, 0) + " to " + fixed(column->to, 0));
      }
      column->set(hour, *value);
    }
    if (!weather.empty() && hour.at <= weather.back().at) {
      return bad_input(where, "is not later than the row before it; put the rows in order of time");
    }
    weather.push_back(hour);
  }
  if (weather.empty()) return bad_input(file, "has a heading but no hours; write rows like: 07:00, 14.5, 80");
  return weather;
}

}  // namespace outbye
