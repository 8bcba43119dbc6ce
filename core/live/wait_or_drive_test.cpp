#include "core/live/wait_or_drive.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "core/pace/test_course.h"

namespace outbye {
namespace {

// CP1 at an hour, CP2 at two hours, the same 10 % for both; certain drives.
struct Drawn {
  Course course = draw_course({{Metres{36000}, {Metres{12000}, Metres{24000}}}});
  HorsePace pace = certain(usual_pace(course));
  LiveSettings settings;
  DayEvidence evidence;
  WaitOrDrive task;

  Drawn() {
    pace.spread.ride = 0.1;
    settings.held_up = 0;
    settings.days = 8192;
    task.drive_allowance = 1.0;
    task.drive_log_sd = 0.0;
    task.here = MeetHere{0, pace.start, minutes(3), 1.0, 0.05};
    task.next = MeetThere{1, minutes(20), minutes(4), 1.0};
    task.now = minute(60);
  }
  Instant minute(double m) const { return pace.start + minutes(m); }
  WaitingAdvice advice() const {
    return wait_or_drive(live_days(*live_pace(course, pace, settings), evidence, Seed{1}), task, Seed{2});
  }
  const WayOn& way(const WaitingAdvice& a, WayOn::Kind kind) const {
    for (const auto& w : a.ways) {
      if (w.kind == kind) return w;
    }
    ADD_FAILURE() << "no such way";
    return a.ways.front();
  }
};

// Half of the days she is still to come; nobody overlooks her; waiting long meets her on all of those.
TEST(WaitOrDrive, CountsTheOddsOfMeetingHere) {
  Drawn drawn;
  drawn.task.here->overlook = 0.0;
  const auto advice = drawn.advice();
  EXPECT_NEAR(advice.by_waiting.back().here, 0.5, 0.02);
  // By 66 min, log-time up to log(1.1) / 0.1 sds.
  for (const auto& way : advice.by_waiting) {
    if (way.kind != WayOn::Kind::wait || way.until != drawn.minute(66)) continue;
    EXPECT_NEAR(way.here, standard_normal_cdf(std::log(1.1) / 0.1) - 0.5, 0.02);
  }
}

TEST(WaitOrDrive, LosesTheOverlookedShareHere) {
  Drawn drawn;
  drawn.task.here->overlook = 0.2;
  EXPECT_NEAR(drawn.advice().by_waiting.back().here, 0.5 * 0.8, 0.02);
}

// Leaving at 60 the car is set up at CP2 at 87 min, when she has come on few days: log(87 / 120) / 0.1 = -3.2 sds.
TEST(WaitOrDrive, CountsTheOddsAtTheNextWhenGoingNow) {
  const Drawn drawn;
  const auto advice = drawn.advice();
  EXPECT_NEAR(drawn.way(advice, WayOn::Kind::next).ready, 1.0, 0.003);
}

// CP2 at 120 min x exp(0.1 z); 8 times in 10 after z = -0.8416; 24 min before that.
TEST(WaitOrDrive, LeavesByTheQuantileOfTheConfidence) {
  Drawn drawn;
  const auto advice = drawn.advice();
  const double exact = 120 * std::exp(-0.084162) - 24;
  EXPECT_NEAR((*advice.leave_by - drawn.minute(exact)).count(), 0, 30);
}

// From 60 on she is to come here on half the days, and on none of them would going now be better: wait, but not for
// ever, because on the other days CP2 is lost by waiting.
TEST(WaitOrDrive, WaitsAsLongAsTheNextIsNotAtRisk) {
  Drawn drawn;
  const auto advice = drawn.advice();
  ASSERT_EQ(advice.ways[advice.best].kind, WayOn::Kind::wait);
  EXPECT_GT(*advice.ask_again, drawn.minute(63));
  EXPECT_LT(*advice.ask_again, drawn.minute(100));
}

TEST(WaitOrDrive, DrivesOnWhenSheHasSurelyGone) {
  Drawn drawn;
  drawn.evidence.words.push_back({0, drawn.minute(60), drawn.minute(55), Seconds{60}, 1.0});
  const auto advice = drawn.advice();
  EXPECT_EQ(advice.ways[advice.best].kind, WayOn::Kind::next);
  EXPECT_FALSE(advice.ask_again);
}

TEST(WaitOrDrive, TakesTheFallbackWhenTheNextIsLost) {
  Drawn drawn;
  drawn.course = draw_course({{Metres{48000}, {Metres{12000}, Metres{24000}, Metres{36000}}}});
  drawn.pace = certain(usual_pace(drawn.course));
  drawn.pace.spread.ride = 0.02;
  drawn.evidence.words.push_back({0, drawn.minute(75), drawn.minute(60), Seconds{60}, 1.0});
  drawn.task.now = drawn.minute(75);
  drawn.task.next->drive = minutes(60);
  drawn.task.fallback = MeetThere{2, minutes(30), minutes(4), 1.0};
  const auto advice = drawn.advice();
  EXPECT_EQ(advice.ways[advice.best].kind, WayOn::Kind::fallback);
  EXPECT_GT(advice.ways[advice.best].ready, 0.99);
}

// Worth three times as much, but it comes after the next, which can be had.
TEST(WaitOrDrive, LeavesTheFallbackForLaterWhileTheNextCanBeHad) {
  Drawn drawn;
  drawn.task.fallback = MeetThere{1, minutes(20), minutes(4), 3.0};
  const auto advice = drawn.advice();
  EXPECT_NE(advice.ways[advice.best].kind, WayOn::Kind::fallback);
}

// Nothing but time passes: the best moment to give up stays where it was.
TEST(WaitOrDrive, KeepsItsMindWhileOnlyTimePasses) {
  Drawn drawn;
  drawn.settings.days = 40'000;
  std::optional<Instant> first;
  for (const double now : {58.0, 60.0, 62.0, 64.0}) {
    drawn.task.now = drawn.minute(now);
    drawn.evidence.watches = {{0, drawn.minute(0), drawn.minute(now), drawn.task.here->overlook}};
    const auto advice = drawn.advice();
    ASSERT_TRUE(advice.ask_again) << now;
    if (!first) first = advice.ask_again;
    EXPECT_NEAR((*advice.ask_again - *first).count(), 0, 180) << now;
  }
}

TEST(WaitOrDrive, HasNothingToChooseWithoutPlaces) {
  Drawn drawn;
  drawn.task.here.reset();
  drawn.task.next.reset();
  EXPECT_TRUE(drawn.advice().ways.empty());
}

}  // namespace
}  // namespace outbye
