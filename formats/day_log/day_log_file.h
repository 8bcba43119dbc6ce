// The day log as JSON lines, version 1: docs/day.md and docs/schema/day-log-1.json.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "core/live/day_log.h"

namespace outbye {

constexpr int day_log_version = 1;

// A line that could not be read, kept as it was.
struct UnreadLine {
  std::size_t number{};  // 1-based
  std::string text;      // without its line end
  bool is_torn{};        // the last line, without a line end and not whole: the write was cut off
  std::vector<Problem> problems;
};

struct DayLogReading {
  DayLog log;
  std::string ride;  // as the first line names it; may be empty
  std::vector<UnreadLine> unread;
};

// Never loses a line: what cannot be read is in `unread`. `file` is used in messages only. Errors: bad_input when the
// file is something else or of another version.
Result<DayLogReading> read_day_log(std::string_view text, const std::string& file);

// The first line of a new log.
std::string day_log_head(const std::string& ride);
// One event as a line with its line end, to be added to a file.
std::string day_log_line(const DayEvent& event);
// The whole file; unread lines follow the events, as they were.
std::string write_day_log(const DayLogReading& reading);
// Union of the events, and of the unread lines by their text.
DayLogReading merged(const DayLogReading& a, const DayLogReading& b);

// One event or entry by itself, as pages hand them over. Errors: the first problem.
Result<DayEvent> read_day_event(std::string_view json);

}  // namespace outbye
