// What holds at every gate: warning times, order of times, midnight and clock changes.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/base/random.h"
#include "core/gate/gate_clock.h"
#include "core/gate/gate_for_test.h"

namespace outbye {
namespace {

using testing::HasSubstr;
using testing::SizeIs;

// Speed and cardiac recovery variables predict elimination, PLoS ONE 2015: above 11 min at gates 1 and 2, 13 at 3
// and 4.
TEST(SlowRecovery, IsWarnedOfAboveElevenMinutesAtGatesOneAndTwo) {
  for (const std::uint32_t gate : {1U, 2U}) {
    EXPECT_FALSE(slow_recovery_warning(gate, minutes(11)));
    EXPECT_TRUE(slow_recovery_warning(gate, minutes(11) + Seconds{1}));
  }
}
TEST(SlowRecovery, IsWarnedOfAboveThirteenMinutesAtGatesThreeAndFour) {
  for (const std::uint32_t gate : {3U, 4U}) {
    EXPECT_FALSE(slow_recovery_warning(gate, minutes(13)));
    EXPECT_TRUE(slow_recovery_warning(gate, minutes(13) + Seconds{1}));
  }
}
TEST(SlowRecovery, NamesItsSourceAndDefersToTheVet) {
  const auto warning = slow_recovery_warning(1, minutes(12));
  EXPECT_THAT(warning->what, HasSubstr("PLoS ONE 2015"));
  EXPECT_THAT(warning->what, HasSubstr("ask the vet"));
}
TEST(SlowRecovery, IsWarnedOfWhileTheHorseIsStillRecovering) {
  EXPECT_THAT(gate_state(gate_into_hold(), visit_of("10:00"), at("10:12")).warnings, SizeIs(1));
}

TEST(GateClock, NeverGivesAnEarlierOutTimeForALaterArrival) {
  Rng rng{Seed{11}};
  for (int i = 0; i < 500; ++i) {
    const auto rules = i % 2 == 0 ? gate_into_hold() : set_speed_gate();
    const double in = 2100.0 + 1500.0 * uniform(rng);
    const double first = 600.0 * uniform(rng) + 900.0;
    const double later = first + 600.0 * uniform(rng);
    const auto out = [&](double arrival) {
      GateVisit visit;
      visit.arrival = at("10:00") + Seconds{arrival};
      visit.in_time = at("10:00") + Seconds{in};
      return *gate_state(rules, visit, at("13:00")).out_time;
    };
    EXPECT_LE(out(first), out(later)) << i;
  }
}
TEST(GateClock, NeverGivesAnEarlierOutTimeForALaterInTime) {
  Rng rng{Seed{12}};
  for (int i = 0; i < 500; ++i) {
    const auto rules = i % 2 == 0 ? gate_into_hold() : set_speed_gate();
    const double first = 4000.0 * uniform(rng);
    const double later = first + 2000.0 * uniform(rng);
    const auto out = [&](double in) {
      auto visit = visit_of("10:00");
      visit.in_time = at("10:00") + Seconds{in};
      return *gate_state(rules, visit, at("13:00")).out_time;
    };
    EXPECT_LE(out(first), out(later)) << i;
  }
}
TEST(GateClock, CrossesMidnight) {
  const auto state = gate_state(gate_into_hold(), visit_of("23:50", {presented("23:58:30", 60)}), at("24:10"));
  EXPECT_EQ(state.out_time, at("24:28:30"));
  EXPECT_THAT(all_steps(state), HasSubstr("00:28:30"));
}
TEST(GateClock, HoldsItsFullLengthWhenTheClocksChange) {
  // Clocks in London go back at 01:00 UTC on 25 October 2026.
  const Instant change{Seconds{1'792'890'000.0}};
  const Clock london{"Europe/London",
                     {{change - minutes(60 * 24), std::chrono::minutes{60}}, {change, std::chrono::minutes{0}}}};
  GateVisit visit;
  visit.arrival = change - minutes(14);
  visit.pulses = {{change - minutes(10), {60}, true, std::nullopt}};
  const auto state = gate_state(gate_into_hold(), visit, change - minutes(5));
  EXPECT_EQ(*state.out_time - *state.in_time, minutes(30));
  EXPECT_THAT(all_steps(state, london), HasSubstr("01:20"));  // 01:50 summer time and half an hour
}

}  // namespace
}  // namespace outbye
