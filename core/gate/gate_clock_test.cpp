#include "core/gate/gate_clock.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/gate/gate_for_test.h"

namespace outbye {
namespace {

using testing::HasSubstr;
using testing::SizeIs;

// The published example (vet gate, encyclopedia article in translation, de.zxc.wiki): arrival 10:32, pulse accepted
// 10:36, hold 30 min: to be presented by 10:52, out at 11:06.
TEST(GateIntoHold, GivesThePublishedExampleToTheSecond) {
  const auto state =
      gate_state(gate_into_hold(), visit_of("10:32", {counted("10:34", 72), presented("10:36", 60)}), at("10:37"));
  EXPECT_EQ(state.phase, GatePhase::holding);
  EXPECT_EQ(state.latest_presentation, at("10:52:00"));
  EXPECT_EQ(state.in_time, at("10:36:00"));
  EXPECT_EQ(state.out_time, at("11:06:00"));
  EXPECT_EQ(state.recovery, minutes(4));
  EXPECT_EQ(state.clock_stop, at("10:36"));
}

// Derived from that rule: a second presentation at 19:30 after arrival is in time, one at 20:30 is not.
TEST(GateIntoHold, TakesASecondPresentationInTime) {
  const auto state =
      gate_state(gate_into_hold(), visit_of("10:00", {presented("10:08", 66), presented("10:19:30", 63)}), at("10:25"));
  EXPECT_EQ(state.recovery, Seconds{19 * 60 + 30});
  EXPECT_EQ(state.out_time, at("10:49:30"));
}
TEST(GateIntoHold, IsOutOfTimeWithASecondPresentationTooLate) {
  const auto state =
      gate_state(gate_into_hold(), visit_of("10:00", {presented("10:08", 66), presented("10:20:30", 63)}), at("10:21"));
  EXPECT_FALSE(state.in_time);
  EXPECT_FALSE(state.out_time);
  EXPECT_NE(state.phase, GatePhase::holding);
  const auto before = gate_state(gate_into_hold(), visit_of("10:00", {presented("10:08", 66)}), at("10:20:30"));
  EXPECT_EQ(before.phase, GatePhase::out_of_time);
  EXPECT_EQ(before.time_left, Seconds{-30});
}

TEST(GateIntoHold, TakesThePresentationAtTheVeryLastSecond) {
  EXPECT_TRUE(gate_state(gate_into_hold(), visit_of("10:00", {presented("10:20", 64)}), at("10:20")).in_time);
}
TEST(GateIntoHold, CountsACrewCountAsNoPresentation) {
  const auto state = gate_state(gate_into_hold(), visit_of("10:00", {counted("10:05", 60)}), at("10:06"));
  EXPECT_FALSE(state.in_time);
  EXPECT_EQ(state.attempts_left, 2U);
  EXPECT_TRUE(state.last_is_down);
}
TEST(GateIntoHold, UsesUpItsPresentations) {
  const auto state =
      gate_state(gate_into_hold(), visit_of("10:00", {presented("10:05", 70), presented("10:09", 66)}), at("10:10"));
  EXPECT_EQ(state.phase, GatePhase::no_attempts_left);
  EXPECT_THAT(all_steps(state), HasSubstr("they decide"));
}
TEST(GateIntoHold, TakesOnePresentationWhereTheRulesGiveOne) {
  auto rules = gate_into_hold();
  rules.attempts = ruled(std::uint32_t{1});
  EXPECT_EQ(gate_state(rules, visit_of("10:00", {presented("10:05", 66)}), at("10:06")).phase,
            GatePhase::no_attempts_left);
}
TEST(GateIntoHold, TellsAtTheLimitFromBelowIt) {
  auto rules = gate_into_hold();
  const auto visit = visit_of("10:00", {presented("10:05", 64)});
  EXPECT_TRUE(gate_state(rules, visit, at("10:06")).in_time);
  rules.pulse_must_be_below = ruled(true);
  EXPECT_FALSE(gate_state(rules, visit, at("10:06")).in_time);
  EXPECT_EQ(greatest_accepted(rules)->value, 63);
}

TEST(GateIntoHold, ReplaysTheLogOfADay) {
  const auto visit = visit_of("10:32", {counted("10:34", 72), presented("10:36", 60)});
  EXPECT_EQ(gate_state(gate_into_hold(), visit, at("10:31")).phase, GatePhase::riding);
  EXPECT_EQ(gate_state(gate_into_hold(), visit, at("10:35")).phase, GatePhase::recovering);
  EXPECT_EQ(gate_state(gate_into_hold(), visit, at("10:36")).phase, GatePhase::holding);
  EXPECT_EQ(gate_state(gate_into_hold(), visit, at("11:06")).phase, GatePhase::hold_over);
}
TEST(GateIntoHold, SaysWhatTheOutTimeWouldBeNow) {
  EXPECT_EQ(gate_state(gate_into_hold(), visit_of("10:32"), at("10:37")).out_time_if_now, at("11:07"));
}

// What officials said wins over the arithmetic; the difference is said.
TEST(Officials, WinOverTheLimit) {
  auto visit = visit_of("10:00", {presented("10:05", 66)});
  visit.pulses[0].accepted = true;
  const auto accepted = gate_state(gate_into_hold(), visit, at("10:06"));
  EXPECT_TRUE(accepted.in_time);
  EXPECT_THAT(accepted.warnings, SizeIs(1));
  visit.pulses[0] = presented("10:05", 60);
  visit.pulses[0].accepted = false;
  const auto refused = gate_state(gate_into_hold(), visit, at("10:06"));
  EXPECT_FALSE(refused.in_time);
  EXPECT_THAT(refused.warnings, SizeIs(1));
}
TEST(Officials, WinWithTheInTimeTheyWroteDown) {
  auto visit = visit_of("10:00", {presented("10:05", 60)});
  visit.in_time = at("10:05:40");
  EXPECT_EQ(gate_state(gate_into_hold(), visit, at("10:06")).in_time, at("10:05:40"));
}

// Set-speed rides in France (common practice, no source): presented 30 min after arrival, out 60 min after it.
TEST(SetSpeedGate, PresentsAfterHalfAnHourAndGoesOutAfterOne) {
  const auto visit = visit_of("09:00", {counted("09:08", 60), presented("09:31", 52)});
  const auto waiting = gate_state(set_speed_gate(), visit, at("09:10"));
  EXPECT_EQ(waiting.phase, GatePhase::waiting);
  EXPECT_EQ(waiting.earliest_presentation, at("09:30"));
  const auto held = gate_state(set_speed_gate(), visit, at("09:40"));
  EXPECT_EQ(held.out_time, at("10:00"));
  EXPECT_EQ(held.clock_stop, at("09:00"));
}
TEST(SetSpeedGate, LeavesAPresentationBeforeItsTimeOut) {
  const auto state = gate_state(set_speed_gate(), visit_of("09:00", {presented("09:20", 52)}), at("09:21"));
  EXPECT_FALSE(state.in_time);
  EXPECT_EQ(state.attempts_used, 0U);
  EXPECT_THAT(state.warnings, SizeIs(1));
}
TEST(SetSpeedGate, HasNoOutTimeBeforeTheInTime) {
  EXPECT_EQ(gate_state(set_speed_gate(), visit_of("09:00", {presented("10:04", 52)}), at("10:05")).out_time,
            at("10:04"));
}
TEST(SetSpeedGate, TakesItsRecoveryFromThePulsesNotFromTheWait) {
  const auto quick = visit_of("09:00", {counted("09:08", 60), presented("09:31", 52)});
  EXPECT_TRUE(gate_state(set_speed_gate(), quick, at("09:40")).warnings.empty());
  const auto slow = visit_of("09:00", {counted("09:08", 70), counted("09:14", 66), presented("09:31", 52)});
  EXPECT_THAT(gate_state(set_speed_gate(), slow, at("09:20")).warnings, SizeIs(1));
}
TEST(SetSpeedGate, LeavesAMomentThatCannotBeMetToTheOfficials) {
  auto rules = set_speed_gate();
  rules.present_after = rules.present_within = ruled(minutes(20));  // "exactly 20 min after arrival"
  const auto state = gate_state(rules, visit_of("09:00", {counted("09:04", 60)}), at("09:20:30"));
  EXPECT_TRUE(state.is_appointment);
  EXPECT_EQ(state.phase, GatePhase::recovering);
}

// Dutch federation endurance rules Art. 617 and changes of 2021: counted at once, at most 60; over it, presented again
// once within 10 min.
TEST(AtOnceGate, CountsAtOnceAndOnceAgainWithinTenMinutes) {
  const auto fresh = gate_state(at_once_gate(), visit_of("12:00"), at("12:00:30"));
  EXPECT_TRUE(fresh.at_once);
  EXPECT_THAT(all_steps(fresh), HasSubstr("Present at once"));
  const auto visit = visit_of("12:00", {presented("12:01", 64)});
  const auto again = gate_state(at_once_gate(), visit, at("12:05"));
  EXPECT_FALSE(again.at_once);
  EXPECT_EQ(again.latest_presentation, at("12:11"));
  EXPECT_EQ(again.attempts_left, 1U);
  EXPECT_EQ(gate_state(at_once_gate(), visit, at("12:11:01")).phase, GatePhase::out_of_time);
}

// American rides (What to expect at your first ride): 30 min to the criterion, the hold runs from pulse-down.
TEST(PulseDownGate, HoldsFromPulseDownWithinThirtyMinutes) {
  auto rules = gate_into_hold(minutes(40));
  rules.present_within = ruled(minutes(30));
  rules.attempts.reset();
  const auto visit = visit_of("08:00", {presented("08:10", 70), presented("08:18", 66), presented("08:24", 64)});
  const auto state = gate_state(rules, visit, at("08:30"));
  EXPECT_EQ(state.latest_presentation, at("08:30"));
  EXPECT_EQ(state.out_time, at("09:04"));
  EXPECT_FALSE(state.attempts_left);
}

TEST(Finish, HasNoHoldAndStopsTheClockAtTheLineUnlessTheRulesSayOtherwise) {
  auto rules = gate_into_hold();
  rules.clock_stops.reset();
  auto visit = visit_of("15:00", {presented("15:10", 60)});
  visit.is_finish = true;
  const auto state = gate_state(rules, visit, at("15:11"));
  EXPECT_EQ(state.phase, GatePhase::finished);
  EXPECT_FALSE(state.out_time);
  EXPECT_EQ(state.clock_stop, at("15:00"));
}

TEST(Departure, IsLateBehindTheOutTime) {
  auto visit = visit_of("10:32", {presented("10:36", 60)});
  visit.left = at("11:08:10");
  const auto state = gate_state(gate_into_hold(), visit, at("11:20"));
  EXPECT_EQ(state.phase, GatePhase::left);
  EXPECT_EQ(state.late_departure, Seconds{130});
}
TEST(Departure, IsWarnedOfBeforeTheOutTime) {
  auto visit = visit_of("10:32", {presented("10:36", 60)});
  visit.left = at("11:05");
  const auto state = gate_state(gate_into_hold(), visit, at("11:20"));
  EXPECT_EQ(state.early_departure, minutes(1));
  ASSERT_THAT(state.warnings, SizeIs(1));
  EXPECT_THAT(state.warnings[0].what, HasSubstr("turn back"));
}

TEST(Correction, OfTheArrivalMovesEveryTimeWithIt) {
  auto visit = visit_of("10:32", {presented("10:36", 60)});
  visit.arrival = at("10:33:20");
  const auto state = gate_state(gate_into_hold(), visit, at("10:37"));
  EXPECT_EQ(state.latest_presentation, at("10:53:20"));
  EXPECT_EQ(state.recovery, Seconds{160});
}

TEST(SilentRules, LeaveTheQuestionToTheOfficials) {
  const auto state = gate_state(GateRules{}, visit_of("10:00", {presented("10:05", 40)}), at("10:10"));
  EXPECT_FALSE(state.in_time);
  EXPECT_FALSE(state.latest_presentation);
  EXPECT_GE(state.assumptions.size(), 3U);
}

TEST(NextSteps, SayByWhenToPresentAndHowMuchIsLeft) {
  const auto state = gate_state(gate_into_hold(), visit_of("10:32", {counted("10:36", 60)}), at("10:37"));
  EXPECT_THAT(all_steps(state), HasSubstr("Present by 10:52: 15 min left."));
}
TEST(NextSteps, NeverRoundADeadline) {
  const auto state = gate_state(gate_into_hold(), visit_of("10:32:40"), at("10:37"));
  EXPECT_THAT(all_steps(state), HasSubstr("Present by 10:52:40: 15 min 40 s left."));
}
TEST(NextSteps, LeaveOnlyAfterTheGateHasReleasedTheHorse) {
  const auto state = gate_state(gate_into_hold(), visit_of("10:32", {presented("10:36", 60)}), at("10:37"));
  EXPECT_THAT(
      all_steps(state),
      HasSubstr("Out-time by the clock: 11:06 (leave only after the gate has released the horse): 29 min left."));
}

TEST(DurationWords, KeepSecondsAndHours) {
  EXPECT_EQ(duration_words(Seconds{40}), "40 s");
  EXPECT_EQ(duration_words(Seconds{900}), "15 min");
  EXPECT_EQ(duration_words(Seconds{570}), "9 min 30 s");
  EXPECT_EQ(duration_words(Seconds{3900}), "1 h 05 min");
}

}  // namespace
}  // namespace outbye
