// A bound on what any orders can be worth, from prices on the meets (Lagrangian decomposition): "a car meets o" and
// "the horse is helped at o" are made two decisions that a price per meet brings together. Each car then looks for its
// best path at worth minus price, each horse for its best chain of helps at price minus gap penalty, both exactly; the
// sum is a bound for every choice of prices (Geoffrion, Mathematical Programming Study 2, 1974, 82-114), and the best
// prices are looked for by subgradient steps (Held, Wolfe and Crowder, Mathematical Programming 6, 1974, 62-88).
//
// Where water is scarce the cars' paths carry it too, in levels of a fraction of the car's capacity: what is in stock
// is rounded up and what a meet takes is rounded down, so that the bound stays one.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include "core/crewing/meet_model.h"

namespace outbye {

class MeetPrices {
 public:
  // `water_levels`: more is tighter and slower.
  explicit MeetPrices(const MeetModel& model, std::size_t water_levels = 48);

  // The bound at these prices, one a node.
  double bound(const std::vector<double>& prices);
  // Starts at `prices`, makes at most `steps` steps towards `incumbent` (worth known to be possible), and leaves the
  // best prices found in force. Returns their bound.
  double improve(std::vector<double> prices, double incumbent, std::size_t steps);
  const std::vector<double>& prices() const { return prices_; }

  // After bound() or improve(), tables for every node i: what a car (last at node p, or size() + car at its start; with
  // so much water) and a horse (last helped at u) can still add when only nodes >= i are left.
  void make_tables();
  double car_after(std::size_t car, std::size_t last, double stock, std::size_t i) const {
    const std::size_t kind = model_->kind(car);
    const std::size_t state =
        last < model_->size() ? state_of(kind, last, level_of(kind, stock)) : start_of(kind, last - model_->size());
    return car_table_[kind][state * (model_->size() + 1) + i];
  }
  double horse_after(std::size_t h, std::size_t u, std::size_t i) const {
    return horse_table_[h][u * (model_->size() + 1) + i];
  }

 private:
  void make_levels(std::size_t water_levels);
  void solve_cars();
  void solve_car_kind(std::size_t kind);
  void solve_horses();
  void make_car_tables();
  void make_horse_tables();
  std::size_t state_of(std::size_t kind, std::size_t p, std::size_t level) const {
    return p * (levels_[kind].most + 1) + level;
  }
  std::size_t start_of(std::size_t kind, std::size_t car) const {
    return model_->size() * (levels_[kind].most + 1) + car;
  }
  std::size_t level_of(std::size_t kind, double stock) const {
    const Levels& levels = levels_[kind];
    if (levels.most == 0 || stock >= levels.capacity) return levels.most;
    return static_cast<std::size_t>(std::ceil(std::max(0.0, stock / levels.unit - 1e-9)));
  }
  std::size_t level_after(std::size_t kind, std::size_t q, std::size_t level) const {
    return levels_[kind].fills[q] != 0 ? levels_[kind].most : level - levels_[kind].takes[q];
  }

  struct Levels {
    std::size_t most{};  // 0: water is not scarce
    double capacity{};
    double unit{1.0};
    std::vector<std::size_t> takes;  // by node
    std::vector<char> fills;         // a tap at the node
  };

  const MeetModel* model_;
  std::vector<double> prices_;
  std::vector<Levels> levels_;                   // [kind]
  std::vector<std::vector<double>> after_;       // [kind][state]: nodes by level, then the starts of all cars
  std::vector<std::vector<std::size_t>> next_;   // likewise: 2 x node, + 1 if the water is filled on the way
  std::vector<std::vector<double>> help_after_;  // [horse][help]
  std::vector<std::vector<std::size_t>> help_next_;
  std::vector<std::vector<double>> car_table_;  // [kind], empty for cars of another's kind
  std::vector<std::vector<double>> horse_table_;
};

}  // namespace outbye
