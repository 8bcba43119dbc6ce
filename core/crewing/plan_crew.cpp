#include "core/crewing/plan_crew.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "core/base/text.h"
#include "core/crewing/check.h"
#include "core/crewing/fixed_time.h"
#include "core/crewing/plan_crew_moves.h"
#include "core/crewing/plan_crew_times.h"
#include "core/crewing/plan_crew_words.h"
#include "core/crewing/search.h"
#include "core/crewing/value.h"
#include "core/crewing/value_bound.h"

namespace outbye {
namespace {

using Kind = PlannedStop::Kind;

constexpr std::size_t wanted_candidates = 12;
constexpr std::size_t screening_days = 128;
constexpr std::size_t ranking_days = 1024;  // to rank candidates, and for what each meet is worth
constexpr std::size_t bound_days = 512;
constexpr std::size_t search_days = 512;  // the search takes early and late quantiles from these

struct Candidate {
  CrewOrders orders;
  Valuation value;
};

// One entry a car, in order of CarId.
CrewOrders one_a_car(const CrewingTask& task, const CrewOrders& orders) {
  CrewOrders all;
  for (std::uint32_t c = 0; c < task.cars.size(); ++c) all.push_back({{c}, {}});
  for (const CarOrders& day : orders) {
    if (day.car.value < all.size()) all[day.car.value].stops = day.stops;
  }
  return all;
}

// The task with fewer days, for the search.
CrewingTask with_fewer_days(const CrewingTask& task, std::size_t most) {
  CrewingTask fewer = task;
  for (HorseDays& horse : fewer.horses) {
    if (horse.days <= most) continue;
    const std::size_t days = horse.days;
    horse.days = most;
    for (std::vector<double>* columns : {&horse.base, &horse.stand, &horse.in_time}) {
      if (columns->size() != horse.events.size() * days) continue;
      for (std::size_t e = 0; e < horse.events.size(); ++e) {
        std::copy_n(columns->begin() + static_cast<std::ptrdiff_t>(e * days), most,
                    columns->begin() + static_cast<std::ptrdiff_t>(e * most));
      }
      columns->resize(horse.events.size() * most);
    }
  }
  return fewer;
}

class Planner {
 public:
  Planner(const CrewingTask& task, ValuationDays days, const Progress& progress)
      : task_(task), days_(std::move(days)), progress_(progress), searched_(with_fewer_days(task, search_days)) {}

  Result<CrewPlan> plan() {
    tell(progress_, "search for orders", 0.1);
    if (auto found = search(); !found) return tl::unexpected(found.error());
    tell(progress_, "value them on simulated days", 0.3);
    if (auto valued = value_candidates(); !valued) return tl::unexpected(valued.error());
    tell(progress_, "improve the best", 0.5);
    if (auto improved = improve(); !improved) return tl::unexpected(improved.error());
    if (is_cancelled(progress_)) return cancelled("crew plan");
    tell(progress_, "bound what could be had", 0.8);
    return finish(true);
  }

  Result<CrewPlan> plan_for(const CrewOrders& orders) {
    Result<Valuation> value = value_orders(days_, orders);
    if (!value) return tl::unexpected(value.error());
    best_ = {orders, std::move(*value)};
    return finish(false);
  }

 private:
  FixedTimes times_for(const CrewOrders& orders) const { return typical_times(days_, met_options(task_, orders)); }

  // Stops of the horse depend on what is met and what can be met on when it comes: from all options met on, the search
  // is repeated with the times of the orders it found until those do not change.
  Result<bool> search() {
    std::vector<bool> is_met(task_.options.size(), true);
    for (std::size_t o = 0; o < task_.options.size(); ++o)
      is_met[o] = task_.options[o].demand != MeetOption::Demand::never;
    for (int round = 0; round < 4; ++round) {
      if (is_cancelled(progress_)) return cancelled("crew plan");
      Result<SearchResult> found = search_orders(searched_, typical_times(days_, is_met), wanted_candidates);
      if (!found && found.error().kind == Problem::Kind::impossible && round == 0) {
        is_met.assign(is_met.size(), false);
        found = search_orders(searched_, typical_times(days_, is_met), wanted_candidates);
      }
      if (!found && round == 0) return tl::unexpected(found.error());
      if (!found) break;
      for (const CrewOrders& orders : found->candidates) keep(one_a_car(task_, orders));
      std::vector<bool> next = met_options(task_, found->candidates.front());
      if (next == is_met) break;
      is_met = std::move(next);
    }
    return true;
  }

  void keep(CrewOrders orders) {
    if (std::find(found_.begin(), found_.end(), orders) == found_.end()) found_.push_back(std::move(orders));
  }

  bool is_feasible(const CrewOrders& orders) const {
    return evaluate_fixed(task_, times_for(orders), orders).is_feasible;
  }

  // Drops the stop whose loss leaves the most worth at typical times until the orders can be kept. Nothing left to
  // drop: none.
  std::optional<CrewOrders> repaired(CrewOrders orders) const {
    while (!is_feasible(orders)) {
      std::optional<CrewOrders> best;
      double best_worth = 0;
      bool best_feasible = false;
      for (std::size_t c = 0; c < orders.size(); ++c) {
        for (std::size_t i = 0; i < orders[c].stops.size(); ++i) {
          const PlannedStop& stop = orders[c].stops[i];
          if (stop.kind == Kind::meet && at(task_.options, *stop.option).demand == MeetOption::Demand::must) continue;
          CrewOrders without = orders;
          without[c].stops.erase(without[c].stops.begin() + static_cast<std::ptrdiff_t>(i));
          const bool feasible = is_feasible(without);
          const double worth = planned_worth(without);
          if (best && (best_feasible > feasible || (best_feasible == feasible && best_worth >= worth))) continue;
          best = std::move(without);
          best_worth = worth;
          best_feasible = feasible;
        }
      }
      if (!best) return std::nullopt;
      orders = std::move(*best);
    }
    return orders;
  }

  double planned_worth(const CrewOrders& orders) const {
    double worth = 0;
    for (const CarOrders& day : orders) {
      for (const PlannedStop& stop : day.stops) {
        if (stop.kind == Kind::meet) worth += at(task_.options, *stop.option).worth;
      }
    }
    return worth;
  }

  Result<bool> value_candidates() {
    std::vector<CrewOrders> feasible;
    for (const CrewOrders& orders : found_) {
      if (is_feasible(orders)) feasible.push_back(orders);
    }
    for (std::size_t i = 0; feasible.empty() && i < found_.size(); ++i) {
      if (auto mended = repaired(found_[i])) feasible.push_back(std::move(*mended));
    }
    if (feasible.empty()) {
      return impossible(
          "crew plan",
          "cannot serve every meet that must be served once the horse stops there; make one of them free, "
          "shorten set-up or stops, or add a car");
    }
    for (CrewOrders& orders : feasible) {
      if (is_cancelled(progress_)) return cancelled("crew plan");
      Result<Valuation> value = value_orders(days_, orders, ranking_days);
      if (!value) return tl::unexpected(value.error());
      candidates_.push_back({std::move(orders), std::move(*value)});
    }
    std::stable_sort(candidates_.begin(), candidates_.end(),
                     [](const Candidate& a, const Candidate& b) { return a.value.worth > b.value.worth; });
    return true;
  }

  // Local search from the best candidate. Neighbours are screened on the first days against the orders they come from;
  // the most promising are valued on all days and taken when the gain is beyond the noise of the comparison.
  Result<bool> improve() {
    best_.orders = candidates_.front().orders;
    Result<Valuation> value = value_orders(days_, best_.orders);
    if (!value) return tl::unexpected(value.error());
    best_.value = std::move(*value);
    for (int round = 0; round < 8 && step(best_); ++round) {
    }
    return true;
  }

  bool step(Candidate& current) {
    const FixedTimes times = times_for(current.orders);
    const double fixed = evaluate_fixed(task_, times, current.orders).worth;
    std::vector<std::pair<double, CrewOrders>> promising;
    const std::size_t screened = std::min(screening_days, days_.days());
    const std::vector<float> before(current.value.by_day.begin(),
                                    current.value.by_day.begin() + static_cast<std::ptrdiff_t>(screened));
    for (CrewOrders& orders : neighbours(task_, times, current.orders)) {
      if (is_cancelled(progress_)) return false;  // plan() says so
      const FixedValue at_typical = evaluate_fixed(task_, times_for(orders), orders);
      if (!at_typical.is_feasible || at_typical.worth < fixed - 1.5) continue;
      const Result<Valuation> value = value_orders(days_, orders, screened);
      if (!value) continue;
      const Difference gain = paired_difference(value->by_day, before);
      if (gain.mean > 0) promising.emplace_back(gain.mean, std::move(orders));
    }
    std::stable_sort(promising.begin(), promising.end(),
                     [](const auto& a, const auto& b) { return a.first > b.first; });
    for (std::size_t k = 0; k < promising.size() && k < 4; ++k) {
      Result<Valuation> value = value_orders(days_, promising[k].second);
      const Difference gain = paired_difference(value->by_day, current.value.by_day);
      if (gain.mean <= 1e-6 || gain.mean <= 2.0 * gain.standard_error) continue;
      current = {std::move(promising[k].second), std::move(*value)};
      return true;
    }
    return false;
  }

  Result<CrewPlan> finish(bool searched) {
    Passings times = passings(task_, met_options(task_, best_.orders));
    FixedValue fixed = evaluate_fixed(task_, times.median, best_.orders);
    if (!fixed.is_feasible && searched) {
      // Typical times are some seconds off the medians; rarely a plan hangs on those.
      if (auto fault = mend(times, fixed); !fault) return tl::unexpected(fault.error());
    }
    if (!fixed.is_feasible)
      return impossible("crew orders", fixed.why_not + "; leave that stop out or give it more time");
    CrewPlan plan;
    plan.days = timetable(days_, best_.orders, times, fixed, best_.value);
    set_worths(plan);
    if (is_cancelled(progress_)) return cancelled("crew plan");
    if (auto fault = set_value(plan, times.median, fixed, searched); !fault) return tl::unexpected(fault.error());
    tell(progress_, "check the plan", 0.95);
    explain_plan(task_, plan);
    const std::vector<Problem> refused = check_plan(task_, plan);
    if (!refused.empty()) {
      return impossible("crew plan", "our own mistake: the checker refuses this plan: " + refused.front().where + " " +
                                         refused.front().what);
    }
    tell(progress_, "done", 1.0);
    return plan;
  }

  Result<bool> mend(Passings& times, FixedValue& fixed) {
    std::vector<Candidate> others;
    for (Candidate& c : candidates_) {
      if (!c.orders.empty()) others.push_back(std::move(c));
    }
    const auto try_orders = [&](const CrewOrders& orders) {
      times = passings(task_, met_options(task_, orders));
      fixed = evaluate_fixed(task_, times.median, orders);
      return fixed.is_feasible;
    };
    // The same orders less one stop, else another candidate.
    std::optional<CrewOrders> chosen;
    double worth = 0;
    for (std::size_t c = 0; c < best_.orders.size(); ++c) {
      for (std::size_t i = 0; i < best_.orders[c].stops.size(); ++i) {
        CrewOrders without = best_.orders;
        without[c].stops.erase(without[c].stops.begin() + static_cast<std::ptrdiff_t>(i));
        if (!is_feasible(without) || planned_worth(without) <= worth || !try_orders(without)) continue;
        worth = planned_worth(without);
        chosen = std::move(without);
      }
    }
    for (const Candidate& other : others) {
      if (!chosen && try_orders(other.orders)) chosen = other.orders;
    }
    if (!chosen) return impossible("crew plan", "no orders can be kept at median times: " + fixed.why_not);
    try_orders(*chosen);
    Result<Valuation> value = value_orders(days_, *chosen);
    if (!value) return tl::unexpected(value.error());
    best_ = {std::move(*chosen), std::move(*value)};
    return true;
  }

  // What the plan would lose without each meet: the same orders less that one, on the same days.
  void set_worths(CrewPlan& plan) {
    const Result<Valuation> with = value_orders(days_, best_.orders, ranking_days);
    for (std::size_t c = 0; c < plan.days.size(); ++c) {
      for (std::size_t i = 0; i < plan.days[c].stops.size(); ++i) {
        if (plan.days[c].stops[i].stop.kind != Kind::meet) continue;
        CrewOrders without = best_.orders;
        without[c].stops.erase(without[c].stops.begin() + static_cast<std::ptrdiff_t>(i));
        if (is_cancelled(progress_)) return;  // finish() says so
        const Result<Valuation> value = value_orders(days_, without, ranking_days);
        if (with && value) plan.days[c].stops[i].worth = with->worth - value->worth;
      }
    }
  }

  Result<bool> set_value(CrewPlan& plan, const FixedTimes& times, const FixedValue& fixed, bool searched) {
    PlanValue& v = plan.value;
    v.worth = best_.value.worth;
    v.standard_error = best_.value.standard_error;
    v.fixed_worth = fixed.worth;
    // The bound is taken as the worth plus what hindsight would add on some of the days: pairing the days takes most of
    // the noise out, and it cannot fall below the worth.
    const HindsightBound bound = bound_with_hindsight(days_, bound_days);
    const std::vector<float> same_days(best_.value.by_day.begin(),
                                       best_.value.by_day.begin() + static_cast<std::ptrdiff_t>(bound.by_day.size()));
    const Difference gap = paired_difference(bound.by_day, same_days);
    v.gap = std::max(0.0, gap.mean);
    v.upper_bound = v.worth + v.gap;
    v.upper_bound_error = std::hypot(gap.standard_error, v.standard_error);
    if (searched) {
      const Result<SearchResult> found = search_orders(searched_, times, 1);
      if (!found) return tl::unexpected(found.error());
      v.fixed_bound = std::max(found->fixed_bound, v.fixed_worth);
      v.is_fixed_exact = found->is_exact && std::abs(found->fixed_worth - v.fixed_worth) <= 1e-6;
      v.what_is_exact = sentence_on_exactness(*found, v);
    } else {
      v.what_is_exact = "The orders were given; nothing was searched for.";
    }
    v.what_is_exact +=
        bound.counts_gaps
            ? " The upper bound is the mean of each day's exact optimum in hindsight, gaps included."
            : " The upper bound is the mean of each day's optimum in hindsight without the gaps' penalty.";
    return true;
  }

  const CrewingTask& task_;
  ValuationDays days_;
  const Progress& progress_;
  CrewingTask searched_;
  std::vector<CrewOrders> found_;
  std::vector<Candidate> candidates_;
  Candidate best_;
};

}  // namespace

Result<CrewPlan> plan_crew(const CrewingTask& task, const Progress& progress) {
  if (task.cars.empty()) return bad_input("crewing task", "has no car");
  Result<ValuationDays> days = ValuationDays::make(task);
  if (!days) return tl::unexpected(days.error());
  return Planner(task, std::move(*days), progress).plan();
}

Result<CrewPlan> value_given_orders(const CrewingTask& task, const CrewOrders& orders) {
  if (task.cars.empty()) return bad_input("crewing task", "has no car");
  for (const CarOrders& day : orders) {
    if (day.car.value >= task.cars.size()) return bad_input("crew orders", "name a car that is not there");
  }
  Result<ValuationDays> days = ValuationDays::make(task);
  if (!days) return tl::unexpected(days.error());
  return Planner(task, std::move(*days), {}).plan_for(one_a_car(task, orders));
}

}  // namespace outbye
