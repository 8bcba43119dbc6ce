// What is said to people about the gate and the day: no deadline rounded away, no promise, no verdict on the horse.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/base/text.h"
#include "core/gate/day_progress.h"
#include "core/gate/gate_for_test.h"
#include "core/gate/recovery.h"

namespace outbye {
namespace {

using testing::HasSubstr;
using testing::Not;

std::string joined(const std::vector<std::string>& sentences) {
  std::string text;
  for (const auto& sentence : sentences) text += sentence + "\n";
  return text;
}

RecoveryForecast fitted(std::optional<Instant> p10, std::optional<Instant> p50, std::optional<Instant> p90) {
  RecoveryForecast forecast;
  forecast.basis = RecoveryBasis::fitted;
  forecast.p10 = p10;
  forecast.p50 = p50;
  forecast.p90 = p90;
  return forecast;
}

TEST(RecoveryWords, RoundTheRangeOutwards) {
  const auto text = joined(describe(fitted(at("10:38:40"), at("10:40:30"), at("10:42:10")), {64}, at("10:36"), {}));
  EXPECT_THAT(text, HasSubstr("between 10:38 and 10:43 (8 times in 10, no promise)"));
}
TEST(RecoveryWords, SayCountAgainWhenItMayBeThereAlready) {
  EXPECT_THAT(joined(describe(fitted(at("10:30"), at("10:40"), at("10:45")), {64}, at("10:36"), {})),
              HasSubstr("may be already: count again"));
}
TEST(RecoveryWords, SayWhenItIsNotLikelyWithinTwoHours) {
  EXPECT_THAT(joined(describe(fitted(at("10:50"), std::nullopt, std::nullopt), {56}, at("10:36"), {})),
              HasSubstr("not likely to be down to 56 bpm within two hours"));
}
TEST(RecoveryWords, AreNeverCertain) {
  auto forecast = fitted(at("10:38"), at("10:39"), at("10:40"));
  forecast.chance_in_time = 1.0;
  EXPECT_THAT(joined(describe(forecast, {64}, at("10:36"), {})), HasSubstr("more than 9 times in 10"));
}
TEST(RecoveryWords, LabelARoughRange) {
  const auto forecast = forecast_recovery(at("10:32"), {{at("10:34"), {90}}}, {64}, at("10:52"));
  EXPECT_THAT(joined(describe(forecast, {64}, at("10:35"), {})), HasSubstr("rough range"));
}

TEST(DayWords, RoundNeedUpAndAllowanceDown) {
  DayProgress day;
  day.outlook = DayOutlook::open;
  day.remaining = kilometres(40);
  day.needed = KmPerHour{8.01};
  day.needed_for = "the slowest speed of 8.0 km/h";
  day.allowed = KmPerHour{15.09};
  EXPECT_THAT(joined(describe(day, {})),
              HasSubstr("at least 8.1 km/h (the slowest speed of 8.0 km/h), at most 15.0 km/h"));
}
TEST(DayWords, KeepARoundSpeed) {
  DayProgress day;
  day.outlook = DayOutlook::open;
  day.remaining = kilometres(40);
  day.needed = KmPerHour{8.0};
  day.allowed = KmPerHour{8.1};
  EXPECT_THAT(joined(describe(day, {})), HasSubstr("at least 8.0 km/h"));
  EXPECT_THAT(joined(describe(day, {})), HasSubstr("at most 8.1 km/h"));
}
TEST(DayWords, DoNotInviteALoopFasterThanTheFastestSpeed) {
  DayProgress day;
  day.outlook = DayOutlook::open;
  day.remaining = kilometres(40);
  day.allowed = KmPerHour{47.3};
  day.loop_cap = KmPerHour{18.0};
  const auto text = joined(describe(day, {}));
  EXPECT_THAT(text, HasSubstr("at most 18.0 km/h where the fastest speed counts for each loop"));
  EXPECT_THAT(text, Not(HasSubstr("47")));
}
TEST(DayWords, SayWhenALimitCannotBeKept) {
  DayProgress day;
  day.outlook = DayOutlook::too_slow;
  day.needed_for = "the time limit of 12 h 00 min";
  EXPECT_THAT(joined(describe(day, {})), HasSubstr("No longer possible: the time limit of 12 h 00 min"));
}

TEST(GateWords, NeverSpeakOfTheHorseAsFitOrSafe) {
  std::string all;
  for (const auto& rules : {gate_into_hold(), set_speed_gate(), at_once_gate(), GateRules{}}) {
    for (int minute = 0; minute < 100; ++minute) {
      auto visit = visit_of("10:32", {counted("10:36", 70), presented("10:40", 66), presented("11:03", 60)});
      visit.is_finish = minute % 2 == 0;
      if (minute > 80) visit.left = at("11:50");
      const auto state = gate_state(rules, visit, at("10:30") + minutes(minute));
      all += joined(next_steps(state, {}));
      for (const auto& warning : state.warnings) all += warning.what + "\n";
    }
  }
  EXPECT_GT(all.size(), 1000U);
  for (const char* word : {" fit", "safe", "may go on", "can go on", "healthy", "sound"}) {
    EXPECT_THAT(in_lower_case(all), Not(HasSubstr(word)));
  }
}

}  // namespace
}  // namespace outbye
