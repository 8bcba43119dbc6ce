#include <limits>

#include "core/rules/rules_for_test.h"

namespace outbye {
namespace {

using testing::Contains;
using testing::IsEmpty;
using testing::Not;

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

}  // namespace
}  // namespace outbye
