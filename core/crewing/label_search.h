// All cars searched together, meet after meet in the order of time. A label is one way of having spent the day so far:
// where each car was last, what it carries (driving, fuel, water), and where each horse was last helped. A label that
// another one beats in every respect is dropped, and one that cannot beat the best known orders even at the bound of
// MeetPrices as well. Exact when no layer had to be cut; else the bound of what was cut is kept.
#pragma once

#include <cstddef>

#include "core/crewing/meet_model.h"
#include "core/crewing/meet_prices.h"
#include "core/crewing/plan.h"

namespace outbye {

struct LabelLimits {
  std::size_t layer{20000};   // labels kept after each meet
  std::size_t total{400000};  // labels kept in all; from there on layers are cut to `narrow`
  std::size_t narrow{50};
};

struct LabelResult {
  bool is_found{};    // orders better than the incumbent
  CrewOrders orders;  // one a car
  double worth{};     // must bonuses included, penalties taken off; of `orders`
  double bound{};     // no orders are worth more than max(bound, worth, incumbent)
  bool is_exact{};    // nothing was cut: max(worth, incumbent) is the optimum
  std::size_t labels{};
};

// `prices` must have tables. Only orders worth more than `incumbent` are looked for.
LabelResult search_labels(const MeetModel& model, const MeetPrices& prices, double incumbent,
                          const LabelLimits& limits);

}  // namespace outbye
