#include "core/base/clock.h"

#include <cmath>
#include <cstdio>

#include "core/base/text.h"

namespace outbye {
namespace {

using std::chrono::floor;

std::chrono::sys_time<std::chrono::seconds> whole_seconds(Instant at) {
  const double rounded = std::floor(at.time_since_epoch().count() + 0.5);
  return std::chrono::sys_time<std::chrono::seconds>{std::chrono::seconds{static_cast<std::int64_t>(rounded)}};
}

struct CivilTime {
  int year;
  unsigned month, day;
  long hour, minute, second;
};

CivilTime civil(std::chrono::sys_time<std::chrono::seconds> at, std::chrono::minutes offset) {
  const auto local = at + offset;
  const auto day = floor<std::chrono::days>(local);
  const std::chrono::year_month_day date{day};
  const auto in_day = local - day;
  const long total = in_day.count();
  return {static_cast<int>(date.year()),
          static_cast<unsigned>(date.month()),
          static_cast<unsigned>(date.day()),
          total / 3600,
          total / 60 % 60,
          total % 60};
}

template <class... Args>
std::string print(const char* format, Args... args) {
  char buffer[64];
  const int n = std::snprintf(buffer, sizeof buffer, format, args...);
  return std::string(buffer, static_cast<std::size_t>(n));
}

// Reads exactly `digits` digits at the front of text, or nothing.
std::optional<int> take_digits(std::string_view& text, std::size_t digits) {
  if (text.size() < digits) return std::nullopt;
  int value = 0;
  for (std::size_t i = 0; i < digits; ++i) {
    if (text[i] < '0' || text[i] > '9') return std::nullopt;
    value = 10 * value + (text[i] - '0');
  }
  text.remove_prefix(digits);
  return value;
}

bool take(std::string_view& text, char c) {
  if (text.empty() || text.front() != c) return false;
  text.remove_prefix(1);
  return true;
}

// The offset at the end of a written time: Z, +hh, +hhmm, +hh:mm. Nothing when it is not one.
std::optional<std::chrono::minutes> take_offset(std::string_view& text) {
  if (take(text, 'Z') || take(text, 'z')) return std::chrono::minutes{0};
  const bool east = take(text, '+');
  if (!east && !take(text, '-')) return std::nullopt;
  const auto hours = take_digits(text, 2);
  if (!hours || *hours > 18) return std::nullopt;
  int min = 0;
  if (!text.empty()) {
    take(text, ':');
    const auto read = take_digits(text, 2);
    if (!read || *read > 59) return std::nullopt;
    min = *read;
  }
  const int total = *hours * 60 + min;
  return std::chrono::minutes{east ? total : -total};
}

}  // namespace

std::chrono::minutes offset_at(const Clock& clock, Instant at) {
  if (clock.changes.empty()) return std::chrono::minutes{0};
  auto offset = clock.changes.front().offset;
  for (const auto& change : clock.changes) {
    if (change.from <= at) offset = change.offset;
  }
  return offset;
}

std::string iso8601(Instant at, const Clock& clock) {
  const auto whole = whole_seconds(at);
  const auto offset = offset_at(clock, Instant{whole});
  const auto t = civil(whole, offset);
  const long total = std::labs(static_cast<long>(offset.count()));
  return print("%04d-%02u-%02uT%02ld:%02ld:%02ld%c%02ld:%02ld", t.year, t.month, t.day, t.hour, t.minute, t.second,
               offset.count() < 0 ? '-' : '+', total / 60, total % 60);
}

std::string hours_minutes(Instant at, const Clock& clock) {
  const Instant nearest = Instant{Seconds{60.0 * std::floor(at.time_since_epoch().count() / 60.0 + 0.5)}};
  const auto t = civil(whole_seconds(nearest), offset_at(clock, at));
  return print("%02ld:%02ld", t.hour, t.minute);
}

std::string hours_minutes_seconds(Instant at, const Clock& clock) {
  const auto t = civil(whole_seconds(at), offset_at(clock, at));
  return print("%02ld:%02ld:%02ld", t.hour, t.minute, t.second);
}

Instant local_midnight(Instant at, const Clock& clock) {
  const Seconds offset = offset_at(clock, at);
  const Instant local{std::chrono::floor<std::chrono::days>(at + offset).time_since_epoch()};
  return local - Seconds{offset_at(clock, local - offset)};
}

std::string local_date(Instant at, const Clock& clock) {
  const auto t = civil(whole_seconds(at), offset_at(clock, at));
  return print("%04d-%02u-%02u", t.year, t.month, t.day);
}

std::string hours_minutes(Seconds duration) {
  const double rounded = std::floor(std::fabs(duration.count()) / 60.0 + 0.5);
  const long total = static_cast<long>(rounded);
  const char* sign = duration.count() < 0 && total != 0 ? "-" : "";
  return print("%s%ld:%02ld", sign, total / 60, total % 60);
}

Result<WrittenTime> parse_written_time(std::string_view text) {
  const std::string quoted = "'" + std::string(text) + "'";
  const auto refuse = [&](std::string_view why) {
    return bad_input(quoted, std::string(why) + "; write a time like 2026-06-13T07:00 or 2026-06-13T07:00+01:00");
  };
  std::string_view rest = trimmed(text);
  const auto year = take_digits(rest, 4);
  if (!year || !take(rest, '-')) return refuse("is not a date and time");
  const auto month = take_digits(rest, 2);
  if (!month || !take(rest, '-')) return refuse("is not a date and time");
  const auto day = take_digits(rest, 2);
  if (!day) return refuse("is not a date and time");
  if (!take(rest, 'T') && !take(rest, 't') && !take(rest, ' ')) return refuse("has no time of day");
  const auto hour = take_digits(rest, 2);
  if (!hour || !take(rest, ':')) return refuse("has no time of day");
  const auto minute = take_digits(rest, 2);
  if (!minute) return refuse("has no minutes");
  double second = 0;
  if (take(rest, ':')) {
    const auto whole = take_digits(rest, 2);
    if (!whole) return refuse("has no seconds after the colon");
    second = *whole;
    if (take(rest, '.') || take(rest, ',')) {
      double unit = 0.1;
      std::size_t digits = 0;
      while (!rest.empty() && rest.front() >= '0' && rest.front() <= '9') {
        second += unit * (rest.front() - '0');
        unit /= 10;
        rest.remove_prefix(1);
        ++digits;
      }
      if (digits == 0) return refuse("has no digits after the decimal point");
    }
  }
  const std::chrono::year_month_day date{std::chrono::year{*year}, std::chrono::month{static_cast<unsigned>(*month)},
                                         std::chrono::day{static_cast<unsigned>(*day)}};
  if (!date.ok()) return refuse("is not a day of the calendar");
  if (*hour > 23 || *minute > 59 || second >= 61) return refuse("is not a time of day");
  WrittenTime written;
  written.local =
      std::chrono::local_time<Seconds>{std::chrono::local_days{date}.time_since_epoch() + std::chrono::hours{*hour} +
                                       std::chrono::minutes{*minute} + Seconds{second}};
  if (!rest.empty()) {
    written.offset = take_offset(rest);
    if (!written.offset || !rest.empty()) return refuse("has something unreadable after the time");
  }
  return written;
}

}  // namespace outbye
