// A bound on what any orders can be worth, from prices on the meets (Lagrangian decomposition): "a car meets o" and
// "the horse is helped at o" are made two decisions that a price per meet brings together. Each car then looks for its
// best path at worth minus price, each horse for its best chain of helps at price minus gap penalty, both exactly; the
// sum is a bound for every choice of prices (Geoffrion, Mathematical Programming Study 2, 1974, 82-114), and the best
// prices are looked for by subgradient steps (Held, Wolfe and Crowder, Mathematical Programming 6, 1974, 62-88).
#pragma once

#include <cstddef>
#include <vector>

#include "core/crewing/meet_model.h"

namespace outbye {

class MeetPrices {
 public:
  explicit MeetPrices(const MeetModel& model);

  // The bound at these prices, one a node.
  double bound(const std::vector<double>& prices);
  // Starts at `prices`, makes at most `steps` steps towards `incumbent` (worth known to be possible), and leaves the
  // best prices found in force. Returns their bound.
  double improve(std::vector<double> prices, double incumbent, std::size_t steps);
  const std::vector<double>& prices() const { return prices_; }

  // After bound() or improve(), tables for every node i: what a car (last at node p, or size() + car at its start) and
  // a horse (last helped at u) can still add when only nodes >= i are left.
  void make_tables();
  double car_after(std::size_t car, std::size_t last, std::size_t i) const {
    return car_table_[model_->kind(car)][last * (model_->size() + 1) + i];
  }
  double horse_after(std::size_t h, std::size_t u, std::size_t i) const {
    return horse_table_[h][u * (model_->size() + 1) + i];
  }

 private:
  void solve_cars();
  void solve_horses();

  const MeetModel* model_;
  std::vector<double> prices_;
  std::vector<std::vector<double>> after_;       // [kind][node], then the starts of all cars
  std::vector<std::vector<std::size_t>> next_;   // likewise
  std::vector<std::vector<double>> help_after_;  // [horse][help]
  std::vector<std::vector<std::size_t>> help_next_;
  std::vector<std::vector<double>> car_table_;  // [kind], empty for cars of another's kind
  std::vector<std::vector<double>> horse_table_;
};

}  // namespace outbye
