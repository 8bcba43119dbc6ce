// The weather of the day from a table: a heading, then one row an hour. docs/ride-file.md lists the columns.
#pragma once

#include <string>
#include <string_view>

#include "core/base/clock.h"
#include "core/base/result.h"
#include "core/welfare/weather.h"

namespace outbye {

// Columns in any order: time, temperature_c, humidity_pct; and where known wind_ms or wind_kmh (at 10 m),
// radiation_wm2, cloud_pct, pressure_hpa, rain_mm. Other columns are refused with the nearest known name. Times are
// ISO 8601, or 07:00 on the local day of `start`; after midnight they go on into the next day.
// Errors: bad_input at the line and column, with what may stand there.
Result<Weather> read_weather_csv(std::string_view text, const std::string& file, const Clock& clock, Instant start);

}  // namespace outbye
