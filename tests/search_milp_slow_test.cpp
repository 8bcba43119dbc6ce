// The search against the same rides as mixed-integer programmes, solved by CBC (COIN-OR branch and cut, Debian's cbc).
#include <gtest/gtest.h>

#include <cstdio>

#include "core/crewing/search.h"
#include "tests/search_milp.h"

namespace outbye {
namespace {

TEST(SearchAgainstMilp, FindsCbcsOptimumOf50LargerRides) {
  if (!has_cbc()) GTEST_SKIP() << "cbc is not installed (Debian: coinor-cbc)";
  const RideSize sizes[] = {{1, 1, 4, 9, 40}, {2, 1, 4, 9, 40}, {3, 1, 3, 9, 30}, {2, 2, 2, 9, 40}, {3, 3, 2, 6, 30}};
  std::size_t proven = 0;
  double cbc = 0;
  for (std::uint64_t seed = 1; seed <= 50; ++seed) {
    Rng rng(Seed{1000 + seed});
    SearchRide ride = search_ride(rng, sizes[seed % 5]);
    ride.task.settings.drive_allowance = between(rng, 1.2, 2.5);
    ride.task.settings.water_interval = kilometres(between(rng, 3, 10));
    ride.task.settings.gap_penalty = seed % 3 == 0 ? 0.0 : between(rng, 0.02, 0.2);
    for (CrewCar& car : ride.task.cars) {
      car.longest_driving = Seconds{0};
      car.ready_from = ride.times.origin + Seconds{between(rng, -3600, 3600)};
    }
    const auto answer = solve_milp(ride, std::string(OUTBYE_BUILD) + "/search_milp_" + std::to_string(seed));
    ASSERT_TRUE(answer) << "seed " << seed;
    const auto found = search_orders(ride.task, ride.times, 1);
    ASSERT_TRUE(found) << found.error().what;
    ASSERT_NEAR(found->fixed_worth, answer->worth, 1e-5) << "seed " << seed;  // CBC prints and rounds to about 1e-6
    if (found->is_exact) ++proven;
    cbc += answer->seconds;
  }
  std::printf("50 rides: all at CBC's optimum, %zu proven by the search itself; CBC took %.1f s\n", proven, cbc);
  EXPECT_EQ(proven, 50U);
}

}  // namespace
}  // namespace outbye
