#include "formats/time_zone/named_zone.h"

#include <date/tz.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <fstream>
#include <optional>
#include <string>
#include <vector>

#include "core/base/text.h"
#include "formats/time_zone/time_zone.h"

namespace outbye {
namespace {

using Offset = std::chrono::minutes;

constexpr Seconds reach = std::chrono::hours{24 * 400};

date::sys_seconds whole(Instant at) {
  return date::sys_seconds{std::chrono::seconds{static_cast<std::int64_t>(std::floor(at.time_since_epoch().count()))}};
}

tl::unexpected<Problem> unknown_zone(std::string_view zone) {
  std::string hint;
  try {
    std::vector<std::string_view> names;
    for (const auto& known : date::get_tzdb().zones) names.push_back(known.name());
    const auto near = nearest_name(zone, names);
    if (near) hint = "did you mean " + std::string(*near) + "? ";
    for (const auto name : names) {
      // "london" for "Europe/London": the part that people remember
      const auto slash = name.rfind('/');
      if (slash == std::string_view::npos || edit_distance(name.substr(slash + 1), zone) != 0) continue;
      hint = "did you mean " + std::string(name) + "? ";
      break;
    }
  } catch (const std::exception& e) {
    hint = std::string(e.what()) + " (is the package tzdata installed?); ";
  }
  return not_found(
      "time zone '" + std::string(zone) + "'",
      "is not one that this machine knows; " + hint + "write a name like Europe/London or an offset like +01:00");
}

// A zone's name as the tail of a path of zone files: ".../zoneinfo/Europe/London".
std::optional<std::string> name_in_path(const std::string& path) {
  constexpr std::string_view marker = "zoneinfo/";
  const auto found = path.rfind(marker);
  if (found == std::string::npos) return std::nullopt;
  return path.substr(found + marker.size());
}

bool is_known(const std::string& zone) { return clock_for_zone(zone, Instant{}).has_value(); }

}  // namespace

Result<Clock> clock_of_named_zone(std::string_view zone, Instant around) {
  try {
    const date::time_zone* const found = date::locate_zone(std::string(zone));
    Clock clock{std::string(zone), {}};
    date::sys_seconds at = whole(around - reach);
    const date::sys_seconds end = whole(around + reach);
    while (at <= end) {
      const date::sys_info info = found->get_info(at);
      const auto offset = std::chrono::duration_cast<Offset>(info.offset);
      if (clock.changes.empty() || clock.changes.back().offset != offset) {
        clock.changes.push_back({Instant{Seconds{std::max(info.begin, at).time_since_epoch()}}, offset});
      }
      if (info.end <= at || info.end == date::sys_seconds::max()) break;
      at = info.end;
    }
    return clock;
  } catch (const std::exception&) {
    return unknown_zone(zone);
  }
}

std::string local_zone() {
  if (const char* const tz = std::getenv("TZ")) {
    std::string name = tz;
    if (!name.empty() && name.front() == ':') name.erase(0, 1);
    if (const auto tail = name_in_path(name)) name = *tail;
    if (!name.empty() && name.front() != '+' && name.front() != '-' && is_known(name)) return name;
  }
  std::error_code error;
  const auto link = std::filesystem::read_symlink("/etc/localtime", error);
  if (!error) {
    const auto name = name_in_path(link.string());
    if (name && is_known(*name)) return *name;
  }
  std::ifstream file("/etc/timezone");
  std::string line;
  if (std::getline(file, line)) {
    const std::string name{trimmed(line)};
    if (!name.empty() && is_known(name)) return name;
  }
  return "UTC";
}

}  // namespace outbye
