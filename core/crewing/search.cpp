#include "core/crewing/search.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

#include "core/base/text.h"
#include "core/crewing/meet_model.h"
#include "core/crewing/quantile_times.h"
#include "core/crewing/search_impossible.h"
#include "core/crewing/solve_orders.h"

namespace outbye {
namespace {

constexpr double slacks_min[] = {3.0, 6.0, 10.0};
constexpr double early_quantiles[] = {0.3, 0.2, 0.1};
constexpr Effort quick{16, 16, false, 0, 0, 20};

// A total order, so that equal worth never leaves the choice to chance.
bool comes_first(const CrewOrders& a, const CrewOrders& b) {
  const auto key = [](const PlannedStop& s) {
    return std::pair(s.kind, s.option ? std::size_t{s.option->value} : s.refill.value_or(0));
  };
  for (std::size_t c = 0; c < std::min(a.size(), b.size()); ++c) {
    const auto& x = a[c].stops;
    const auto& y = b[c].stops;
    for (std::size_t s = 0; s < std::min(x.size(), y.size()); ++s) {
      if (key(x[s]) != key(y[s])) return key(x[s]) < key(y[s]);
    }
    if (x.size() != y.size()) return x.size() < y.size();
  }
  return a.size() < b.size();
}

std::vector<bool> options_met(const CrewingTask& task, const CrewOrders& orders) {
  std::vector<bool> is_met(task.options.size(), false);
  for (const CarOrders& day : orders) {
    for (const PlannedStop& stop : day.stops) {
      if (stop.kind == PlannedStop::Kind::meet) is_met[stop.option->value] = true;
    }
  }
  return is_met;
}

class Pool {
 public:
  Pool(const CrewingTask& task, const FixedTimes& times) : task_(task), times_(times) {}

  void add(const CrewOrders& orders, bool is_cautious) {
    for (Entry& entry : entries_) {
      if (entry.orders != orders) continue;
      entry.is_cautious = entry.is_cautious || is_cautious;
      return;
    }
    const FixedValue value = evaluate_fixed(task_, times_, orders);
    if (value.is_feasible) entries_.push_back({value.worth, is_cautious, orders});
  }

  // Cautious orders have a place before the many that only differ a little from the best.
  std::vector<CrewOrders> best(std::size_t wanted, double& worth) {
    const auto better = [](const Entry& a, const Entry& b) {
      return a.worth != b.worth ? a.worth > b.worth : comes_first(a.orders, b.orders);
    };
    std::sort(entries_.begin(), entries_.end(), better);
    for (std::size_t i = 1; i < entries_.size(); ++i) entries_[i].rank = entries_[i].is_cautious ? 1 : 2;
    std::stable_sort(entries_.begin(), entries_.end(), [](const Entry& a, const Entry& b) { return a.rank < b.rank; });
    if (entries_.size() > wanted) entries_.resize(wanted);
    std::sort(entries_.begin(), entries_.end(), better);
    std::vector<CrewOrders> orders;
    for (Entry& entry : entries_) orders.push_back(std::move(entry.orders));
    if (!entries_.empty()) worth = entries_.front().worth;
    return orders;
  }

 private:
  struct Entry {
    double worth{};
    bool is_cautious{};
    CrewOrders orders;
    int rank{0};
  };
  const CrewingTask& task_;
  const FixedTimes& times_;
  std::vector<Entry> entries_;
};

// Orders that stay good when it slips: minutes to spare before each horse, horses early to come and late to go.
void add_cautious(Pool& pool, const CrewingTask& task, const FixedTimes& times, const CrewOrders& best) {
  for (const double slack : slacks_min) {
    MeetTimes cautious = meet_times(times);
    for (double& t : cautious.ready_by) t -= 60.0 * slack;
    for (double& t : cautious.there_by) t -= 60.0 * slack;
    pool.add(solve_orders(MeetModel(task, times, cautious), quick).orders, true);
  }
  const bool has_days = !task.horses.empty() && std::all_of(task.horses.begin(), task.horses.end(),
                                                            [](const HorseDays& h) { return h.days > 1; });
  if (!has_days) return;
  const std::vector<bool> is_met = options_met(task, best);
  for (const double early : early_quantiles) {
    const FixedTimes soon = quantile_times(task, is_met, early);
    const FixedTimes late = quantile_times(task, is_met, 1.0 - early);
    const double shift = (soon.origin - times.origin).count();
    MeetTimes cautious = meet_times(times);
    for (std::size_t o = 0; o < task.options.size(); ++o) {
      cautious.ready_by[o] = std::min(cautious.ready_by[o], soon.arrival[o] + shift);
      cautious.there_by[o] = std::min(cautious.there_by[o], soon.departure[o] + shift);
      cautious.gone[o] = std::max(cautious.gone[o], late.departure[o] + shift);
    }
    pool.add(solve_orders(MeetModel(task, times, cautious), quick).orders, true);
  }
}

// The best without one of its meets: simply left out, and planned anew.
void add_neighbours(Pool& pool, const CrewingTask& task, const FixedTimes& times, const CrewOrders& best,
                    std::size_t wanted) {
  const MeetTimes plain = meet_times(times);
  // Planning anew costs about the square of the options: 24 of them for 40 options, none from 200 on.
  const std::size_t options = std::max<std::size_t>(task.options.size(), 1);
  std::size_t anew = std::min(wanted, options >= 200 ? std::size_t{0} : std::size_t{38400} / (options * options));
  if (!task.refills.empty()) anew /= 4;  // labels that carry water and fuel are slow
  for (std::size_t c = 0; c < best.size(); ++c) {
    for (std::size_t s = 0; s < best[c].stops.size(); ++s) {
      if (best[c].stops[s].kind != PlannedStop::Kind::meet) continue;
      CrewOrders without = best;
      without[c].stops.erase(without[c].stops.begin() + static_cast<std::ptrdiff_t>(s));
      pool.add(without, false);
      if (anew == 0) continue;
      --anew;
      std::vector<bool> is_open(task.options.size(), true);
      is_open[best[c].stops[s].option->value] = false;
      pool.add(solve_orders(MeetModel(task, times, plain, is_open), quick).orders, false);
    }
  }
}

std::string proof_in_words(const CrewingTask& task, const MeetModel& model, const Solved& solved, double shortfall) {
  const std::string size = std::to_string(model.size()) + (model.size() == 1 ? " meet" : " meets") + " and " +
                           std::to_string(task.cars.size()) + (task.cars.size() == 1 ? " car" : " cars");
  switch (solved.proof) {
    case Solved::Proof::flow:
      return "At the expected times no other choice among " + size + " is worth more: proven by minimum-cost flow.";
    case Solved::Proof::labels:
      return "At the expected times no other choice among " + size +
             " is worth more, horses' gaps, breaks, fuel and water included: proven by searching all cars together.";
    case Solved::Proof::none:
      break;
  }
  return "At the expected times the choice among " + size + " is the best found; none can be worth more than " +
         fixed(shortfall, 3) + " above it (bound by prices on the meets, drives and times exact).";
}

Result<void> check_numbers(const CrewingTask& task, const FixedTimes& times) {
  const auto settings_fault = [&]() -> const char* {
    const CrewingSettings& s = task.settings;
    if (!(s.part_worth >= 0 && s.part_worth <= 1)) return "part_worth must be between 0 and 1";
    if (!(s.gap_penalty >= 0)) return "gap_penalty must not be negative";
    if (!(s.drive_allowance >= 1)) return "drive_allowance must be at least 1: no drive is planned above the limits";
    return nullptr;
  };
  if (const char* fault = settings_fault()) return bad_input("crewing settings", fault);
  if (times.arrival.size() != task.options.size() || times.departure.size() != task.options.size()) {
    return bad_input("fixed times", "must have an arrival and a departure for each of the " +
                                        std::to_string(task.options.size()) + " meets");
  }
  for (std::size_t o = 0; o < task.options.size(); ++o) {
    const MeetOption& option = task.options[o];
    const auto fault = [&]() -> const char* {
      if (option.place.value >= task.drives.size()) return "is at a place that the drive table does not have";
      if (option.horse.value >= task.horses.size()) return "is of a horse that the ride does not have";
      if (option.event >= task.horses[option.horse.value].events.size())
        return "is an event that its horse does not have";
      if (!(option.worth >= 0) || !std::isfinite(option.worth)) return "has a worth that is negative or not a number";
      if (!(option.setup.count() >= 0) || !(option.pack.count() >= 0)) return "has a negative set-up or packing time";
      if (!std::isfinite(times.arrival[o]) || !(times.departure[o] >= times.arrival[o])) {
        return "has a horse that leaves before it comes, or a time that is not a number";
      }
      if (option.only_car && option.only_car->value >= task.cars.size())
        return "is for a car that the ride does not have";
      return nullptr;
    };
    if (const char* what = fault()) return bad_input(option.label, what);
  }
  for (const CrewCar& car : task.cars) {
    if (car.start.value >= task.drives.size() || (car.end && car.end->value >= task.drives.size())) {
      return bad_input(car.name, "starts or ends at a place that the drive table does not have");
    }
  }
  for (const RefillPlace& refill : task.refills) {
    if (refill.place.value >= task.drives.size()) {
      return bad_input(refill.label, "is at a place that the drive table does not have");
    }
  }
  return {};
}

}  // namespace

Result<SearchResult> search_orders(const CrewingTask& task, const FixedTimes& times, std::size_t wanted) {
  if (const auto checked = check_numbers(task, times); !checked) return tl::unexpected<Problem>(checked.error());
  wanted = std::max<std::size_t>(wanted, 1);
  std::size_t musts = 0;
  for (const MeetOption& option : task.options)
    if (option.demand == MeetOption::Demand::must) ++musts;

  const MeetModel model(task, times, meet_times(times));
  const Solved solved = solve_orders(model, Effort{});
  if (musts > 0) {
    const std::vector<bool> is_met = options_met(task, solved.orders);
    for (std::size_t o = 0; o < task.options.size(); ++o) {
      if (task.options[o].demand == MeetOption::Demand::must && !is_met[o]) {
        return tl::unexpected<Problem>(why_impossible(task, times, solved.is_exact));
      }
    }
  }

  Pool pool(task, times);
  pool.add(solved.orders, false);
  if (wanted > 1) {
    add_cautious(pool, task, times, solved.orders);
    add_neighbours(pool, task, times, solved.orders, wanted);
  }
  SearchResult result;
  result.candidates = pool.best(wanted, result.fixed_worth);
  assert(!result.candidates.empty());  // what the search makes is feasible by evaluate_fixed
  if (result.candidates.empty()) return impossible("crew plan", "the orders found break a rule: a fault of the search");
  const double bonus = model.must_bonus() * static_cast<double>(musts);
  result.fixed_bound = std::max(result.fixed_worth, solved.bound - bonus);
  result.is_exact = solved.is_exact;
  if (result.is_exact) result.fixed_bound = result.fixed_worth;
  result.what_is_exact = proof_in_words(task, model, solved, result.fixed_bound - result.fixed_worth);
  return result;
}

}  // namespace outbye
