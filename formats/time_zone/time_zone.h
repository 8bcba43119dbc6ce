// Time zones by name or offset, from the system's tz database (IANA), and what a written local time means in them.
#pragma once

#include <string>
#include <string_view>

#include "core/base/clock.h"
#include "core/base/result.h"
#include "core/base/units.h"

namespace outbye {

// The offsets of a zone from 400 days before `around` to 400 days after it. The zone is a name of the tz database
// ("Europe/London", case as written there), "UTC" or "Z", or a plain offset ("+02:00", "-0330", "+02").
// Errors: not_found with the nearest known name; bad_input for an offset that is not one.
Result<Clock> clock_for_zone(std::string_view zone, Instant around);

// The instant of a written time. Its own offset wins; without one it is local time of the clock.
// Errors: bad_input for a local time that the clocks skip in spring or show twice in autumn. Neither is guessed: an
// hour's error would upset the whole day, so the message gives the two times with offset to choose from.
Result<Instant> to_instant(const WrittenTime& written, const Clock& clock);

// The same with a zone as the user typed it.
Result<Instant> to_instant(const WrittenTime& written, std::string_view zone);

// The zone of this machine: the variable TZ when it names a zone, else the link /etc/localtime, else /etc/timezone,
// else "UTC". Always a name that clock_for_zone accepts.
std::string local_zone();

}  // namespace outbye
