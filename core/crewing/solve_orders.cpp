#include "core/crewing/solve_orders.h"

#include <algorithm>
#include <vector>

#include "core/crewing/label_search.h"
#include "core/crewing/meet_flow.h"
#include "core/crewing/meet_prices.h"

namespace outbye {
namespace {

CrewOrders empty_orders(const MeetModel& model) {
  CrewOrders orders;
  for (std::uint32_t c = 0; c < model.cars(); ++c) orders.push_back({{c}, {}});
  return orders;
}

double gaps_of(const MeetModel& model, const std::vector<bool>& is_met) {
  double total = 0;
  for (std::size_t h = 0; h < model.task().horses.size(); ++h) {
    std::size_t last = 0;
    for (std::size_t u = 1; u < model.helps(h); ++u) {
      if (!is_met[model.horse_nodes(h)[u - 1]]) continue;
      total += model.gap(h, last, u);
      last = u;
    }
    total += model.gap(h, last, model.helps(h));
  }
  return total;
}

// Can the flow's paths be driven as they are? Whether a refill or a break is needed on the way is left to the labels.
bool is_plain(const MeetModel& model) {
  bool plain = model.are_cars_alike() && model.chains().size() == 1;
  for (std::size_t c = 0; c < model.cars() && plain; ++c) {
    plain = model.is_free_of_limits(c);
    for (std::size_t q = 0; q < model.size() && plain; ++q) plain = model.may_meet(c, q);
  }
  return plain;
}

}  // namespace

Solved solve_orders(const MeetModel& model, const Effort& effort) {
  const std::size_t n = model.size();
  Solved solved;
  solved.orders = empty_orders(model);
  solved.worth = -gaps_of(model, std::vector<bool>(n, false));
  if (model.cars() == 0 || n == 0) {
    solved.bound = solved.worth;
    solved.is_exact = true;
    solved.proof = Solved::Proof::flow;
    return solved;
  }

  std::vector<char> can_end(n, 0);
  for (std::size_t p = 0; p < n; ++p) {
    for (std::size_t c = 0; c < model.cars(); ++c) can_end[p] = can_end[p] != 0 || model.can_end(c, p) ? 1 : 0;
  }
  PathFlow flow;
  const double additive = flow.solve({n, model.cars(), model.arcs().data(), model.starts().data(), can_end.data()});
  if (is_plain(model)) {
    CrewOrders orders = empty_orders(model);
    std::vector<bool> is_met(n, false);
    for (std::size_t c = 0; c < model.cars(); ++c) {
      for (std::size_t p = flow.first(c); p != PathFlow::none; p = flow.next(p)) {
        append_leg(orders[c].stops, model, Leg{}, p);
        is_met[p] = true;
      }
    }
    const double gaps = gaps_of(model, is_met);
    if (additive - gaps > solved.worth) {
      solved.worth = additive - gaps;
      solved.orders = std::move(orders);
    }
    if (!model.has_gap_penalty() || gaps <= 0) {
      solved.bound = solved.worth;
      solved.is_exact = true;
      solved.proof = Solved::Proof::flow;
      return solved;
    }
  }

  std::vector<double> first(n);
  for (std::size_t p = 0; p < n; ++p) first[p] = flow.price(p);
  MeetPrices prices(model, effort.water_levels);
  solved.bound = prices.bound(first);
  const auto take = [&](LabelResult&& found) {
    solved.labels += found.labels;
    if (found.is_found) {
      solved.worth = found.worth;
      solved.orders = std::move(found.orders);
    }
    if (found.is_exact) {
      solved.bound = solved.worth;
      solved.is_exact = true;
      solved.proof = Solved::Proof::labels;
    } else {
      solved.bound = std::max(solved.worth, std::min(found.bound, solved.bound));
    }
  };
  bool has_need = false;
  for (std::size_t c = 0; c < model.cars(); ++c) has_need = has_need || !model.is_free_of_limits(c);
  if (!has_need || effort.proves) {
    prices.make_tables();
    take(search_labels(model, prices, solved.worth, {effort.beam, effort.beam * n, effort.beam}));
    if (solved.is_exact) return solved;
  }
  solved.bound = std::min(solved.bound, prices.improve(first, solved.worth, effort.steps));
  if (solved.bound <= solved.worth + 1e-9) {
    solved.bound = solved.worth;
    solved.is_exact = true;
    solved.proof = Solved::Proof::labels;
    return solved;
  }
  prices.make_tables();
  take(search_labels(model, prices, solved.worth, {effort.beam, effort.beam * n, effort.beam}));
  if (solved.is_exact || !effort.proves) return solved;
  // Labels that carry fuel, water and driving cost about ten times as much.
  const std::size_t share = has_need ? 8 : 1;
  take(search_labels(model, prices, solved.worth, {effort.layer / share, effort.total / share, effort.beam / 2}));
  return solved;
}

}  // namespace outbye
