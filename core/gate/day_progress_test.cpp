#include "core/gate/day_progress.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/base/random.h"
#include "core/gate/gate_for_test.h"

namespace outbye {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

DayLoop loop_of(double km, Seconds hold = minutes(30)) {
  DayLoop loop;
  loop.length = kilometres(km);
  loop.rules = gate_into_hold(hold);
  return loop;
}

DayLoop ridden(double km, std::string_view out, std::string_view arrival, std::string_view in,
               Seconds hold = minutes(30)) {
  DayLoop loop = loop_of(km, hold);
  loop.out = at(out);
  loop.gate.arrival = at(arrival);
  loop.gate.in_time = at(in);
  return loop;
}

RuleLevel speeds(double slowest, double fastest) {
  RuleLevel level;
  level.min_speed = ruled(KmPerHour{slowest});
  level.max_speed = ruled(KmPerHour{fastest});
  return level;
}

// Derived: 40 km from 06:00:00, arrival 08:40:00, in-time 08:44:30, hold 40 min.
TEST(LoopSpeeds, TellTheLoopFromThePhase) {
  const auto day =
      day_progress({}, {{ridden(40, "06:00", "08:40", "08:44:30", minutes(40)), loop_of(40)}, {}}, at("09:00"));
  const auto& loop = day->loops[0];
  EXPECT_NEAR(loop.loop_speed->value, 15.000, 5e-4);
  EXPECT_NEAR(loop.phase_speed->value, 14.5897, 5e-5);
  EXPECT_EQ(loop.gate.out_time, at("09:24:30"));
  EXPECT_NEAR(day->average->value, 14.5897, 5e-5);
}

// Derived: 80 km as twice 40 at 13 and 12 km/h, no recovery, a hold of 30 min: riding 6:24:37, elapsed 6:54:37,
// 12.480 km/h.
TEST(DaySoFar, AddsRidingAndElapsedTime) {
  DayLoop first = ridden(40, "07:00", "10:04:37", "10:04:37");
  DayLoop second = ridden(40, "10:34:37", "13:54:37", "13:54:37");
  second.rules.clock_stops = ruled(ClockStops::at_line);
  const auto day = day_progress({}, {{first, second}, {}}, at("14:00"));
  EXPECT_EQ(day->riding, Seconds{6 * 3600 + 24 * 60 + 37});
  EXPECT_EQ(*day->elapsed, Seconds{6 * 3600 + 54 * 60 + 37});
  EXPECT_NEAR(day->average->value, 12.480, 5e-4);
  EXPECT_EQ(day->late_departures, Seconds{0});
}

TEST(DaySoFar, StopsTheClockAtTheLineWhereTheRulesDo) {
  DayLoop loop = ridden(20, "08:00", "10:00", "10:30");
  loop.rules = set_speed_gate();
  const auto day = day_progress({}, {{loop, loop_of(20)}, {}}, at("10:40"));
  EXPECT_NEAR(day->average->value, 10.0, 1e-9);
}

TEST(DaySoFar, ElapsedIsRidingAndHoldsAndLateDepartures) {
  DayLoop first = ridden(40, "07:00", "10:00", "10:06");
  DayLoop second = ridden(40, "10:38:10", "13:40", "13:45");  // due out 10:36
  const auto day = day_progress({}, {{first, second, loop_of(10)}, {}}, at("13:50"));
  EXPECT_EQ(day->late_departures, Seconds{130});
  EXPECT_EQ(*day->elapsed, day->riding + minutes(30) + day->late_departures);
}

// 40 km at 8 to 15 km/h is 2:40:00 to 5:00:00 (window common practice, times derived).
TEST(SpeedsToCome, AreTheWindowBeforeTheStart) {
  DayLoop loop = loop_of(40);
  loop.rules.clock_stops = ruled(ClockStops::at_line);
  const auto day = day_progress(speeds(8, 15), {{loop}, {}}, at("06:00"));
  EXPECT_NEAR(day->needed->value, 8.0, 1e-9);
  EXPECT_NEAR(day->allowed->value, 15.0, 1e-9);
  EXPECT_EQ(day->outlook, DayOutlook::open);
}

TEST(SpeedsToCome, CountRecoveryWhereTheClockDoes) {
  RideDay day{{loop_of(40), loop_of(40)}, {}};
  day.loops[1].rules.clock_stops = ruled(ClockStops::at_line);
  const auto counted_in = day_progress(speeds(8, 15), day, at("06:00"));
  // 80 km at 8 km/h is 10 h, less the 6 min expected at gate 1.
  EXPECT_NEAR(counted_in->needed->value, 80.0 / 9.9, 1e-9);
  day.loops[0].rules.clock_stops = ruled(ClockStops::at_line);
  EXPECT_NEAR(day_progress(speeds(8, 15), day, at("06:00"))->needed->value, 8.0, 1e-9);
}

TEST(SpeedsToCome, KeepTheAverageInsideTheWindow) {
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    Rng rng{Seed{seed}};
    const double first_speed = 7.0 + 10.0 * uniform(rng);
    DayLoop first = loop_of(30);
    first.out = at("06:00");
    first.gate.arrival = *first.out + first.length / KmPerHour{first_speed};
    first.gate.in_time = first.gate.arrival;
    DayLoop last = loop_of(30);
    last.rules.clock_stops = ruled(ClockStops::at_line);
    const RideDay day{{first, last}, {}};
    const auto level = speeds(8, 15);
    const auto progress = day_progress(level, day, *first.gate.in_time);
    for (const auto& speed : {progress->needed, progress->allowed}) {
      if (!speed) continue;
      RideDay finished = day;
      finished.loops[1].out = progress->loops[0].gate.out_time;
      finished.loops[1].gate.arrival = *finished.loops[1].out + kilometres(30) / *speed;
      const auto end = day_progress(level, finished, *finished.loops[1].gate.arrival);
      EXPECT_NEAR(end->average->value, speed == progress->needed ? 8.0 : 15.0, 1e-6) << seed;
    }
  }
}

TEST(SpeedsToCome, NeedMoreAfterALateDeparture) {
  const auto needed = [](std::string_view now) {
    return day_progress(speeds(8, 15), {{ridden(40, "06:00", "10:30", "10:36"), loop_of(40)}, {}}, at(now))
        ->needed->value;
  };
  EXPECT_DOUBLE_EQ(needed("10:40"), needed("11:06"));
  EXPECT_GT(needed("11:10"), needed("11:06"));
}

// 25 mi in 6 h, 50 in 12 h, 100 in 24 h, holds included (Endurance News, Sept 2018; "holds included" from memory).
TEST(TimeLimit, LeavesTheSpeedThatHoldsAndRecoveriesLeave) {
  RuleLevel level;
  level.time_limit = ruled(minutes(12 * 60));
  const auto day = day_progress(level, {{loop_of(40, minutes(40)), loop_of(40)}, {}}, at("06:00"));
  // 12 h less 40 min hold, and 6 min of recovery at each gate: the finish of this ride counts to pulse-down.
  EXPECT_NEAR(day->needed->value, 80.0 / (12.0 - 40.0 / 60.0 - 12.0 / 60.0), 1e-9);
  EXPECT_THAT(day->needed_for, HasSubstr("time limit of 12 h 00 min"));
}
TEST(TimeLimit, GivesTheLatestFinishFromTheStart) {
  RuleLevel level;
  level.min_elapsed_speed = ruled(miles_per_hour(25.0 / 6.0));
  const Metres fifty_miles = kilometres(50 * 1.609344);
  DayLoop loop = loop_of(in_kilometres(fifty_miles));
  loop.out = at("06:00");
  const auto day = day_progress(level, {{loop}, {}}, at("07:00"));
  EXPECT_NEAR((*day->latest_finish - at("18:00")).count(), 0.0, 1e-3);
}
TEST(TimeLimit, CannotBeKeptOnceItIsPast) {
  RuleLevel level;
  level.time_limit = ruled(minutes(300));
  DayLoop loop = loop_of(40);
  loop.out = at("06:00");
  EXPECT_EQ(day_progress(level, {{loop}, {}}, at("10:00"))->outlook, DayOutlook::open);
  EXPECT_EQ(day_progress(level, {{loop}, {}}, at("11:00"))->outlook, DayOutlook::too_slow);
}

TEST(Outlook, IsTooSlowWhenNoSpeedKeepsTheSlowest) {
  const auto day = day_progress(speeds(9, 18), {{ridden(40, "06:00", "15:00", "15:05"), loop_of(40)}, {}}, at("15:10"));
  EXPECT_EQ(day->outlook, DayOutlook::too_slow);
  EXPECT_FALSE(day->needed);
  EXPECT_THAT(day->needed_for, HasSubstr("slowest speed of 9.0 km/h"));
}
TEST(Outlook, IsTooFastEvenIfTheRestIsRiddenAtTheSlowestSpeed) {
  // 60 km in 3 h, then 10 km: at 12 km/h the average would still be over 15.
  const auto day =
      day_progress(speeds(12, 15), {{ridden(60, "06:00", "09:00", "09:00"), loop_of(10)}, {}}, at("09:05"));
  EXPECT_EQ(day->outlook, DayOutlook::too_fast);
}
TEST(Outlook, IsTooFastAtTheEndAboveTheFastestSpeed) {
  const auto day = day_progress(speeds(8, 15), {{ridden(40, "06:00", "08:30", "08:33")}, {}}, at("09:00"));
  EXPECT_EQ(day->outlook, DayOutlook::too_fast);
}
TEST(Outlook, ClashesWhenTheTimeLimitNeedsMoreThanIsAllowed) {
  auto level = speeds(8, 15);
  level.time_limit = ruled(minutes(3.5 * 60));
  DayLoop first = ridden(30, "06:00", "07:50", "07:50", minutes(60));
  const auto day = day_progress(level, {{first, loop_of(10)}, {}}, at("08:00"));
  ASSERT_TRUE(day->needed && day->allowed);
  EXPECT_GT(*day->needed, *day->allowed);
  EXPECT_EQ(day->outlook, DayOutlook::clash);
}
TEST(Outlook, IsDoneInsideTheWindow) {
  const auto day = day_progress(speeds(8, 15), {{ridden(40, "06:00", "09:30", "09:33")}, {}}, at("10:00"));
  EXPECT_EQ(day->outlook, DayOutlook::done);
  EXPECT_FALSE(day->needed);
}
TEST(Outlook, HasNothingToSayWithoutLimits) {
  EXPECT_EQ(day_progress({}, {{loop_of(40)}, {}}, at("06:00"))->outlook, DayOutlook::no_limits);
}

TEST(SpeedsToCome, KeepTheFastestSpeedBesideAnAverageThatAllowsMore) {
  const auto slow =
      day_progress(speeds(8, 15), {{ridden(40, "06:00", "10:30", "10:36"), loop_of(40)}, {}}, at("10:40"));
  EXPECT_GT(slow->allowed->value, 15.0);
  EXPECT_EQ(slow->loop_cap->value, 15.0);
  const auto fast =
      day_progress(speeds(8, 15), {{ridden(40, "06:00", "08:38", "08:40"), loop_of(40)}, {}}, at("08:50"));
  EXPECT_LE(fast->allowed->value, 15.6);
}

TEST(Cautions, NameALoopAboveTheFastestSpeed) {
  auto level = speeds(8, 15);
  level.is_novice = true;
  const auto day = day_progress(level, {{ridden(32, "06:00", "08:00", "08:05"), loop_of(8)}, {}}, at("08:10"));
  ASSERT_THAT(day->warnings, SizeIs(1));
  EXPECT_THAT(day->warnings[0].what, HasSubstr("16.0 km/h"));
  EXPECT_THAT(day->warnings[0].what, HasSubstr("novice"));
}
TEST(Cautions, WeighTheRiderWithTackWithoutBridle) {
  RuleLevel level;
  level.min_rider_weight = ruled(Kilograms{70});
  const auto warnings = [&](std::optional<Kilograms> weight) {
    return day_progress(level, {{loop_of(40)}, weight}, at("06:00"))->warnings;
  };
  EXPECT_THAT(warnings(Kilograms{69.5})[0].what, HasSubstr("69.5 kg"));
  EXPECT_THAT(warnings(std::nullopt)[0].what, HasSubstr("with tack, without bridle"));
  EXPECT_THAT(warnings(Kilograms{70}), IsEmpty());
}

TEST(DayLog, LooksAtNothingAfterNow) {
  const RideDay day{{ridden(40, "06:00", "08:40", "08:44:30"), ridden(40, "09:14:30", "12:00", "12:05")}, {}};
  const auto before = day_progress(speeds(8, 18), day, at("07:00"));
  EXPECT_EQ(before->ridden, Metres{0});
  EXPECT_FALSE(before->average);
  EXPECT_EQ(day_progress(speeds(8, 18), day, at("09:00"))->ridden, kilometres(40));
  EXPECT_EQ(day_progress(speeds(8, 18), day, at("13:00"))->ridden, kilometres(80));
}
TEST(DayLog, RefusesTimesOutOfOrder) {
  EXPECT_FALSE(day_progress({}, {{}, {}}, at("06:00")));
  EXPECT_FALSE(day_progress({}, {{ridden(40, "08:00", "07:00", "07:05")}, {}}, at("09:00")));
  EXPECT_FALSE(day_progress({}, {{ridden(40, "06:00", "08:00", "08:05"), ridden(40, "07:30", "10:00", "10:05")}, {}},
                            at("11:00")));
  EXPECT_FALSE(day_progress({}, {{loop_of(0)}, {}}, at("06:00")));
  EXPECT_FALSE(day_progress({}, {{loop_of(40), ridden(40, "09:00", "11:00", "11:05")}, {}}, at("12:00")));
}
TEST(DayLog, CrossesMidnight) {
  const auto day = day_progress({}, {{ridden(40, "22:00", "25:00", "25:06")}, {}}, at("26:00"));
  EXPECT_NEAR(day->loops[0].loop_speed->value, 40.0 / 3.0, 1e-9);
}

}  // namespace
}  // namespace outbye
