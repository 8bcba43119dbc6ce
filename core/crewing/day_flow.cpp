#include "core/crewing/day_flow.h"

#include <algorithm>

namespace outbye {
namespace {

constexpr double no_way = 1e200;
constexpr double rounding = 1e-6;

}  // namespace

DayFlow::DayFlow(const CrewingTask& task, Instant origin)
    : places_(task.drives.size()), part_worth_(task.settings.part_worth) {
  drive_.assign(places_ * places_, no_way);
  for (std::uint32_t i = 0; i < places_; ++i) {
    for (std::uint32_t j = 0; j < places_; ++j) {
      if (const auto& drive = task.drives.drive({i}, {j})) drive_[i * places_ + j] = drive->time.count();
    }
    drive_[i * places_ + i] = 0;
  }
  for (std::size_t o = 0; o < task.options.size(); ++o) {
    const MeetOption& option = task.options[o];
    if (option.demand == MeetOption::Demand::never) continue;
    Fixed fixed{o, option.place.value, option.setup.count(), option.pack.count(), option.worth, {}};
    for (const auto& interval : option.open) {
      fixed.open.push_back({(interval.from - origin).count(), (interval.to - origin).count()});
    }
    fixed_.push_back(std::move(fixed));
  }
  for (const CrewCar& car : task.cars) {
    const double back_by = car.back_by ? (*car.back_by - origin).count() : no_way;
    cars_.push_back({car.start.value, car.end.value_or(PlaceId{}).value, car.end.has_value(), back_by});
  }
  const std::size_t n = fixed_.size();
  for (auto* room : {&opens_, &ready_by_, &there_by_, &gone_, &leave_, &setup_, &worth_, &best_}) room->resize(n);
  place_.resize(n);
  can_end_.resize(n);
  order_.reserve(n);
  start_.resize(n * cars_.size());
  if (cars_.size() > 1) arc_.resize(n * n);
  is_met_.assign(task.options.size(), 0);
}

void DayFlow::put_in_order(const DayTimes& day) {
  order_.clear();
  for (std::size_t i = 0; i < fixed_.size(); ++i) order_.push_back(i);
  const auto comes_first = [&](std::size_t i, std::size_t j) {
    const std::size_t a = fixed_[i].option, b = fixed_[j].option;
    if (day.there_by[a] != day.there_by[b]) return day.there_by[a] < day.there_by[b];
    if (day.ready_by[a] != day.ready_by[b]) return day.ready_by[a] < day.ready_by[b];
    return a < b;
  };
  // Days hardly change the order, so insertion is nearly linear.
  for (std::size_t i = 1; i < order_.size(); ++i) {
    const std::size_t moved = order_[i];
    std::size_t j = i;
    for (; j > 0 && comes_first(moved, order_[j - 1]); --j) order_[j] = order_[j - 1];
    order_[j] = moved;
  }
  nodes_ = 0;
  for (const std::size_t i : order_) {
    const Fixed& fixed = fixed_[i];
    const double leave = day.gone[fixed.option] + fixed.pack;
    double opens = fixed.open.empty() ? -no_way : no_way;
    for (const Opening& opening : fixed.open) {
      if (opening.from <= leave + rounding && leave <= opening.to + rounding) opens = std::min(opens, opening.from);
    }
    if (opens > day.there_by[fixed.option] + rounding) continue;
    order_[nodes_] = i;
    opens_[nodes_] = opens;
    ready_by_[nodes_] = day.ready_by[fixed.option] + rounding;
    there_by_[nodes_] = day.there_by[fixed.option] + rounding;
    gone_[nodes_] = day.gone[fixed.option];
    leave_[nodes_] = leave;
    setup_[nodes_] = fixed.setup;
    worth_[nodes_] = fixed.worth;
    place_[nodes_] = fixed.place;
    ++nodes_;
  }
}

double DayFlow::worth_after(double leave, std::size_t from, std::size_t q, double factor) const {
  const double in = std::max(leave + factor * drive_[from * places_ + place_[q]], opens_[q]);
  if (in + setup_[q] <= ready_by_[q]) return worth_[q];
  return in <= there_by_[q] ? part_worth_ * worth_[q] : -1.0;
}

double DayFlow::arc_worth(std::size_t p, std::size_t q, double factor) const {
  if (place_[p] == place_[q] && opens_[q] <= gone_[p] + rounding) {  // the car stays
    if (gone_[p] <= ready_by_[q]) return worth_[q];
    return gone_[p] <= there_by_[q] ? part_worth_ * worth_[q] : -1.0;
  }
  return worth_after(leave_[p], place_[p], q, factor);
}

double DayFlow::best_worth(const DayTimes& day) {
  put_in_order(day);
  for (std::size_t p = 0; p < nodes_; ++p) {
    can_end_[p] = 0;
    for (const Car& car : cars_) {
      const double home = car.has_end ? day.drive_factor * drive_[place_[p] * places_ + car.end] : 0.0;
      if (home < no_way && leave_[p] + home <= car.back_by + rounding) can_end_[p] = 1;
    }
  }
  for (std::size_t c = 0; c < cars_.size(); ++c) {
    for (std::size_t q = 0; q < nodes_; ++q) {
      start_[c * nodes_ + q] = worth_after(day.car_ready[c], cars_[c].start, q, day.drive_factor);
    }
  }
  if (cars_.size() != 1) {
    for (std::size_t p = 0; p < nodes_; ++p) {
      for (std::size_t q = p + 1; q < nodes_; ++q) arc_[p * nodes_ + q] = arc_worth(p, q, day.drive_factor);
    }
    return flow_.solve({nodes_, cars_.size(), arc_.data(), start_.data(), can_end_.data()});
  }
  // One car: the longest path, without writing the arcs down.
  double worth = 0;
  first_ = nodes_;
  next_.resize(fixed_.size());
  for (std::size_t p = nodes_; p-- > 0;) {
    double best = can_end_[p] != 0 ? 0.0 : -no_way;
    std::size_t to = nodes_;
    for (std::size_t q = p + 1; q < nodes_; ++q) {
      if (worth_[q] + best_[q] <= best) continue;
      const double gain = arc_worth(p, q, day.drive_factor);
      if (gain >= 0 && gain + best_[q] > best) best = gain + best_[q], to = q;
    }
    best_[p] = best;
    next_[p] = to;
    if (start_[p] >= 0 && start_[p] + best >= worth && start_[p] + best > 0) worth = start_[p] + best, first_ = p;
  }
  return worth;
}

const std::vector<char>& DayFlow::is_met() {
  std::fill(is_met_.begin(), is_met_.end(), char{0});
  if (cars_.size() == 1) {
    for (std::size_t p = first_; p < nodes_; p = next_[p]) is_met_[fixed_[order_[p]].option] = 1;
    return is_met_;
  }
  for (std::size_t c = 0; c < cars_.size(); ++c) {
    for (std::size_t p = flow_.first(c); p != PathFlow::none; p = flow_.next(p)) is_met_[fixed_[order_[p]].option] = 1;
  }
  return is_met_;
}

}  // namespace outbye
