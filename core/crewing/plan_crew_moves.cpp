#include "core/crewing/plan_crew_moves.h"

#include <algorithm>

#include "core/crewing/plan_crew_times.h"

namespace outbye {
namespace {

using Kind = PlannedStop::Kind;
using Stops = std::vector<PlannedStop>;

class Moves {
 public:
  Moves(const CrewingTask& task, const FixedTimes& times, const CrewOrders& orders)
      : task_(task), times_(times), orders_(orders), is_met_(met_options(task, orders)) {}

  std::vector<CrewOrders> all() {
    for (std::size_t c = 0; c < orders_.size(); ++c) {
      for (std::size_t i = 0; i < orders_[c].stops.size(); ++i) leave_out(c, i);
    }
    for (std::uint32_t o = 0; o < task_.options.size(); ++o) {
      if (is_met_[o] || task_.options[o].demand == MeetOption::Demand::never) continue;
      for (std::size_t c = 0; c < orders_.size(); ++c) take_in(orders_, c, {o});
    }
    for (std::size_t a = 0; a < orders_.size(); ++a) {
      for (std::size_t b = a + 1; b < orders_.size(); ++b) swap_rests_of_day(a, b);
    }
    return std::move(found_);
  }

 private:
  bool comes_first(const PlannedStop& stop, MeetOptionId id) const {
    return stop.kind == Kind::meet && comes_before(task_, times_, *stop.option, id);
  }

  // After the last meet that comes before it; and, when refills or rests follow there, after those too.
  void take_in(const CrewOrders& orders, std::size_t c, MeetOptionId id) {
    const Stops& stops = orders[c].stops;
    std::size_t place = 0;
    for (std::size_t i = 0; i < stops.size(); ++i) {
      if (comes_first(stops[i], id)) place = i + 1;
    }
    put(orders, c, place, id);
    std::size_t after = place;
    while (after < stops.size() && stops[after].kind != Kind::meet) ++after;
    if (after != place) put(orders, c, after, id);
  }

  void put(const CrewOrders& orders, std::size_t c, std::size_t place, MeetOptionId id) {
    CrewOrders changed = orders;
    Stops& stops = changed[c].stops;
    stops.insert(stops.begin() + static_cast<std::ptrdiff_t>(place), {Kind::meet, id, std::nullopt});
    found_.push_back(std::move(changed));
  }

  void leave_out(std::size_t c, std::size_t i) {
    CrewOrders without = orders_;
    Stops& stops = without[c].stops;
    const PlannedStop gone = stops[i];
    stops.erase(stops.begin() + static_cast<std::ptrdiff_t>(i));
    if (gone.kind == Kind::meet) {
      for (std::size_t other = 0; other < orders_.size(); ++other) {
        if (other != c) take_in(without, other, *gone.option);
      }
      exchange(without, c, *gone.option);
    }
    found_.push_back(std::move(without));
  }

  // The three passes nearest in time before and after that nobody meets, instead.
  void exchange(const CrewOrders& without, std::size_t c, MeetOptionId gone) {
    std::vector<std::pair<double, std::uint32_t>> near;
    for (std::uint32_t o = 0; o < task_.options.size(); ++o) {
      if (is_met_[o] || task_.options[o].demand == MeetOption::Demand::never) continue;
      near.emplace_back(std::abs(times_.arrival[o] - at(times_.arrival, gone)), o);
    }
    std::sort(near.begin(), near.end());
    for (std::size_t k = 0; k < near.size() && k < 3; ++k) take_in(without, c, {near[k].second});
  }

  void swap_rests_of_day(std::size_t a, std::size_t b) {
    for (std::size_t i = 0; i <= orders_[a].stops.size(); ++i) {
      std::size_t j = 0;
      if (i < orders_[a].stops.size()) {
        const PlannedStop& stop = orders_[a].stops[i];
        if (stop.kind != Kind::meet) continue;
        while (j < orders_[b].stops.size() &&
               (orders_[b].stops[j].kind != Kind::meet || comes_first(orders_[b].stops[j], *stop.option)))
          ++j;
      } else {
        j = orders_[b].stops.size();
      }
      if (i == orders_[a].stops.size() && j == orders_[b].stops.size()) continue;
      CrewOrders changed = orders_;
      Stops& first = changed[a].stops;
      Stops& second = changed[b].stops;
      const Stops tail_a(first.begin() + static_cast<std::ptrdiff_t>(i), first.end());
      const Stops tail_b(second.begin() + static_cast<std::ptrdiff_t>(j), second.end());
      first.resize(i);
      second.resize(j);
      first.insert(first.end(), tail_b.begin(), tail_b.end());
      second.insert(second.end(), tail_a.begin(), tail_a.end());
      found_.push_back(std::move(changed));
    }
  }

  const CrewingTask& task_;
  const FixedTimes& times_;
  const CrewOrders& orders_;
  std::vector<bool> is_met_;
  std::vector<CrewOrders> found_;
};

}  // namespace

std::vector<CrewOrders> neighbours(const CrewingTask& task, const FixedTimes& times, const CrewOrders& orders) {
  return Moves(task, times, orders).all();
}

}  // namespace outbye
