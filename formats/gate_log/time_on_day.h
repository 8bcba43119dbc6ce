// A time as it is called out at a gate: "10:32" or "10:32:15" on a day, or a full time with its date.
#pragma once

#include <string>
#include <string_view>

#include "core/base/clock.h"
#include "core/base/result.h"
#include "core/base/units.h"

namespace outbye {

// `date` is "2026-06-13", or empty where only full times can be told. Local time of the clock unless the text has an
// offset. Errors: bad_input, as parse_written_time and to_instant give them.
Result<Instant> time_on_day(std::string_view text, const std::string& date, const Clock& clock);

}  // namespace outbye
