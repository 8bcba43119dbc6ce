#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/pace/pace.h"
#include "core/pace/test_course.h"

namespace outbye {
namespace {

Course climb_then_descent() {
  return draw_course({{kilometres(20),
                       {kilometres(10), kilometres(15)},
                       joined(slope_of(kilometres(10), 0.04), slope_of(kilometres(10), -0.04))},
                      {kilometres(10), {}}});
}

TEST(PaceEffects, AddUpToTheRidingTime) {
  const auto course = climb_then_descent();
  for (const bool is_average : {true, false}) {
    HorsePace pace = usual_pace(course);
    pace.loops[0].is_average = is_average;
    pace.loops[0].heat_factor = 0.95;
    pace.loops[0].going = {{kilometres(12), kilometres(14), 0.8, "mud"}};
    const auto effects = pace_effects(course, pace, meet_all(course)).value();
    const Seconds level = kilometres(20) / pace.loops[0].speed;
    const auto& first = effects[0];
    EXPECT_NEAR((level + first.hills + first.going + first.heat + first.stops).count(), first.riding.count(), 1e-6);
    const auto times = expected_arrivals(course, pace, meet_all(course)).value();
    EXPECT_NEAR((times[2] - pace.start).count(), first.riding.count(), 1e-6);
    EXPECT_EQ(first.stops, minutes(6));
    EXPECT_EQ(first.gate, minutes(46));
    EXPECT_EQ(effects[1].gate, minutes(6));
    EXPECT_EQ(first.hills == Seconds{0}, is_average);
    EXPECT_GT(first.hills_within, minutes(5));  // the climb comes before the crew point
    EXPECT_EQ(effects[1].hills_within, Seconds{0});
  }
}

TEST(PaceEffects, OfTheSameClimbGrowWithItsGradient) {
  const auto course = climb_then_descent();
  HorsePace pace = usual_pace(course);
  pace.loops[0].is_average = false;
  const auto effects = pace_effects(course, pace, meet_none(course)).value();
  // 10 km up at 4 %: 400 m of climb, 12.691 m of level course a metre (FACTS T11); 10 km down at 1.05 of the speed
  EXPECT_NEAR(effects[0].hills.count(), (400 * 12.691 - 10000 * (1 - 1 / 1.05)) * 0.3, 1.0);
}

TEST(Describe, SaysWhatEachCauseCosts) {
  LoopEffects effects;
  effects.hills = minutes(11.2);
  EXPECT_EQ(describe(effects, "loop 2"), "Hills cost loop 2 eleven minutes.");
  effects.going = minutes(3.6);
  effects.stops = minutes(13);
  EXPECT_EQ(describe(effects, "loop 2"), "Hills cost loop 2 eleven minutes, going four and stops 13.");
  effects.going = minutes(-1);
  EXPECT_EQ(describe(effects, "loop 2"), "Hills cost loop 2 eleven minutes and stops 13; going saves it one minute.");
}

TEST(Describe, SaysWhatHillsDoInsideALoopThatKeepsItsAverage) {
  LoopEffects effects;
  effects.hills_within = minutes(5);
  EXPECT_EQ(describe(effects, "Blue"),
            "The lie of Blue brings the horse to one crew point five minutes later than even speed would.");
  effects.heat = minutes(1);
  effects.hills_within = minutes(-2);
  EXPECT_EQ(describe(effects, "Blue"),
            "Heat costs Blue one minute; the lie of the loop brings the horse to one crew point two minutes earlier "
            "than even speed would.");
}

TEST(Describe, SaysWhenNothingSlowsTheLoop) { EXPECT_EQ(describe(LoopEffects{}, "loop 3"), "Nothing slows loop 3."); }

}  // namespace
}  // namespace outbye
