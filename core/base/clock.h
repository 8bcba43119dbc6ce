// Instants as a person reads them: local clock time and ISO 8601 with offset, given the offsets in force.
// The core knows no time-zone database: formats/time_zone.h looks the offsets up and hands them in as a Clock.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/base/units.h"

namespace outbye {

struct OffsetChange {
  Instant from;                 // the offset holds from this instant on
  std::chrono::minutes offset;  // local minus UTC, -18 h .. +18 h
};

// How UTC becomes local time. `changes` ascending; before the first change the first offset holds; empty: UTC.
struct Clock {
  std::string zone{"UTC"};  // what a person typed: "Europe/London", "+02:00"
  std::vector<OffsetChange> changes;
};

std::chrono::minutes offset_at(const Clock& clock, Instant at);

// "2026-06-13T07:00:00+01:00": whole seconds, rounded to nearest.
std::string iso8601(Instant at, const Clock& clock);
// "07:00" (rounded to the nearest minute) and "07:00:00".
std::string hours_minutes(Instant at, const Clock& clock);
std::string hours_minutes_seconds(Instant at, const Clock& clock);
// Midnight of the local day that an instant falls on; the clocks may have changed since.
Instant local_midnight(Instant at, const Clock& clock);
// "2026-06-13"
std::string local_date(Instant at, const Clock& clock);
// "1:05" (h:mm) for a duration, "-0:07" when negative, rounded to the nearest minute.
std::string hours_minutes(Seconds duration);

// A civil time as written in a file: 2026-06-13T07:00[:00[.fff]] with an optional offset (Z, +01:00, +0100, +01).
struct WrittenTime {
  std::chrono::local_time<Seconds> local;
  std::optional<std::chrono::minutes> offset;
};
// Calendar dates are checked (no 30 February). A space may stand for the T.
Result<WrittenTime> parse_written_time(std::string_view text);

}  // namespace outbye
