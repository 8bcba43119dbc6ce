// Legal limits: reading a tagged value, and national defaults.
#include <algorithm>
#include <limits>

#include "core/base/text.h"
#include "core/roads/road_rules.h"

namespace outbye {
namespace {

constexpr double unlimited = std::numeric_limits<double>::infinity();
constexpr double mile = 1.609344;  // km, exactly
constexpr double nautical_mile = 1.852;
constexpr double walking_pace = 7.0;  // Germany's courts: 4 to 15 km/h; from memory

// From memory unless a source is named: a user whose country matters checks the row (docs/routing.md says how to
// change it). GB: Highway Code, speed limits table (built-up 30, single 60, dual and motorway 70 mph).
constexpr auto table = std::to_array<NationalLimits>({
    {"AT", 50, 100, 100, 130, 7, "memory"},
    {"AU", 50, 100, 110, 110, 10, "memory"},
    {"BE", 50, 70, 120, 120, 20, "memory"},
    {"BG", 50, 90, 120, 140, 20, "memory"},
    {"CA", 50, 80, 100, 100, 20, "memory"},
    {"CH", 50, 80, 100, 120, 20, "memory"},
    {"CZ", 50, 90, 110, 130, 20, "memory"},
    {"DE", 50, 100, unlimited, unlimited, 7, "memory"},
    {"DK", 50, 80, 80, 130, 15, "memory"},
    {"EE", 50, 90, 90, 110, 20, "memory"},
    {"ES", 50, 90, 100, 120, 20, "memory"},
    {"FI", 50, 80, 100, 120, 20, "memory"},
    {"FR", 50, 80, 110, 130, 20, "memory"},
    {"GB", 30 * mile, 60 * mile, 70 * mile, 70 * mile, 20 * mile, "Highway Code; living street from memory"},
    {"HR", 50, 90, 110, 130, 10, "memory"},
    {"HU", 50, 90, 110, 130, 20, "memory"},
    {"IE", 50, 80, 100, 120, 30, "memory"},
    {"IS", 50, 80, 90, 90, 15, "memory"},
    {"IT", 50, 90, 110, 130, 20, "memory"},
    {"LT", 50, 90, 110, 130, 20, "memory"},
    {"LU", 50, 90, 110, 130, 20, "memory"},
    {"LV", 50, 90, 100, 110, 20, "memory"},
    {"NL", 50, 80, 100, 100, 15, "memory"},
    {"NO", 50, 80, 80, 110, 15, "memory"},
    {"NZ", 50, 100, 100, 100, 10, "memory"},
    {"PL", 50, 90, 100, 140, 20, "memory"},
    {"PT", 50, 90, 100, 120, 20, "memory"},
    {"RO", 50, 90, 100, 130, 20, "memory"},
    {"SE", 50, 70, 70, 110, 7, "memory"},
    {"SI", 50, 90, 110, 130, 10, "memory"},
    {"SK", 50, 90, 90, 130, 20, "memory"},
    {"US", 25 * mile, 55 * mile, 55 * mile, 65 * mile, 15 * mile, "memory; states differ"},
    {"ZA", 60, 100, 120, 120, 20, "memory"},
    {"AE", 60, 100, 120, 120, 20, "memory"},
    {"UY", 45, 90, 90, 110, 20, "memory"},
    {"", 50, 80, 80, 100, 10, "cautious: at or below most of the rows above"},
});

std::string lower(std::string_view text) {
  std::string result(text);
  for (char& c : result)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return result;
}

bool uses_miles(std::string_view country) {
  return country == "GB" || country == "US" || country == "IM" || country == "JE" || country == "GG";
}

// What follows the country in "DE:urban".
std::optional<double> zone_limit(std::string_view country, std::string_view zone) {
  const NationalLimits& limits = national_limits(country);
  struct Zone {
    std::string_view name;
    double NationalLimits::*limit;
  };
  static constexpr std::array<Zone, 14> zones{{{"urban", &NationalLimits::town},
                                               {"nsl_restricted", &NationalLimits::town},
                                               {"restricted", &NationalLimits::town},
                                               {"rural", &NationalLimits::open_road},
                                               {"nsl_single", &NationalLimits::open_road},
                                               {"single", &NationalLimits::open_road},
                                               {"national", &NationalLimits::open_road},
                                               {"nsl_dual", &NationalLimits::dual_carriageway},
                                               {"dual", &NationalLimits::dual_carriageway},
                                               {"trunk", &NationalLimits::dual_carriageway},
                                               {"express", &NationalLimits::dual_carriageway},
                                               {"motorway", &NationalLimits::motorway},
                                               {"living_street", &NationalLimits::living_street},
                                               {"bicycle_road", nullptr}}};
  for (const Zone& z : zones)
    if (z.name == zone) return z.limit ? limits.*z.limit : 30.0;
  if (zone == "walk") return walking_pace;
  if (zone.starts_with("zone")) zone.remove_prefix(4);
  if (zone.starts_with(":")) zone.remove_prefix(1);
  if (const auto number = parse_decimal(zone); number && *number >= 1 && *number <= 200)
    return uses_miles(country) ? *number * mile : *number;
  return std::nullopt;
}

std::optional<double> one_limit(std::string_view raw) {
  const std::string text = lower(trimmed(raw));
  std::string_view rest = text;
  if (rest.empty()) return std::nullopt;
  if (rest == "none") return unlimited;
  if (rest == "walk") return walking_pace;
  const std::size_t letters = rest.find_first_not_of("0123456789.");
  if (letters == 0) {  // a zone: "de:urban", "gb_nsl:single"
    const std::size_t cut = rest.find_first_of(":_");
    if (cut != 2) return std::nullopt;
    std::string country{static_cast<char>(rest[0] - 'a' + 'A'), static_cast<char>(rest[1] - 'a' + 'A')};
    if (country == "UK") country = "GB";
    rest.remove_prefix(3);
    if (rest.starts_with("nsl:")) rest.remove_prefix(4);
    return zone_limit(country, rest);
  }
  const auto number = parse_decimal(rest.substr(0, letters));
  if (!number || *number < 1 || *number > 400) return std::nullopt;
  const std::string_view unit = letters == std::string_view::npos ? "" : trimmed(rest.substr(letters));
  if (unit.empty() || unit == "km/h" || unit == "kmh" || unit == "kph") return *number;
  if (unit == "mph") return *number * mile;
  if (unit == "knots" || unit == "kn") return *number * nautical_mile;
  return std::nullopt;
}

}  // namespace

std::optional<KmPerHour> parse_limit(std::string_view text) {
  std::optional<double> lowest;  // of a list: "50;30"
  while (true) {
    const std::size_t cut = text.find(';');
    if (const auto limit = one_limit(text.substr(0, cut)); limit && (!lowest || *limit < *lowest)) lowest = limit;
    if (cut == std::string_view::npos) break;
    text.remove_prefix(cut + 1);
  }
  if (!lowest) return std::nullopt;
  return KmPerHour{*lowest};
}

std::span<const NationalLimits> national_limits_table() { return table; }

const NationalLimits& national_limits(std::string_view country) {
  for (const NationalLimits& row : table)
    if (row.country == country) return row;
  return table.back();
}

bool drives_on_left(std::string_view country) {
  static constexpr std::array<std::string_view, 22> left{"AU", "BN", "CY", "GB", "GG", "HK", "ID", "IE",
                                                         "IM", "IN", "JE", "JP", "KE", "LK", "MT", "MY",
                                                         "NZ", "PK", "SG", "TH", "ZA", "ZW"};  // from memory
  return std::find(left.begin(), left.end(), country) != left.end();
}

}  // namespace outbye
