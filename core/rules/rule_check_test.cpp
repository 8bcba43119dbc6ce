#include "core/rules/rule_check.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <ostream>

namespace outbye {

void PrintTo(const RuleFinding& finding, std::ostream* out) {
  *out << static_cast<int>(finding.severity) << " " << finding.where << ": " << finding.what;
}

namespace {

using testing::AllOf;
using testing::Contains;
using testing::Each;
using testing::Field;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using Severity = RuleFinding::Severity;

template <class T>
Rule<T> published(T value) {
  return Ruled<T>{value, Mark::published, "Invented rules, Art. 1"};
}
template <class T>
Rule<T> weak(T value) {
  return Ruled<T>{value, Mark::common_practice, ""};
}

auto finding(Severity severity, const std::string& where, const std::string& words) {
  return AllOf(Field(&RuleFinding::severity, severity), Field(&RuleFinding::where, where),
               Field(&RuleFinding::what, HasSubstr(words)));
}
auto breaks(const std::string& where, const std::string& words) { return finding(Severity::breaks, where, words); }
auto asks(const std::string& where, const std::string& words) { return finding(Severity::asks, where, words); }
auto notes(const std::string& where, const std::string& words) { return finding(Severity::notes, where, words); }

// 80 km in two loops of 40 km at 12 km/h, one gate.
RideFacts two_loops() {
  RideFacts ride;
  ride.loops = {{"Red", kilometres(40), KmPerHour{12}, {}}, {"Blue", kilometres(40), KmPerHour{12}, {}}};
  ride.gates = {{minutes(40), minutes(5), 0.99}};
  ride.finish = GateFacts{std::nullopt, minutes(6), 0.99};
  return ride;
}

// Answers every question, so that a test sees only what it is about.
RuleSet full_rules() {
  RuleSet rules;
  RuleLevel& level = rules.level;
  level.distance = published(Interval<Metres>{kilometres(70), kilometres(90)});
  level.min_speed = published(KmPerHour{9});
  level.max_speed = published(KmPerHour{18});
  level.gate.pulse_limit = published(BeatsPerMinute{64});
  level.gate.present_within = published(minutes(20));
  level.gate.hold = published(minutes(40));
  level.gate.hold_from = published(HoldFrom::in_time);
  level.finish = level.gate;
  level.crew_anywhere = published(false);
  return rules;
}

std::vector<RuleFinding> broken(const std::vector<RuleFinding>& found) {
  std::vector<RuleFinding> some;
  for (const auto& f : found) {
    if (f.severity != Severity::notes) some.push_back(f);
  }
  return some;
}

TEST(RuleCheck, FindsNothingToBreakOrAskInARideWithinFullRules) {
  EXPECT_THAT(broken(check_rules(full_rules(), two_loops())), IsEmpty());
}

TEST(RuleCheck, AlwaysEndsWithTheRulesOfTheDay) {
  for (const auto& found : {check_rules({}, {}), check_rules(full_rules(), two_loops())}) {
    ASSERT_FALSE(found.empty());
    EXPECT_THAT(found.back(), notes("ride", "the rules of the day win: schedule, briefing and officials"));
  }
}

TEST(RuleCheck, PutsBreaksBeforeQuestionsBeforeNotes) {
  auto rules = full_rules();
  rules.level.min_speed = published(KmPerHour{13});
  rules.level.finish.pulse_limit.reset();
  const auto found = check_rules(rules, two_loops());
  EXPECT_TRUE(
      std::is_sorted(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.severity < b.severity; }));
  EXPECT_EQ(found.front().severity, Severity::breaks);
}

TEST(ABrokenRule, CarriesItsMarkAndSource) {
  auto rules = full_rules();
  rules.level.min_speed = published(KmPerHour{13});
  const auto found = check_rules(rules, two_loops());
  EXPECT_EQ(found.front().mark, Mark::published);
  EXPECT_EQ(found.front().source, "Invented rules, Art. 1");
}

class AMark : public testing::TestWithParam<std::pair<Mark, Severity>> {};
TEST_P(AMark, DecidesWhetherARuleIsBrokenOrAsked) {
  auto rules = full_rules();
  rules.level.min_speed = Ruled<KmPerHour>{{13}, GetParam().first, ""};
  EXPECT_EQ(check_rules(rules, two_loops()).front().severity, GetParam().second);
}
INSTANTIATE_TEST_SUITE_P(Each, AMark,
                         testing::Values(std::pair{Mark::published, Severity::breaks},
                                         std::pair{Mark::event, Severity::breaks},
                                         std::pair{Mark::derived, Severity::asks},
                                         std::pair{Mark::from_memory, Severity::asks},
                                         std::pair{Mark::common_practice, Severity::asks}));

TEST(AQuestion, BeginsWithWhomToAsk) {
  auto rules = full_rules();
  rules.level.min_speed = weak(KmPerHour{13});
  rules.level.gate.hold.reset();
  for (const auto& found : broken(check_rules(rules, two_loops()))) {
    EXPECT_EQ(found.what.rfind("ask the officials: ", 0), 0U) << found.what;
  }
}

TEST(CourseLength, OutsideTheDistanceIsNamedWithBothNumbers) {
  auto rules = full_rules();
  rules.level.distance = published(Interval<Metres>{kilometres(100), kilometres(119)});
  EXPECT_THAT(check_rules(rules, two_loops()),
              Contains(breaks("ride", "the course measures 80 km, the level wants 100 to 119 km")));
}

TEST(CourseLength, ToleratesLessThanHalfAKilometre) {
  auto rules = full_rules();
  rules.level.distance = published(Interval<Metres>{kilometres(80.4), kilometres(90)});
  EXPECT_THAT(broken(check_rules(rules, two_loops())), IsEmpty());
  rules.level.distance = published(Interval<Metres>{kilometres(80.5), kilometres(90)});
  EXPECT_THAT(check_rules(rules, two_loops()), Contains(breaks("ride", "the course measures 80 km")));
}

TEST(CourseLength, ToleratesWhatTheBookTolerates) {
  auto rules = full_rules();
  auto ride = two_loops();
  rules.level.distance = weak(Interval<Metres>{kilometres(10), kilometres(40)});  // British pleasure rides
  rules.level.distance_tolerance = weak(0.05);
  ride.length = kilometres(42);
  EXPECT_THAT(broken(check_rules(rules, ride)), IsEmpty());
  ride.length = kilometres(42.6);
  EXPECT_THAT(check_rules(rules, ride), Contains(asks("ride", "wants 10 to 40 km, give or take 5 %")));
}

TEST(CourseLength, HasNoUpperEndWhereTheBookHasNone) {
  auto rules = full_rules();
  auto ride = two_loops();
  rules.level.distance = published(Interval<Metres>{kilometres(80), Metres{std::numeric_limits<double>::infinity()}});
  ride.length = kilometres(480);
  EXPECT_THAT(check_rules(rules, ride), Not(Contains(breaks("ride", "the course measures"))));
}

TEST(CourseLength, IsAskedAboutWhereTheBookIsSilent) {
  auto rules = full_rules();
  rules.level.distance.reset();
  EXPECT_THAT(check_rules(rules, two_loops()), Contains(asks("ride", "which distances belong to this level?")));
}

TEST(Loops, AreCountedAndMeasured) {
  auto rules = full_rules();
  rules.level.loops = published(Interval<std::uint32_t>{3, 3});
  rules.level.loop_length = published(Interval<Metres>{kilometres(20), kilometres(30)});
  const auto found = check_rules(rules, two_loops());
  EXPECT_THAT(found, Contains(breaks("ride", "2 loops, the level wants 3")));
  EXPECT_THAT(found, Contains(breaks("loop 1", "the loop measures 40 km, a loop has 20 to 30 km")));
  EXPECT_THAT(found, Contains(breaks("loop 2", "the loop measures 40 km")));
}

TEST(RideSpeed, BelowTheSlowestIsABreakWithTimes) {
  auto rules = full_rules();
  rules.level.min_speed = published(KmPerHour{12.5});
  EXPECT_THAT(check_rules(rules, two_loops()),
              Contains(breaks("ride",
                              "the ride is planned at 12 km/h (6:40:00 for 80 km); not slower than 12.5 km/h "
                              "(6:24:00)")));
}

TEST(RideSpeed, AboveTheFastestIsABreakWithTimes) {
  auto rules = full_rules();
  rules.level.max_speed = published(KmPerHour{11});
  EXPECT_THAT(check_rules(rules, two_loops()), Contains(breaks("ride", "not faster than 11 km/h (7:16:22)")));
}

TEST(RideSpeed, AtTheLimitIsWithinIt) {
  auto rules = full_rules();
  rules.level.min_speed = published(KmPerHour{12});
  rules.level.max_speed = published(KmPerHour{12});
  EXPECT_THAT(broken(check_rules(rules, two_loops())), IsEmpty());
}

TEST(RideSpeed, CountsTheRecoveryWhereTheClockStopsAtInTime) {
  auto rules = full_rules();
  // 400 min of riding; 80 km in 400 min is 12 km/h, with 5 min at the gate 11.85 km/h (derived).
  rules.level.min_speed = published(KmPerHour{11.9});
  EXPECT_THAT(broken(check_rules(rules, two_loops())), IsEmpty());
  rules.level.gate.clock_stops = published(ClockStops::at_in_time);
  EXPECT_THAT(check_rules(rules, two_loops()), Contains(breaks("ride", "planned at 11.85 km/h (6:45:00")));
}

TEST(RideSpeed, OnASlowDayIsNoted) {
  auto rules = full_rules();
  auto ride = two_loops();
  ride.speed_range = Interval<KmPerHour>{{8.5}, {19}};
  const auto found = check_rules(rules, ride);
  EXPECT_THAT(found, Contains(notes("ride", "on one day in ten the ride is slower than 8.5 km/h; not slower than 9")));
  EXPECT_THAT(found, Contains(notes("ride", "on one day in ten the ride is faster than 19 km/h")));
}

// Window: common practice, British novices; times derived.
TEST(RideSpeed, HasItsWindowSaidAsTimes) {
  auto rules = full_rules();
  auto ride = two_loops();
  ride.loops.pop_back();
  rules.level.min_speed = weak(KmPerHour{8});
  rules.level.max_speed = weak(KmPerHour{15});
  EXPECT_THAT(check_rules(rules, ride),
              Contains(notes("ride", "40 km at 8 km/h to 15 km/h is a riding time of 2:40:00 to 5:00:00")));
}

TEST(LoopSpeed, OutsideTheWindowIsNotedBecauseTheRuleHoldsForTheRide) {
  auto ride = two_loops();
  ride.loops[0].speed = KmPerHour{8};
  ride.loops[1].speed = KmPerHour{19};
  const auto found = check_rules(full_rules(), ride);
  EXPECT_THAT(found, Contains(notes("loop 1", "planned at 8 km/h; over the ride not slower than 9 km/h")));
  EXPECT_THAT(found, Contains(notes("loop 2", "planned at 19 km/h; over the ride not faster than 18 km/h")));
}

// Australian novices, common practice: 80 km not under 6 h.
TEST(ShortestTime, IsKept) {
  auto rules = full_rules();
  auto ride = two_loops();
  rules.level.min_time = weak(minutes(360));
  EXPECT_THAT(broken(check_rules(rules, ride)), IsEmpty());
  for (auto& loop : ride.loops) loop.speed = KmPerHour{14};
  EXPECT_THAT(check_rules(rules, ride), Contains(asks("ride", "not in less than 6 h")));
}

// Endurance News, Sept 2018: 25/50/100 miles in 6/12/24 h, 4.167 mph = 6.706 km/h.
TEST(LatestFinish, IsABreakWhenThePlanIsLater) {
  auto rules = full_rules();
  auto ride = two_loops();
  rules.level.min_elapsed_speed = published(KmPerHour{6.7056});
  ride.length = kilometres(80.4672);
  ride.elapsed = minutes(721);
  EXPECT_THAT(
      check_rules(rules, ride),
      Contains(breaks("finish", "planned 12:01:00 after the start; the latest finish is 12:00:00 after the start")));
}

TEST(LatestFinish, OnASlowDayIsNoted) {
  auto rules = full_rules();
  auto ride = two_loops();
  rules.level.time_limit = published(minutes(600));
  ride.elapsed = minutes(580);
  ride.elapsed_range = Interval<Seconds>{minutes(560), minutes(610)};
  EXPECT_THAT(check_rules(rules, ride), Contains(notes("finish", "on one day in ten it takes longer than 10:10:00")));
}

TEST(LatestFinish, IsSaidEvenWhenKept) {
  auto rules = full_rules();
  rules.level.time_limit = published(minutes(600));
  EXPECT_THAT(check_rules(rules, two_loops()), Contains(notes("finish", "the latest finish is 10:00:00")));
}

TEST(LatestFinish, IsAskedWhereNoSpeedAndNoLimitIsGiven) {
  auto rules = full_rules();
  rules.level.min_speed.reset();
  EXPECT_THAT(check_rules(rules, two_loops()), Contains(asks("ride", "which slowest speed or time limit holds?")));
}

TEST(RiderWeight, BelowTheLeastIsABreak) {
  auto rules = full_rules();
  auto ride = two_loops();
  rules.level.min_rider_weight = published(Kilograms{70});
  ride.rider_weight = Kilograms{69.5};
  EXPECT_THAT(check_rules(rules, ride), Contains(breaks("rider", "69.5 kg, but at least 70 kg with tack")));
  ride.rider_weight = Kilograms{70};
  EXPECT_THAT(broken(check_rules(rules, ride)), IsEmpty());
}

TEST(RiderWeight, ThatIsNotGivenIsRemindedOf) {
  auto rules = full_rules();
  rules.level.min_rider_weight = published(Kilograms{70});
  EXPECT_THAT(check_rules(rules, two_loops()), Contains(notes("rider", "the weight is not given; at least 70 kg")));
}

TEST(Novices, AreToldTheFastestSpeedPlainly) {
  auto rules = full_rules();
  rules.level.is_novice = true;
  rules.level.max_speed = weak(KmPerHour{15});
  EXPECT_THAT(
      check_rules(rules, two_loops()),
      Contains(notes("horse", "novices are held to at most 15 km/h: coming in early fails like coming in late")));
}

TEST(Novices, AreAskedAboutWhatTheBookLeavesOpen) {
  auto rules = full_rules();
  auto ride = two_loops();
  ride.horse_is_novice = true;
  rules.level.max_speed.reset();
  const auto found = check_rules(rules, ride);
  EXPECT_THAT(found, Contains(asks("horse", "has a novice horse the qualifying rides")));
  EXPECT_THAT(found, Contains(asks("horse", "which fastest speed holds for a novice?")));
  EXPECT_THAT(found, Contains(asks("rider", "is there a least rider weight for a novice?")));
}

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

TEST(Crew, OfMoreThanMayGoInIsNoted) {
  auto rules = full_rules();
  auto ride = two_loops();
  rules.level.crew_at_gate = published(std::uint32_t{5});
  rules.level.people_at_inspection = published(std::uint32_t{3});
  ride.crew = 6;
  const auto found = check_rules(rules, ride);
  EXPECT_THAT(found, Contains(notes("crew", "6 people crew, at most 5 with one horse in the vet gate")));
  EXPECT_THAT(found, Contains(notes("crew", "6 people crew, at most 3 with one horse at the inspection")));
  ride.crew = 3;
  EXPECT_THAT(check_rules(rules, ride), Not(Contains(Field(&RuleFinding::where, "crew"))));
}

TEST(Crew, ThatIsCompulsoryAndMissingIsABreak) {
  auto rules = full_rules();
  auto ride = two_loops();
  ride.crew = 0;
  rules.level.crew_needed_from = published(kilometres(80));
  EXPECT_THAT(check_rules(rules, ride), Contains(breaks("crew", "no crew for 80 km, compulsory from 80 km")));
  rules.level.crew_needed_from = published(kilometres(100));
  EXPECT_THAT(broken(check_rules(rules, ride)), IsEmpty());
  rules.level.crew_needed_from.reset();
  EXPECT_THAT(check_rules(rules, ride), Contains(asks("crew", "may one ride 80 km without crew?")));
}

TEST(Crew, MeetingOutsideTheDesignatedPointsIsABreak) {
  auto rules = full_rules();
  auto ride = two_loops();
  ride.meets_elsewhere = {"Ford", "Lane end"};
  EXPECT_THAT(check_rules(rules, ride), Contains(breaks("crew", "outside the designated crew points: Ford, Lane end")));
  rules.level.crew_anywhere = published(true);
  EXPECT_THAT(broken(check_rules(rules, ride)), IsEmpty());
  rules.level.crew_anywhere.reset();
  EXPECT_THAT(check_rules(rules, ride), Contains(asks("crew", "is help allowed there?")));
}

TEST(TheDark, IsAskedAboutUnlessTheEventAllowsIt) {
  auto rules = full_rules();
  auto ride = two_loops();
  ride.in_the_dark = {"Ford, loop 1"};
  EXPECT_THAT(check_rules(rules, ride), Contains(asks("ride", "is riding in the dark allowed")));
  rules.level.dark_as_scheduled = weak(true);
  EXPECT_THAT(check_rules(rules, ride), Contains(asks("ride", "does the schedule allow riding in the dark?")));
  rules.level.dark_as_scheduled = published(false);
  EXPECT_THAT(check_rules(rules, ride), Contains(notes("ride", "passes in the dark: Ford, loop 1")));
}

TEST(RuleCheck, SaysNothingOfWhatIsNotKnownOfTheRide) {
  auto rules = full_rules();
  rules.level.time_limit = published(minutes(1));
  rules.level.min_rider_weight.reset();
  EXPECT_THAT(broken(check_rules(rules, {})), IsEmpty());
}

}  // namespace
}  // namespace outbye
