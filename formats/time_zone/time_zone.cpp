#include "formats/time_zone/time_zone.h"

#include <algorithm>
#include <optional>
#include <vector>

#include "core/base/text.h"
#include "formats/time_zone/named_zone.h"

namespace outbye {
namespace {

using Offset = std::chrono::minutes;

// "+02:00" is read by the same code as the offset of a written time, so that both accept the same forms.
std::optional<Offset> plain_offset(std::string_view zone) {
  const auto written = parse_written_time("2000-01-01T00:00" + std::string(zone));
  if (!written || !written->offset) return std::nullopt;
  return written->offset;
}

Instant less_offset(std::chrono::local_time<Seconds> local, Offset offset) {
  return Instant{local.time_since_epoch() - Seconds{offset}};
}

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
  return clock_of_named_zone(zone, around);
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

}  // namespace outbye
