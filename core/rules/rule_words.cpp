#include <cmath>
#include <limits>

#include "core/base/text.h"
#include "core/rules/rule_fields.h"

namespace outbye {
namespace {

// At most two decimals, none that are zero: "40", "6.71".
std::string short_number(double value) {
  std::string text = fixed(value, 2);
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text;
}

}  // namespace

std::string in_words(Mark mark) {
  switch (mark) {
    case Mark::published:
      return "published";
    case Mark::derived:
      return "derived";
    case Mark::from_memory:
      return "from memory";
    case Mark::common_practice:
      return "common practice";
    case Mark::event:
      break;
  }
  return "set for this event";
}

std::string in_words(BeatsPerMinute pulse) { return short_number(pulse.value) + " bpm"; }

std::string in_words(Seconds duration) {
  // Up to two hours people speak in minutes ("hold 90 min"), beyond in hours.
  if (duration <= minutes(120)) return short_number(in_minutes(duration)) + " min";
  const auto whole = static_cast<std::int64_t>(std::llround(in_minutes(duration)));
  std::string text = std::to_string(whole / 60) + " h";
  if (whole % 60 != 0) text += " " + std::to_string(whole % 60) + " min";
  return text;
}

std::string in_words(KmPerHour speed) { return short_number(speed.value) + " km/h"; }
std::string in_words(Kilograms mass) { return short_number(mass.value) + " kg"; }
std::string in_words(Metres length) { return short_number(in_kilometres(length)) + " km"; }

std::string in_words(const Interval<Metres>& length) {
  if (length.from == length.to) return in_words(length.from);
  if (!std::isfinite(length.to.value)) return in_words(length.from) + " or more";
  if (length.from == Metres{}) return "up to " + in_words(length.to);
  return short_number(in_kilometres(length.from)) + " to " + in_words(length.to);
}

std::string in_words(std::uint32_t count) { return std::to_string(count); }

std::string in_words(const Interval<std::uint32_t>& count) {
  if (count.from == count.to) return in_words(count.from);
  if (count.to == std::numeric_limits<std::uint32_t>::max()) return in_words(count.from) + " or more";
  return in_words(count.from) + " to " + in_words(count.to);
}

std::string in_words(double share) { return short_number(100.0 * share) + " %"; }
std::string in_words(bool flag) { return flag ? "yes" : "no"; }
std::string in_words(HoldFrom from) { return from == HoldFrom::arrival ? "arrival" : "in-time"; }
std::string in_words(ClockStops stops) { return stops == ClockStops::at_line ? "at the line" : "at in-time"; }

}  // namespace outbye
