// The best orders of one prepared model, and the bound that proves it: flow first, then prices, then labels.
#pragma once

#include <cstddef>

#include "core/crewing/meet_model.h"
#include "core/crewing/plan.h"

namespace outbye {

struct Solved {
  CrewOrders orders;  // one a car; empty days for cars that stay
  double worth{};     // penalties taken off; musts met count must_bonus each
  double bound{};     // no orders are worth more; >= worth
  bool is_exact{};    // worth == bound up to 1e-9
  enum class Proof { flow, labels, none } proof{Proof::none};
  std::size_t labels{};  // kept by the search
};

struct Effort {
  std::size_t beam{40};          // labels a meet for the quick look
  std::size_t steps{150};        // of the prices
  bool proves{true};             // then search all labels, up to the limits below
  std::size_t layer{4000};       // a meet
  std::size_t total{60000};      // in all
  std::size_t water_levels{48};  // of the bound where water is scarce
};

// The orders are feasible but for musts that they may lack (worth says how many they have).
Solved solve_orders(const MeetModel& model, const Effort& effort);

}  // namespace outbye
