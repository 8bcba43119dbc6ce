#include "core/crewing/plan_crew.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/crewing/check.h"
#include "core/crewing/value_test_rides.h"

namespace outbye {
namespace {

RideShape any_shape(Rng& rng) {
  RideShape shape;
  shape.days = 256;
  shape.horses = 1 + uniform_below(rng, 2);
  shape.cars = 1 + uniform_below(rng, 3);
  shape.loops = 2 + uniform_below(rng, 2);
  shape.passes = 2 + uniform_below(rng, 3);
  shape.has_limits = uniform(rng) < 0.6;
  return shape;
}

TEST(CrewPlan, OfAnyRideIsAcceptedByTheChecker) {
  std::size_t planned = 0;
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    SCOPED_TRACE(seed);
    Rng rng(Seed{seed});
    const RideShape shape = any_shape(rng);
    const CrewingTask task = any_crewing_task(rng, shape);
    const Result<CrewPlan> plan = plan_crew(task);
    ASSERT_TRUE(plan) << plan.error().where << " " << plan.error().what;
    const std::vector<Problem> refused = check_plan(task, *plan);
    EXPECT_TRUE(refused.empty()) << refused.front().where << " " << refused.front().what;
    EXPECT_GE(plan->value.upper_bound, plan->value.worth);
    planned += plan->weakest.has_value() ? 1U : 0U;
  }
  EXPECT_GT(planned, 250U);  // rides on which anything is met
}

}  // namespace
}  // namespace outbye
