#include "core/crewing/orienteering_labels.h"

#include <gtest/gtest.h>

namespace outbye::orienteering {
namespace {

// One point, a day of 100: three ways on, in the clock that runs backwards from the end of the day.
Completions three_ways() { return Completions({{{5, point(3), 40}, {9, point(3) | point(70), 60}, {2, {}, 10}}}, 100); }

TEST(Completions, ReachExactlyInTime) {
  Effort effort;
  const Completions ways = three_ways();
  EXPECT_TRUE(ways.reaches(0, 40, {}, 9, effort));  // 40 from the start, 60 from the end: just met
  EXPECT_FALSE(ways.reaches(0, 41, {}, 9, effort));
  EXPECT_TRUE(ways.may_reach(0, 40, 9));
  EXPECT_FALSE(ways.may_reach(0, 41, 9));
  EXPECT_FALSE(ways.may_reach(0, 91, 0));
}

TEST(Completions, ReachExactlyTheNeed) {
  Effort effort;
  EXPECT_TRUE(three_ways().reaches(0, 0, {}, 9, effort));
  EXPECT_FALSE(three_ways().reaches(0, 0, {}, 10, effort));
}

TEST(Completions, DoNotVisitAgainWhatHasBeenSeen) {
  Effort effort;
  const Completions ways = three_ways();
  EXPECT_EQ(ways.best(0, 0, point(70), 10, effort), 5);
  EXPECT_EQ(ways.best(0, 0, point(3), 10, effort), 2);
  EXPECT_EQ(ways.best(0, 95, {}, 10, effort), std::nullopt);
  EXPECT_FALSE(ways.reaches(0, 0, point(3), 5, effort));
  EXPECT_TRUE(ways.may_reach(0, 0, 5));  // the quick bound takes no account of visits
}

TEST(PointSet, HoldsAllOf128Points) {
  for (std::size_t i = 0; i < 128; ++i) {
    for (std::size_t j = 0; j < 128; ++j) EXPECT_EQ(point(i).contains(j), i == j);
  }
}

}  // namespace
}  // namespace outbye::orienteering
