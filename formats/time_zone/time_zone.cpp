#include "formats/time_zone/time_zone.h"

#include <date/tz.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <fstream>
#include <optional>
#include <vector>

#include "core/base/text.h"

namespace outbye {
namespace {

using Offset = std::chrono::minutes;

constexpr Seconds reach = std::chrono::hours{24 * 400};

date::sys_seconds whole(Instant at) {
  return date::sys_seconds{std::chrono::seconds{static_cast<std::int64_t>(std::floor(at.time_since_epoch().count()))}};
}

// "+02:00" is read by the same code as the offset of a written time, so that both accept the same forms.
std::optional<Offset> plain_offset(std::string_view zone) {
  const auto written = parse_written_time("2000-01-01T00:00" + std::string(zone));
  if (!written || !written->offset) return std::nullopt;
  return written->offset;
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

Instant less_offset(std::chrono::local_time<Seconds> local, Offset offset) {
  return Instant{local.time_since_epoch() - Seconds{offset}};
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

Result<Clock> clock_for_zone(std::string_view zone, Instant around) {
  zone = trimmed(zone);
  if (zone.empty()) return bad_input("time zone", "is empty; write a name like Europe/London or an offset like +01:00");
  if (zone == "UTC" || zone == "Z" || zone == "z") return Clock{"UTC", {{Instant{}, Offset{0}}}};
  if (zone.front() == '+' || zone.front() == '-') {
    const auto offset = plain_offset(zone);
    if (!offset) {
      return bad_input("time zone '" + std::string(zone) + "'",
                       "is not an offset from UTC; write hours and minutes like +02:00, at most 18:59");
    }
    return Clock{std::string(zone), {{Instant{}, *offset}}};
  }
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

Result<Instant> to_instant(const WrittenTime& written, const Clock& clock) {
  if (written.offset) return less_offset(written.local, *written.offset);
  std::vector<Offset> offsets;  // that the clock ever shows
  for (const auto& change : clock.changes) {
    if (std::find(offsets.begin(), offsets.end(), change.offset) == offsets.end()) offsets.push_back(change.offset);
  }
  if (offsets.empty()) return less_offset(written.local, Offset{0});
  std::vector<Instant> meant;  // instants at which the clocks on the ground show the written time
  for (const auto offset : offsets) {
    const Instant candidate = less_offset(written.local, offset);
    if (offset_at(clock, candidate) == offset) meant.push_back(candidate);
  }
  if (meant.size() == 1) return meant.front();
  const Clock as_utc;
  const std::string shown = iso8601(Instant{written.local.time_since_epoch()}, as_utc).substr(0, 19);
  const std::string where = "'" + shown + "' in " + clock.zone;
  if (meant.size() > 1) {
    std::sort(meant.begin(), meant.end());
    return bad_input(where, "happens twice, as the clocks go back; write " + iso8601(meant.front(), clock) +
                                " for the first or " + iso8601(meant.back(), clock) + " for the second");
  }
  // Skipped: the change lies between the readings by the offset before it and by the one after.
  for (std::size_t i = 1; i < clock.changes.size(); ++i) {
    const Instant before = less_offset(written.local, clock.changes[i - 1].offset);
    const Instant after = less_offset(written.local, clock.changes[i].offset);
    if (clock.changes[i].from <= before && after < clock.changes[i].from) {
      return bad_input(where, "does not exist, as the clocks go forward; write " + iso8601(before, clock) +
                                  " if the clock had not changed yet, or another time");
    }
  }
  return bad_input(where, "does not exist there; write the time with its offset, like " + shown + "+01:00");
}

Result<Instant> to_instant(const WrittenTime& written, std::string_view zone) {
  const auto clock = clock_for_zone(zone, Instant{written.local.time_since_epoch()});
  if (!clock) return tl::make_unexpected(clock.error());
  return to_instant(written, *clock);
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
