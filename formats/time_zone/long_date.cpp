#include "formats/time_zone/long_date.h"

namespace outbye {

std::string long_date(Instant at, const Clock& clock) {
  static const char* const weekdays[] = {"Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"};
  static const char* const months[] = {"January", "February", "March",     "April",   "May",      "June",
                                       "July",    "August",   "September", "October", "November", "December"};
  const auto local = std::chrono::sys_time<Seconds>{at.time_since_epoch() + offset_at(clock, at)};
  const auto day = std::chrono::floor<std::chrono::days>(local);
  const std::chrono::year_month_day date{day};
  return std::string(weekdays[std::chrono::weekday{day}.c_encoding()]) + " " +
         std::to_string(static_cast<unsigned>(date.day())) + " " + months[static_cast<unsigned>(date.month()) - 1] +
         " " + std::to_string(static_cast<int>(date.year()));
}

}  // namespace outbye
