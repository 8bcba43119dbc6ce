#include "core/crewing/search.h"

#include <algorithm>

namespace outbye {
namespace {

PlannedStop meet_stop(std::size_t option) {
  return {PlannedStop::Kind::meet, MeetOptionId{static_cast<std::uint32_t>(option)}, std::nullopt};
}

}  // namespace

Result<SearchResult> search_orders(const CrewingTask& task, const FixedTimes& times, std::size_t wanted) {
  if (wanted == 0) wanted = 1;
  CrewingTask relaxed = task;  // musts come last here: a first working version
  for (MeetOption& option : relaxed.options) {
    if (option.demand == MeetOption::Demand::must) {
      option.demand = MeetOption::Demand::free;
      option.worth += 1000.0;
    }
  }
  CrewOrders orders;
  for (std::size_t c = 0; c < task.cars.size(); ++c) orders.push_back({CarId{static_cast<std::uint32_t>(c)}, {}});
  std::vector<CrewOrders> found{orders};
  std::vector<bool> is_met(task.options.size(), false);
  double worth = evaluate_fixed(relaxed, times, orders).worth;
  for (bool better = true; better;) {
    better = false;
    CrewOrders best;
    std::size_t best_option = 0;
    for (std::size_t o = 0; o < task.options.size(); ++o) {
      if (is_met[o]) continue;
      for (std::size_t c = 0; c < orders.size(); ++c) {
        CrewOrders tried = orders;
        auto& stops = tried[c].stops;
        auto where = stops.begin();
        while (where != stops.end() &&
               comes_before(task, times, *where->option, MeetOptionId{static_cast<std::uint32_t>(o)})) {
          ++where;
        }
        stops.insert(where, meet_stop(o));
        const FixedValue value = evaluate_fixed(relaxed, times, tried);
        if (!value.is_feasible || value.worth <= worth + 1e-9) continue;
        worth = value.worth;
        best = tried;
        best_option = o;
        better = true;
      }
    }
    if (!better) break;
    orders = best;
    is_met[best_option] = true;
    found.push_back(orders);
  }
  SearchResult result;
  std::reverse(found.begin(), found.end());
  for (const CrewOrders& candidate : found) {
    const FixedValue value = evaluate_fixed(task, times, candidate);
    if (!value.is_feasible || result.candidates.size() >= wanted) continue;
    if (result.candidates.empty()) result.fixed_worth = value.worth;
    result.candidates.push_back(candidate);
  }
  if (result.candidates.empty())
    return impossible("crew plan", "no order of stops serves every meet that must be served");
  for (const MeetOption& option : task.options) result.fixed_bound += option.worth;
  result.what_is_exact = "Nothing is proven yet: the bound is the worth of every meet.";
  return result;
}

}  // namespace outbye
