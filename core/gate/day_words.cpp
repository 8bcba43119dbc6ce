#include <cmath>

#include "core/base/text.h"
#include "core/gate/day_progress.h"

namespace outbye {
namespace {

// To 0.1 km/h on the side that keeps the limit; what is a tenth already stays one.
std::string rounded_up(KmPerHour speed) { return fixed(std::ceil(speed.value * 10.0 - 1e-6) / 10.0, 1) + " km/h"; }
std::string rounded_down(KmPerHour speed) { return fixed(std::floor(speed.value * 10.0 + 1e-6) / 10.0, 1) + " km/h"; }

std::string rest_words(const DayProgress& day) {
  const std::string rest = "the remaining " + fixed(in_kilometres(day.remaining), 1) + " km";
  switch (day.outlook) {
    case DayOutlook::no_limits:
      return "The rules given set neither speeds nor a time limit.";
    case DayOutlook::done:
      return "All loops are ridden, inside the speeds and times given.";
    case DayOutlook::too_slow:
      return "No longer possible: " + day.needed_for + " cannot be kept. Ask the officials.";
    case DayOutlook::too_fast:
      if (!(day.remaining > Metres{0.0})) return "Already too fast: above the fastest speed. Ask the officials.";
      return "Already too fast: even if " + rest +
             " were ridden at the slowest speed, the average would be above the fastest. Ask the officials.";
    case DayOutlook::clash:
      return "No speed fits: " + day.needed_for + " needs at least " + rounded_up(*day.needed) +
             ", but the fastest speed allows at most " + rounded_down(*day.allowed) + ". Ask the officials.";
    case DayOutlook::open:
      break;
  }
  if (!day.needed && !day.allowed && !(day.loop_cap && day.remaining > Metres{0.0})) {
    if (!(day.remaining > Metres{0.0})) return "All loops are ridden; the last in-time is to come.";
    return "On " + rest + ": no limit left to keep.";
  }
  std::string text = "On " + rest + ": ";
  if (day.needed) text += "at least " + rounded_up(*day.needed) + " (" + day.needed_for + ")";
  if (day.needed && (day.allowed || day.loop_cap)) text += ", ";
  if (day.loop_cap) {
    // Slow loops earlier leave room in the average, but many rides look at each loop, and it is no reason to race.
    text += "at most " + rounded_down(*day.loop_cap) + " where the fastest speed counts for each loop";
  } else if (day.allowed) {
    text += "at most " + rounded_down(*day.allowed);
  }
  return text + ", as an average from going out to arrival.";
}

}  // namespace

std::vector<std::string> describe(const DayProgress& day, const Clock& clock) {
  std::vector<std::string> sentences;
  if (day.average) {
    sentences.push_back(
        "Ridden " + fixed(in_kilometres(day.ridden), 1) + " km in " + duration_words(day.riding) +
        " of riding time, on average " + fixed(day.average->value, 2) + " km/h" +
        (day.elapsed ? "; " + duration_words(*day.elapsed) + " from the start to there, holds included" : "") + ".");
  }
  sentences.push_back(rest_words(day));
  if (day.latest_finish) sentences.push_back("Latest finish: " + clock_words(*day.latest_finish, clock) + ".");
  for (const auto& note : day.notes) {
    std::string sentence = note + ".";
    if (sentence[0] >= 'a' && sentence[0] <= 'z') sentence[0] = static_cast<char>(sentence[0] - 'a' + 'A');
    sentences.push_back(std::move(sentence));
  }
  return sentences;
}

}  // namespace outbye
