// Which car meets which horse where: the best orders at fixed times, and other good ones to be valued on simulated
// days.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/crewing/crewing_task.h"
#include "core/crewing/fixed_time.h"
#include "core/crewing/plan.h"

namespace outbye {

struct SearchResult {
  // Feasible at the given times, distinct, by descending worth there, the first is the best found. Among them orders
  // that ask for 3, 6 and 10 minutes to spare before each horse, and for horses early to come and late to go.
  std::vector<CrewOrders> candidates;  // at least one; never more than wanted
  double fixed_worth{};                // of candidates.front()
  double fixed_bound{};                // no orders are worth more at these times
  bool is_exact{};                     // fixed_worth is proven optimal
  std::string what_is_exact;           // one sentence for people
};

// Errors: bad_input (sizes, indices, values out of range), impossible (a must-serve that cannot be served: which, why,
// and what to relax). The same input gives the same bytes.
Result<SearchResult> search_orders(const CrewingTask& task, const FixedTimes& times, std::size_t wanted);

}  // namespace outbye
