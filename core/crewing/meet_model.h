// A crewing task at fixed times, prepared for searching: the options in the order in which cars may take them, what
// each car can do next, and what each horse's gaps cost. Follows the rules numbered in fixed_time.h. Times are seconds
// after FixedTimes::origin, lengths metres, water litres.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "core/crewing/crewing_task.h"
#include "core/crewing/fixed_time.h"
#include "core/crewing/plan.h"

namespace outbye {

// The three instants of an option that matter to a car. For the rules as they stand: a, d, d. A cautious plan asks to
// be ready earlier (smaller ready_by and there_by) and expects the horse to go later (larger gone).
struct MeetTimes {
  std::vector<double> ready_by;
  std::vector<double> there_by;
  std::vector<double> gone;
};
MeetTimes meet_times(const FixedTimes& times);

struct MeetNode {
  MeetOptionId option;
  double ready_by{};
  double there_by{};
  double gone{};
  double leave{};  // gone + pack
  double opens{};  // rule 4; very negative: always open
  double setup{};
  double worth{};  // must_bonus included
  PlaceId place;
  std::size_t horse{};
  std::size_t help{};  // index among the horse's helps, 1-based
};

// What lies between two meets: refills, one after another, with or without a rest before each drive.
struct Leg {
  std::uint16_t chain{};  // index into MeetModel::chains; 0: none
  std::uint16_t rests{};  // bit k: a rest before the drive to the k-th refill (or, after the last, to the meet)
};

// What a car carries into its next leg. A need that cannot bind any more is stored as none.
struct CarLoad {
  double driving{-1.0};  // seconds since the last break; -1: can never bind again
  double standing_since{-1e300};
  double used{-1.0};    // metres since the last refuelling; -1: can never bind again
  double stock{1e300};  // litres; 1e300: can never run out again
  bool has_need() const { return driving >= 0 || used >= 0 || stock < 1e299; }
};

class MeetModel {
 public:
  // `is_open_option`: options the plan may use (one flag an option); empty: all but `never`.
  MeetModel(const CrewingTask& task, const FixedTimes& order, const MeetTimes& times,
            const std::vector<bool>& is_open_option = {});

  const CrewingTask& task() const { return *task_; }
  std::size_t size() const { return nodes_.size(); }
  std::size_t cars() const { return task_->cars.size(); }
  const std::vector<MeetNode>& nodes() const { return nodes_; }
  const std::vector<std::vector<std::size_t>>& chains() const { return chains_; }

  // Worth of meeting q straight after p (or first), negative: cannot. Over all legs, whatever the car carries.
  double arc(std::size_t p, std::size_t q) const { return arc_[p * size() + q]; }
  double start(std::size_t car, std::size_t q) const { return start_[car * size() + q]; }
  // The same when the car fills its water on the way.
  double arc_with_water(std::size_t p, std::size_t q) const { return arc_with_water_[p * size() + q]; }
  const std::vector<double>& arcs() const { return arc_; }
  const std::vector<double>& starts() const { return start_; }
  bool can_end(std::size_t car, std::size_t p) const { return can_end_[car * size() + p] != 0; }
  bool may_meet(std::size_t car, std::size_t q) const {
    const auto& only = at(task_->options, nodes_[q].option).only_car;
    return !only || only->value == car;
  }
  // Cars of one kind are alike but for start and ready time.
  std::size_t kind(std::size_t car) const { return kind_[car]; }
  bool have_one_start(std::size_t car, std::size_t other) const;
  bool are_cars_alike() const;
  bool has_gap_penalty() const { return task_->settings.gap_penalty > 0; }

  // Penalty of horse h from help u to help v > u: 0 is the start, 1.. its nodes in order, helps(h) the end.
  double gap(std::size_t h, std::size_t u, std::size_t v) const { return gap_[h][u * (helps(h) + 1) + v]; }
  std::size_t helps(std::size_t h) const { return horse_nodes_[h].size() + 1; }
  const std::vector<std::size_t>& horse_nodes(std::size_t h) const { return horse_nodes_[h]; }

  double must_bonus() const { return must_bonus_; }
  std::size_t musts() const { return musts_; }  // among the nodes

  // From node p (nothing: the car's start) to node q (nothing: the car's end) by one leg.
  struct Step {
    bool is_ready{};  // else there
    CarLoad load;     // when leaving q
  };
  std::optional<Step> walk(std::size_t car, std::optional<std::size_t> p, std::optional<std::size_t> q,
                           const CarLoad& load, Leg leg) const;
  CarLoad load_at_start(std::size_t car) const;
  // No limit of the car can bind all day. (A load without needs at the start says it of driving only until a break.)
  bool is_free_of_limits(std::size_t car) const;
  // Every leg worth trying with that load, and a quick look whether one is of any use with it.
  const std::vector<Leg>& legs(std::size_t car, const CarLoad& load) const {
    return load.has_need() ? all_legs_[car] : plain_leg_;
  }
  bool is_useful(Leg leg, const CarLoad& load) const {
    if (leg.rests != 0 && load.driving < 0) return false;
    for (const std::size_t r : chains_[leg.chain]) {
      const RefillPlace& refill = task_->refills[r];
      if (!(refill.fuel && load.used >= 0) && !(refill.water && load.stock < 1e299)) return false;
    }
    return true;
  }
  double planned(PlaceId from, PlaceId to) const { return planned_[from.value * places_ + to.value]; }

 private:
  void make_chains();
  void make_nodes(const FixedTimes& order, const MeetTimes& times, const std::vector<bool>& is_open_option);
  void make_arcs();
  void make_gaps();
  void make_kinds();
  void make_needs();
  void add_needs(std::size_t c, std::optional<std::size_t> p);
  struct Chain {
    double arrival;  // end of the last drive
    double driving;
    double length;
  };
  std::optional<Chain> follow(double free, PlaceId from, PlaceId to, std::size_t chain) const;
  double readiness(std::optional<std::size_t> p, std::size_t q, double free, PlaceId from, std::size_t chain) const;
  CarLoad without_needs(std::size_t car, std::optional<std::size_t> p, CarLoad load) const;

  const CrewingTask* task_;
  std::size_t places_{};
  Instant origin_;
  std::vector<double> planned_;  // seconds, place by place; very large: no way
  std::vector<MeetNode> nodes_;
  std::vector<std::vector<std::size_t>> chains_;
  std::vector<double> arc_;
  std::vector<double> arc_with_water_;
  std::vector<double> start_;
  std::vector<char> can_end_;
  std::vector<std::vector<std::size_t>> horse_nodes_;
  std::vector<std::vector<double>> gap_;
  std::vector<std::size_t> kind_;
  std::vector<std::vector<Leg>> all_legs_;  // a car
  std::vector<Leg> plain_leg_{Leg{}};
  struct Needs {
    std::vector<double> driving, length, water;  // the most that may still come after node p; [size()]: after the start
  };
  std::vector<Needs> needs_;  // a car
  double must_bonus_{};
  std::size_t musts_{};
};

// The stops of a leg that ends in a meet of node q, or at the end of the day (nothing).
void append_leg(std::vector<PlannedStop>& stops, const MeetModel& model, Leg leg, std::optional<std::size_t> q);

}  // namespace outbye
