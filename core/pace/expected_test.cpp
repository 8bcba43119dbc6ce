#include <gtest/gtest.h>

#include <cmath>

#include "core/base/clock.h"
#include "core/pace/pace.h"
#include "core/pace/test_course.h"

namespace outbye {
namespace {

using namespace std::chrono_literals;

std::vector<Instant> expected(const Course& course, const HorsePace& pace) {
  return expected_arrivals(course, pace, meet_none(course)).value();
}
Seconds whole(Seconds s) { return Seconds{std::floor(s.count() + 0.5)}; }

TEST(RideEvents, AreEachLoopsPassesThenItsGateAndTheFinishLast) {
  const auto course =
      draw_course({{kilometres(20), {kilometres(5), kilometres(12)}}, {kilometres(10), {kilometres(4)}}});
  const auto events = ride_events(course);
  ASSERT_EQ(events.size(), 5u);
  EXPECT_EQ(events[0].pass, PassId{0});
  EXPECT_EQ(events[1].ride_along, kilometres(12));
  EXPECT_EQ(events[2].kind, RideEvent::Kind::gate);
  EXPECT_EQ(events[3].ride_along, kilometres(24));
  EXPECT_EQ(events[4].kind, RideEvent::Kind::finish);
  EXPECT_EQ(events[4].ride_along, kilometres(30));
}

// FACTS E1 (published): arrive 10:32, pulse accepted 10:36, hold 30 min, out 11:06.
TEST(Gate, ReleasesTheHorseAHoldAfterItsInTime) {
  const auto course = draw_course({{kilometres(20), {}}, {kilometres(12), {}}});
  HorsePace pace = certain(usual_pace(course));
  pace.start = Instant{std::chrono::sys_days{std::chrono::year{2026} / 6 / 13}} + 10h + 32min - 100min;
  pace.loops[0].recovery.median = 4min;
  pace.loops[0].hold = 30min;
  const auto times = expected(course, pace);
  EXPECT_EQ(hours_minutes_seconds(times[0], Clock{}), "10:32:00");
  EXPECT_EQ(hours_minutes_seconds(times[1] - 1h, Clock{}), "11:06:00");  // 12 km at 12 km/h after the out-time
}

// FACTS E2: 40 km out 06:00:00, arrive 08:40:00 (15 km/h), in 08:44:30, hold 40, out 09:24:30.
TEST(Gate, CountsTheHoldFromTheInTimeToTheSecond) {
  const auto course = draw_course({{kilometres(40), {}}, {kilometres(12), {}}});
  HorsePace pace = certain(usual_pace(course));
  pace.loops[0].speed = {15};
  pace.loops[0].recovery.median = 4min + 30s;
  pace.loops[0].hold = 40min;
  const auto times = expected(course, pace);
  EXPECT_EQ(hours_minutes_seconds(times[0], Clock{}), "08:40:00");
  EXPECT_EQ(hours_minutes_seconds(times[1] - 1h, Clock{}), "09:24:30");
}

// FACTS E3: 2 x 40 km at 13 then 12 km/h, recovery 0, hold 30: 3:04:37, 3:20:00, elapsed 6:54:37.
TEST(Ride, AddsUpLoopsAndHolds) {
  const auto course = draw_course({{kilometres(40), {}}, {kilometres(40), {}}});
  HorsePace pace = certain(usual_pace(course));
  pace.loops[0].speed = {13};
  pace.loops[0].recovery.median = 0s;
  pace.loops[0].hold = 30min;
  const auto times = expected(course, pace);
  EXPECT_EQ(whole(times[0] - pace.start), 3h + 4min + 37s);
  EXPECT_EQ(whole(times[1] - times[0] - 30min), 3h + 20min);
  EXPECT_EQ(whole(times[1] - pace.start), 6h + 54min + 37s);
}

// FACTS E4 and C13: speed windows as times, to the second.
TEST(Ride, TurnsSpeedsIntoTimes) {
  const struct {
    double km, speed;
    Seconds time;
  } cases[] = {{20, 8, 2h + 30min},
               {20, 12, 1h + 40min},
               {30, 10, 3h},
               {30, 12, 2h + 30min},
               {40, 12, 3h + 20min},
               {40, 15, 2h + 40min},
               {40, 8, 5h},
               {50, 8, 6h + 15min},
               {50, 15, 3h + 20min},
               {60, 12, 5h},
               {60, 15, 4h},
               {80, 9, 8h + 53min + 20s},
               {80, 18, 4h + 26min + 40s},
               {160, 9, 17h + 46min + 40s},
               {160, 18, 8h + 53min + 20s}};
  for (const auto& [km, speed, time] : cases) {
    const auto course = draw_course({{kilometres(km), {}}});
    HorsePace pace = certain(usual_pace(course));
    pace.loops[0].speed = {speed};
    EXPECT_EQ(whole(expected(course, pace)[0] - pace.start), time) << km << " km at " << speed << " km/h";
  }
}

// FACTS T11: 100 m of climb cost as much as 1.2691 km of level course.
TEST(ArrivalAtGate, IsLaterByAKilometreAndAQuarterForAHundredMetresOfClimb) {
  for (const double gradient : {0.02, 0.05, 0.10}) {
    const Metres climb_length{100.0 / gradient};
    const auto hilly = draw_course(
        {{kilometres(20), {}, joined(slope_of(climb_length, gradient), slope_of(kilometres(20) - climb_length, 0))}});
    HorsePace pace = certain(usual_pace(hilly));
    pace.loops[0].is_average = false;
    const Seconds level = kilometres(20) / pace.loops[0].speed;
    const Metres extra = pace.loops[0].speed * (expected(hilly, pace)[0] - pace.start - level);
    EXPECT_NEAR(extra.value, 1269.1, 0.1) << gradient;
  }
}

TEST(ArrivalAtGate, IsLaterAfterASteeperClimb) {
  Instant before{};
  for (const double gradient : {-0.02, 0.0, 0.01, 0.03, 0.08, 0.15, 0.30}) {
    const auto course = draw_course({{kilometres(10), {}, slope_of(kilometres(10), gradient)}});
    HorsePace pace = usual_pace(course);
    pace.loops[0].is_average = false;
    EXPECT_GT(expected(course, pace)[0], before) << gradient;
    before = expected(course, pace)[0];
  }
}

TEST(AverageSpeed, IsKeptExactlyOverHillsAndSand) {
  const auto course = draw_course(
      {{kilometres(20), {kilometres(10)}, joined(slope_of(kilometres(10), 0.06), slope_of(kilometres(10), -0.06))}});
  HorsePace pace = usual_pace(course);
  pace.loops[0].going = {{kilometres(3), kilometres(6), 0.7, "deep sand"}};
  const auto times = expected(course, pace);
  EXPECT_NEAR((times[1] - pace.start).count(), 6000.0, 1e-6);  // 20 km at 12 km/h
  EXPECT_GT((times[0] - pace.start).count(), 3000.0 + 600.0);  // the climb comes first
}

TEST(GoingSection, SlowsItsOwnPieceOnly) {
  const auto course = draw_course({{kilometres(12), {kilometres(2), kilometres(5), kilometres(9)}}});
  HorsePace pace = usual_pace(course);
  pace.loops[0].is_average = false;
  pace.loops[0].going = {{kilometres(2), kilometres(5), 0.5, "bog"}};
  const auto times = expected(course, pace);
  EXPECT_NEAR((times[0] - pace.start).count(), 600, 1e-9);
  EXPECT_NEAR((times[1] - times[0]).count(), 1800, 1e-6);
  EXPECT_NEAR((times[2] - times[1]).count(), 1200, 1e-6);
}

TEST(Heat, DelaysEveryArrivalWhicheverWayTheSpeedIsGiven) {
  const auto course = draw_course({{kilometres(12), {kilometres(5)}}, {kilometres(12), {kilometres(5)}}});
  for (const bool is_average : {true, false}) {
    HorsePace pace = usual_pace(course);
    for (auto& loop : pace.loops) loop.is_average = is_average;
    const auto cool = expected(course, pace);
    for (auto& loop : pace.loops) loop.heat_factor = 0.9;
    const auto hot = expected(course, pace);
    for (std::size_t e = 0; e < cool.size(); ++e) EXPECT_GT(hot[e], cool[e]);
    EXPECT_NEAR((hot[1] - pace.start).count(), 3600 / 0.9, 1e-6);
  }
}

TEST(Stop, DelaysWhatComesAfterItByItsMedian) {
  const auto course = draw_course({{kilometres(12), {kilometres(4), kilometres(8)}}});
  const HorsePace pace = usual_pace(course);
  const auto alone = expected(course, pace);
  const auto met = expected_arrivals(course, pace, {true, false, true}).value();
  EXPECT_EQ(met[0], alone[0]);
  EXPECT_NEAR((met[1] - alone[1]).count(), 180, 1e-6);
  EXPECT_NEAR((met[2] - alone[2]).count(), 180, 1e-6);
}

TEST(Start, ShiftsEveryArrivalExactlyAcrossMidnight) {
  const auto course = draw_course({{kilometres(40), {kilometres(9)}}, {kilometres(30), {kilometres(7)}}});
  HorsePace pace = usual_pace(course);
  const auto morning = expected(course, pace);
  pace.start += 17h;  // 23:00: loop 1 ends on the next day
  const auto night = expected(course, pace);
  for (std::size_t e = 0; e < morning.size(); ++e) EXPECT_EQ(night[e] - morning[e], Seconds{17h}) << e;
}

TEST(Position, DoesNotMoveTimes) {  // times come from lengths alone, on either side of the antimeridian
  const auto here = draw_course({{kilometres(40), {kilometres(9)}}});
  auto there = here;
  for (auto& point : there.loops[0].points) point.position.longitude = point.along.value > 0 ? -179.99 : 179.99;
  EXPECT_EQ(expected(here, usual_pace(here)), expected(there, usual_pace(there)));
}

}  // namespace
}  // namespace outbye
