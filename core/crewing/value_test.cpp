#include "core/crewing/value.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "core/crewing/fixed_time.h"
#include "core/crewing/quantile_times.h"
#include "core/crewing/search.h"
#include "core/crewing/value_bound.h"
#include "core/crewing/value_test_reference.h"
#include "core/crewing/value_test_rides.h"

namespace outbye {
namespace {

FixedTimes times_of(const CrewingTask& task, const CrewOrders& orders) {
  std::vector<bool> is_met(task.options.size(), false);
  for (const CarOrders& day : orders) {
    for (const PlannedStop& stop : day.stops) {
      if (stop.option) is_met[stop.option->value] = true;
    }
  }
  return medians(task, is_met);
}

TEST(Valuation, OfADayWithoutChanceIsTheFixedTimeWorth) {
  std::size_t valued = 0;
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    SCOPED_TRACE(seed);
    Rng rng(Seed{seed});
    RideShape shape;
    shape.days = 1;
    shape.spread = 0;
    shape.cars = 1 + uniform_below(rng, 2);
    shape.horses = 1 + uniform_below(rng, 2);
    shape.has_limits = seed % 2 == 0;
    const CrewingTask task = any_crewing_task(rng, shape);
    const auto found = search_orders(task, medians(task, std::vector<bool>(task.options.size(), true)), 12);
    ASSERT_TRUE(found) << found.error().what;
    auto days = ValuationDays::make(task);
    ASSERT_TRUE(days);
    for (const CrewOrders& orders : found->candidates) {
      const FixedValue fixed = evaluate_fixed(task, times_of(task, orders), orders);
      if (!fixed.is_feasible) continue;  // the search stopped the horse at other meets
      const auto value = value_orders(*days, orders);
      ASSERT_TRUE(value) << value.error().where << " " << value.error().what;
      EXPECT_NEAR(value->worth, fixed.worth, 1e-4);
      EXPECT_EQ(value->standard_error, 0.0);
      ++valued;
    }
  }
  EXPECT_GT(valued, 500U);
}

TEST(Valuation, AgreesWithThePlainRulesDayByDay) {
  std::size_t compared = 0;
  std::size_t apart = 0;
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    SCOPED_TRACE(seed);
    Rng rng(Seed{seed});
    RideShape shape;
    shape.days = 67;  // not a multiple of four
    shape.cars = 1 + uniform_below(rng, 2);
    shape.horses = 1 + uniform_below(rng, 2);
    shape.has_limits = seed % 2 == 0;
    const CrewingTask task = any_crewing_task(rng, shape);
    const auto found = search_orders(task, medians(task, std::vector<bool>(task.options.size(), true)), 4);
    ASSERT_TRUE(found);
    auto days = ValuationDays::make(task);
    for (const CrewOrders& orders : found->candidates) {
      const auto value = value_orders(*days, orders);
      ASSERT_TRUE(value);
      for (std::size_t d = 0; d < shape.days; ++d) {
        const double plain = reference_worth(value->policy, task, days->all(), d);
        ++compared;
        apart += std::abs(plain - static_cast<double>(value->by_day[d])) > 1e-3 ? 1U : 0U;
      }
    }
  }
  EXPECT_GT(compared, 10000U);
  EXPECT_LE(apart, compared / 5000);  // a comparison decided by a float's last bit
}

TEST(Hindsight, IsNeverWorseOnAnyDay) {
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    SCOPED_TRACE(seed);
    Rng rng(Seed{seed});
    RideShape shape;
    shape.cars = 1 + uniform_below(rng, 3);
    shape.horses = 1 + uniform_below(rng, 2);
    shape.has_limits = seed % 2 == 0;
    const CrewingTask task = any_crewing_task(rng, shape);
    const auto found = search_orders(task, medians(task, std::vector<bool>(task.options.size(), true)), 6);
    ASSERT_TRUE(found);
    auto days = ValuationDays::make(task);
    const HindsightBound bound = bound_with_hindsight(*days, shape.days);
    for (const CrewOrders& orders : found->candidates) {
      const auto value = value_orders(*days, orders);
      ASSERT_TRUE(value) << value.error().where << " " << value.error().what;
      for (std::size_t d = 0; d < shape.days; ++d) EXPECT_GE(bound.by_day[d] + 1e-3F, value->by_day[d]) << "day " << d;
    }
  }
}

}  // namespace
}  // namespace outbye
