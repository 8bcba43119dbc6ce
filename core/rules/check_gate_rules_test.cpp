#include "core/rules/rules_for_test.h"

namespace outbye {
namespace {

using testing::Contains;
using testing::IsEmpty;
using testing::Not;

TEST(AHold, ShorterThanAskedIsABreak) {
  auto ride = two_loops();
  ride.gates[0].hold = minutes(30);
  EXPECT_THAT(check_rules(full_rules(), ride),
              Contains(breaks("gate 1", "a hold of 30 min is planned, at least 40 min is asked")));
}

TEST(AHold, IsComparedWithWhatHoldsAtItsOwnGate) {
  auto rules = full_rules();
  rules.level.gates[1].hold = Ruled<Seconds>{minutes(50), Mark::event, "briefing"};
  EXPECT_THAT(check_rules(rules, two_loops()), Contains(breaks("gate 1", "at least 50 min is asked")));
}

TEST(ARecovery, BeyondThePresentationLimitIsABreak) {
  auto ride = two_loops();
  ride.gates[0].recovery = minutes(22);
  ride.finish->recovery = minutes(25);
  const auto found = check_rules(full_rules(), ride);
  EXPECT_THAT(found, Contains(breaks("gate 1", "expected down 22 min after arrival; to be presented within 20 min")));
  EXPECT_THAT(found, Contains(breaks("finish", "expected down 25 min after arrival")));
}

TEST(ARecovery, OfDoubtfulChanceIsNoted) {
  auto ride = two_loops();
  ride.gates[0].chance_in_time = 0.849;
  EXPECT_THAT(check_rules(full_rules(), ride), Contains(notes("gate 1", "accepted in time on 84 of 100 days")));
  ride.gates[0].chance_in_time = 0.9;
  EXPECT_THAT(check_rules(full_rules(), ride), Not(Contains(notes("gate 1", "accepted in time"))));
}

TEST(AGate, WithOneAttemptIsNoted) {
  auto rules = full_rules();
  rules.level.gate.attempts = published(std::uint32_t{1});
  EXPECT_THAT(check_rules(rules, two_loops()), Contains(notes("gate 1", "presented once only")));
}

TEST(AGate, OfWhichTheBookIsSilentIsAskedAbout) {
  auto rules = full_rules();
  rules.level.gate = {};
  const auto found = check_rules(rules, two_loops());
  EXPECT_THAT(found, Contains(asks("gate 1", "which pulse limit holds?")));
  EXPECT_THAT(found, Contains(asks("gate 1", "within which time is the horse to be presented?")));
  EXPECT_THAT(found, Contains(asks("gate 1", "how long is the hold?")));
  EXPECT_THAT(found, Contains(asks("gate 1", "does the hold run from arrival or from in-time?")));
}

TEST(AGate, IsAskedAboutOnceForAllOrByNumber) {
  auto rules = full_rules();
  auto ride = two_loops();
  ride.gates.resize(3, ride.gates[0]);
  rules.level.gate.pulse_limit.reset();
  EXPECT_THAT(check_rules(rules, ride), Contains(asks("every gate", "which pulse limit holds?")).Times(1));
  rules.level.gates[2].pulse_limit = published(BeatsPerMinute{60});
  EXPECT_THAT(check_rules(rules, ride), Contains(asks("gates 1, 3", "which pulse limit holds?")));
}

TEST(AGate, ThatCountsThePulseAtOnceHasNoPresentationTimeToAskFor) {
  auto rules = full_rules();
  rules.level.finish.present_within.reset();
  rules.level.finish.present_at_once = published(true);
  EXPECT_THAT(broken(check_rules(rules, two_loops())), IsEmpty());
}

}  // namespace
}  // namespace outbye
