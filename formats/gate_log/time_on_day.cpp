#include "formats/gate_log/time_on_day.h"

#include <cmath>

#include "core/base/text.h"
#include "formats/time_zone/time_zone.h"

namespace outbye {
namespace {

bool is_clock_time(std::string_view text) {
  if (text.find(':') == std::string_view::npos) return false;
  return text.find_first_not_of("0123456789:.") == std::string_view::npos;
}

}  // namespace

Result<Instant> time_on_day(std::string_view text, const std::string& date, const Clock& clock) {
  std::string full(trimmed(text));
  if (is_clock_time(full)) {
    if (date.empty()) return bad_input("'" + full + "'", "is a time without a day; give the date too");
    if (full.find(':') == 1) full.insert(0, "0");
    full.insert(0, date + "T");
  }
  const auto written = parse_written_time(full);
  if (!written) return tl::make_unexpected(written.error());
  const auto instant = to_instant(*written, clock);
  if (!instant) return tl::make_unexpected(instant.error());
  return Instant{Seconds{std::floor(instant->time_since_epoch().count() + 0.5)}};  // whole seconds are stored
}

}  // namespace outbye
