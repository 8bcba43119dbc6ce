#include "formats/new_ride/guess_zone.h"

#include <cmath>
#include <set>

#include "core/base/text.h"
#include "formats/file_io/file_io.h"

namespace outbye {
namespace {

constexpr const char* table_file = "/usr/share/zoneinfo/zone.tab";

// "+513030" or "-0000731" in degrees: sign, degrees, minutes and perhaps seconds (ISO 6709).
std::optional<double> degrees_from(std::string_view text, std::size_t degree_digits) {
  if (text.size() < degree_digits + 3 || (text[0] != '+' && text[0] != '-')) return std::nullopt;
  const auto number = [&](std::size_t from, std::size_t n) {
    return from + n <= text.size() ? parse_decimal(text.substr(from, n)).value_or(0.0) : 0.0;
  };
  const double size =
      number(1, degree_digits) + number(1 + degree_digits, 2) / 60.0 + number(3 + degree_digits, 2) / 3600.0;
  return text[0] == '-' ? -size : size;
}

// Great circle on the mean sphere, haversine.
double metres_between(Position a, Position b) {
  constexpr double degree = 3.14159265358979323846 / 180.0;
  const double north = std::sin(0.5 * degree * (b.latitude - a.latitude));
  const double east = std::sin(0.5 * degree * (b.longitude - a.longitude));
  const double h = north * north + std::cos(degree * a.latitude) * std::cos(degree * b.latitude) * east * east;
  return 2.0 * 6371008.8 * std::asin(std::sqrt(std::fmin(1.0, h)));
}

// Calls `each` with country, coordinates, zone and comment (perhaps empty) of every row.
template <class Each>
void for_each_row(std::string_view table, const Each& each) {
  while (!table.empty()) {
    const std::size_t end = std::min(table.find('\n'), table.size());
    const std::string_view row = table.substr(0, end);
    table.remove_prefix(std::min(end + 1, table.size()));
    if (row.empty() || row[0] == '#') continue;
    const std::size_t first = row.find('\t');
    if (first == std::string_view::npos) continue;
    const std::size_t second = row.find('\t', first + 1);
    if (second == std::string_view::npos) continue;
    const std::size_t third = std::min(row.find('\t', second + 1), row.size());
    each(row.substr(0, first), row.substr(first + 1, second - first - 1), row.substr(second + 1, third - second - 1),
         third < row.size() ? row.substr(third + 1) : std::string_view{});
  }
}

}  // namespace

std::optional<ZoneGuess> nearest_zone(Position place, std::string_view table, std::string_view wanted) {
  std::optional<ZoneGuess> best;
  bool has_main_zone = false;  // "most of Germany": an exclave's city may lie nearer
  for_each_row(table,
               [&](std::string_view country, std::string_view where, std::string_view zone, std::string_view comment) {
                 if (!wanted.empty() && (country != wanted || has_main_zone)) return;
                 const std::size_t split = where.find_first_of("+-", 1);
                 if (split == std::string_view::npos) return;
                 const auto latitude = degrees_from(where.substr(0, split), 2);
                 const auto longitude = degrees_from(where.substr(split), 3);
                 if (!latitude || !longitude) return;
                 const double metres = metres_between(place, {*latitude, *longitude});
                 has_main_zone = !wanted.empty() && comment.starts_with("most of ");
                 if (has_main_zone || !best || metres < best->distance.value)
                   best = {std::string(zone), std::string(country), {metres}};
               });
  return best;
}

std::optional<ZoneGuess> nearest_zone_here(Position place, std::string_view country) {
  const auto table = read_whole_file(table_file, 1'000'000);
  return table ? nearest_zone(place, *table, country) : std::nullopt;
}

std::optional<std::string> country_of_zone(std::string_view zone) {
  const auto table = read_whole_file(table_file, 1'000'000);
  if (!table) return std::nullopt;
  std::optional<std::string> found;
  for_each_row(*table, [&](std::string_view country, std::string_view, std::string_view name, std::string_view) {
    if (!found && name == zone) found = std::string(country);
  });
  return found;
}

KnownZones known_zones() {
  const auto table = read_whole_file(table_file, 1'000'000);
  std::set<std::string> zones;
  std::set<std::string> countries;
  if (table) {
    for_each_row(*table, [&](std::string_view country, std::string_view, std::string_view zone, std::string_view) {
      zones.emplace(zone);
      countries.emplace(country);
    });
  }
  return {{zones.begin(), zones.end()}, {countries.begin(), countries.end()}};
}

}  // namespace outbye
