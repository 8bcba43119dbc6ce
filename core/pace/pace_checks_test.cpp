#include "core/pace/pace_checks.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>
#include <limits>

#include "core/pace/test_course.h"

namespace outbye {
namespace {

using ::testing::HasSubstr;

Course two_loops() {
  auto course = draw_course({{kilometres(20), {kilometres(6)}}, {kilometres(10), {kilometres(4)}}});
  course.loops[1].name = "Blue";
  return course;
}

TEST(CheckPace, TakesTheDefaults) {
  const auto course = two_loops();
  EXPECT_TRUE(check_pace(course, usual_pace(course)).has_value());
}

TEST(CheckPace, SaysWhereAndWhatToDo) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const struct {
    std::function<void(HorsePace&)> spoil;
    const char* where;
    const char* what;
  } cases[] = {
      {[](HorsePace& p) { p.loops[1].speed = {0}; }, "loop 2 (Blue)", "speed of 0.00 km/h; give more than 0"},
      {[](HorsePace& p) { p.loops[0].speed = {-12}; }, "loop 1", "speed of -12.00"},
      {[](HorsePace& p) { p.loops[0].speed = {40.5}; }, "loop 1", "at most 40 km/h"},
      {[&](HorsePace& p) { p.loops[0].speed = {nan}; }, "loop 1", "not a number"},
      {[](HorsePace& p) { p.loops[0].speed = {0.1}; }, "loop 1", "more than two days"},
      {[](HorsePace& p) { p.loops[0].heat_factor = 0; }, "loop 1", "heat factor of 0.00"},
      {[](HorsePace& p) { p.loops[0].heat_factor = 1.3; }, "loop 1", "at most 1.2"},
      {[](HorsePace& p) {
         p.loops[0].going = {{kilometres(2), kilometres(3), 0, "bog"}};
       },
       "loop 1, going section 1 (bog)", "speed factor of 0.00"},
      {[](HorsePace& p) {
         p.loops[0].going = {{kilometres(3), kilometres(2), 0.8, ""}};
       },
       "loop 1, going section 1", "end after it starts"},
      {[](HorsePace& p) {
         p.loops[1].going = {{kilometres(3), kilometres(14), 0.8, ""}};
       },
       "loop 2 (Blue)", "the loop is 10.00 km long"},
      {[](HorsePace& p) {
         p.loops[0].going = {{kilometres(5), kilometres(8), 0.8, ""}, {kilometres(2), kilometres(6), 0.9, ""}};
       },
       "going section 1", "must not overlap"},
      {[](HorsePace& p) { p.loops[0].recovery.median = minutes(-1); }, "loop 1, recovery", "median of -1.0 min"},
      {[](HorsePace& p) { p.loops[0].recovery.log_sd = -0.1; }, "loop 1, recovery", "spread of -0.10"},
      {[](HorsePace& p) { p.loops[0].hold = minutes(-40); }, "loop 1", "hold of -40.0 min"},
      {[](HorsePace& p) { p.loops[0].hold = minutes(400); }, "loop 1", "0 to 360 min"},
      {[](HorsePace& p) { p.stops[1].median = minutes(-3); }, "stop at CP1, loop 2", "median of -3.0"},
      {[](HorsePace& p) { p.start_delay.log_sd = 3; }, "start delay", "give 0 (exact) to 2"},
      {[](HorsePace& p) { p.spread.ride = -0.01; }, "spread 'ride'", "give 0 (none) to 1"},
      {[](HorsePace& p) { p.spread.loop = 1.5; }, "spread 'loop'", "is 1.50"},
      {[&](HorsePace& p) { p.spread.within = nan; }, "spread 'within'", "not a number"},
      {[](HorsePace& p) { p.spread.within_length = {100}; }, "within_length", "0.5 to 1000 km"},
      {[](HorsePace& p) { p.loops.pop_back(); }, "pace", "1 loops, but the course has 2"},
      {[](HorsePace& p) { p.stops.pop_back(); }, "stops", "1 passes, but the course has 2"},
      {[&](HorsePace& p) { p.start = Instant{Seconds{nan}}; }, "start", "not a time"},
  };
  const auto course = two_loops();
  for (const auto& bad : cases) {
    HorsePace pace = usual_pace(course);
    bad.spoil(pace);
    const auto checked = check_pace(course, pace);
    ASSERT_FALSE(checked.has_value()) << bad.what;
    EXPECT_THAT(checked.error().where, HasSubstr(bad.where));
    EXPECT_THAT(checked.error().what, HasSubstr(bad.what));
    EXPECT_FALSE(simulate_days(course, pace, 10, Seed{1}).has_value());
    EXPECT_FALSE(expected_arrivals(course, pace, meet_none(course)).has_value());
    EXPECT_FALSE(pace_effects(course, pace, meet_none(course)).has_value());
  }
}

TEST(CheckPace, WantsGradientsForTheWholeLoop) {
  auto course = draw_course({{kilometres(20), {}, slope_of(kilometres(12), 0.01)}});
  const auto checked = check_pace(course, usual_pace(course));
  ASSERT_FALSE(checked.has_value());
  EXPECT_THAT(checked.error().what, HasSubstr("gradients for 12.00 km, but is 20.00 km long"));
}

TEST(SimulateDays, WantsAtLeastOneDay) {
  const auto course = two_loops();
  EXPECT_THAT(simulate_days(course, usual_pace(course), 0, Seed{1}).error().what, HasSubstr("usually 4096"));
}

TEST(ExpectedArrivals, WantAFlagAnEvent) {
  const auto course = two_loops();
  EXPECT_THAT(expected_arrivals(course, usual_pace(course), {true}).error().what, HasSubstr("one flag an event"));
}

}  // namespace
}  // namespace outbye
