#include <cmath>

#include "core/base/text.h"
#include "core/gate/recovery.h"

namespace outbye {
namespace {

std::string minute_before(Instant at, const Clock& clock) {
  return hours_minutes(Instant{minutes(std::floor(in_minutes(at.time_since_epoch())))}, clock);
}
std::string minute_after(Instant at, const Clock& clock) {
  return hours_minutes(Instant{minutes(std::ceil(in_minutes(at.time_since_epoch())))}, clock);
}

// Whole tenths, and never certain: a chance of 0.99 is "more than 9".
std::string times_in_ten(double chance) {
  if (chance < 0.05) return "fewer than 1 time in 10";
  if (chance > 0.95) return "more than 9 times in 10";
  const auto tenths = static_cast<int>(std::lround(10.0 * chance));
  return "about " + std::to_string(tenths) + (tenths == 1 ? " time" : " times") + " in 10";
}

std::string range_words(const RecoveryForecast& forecast, BeatsPerMinute limit, Instant now, const Clock& clock) {
  const std::string down = "down to " + fixed(limit.value, 0) + " bpm";
  const bool may_be_there = forecast.p10 && *forecast.p10 <= now;
  if (!forecast.p50) {
    return "The pulse is not likely to be " + down + " within two hours of arrival" +
           (forecast.p10 ? ", and hardly before " + minute_before(*forecast.p10, clock) : "") + ".";
  }
  if (!forecast.p90) {
    return "The pulse may be " + down + (may_be_there ? " already" : " from " + minute_before(*forecast.p10, clock)) +
           ", as likely as not by " + minute_after(*forecast.p50, clock) +
           ", and may not be within two hours of arrival.";
  }
  if (*forecast.p90 <= now)
    return "By the readings the pulse is likely to be " + down + " by now: count again (no promise).";
  if (may_be_there) {
    return "The pulse is likely to be " + down + " by " + minute_after(*forecast.p90, clock) +
           " and may be already: count again (a range of 8 times in 10, no promise).";
  }
  return "The pulse is likely to be " + down + " between " + minute_before(*forecast.p10, clock) + " and " +
         minute_after(*forecast.p90, clock) + " (8 times in 10, no promise).";
}

}  // namespace

std::vector<std::string> describe(const RecoveryForecast& forecast, BeatsPerMinute limit, Instant now,
                                  const Clock& clock) {
  std::vector<std::string> sentences;
  if (forecast.basis == RecoveryBasis::rough) {
    sentences.push_back("A rough range, from what is known of other horses and " +
                        std::to_string(forecast.readings_used) +
                        (forecast.readings_used == 1 ? " reading:" : " readings:"));
  }
  if (forecast.basis == RecoveryBasis::nothing) {
    sentences.emplace_back("When the pulse will be down cannot be said yet.");
  } else {
    sentences.push_back(range_words(forecast, limit, now, clock));
    if (forecast.chance_in_time) {
      sentences.push_back("Down by the latest presentation: " + times_in_ten(*forecast.chance_in_time) +
                          " by this reckoning.");
    }
  }
  for (const auto& missing : forecast.missing) sentences.push_back("Missing: " + missing + ".");
  return sentences;
}

}  // namespace outbye
