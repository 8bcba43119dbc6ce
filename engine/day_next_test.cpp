#include "engine/day_next.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/base/text.h"
#include "tests/support/small_day.h"

namespace outbye {
namespace {

using test::Small;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

using Kind = NextAction::Kind;

// Ash is due 25 min after the start (06:00), the first gate 100 min after it; the hold is 40 min.
NextAction next_at(const Small& day, double minute) { return day.answer(minute).next.front(); }

bool has_alarm(const NextAction& next, DayAlarm::Kind kind, Instant at) {
  for (const DayAlarm& alarm : next.alarms) {
    if (alarm.kind == kind && std::fabs((alarm.at - at).count()) < 1.0) return true;
  }
  return false;
}

TEST(NextAction, IsToLeaveInTimeForTheFirstMeet) {
  const NextAction next = next_at(Small{}, -45);
  EXPECT_EQ(next.kind, Kind::leave);
  EXPECT_THAT(next.words, HasSubstr("Leave by 06:0"));
  EXPECT_THAT(next.words, HasSubstr("for Ash."));
  ASSERT_TRUE(next.at);
  EXPECT_TRUE(has_alarm(next, DayAlarm::Kind::leave_by, *next.at));
  EXPECT_NEAR(next.until->count(), (*next.at - Small::minute(-45)).count(), 1e-6);
  EXPECT_THAT(next.beside, Contains(HasSubstr("She is due 06:2")));
}

TEST(NextAction, TellsADeadlineNoLaterThanItIs) {
  const NextAction next = next_at(Small{}, -45);
  const std::string minute = hours_minutes_seconds(*next.at, Small::plan().ride.clock).substr(0, 5);
  EXPECT_THAT(next.words, HasSubstr("Leave by " + minute));
}

TEST(NextAction, IsToDriveWhenTheCarHasLeft) {
  Small day;
  day.add(DayKind::car_left, 2, "Venue");
  const NextAction next = next_at(day, 4);
  EXPECT_EQ(next.kind, Kind::drive);
  EXPECT_EQ(next.words, "Drive to Ash.");
  EXPECT_EQ(next.at, Small::minute(2 + 11));  // ten minutes and a tenth
  EXPECT_THAT(next.beside, Contains("There about 06:13, set up about 06:17."));
}

TEST(NextAction, IsToSetUpOnceParkedThenToWait) {
  Small day;
  day.add(DayKind::car_at, 14, "Ash");
  const NextAction parked = next_at(day, 15);
  EXPECT_EQ(parked.kind, Kind::set_up);
  EXPECT_EQ(parked.words, "Set up at Ash.");
  EXPECT_EQ(parked.at, Small::minute(18));
  EXPECT_TRUE(has_alarm(parked, DayAlarm::Kind::set_up_by, Small::minute(18)));
  const NextAction ready = next_at(day, 19);
  EXPECT_EQ(ready.kind, Kind::wait);
  EXPECT_THAT(ready.words, HasSubstr("She is due 06:2"));
  EXPECT_THAT(ready.words, HasSubstr(", between 06:2"));
  EXPECT_TRUE(has_alarm(ready, DayAlarm::Kind::due_from, ready.due->p10));
}

TEST(NextAction, TellsWhoDoesWhatAndWhatToGetOut) {
  Small day;
  day.add(DayKind::car_at, 14, "Ash");
  const NextAction parked = next_at(day, 15);
  ASSERT_FALSE(parked.duties.empty());
  EXPECT_EQ(parked.duties.front().who, "Helper 1");
  EXPECT_FALSE(parked.duties.front().tasks.empty());
  EXPECT_THAT(parked.get_out, Contains(HasSubstr("Drinking water: 14 L")));
  // Setting up and serving are different work.
  EXPECT_NE(parked.duties.front().tasks, next_at(day, 19).duties.front().tasks);
}

TEST(NextAction, IsToServeHerWhileSheIsHereAndThenToPack) {
  Small day;
  day.add(DayKind::car_at, 14, "Ash");
  day.add(DayKind::horse_in, 25, "Ash");
  EXPECT_EQ(next_at(day, 26).kind, Kind::serve);
  EXPECT_THAT(next_at(day, 26).words, HasSubstr("She is here, since 06:25"));
  day.add(DayKind::horse_out, 28, "Ash");
  const NextAction gone = next_at(day, 29);
  EXPECT_EQ(gone.words, "Pack up at Ash.");
  EXPECT_EQ(gone.at, Small::minute(31));
  EXPECT_THAT(gone.get_out, IsEmpty());
  EXPECT_EQ(next_at(day, 32).kind, Kind::leave);
}

TEST(NextAction, FollowsTheClockOfTheGate) {
  Small day;
  day.add(DayKind::car_at, 90, "Venue");
  day.add(DayKind::horse_in, 100, "Venue");
  const NextAction in = next_at(day, 101);
  EXPECT_EQ(in.kind, Kind::gate);
  EXPECT_EQ(in.words, "Present to the vet when the pulse is down.");  // this ride names no rules
  DayEntry in_time = day.entry(DayKind::gate_in_time, 106);
  day.add(in_time);
  const NextAction holding = next_at(day, 107);
  EXPECT_EQ(holding.words, "Out-time 08:26: be at the start.");
  EXPECT_TRUE(has_alarm(holding, DayAlarm::Kind::out_time, Small::minute(146)));
  EXPECT_EQ(next_at(day, 147).words, "Out-time 08:26 is past: be at the start.");
}

TEST(NextAction, LeavesAHorseThatWasNotAcceptedToTheVets) {
  Small day;
  day.add(DayKind::car_at, 90, "Venue");
  day.add(DayKind::horse_in, 100, "Venue");
  DayEntry outcome = day.entry(DayKind::gate_outcome, 110);
  outcome.accepted = false;
  day.add(outcome);
  EXPECT_EQ(next_at(day, 111).words, "Noted as not accepted here: go by what the vet and the officials say now.");
}

TEST(NextAction, TellsTheHazardsAndTheWayInOfThePlace) {
  RideInputs inputs = test::small_inputs();
  RideCrewPoint ash;
  ash.name = "Ash";
  ash.hazards = {{"barbed wire left of the gate", std::nullopt}};
  ash.approach = "track from the north";
  inputs.ride.crew_points = {ash};
  for (const char* name : {"Birch", "Cedar", "Damson"}) {
    RideCrewPoint point;
    point.name = name;
    inputs.ride.crew_points.push_back(point);
  }
  const auto plan = plan_ride(inputs);
  ASSERT_TRUE(plan) << plan.error().what;
  const auto answer = day_answer(*plan, *day_model(*plan), DayLog{}, plan->ride.start - minutes(45));
  EXPECT_THAT(answer.next.front().hazards, ElementsAre("barbed wire left of the gate"));
  EXPECT_THAT(answer.next.front().of_place, Contains("Way in: track from the north"));
}

// The whole day, minute by minute, from no log and from a log of it.
TEST(NextAction, NeverSpeaksOfHowTheHorseIs) {
  Small day;
  day.add(DayKind::car_at, 14, "Ash");
  day.add(DayKind::horse_in, 25, "Ash");
  day.add(DayKind::horse_out, 28, "Ash");
  day.add(DayKind::car_at, 95, "Venue");
  day.add(DayKind::horse_in, 104, "Venue");
  day.add(day.entry(DayKind::gate_in_time, 110));
  day.add(day.entry(DayKind::gate_out, 150));
  for (double minute = -60; minute < 300; minute += 7) {
    const NextAction next = next_at(day, minute);
    std::string words = next.words;
    for (const auto& line : next.beside) words += "\n" + line;
    for (const char* word : {"fit ", "is safe", "sound", "healthy", "may go on", "can go on"}) {
      EXPECT_THAT(words, Not(HasSubstr(word))) << minute;
    }
    EXPECT_FALSE(next.words.empty());
    for (const DayAlarm& alarm : next.alarms) EXPECT_GT(alarm.at, Small::minute(minute));
  }
}

}  // namespace
}  // namespace outbye
