#include "core/crewing/value.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "core/crewing/value_run.h"

namespace outbye {
namespace {

Difference mean_of(double sum, double squares, std::size_t n) {
  const auto count = static_cast<double>(n);
  const double mean = sum / count;
  const double variance = n < 2 ? 0.0 : std::max(0.0, (squares - sum * mean) / (count - 1.0));
  return {mean, std::sqrt(variance / count)};
}

}  // namespace

Result<Valuation> value_orders(ValuationDays& days, const CrewOrders& orders, std::size_t most_days) {
  Result<Policy> policy = make_policy(days, orders);
  if (!policy) return tl::unexpected(policy.error());
  Valuation value;
  value.policy = std::move(*policy);
  const std::size_t n = std::min(most_days, days.days());
  value.by_day.resize(n);
  DayRunner runner;
  RunCounts counts;
  for (std::size_t from = 0; from < n; from += DayRunner::block) {
    runner.run(value.policy, days.all(), from, std::min(DayRunner::block, n - from), value.by_day.data() + from,
               counts);
  }
  double sum = 0;
  double squares = 0;
  for (const float worth : value.by_day) {
    sum += static_cast<double>(worth);
    squares += static_cast<double>(worth) * static_cast<double>(worth);
  }
  const Difference mean = mean_of(sum, squares, n);
  value.worth = mean.mean;
  value.standard_error = mean.standard_error;
  for (const CarOrders& day : orders) value.odds.emplace_back(day.stops.size());
  for (std::size_t s = 0; s < value.policy.stops.size(); ++s) {
    const PolicyStop& p = value.policy.stops[s];
    const auto k = static_cast<std::size_t>(
        std::find_if(orders.begin(), orders.end(), [&](const CarOrders& o) { return o.car == p.car; }) -
        orders.begin());
    value.odds[k][p.index] = {static_cast<double>(counts.ready[s]) / static_cast<double>(n),
                              static_cast<double>(counts.there[s]) / static_cast<double>(n)};
  }
  return value;
}

Difference paired_difference(const std::vector<float>& a, const std::vector<float>& b) {
  assert(a.size() == b.size() && !a.empty());
  double sum = 0;
  double squares = 0;
  for (std::size_t d = 0; d < a.size(); ++d) {
    const double difference = static_cast<double>(a[d]) - static_cast<double>(b[d]);
    sum += difference;
    squares += difference * difference;
  }
  return mean_of(sum, squares, a.size());
}

}  // namespace outbye
