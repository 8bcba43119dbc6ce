#include "core/crewing/meet_model.h"

#include <algorithm>
#include <numeric>

namespace outbye {
namespace {

constexpr double rounding = 1e-6;
constexpr double no_way = 1e200;

}  // namespace

MeetTimes meet_times(const FixedTimes& times) { return {times.arrival, times.departure, times.departure}; }

MeetModel::MeetModel(const CrewingTask& task, const FixedTimes& order, const MeetTimes& times,
                     const std::vector<bool>& is_open_option)
    : task_(&task), places_(task.drives.size()), origin_(order.origin) {
  planned_.assign(places_ * places_, no_way);
  for (std::uint32_t i = 0; i < places_; ++i) {
    for (std::uint32_t j = 0; j < places_; ++j) {
      const auto& drive = task.drives.drive({i}, {j});
      if (drive) planned_[i * places_ + j] = drive->time.count() * task.settings.drive_allowance;
    }
    planned_[i * places_ + i] = 0.0;
  }
  make_nodes(order, times, is_open_option);
  make_chains();
  make_arcs();
  make_gaps();
  make_kinds();
  make_needs();
}

void MeetModel::make_nodes(const FixedTimes& order, const MeetTimes& times, const std::vector<bool>& is_open_option) {
  const CrewingTask& task = *task_;
  std::vector<MeetOptionId> sorted;
  double all_worth = 1.0;
  for (std::uint32_t o = 0; o < task.options.size(); ++o) {
    if (task.options[o].demand == MeetOption::Demand::never) continue;
    if (!is_open_option.empty() && !is_open_option[o]) continue;
    sorted.push_back({o});
    all_worth += task.options[o].worth;
  }
  // A must is worth more than everything else together and than any penalty.
  for (const HorseDays& horse : task.horses) {
    if (!horse.events.empty()) {
      all_worth += task.settings.gap_penalty * in_kilometres(horse.events.back().ride_along);
    }
  }
  must_bonus_ = all_worth / std::clamp(task.settings.part_worth, 0.01, 1.0);
  std::sort(sorted.begin(), sorted.end(),
            [&](MeetOptionId a, MeetOptionId b) { return comes_before(task, order, a, b); });
  horse_nodes_.resize(task.horses.size());
  for (const MeetOptionId id : sorted) {
    const MeetOption& option = at(task.options, id);
    MeetNode node;
    node.option = id;
    node.ready_by = at(times.ready_by, id);
    node.there_by = at(times.there_by, id);
    node.gone = at(times.gone, id);
    node.leave = node.gone + option.pack.count();
    node.setup = option.setup.count();
    node.place = option.place;
    node.horse = option.horse.value;
    node.opens = option.open.empty() ? -1e300 : 1e300;
    for (const auto& interval : option.open) {
      const double from = (interval.from - origin_).count();
      if (from <= node.leave + rounding && node.leave <= (interval.to - origin_).count() + rounding) {
        node.opens = std::min(node.opens, from);
      }
    }
    if (node.opens > node.there_by + rounding) continue;  // shut when it would be used
    node.worth = option.worth;
    if (option.demand == MeetOption::Demand::must) ++musts_;
    horse_nodes_[node.horse].push_back(nodes_.size());
    node.help = horse_nodes_[node.horse].size();
    nodes_.push_back(node);
  }
}

void MeetModel::make_chains() {
  // Up to two refills between meets: one of each kind when no single place has both.
  chains_.push_back({});
  bool fuel = false, water = false;
  for (const CrewCar& car : task_->cars) {
    fuel = fuel || car.fuel_range.value > 0;
    water = water || car.water_capacity.value > 0;
  }
  const auto& refills = task_->refills;
  for (std::size_t r = 0; r < refills.size(); ++r) {
    if ((refills[r].fuel && fuel) || (refills[r].water && water)) chains_.push_back({r});
  }
  for (std::size_t r = 0; r < refills.size() && fuel && water; ++r) {
    for (std::size_t s = 0; s < refills.size(); ++s) {
      const bool complements = (refills[r].fuel && !refills[r].water && refills[s].water && !refills[s].fuel) ||
                               (refills[r].water && !refills[r].fuel && refills[s].fuel && !refills[s].water);
      if (complements) chains_.push_back({r, s});
    }
  }
  all_legs_.resize(cars());
  for (std::size_t c = 0; c < cars(); ++c) {
    for (std::uint16_t k = 0; k < chains_.size(); ++k) {
      const bool breaks = task_->cars[c].longest_driving.count() > 0;
      const std::uint16_t masks = breaks ? static_cast<std::uint16_t>(2U << chains_[k].size()) : std::uint16_t{1};
      for (std::uint16_t m = 0; m < masks; ++m) all_legs_[c].push_back({k, m});
    }
  }
}

std::optional<MeetModel::Chain> MeetModel::follow(double free, PlaceId from, PlaceId to, std::size_t chain) const {
  Chain out{free, 0.0, 0.0};
  const auto drive = [&](PlaceId next) {
    const double time = planned(from, next);
    if (time >= no_way) return false;
    out.arrival += time;
    out.driving += time;
    if (from != next) out.length += task_->drives.drive(from, next)->length.value;
    from = next;
    return true;
  };
  for (const std::size_t r : chains_[chain]) {
    const RefillPlace& refill = task_->refills[r];
    if (!drive(refill.place)) return std::nullopt;
    double begin = refill.open.empty() ? out.arrival : 1e300;
    for (const auto& interval : refill.open) {
      const double at_earliest = std::max(out.arrival, (interval.from - origin_).count());
      if (at_earliest + refill.duration.count() <= (interval.to - origin_).count() + rounding) {
        begin = std::min(begin, at_earliest);
      }
    }
    if (begin >= 1e299) return std::nullopt;
    out.arrival = begin + refill.duration.count();
  }
  if (!drive(to)) return std::nullopt;
  return out;
}

// 1, part_worth, or negative: cannot.
double MeetModel::readiness(std::optional<std::size_t> p, std::size_t q, double free, PlaceId from,
                            std::size_t chain) const {
  const MeetNode& to = nodes_[q];
  double in, ready;
  if (p && chain == 0 && from == to.place && to.opens <= nodes_[*p].gone + rounding) {
    in = ready = nodes_[*p].gone;
  } else {
    const auto chained = follow(free, from, to.place, chain);
    if (!chained) return -1.0;
    in = std::max(chained->arrival, to.opens);
    ready = in + to.setup;
  }
  if (ready <= to.ready_by + rounding) return 1.0;
  return in <= to.there_by + rounding ? task_->settings.part_worth : -1.0;
}

void MeetModel::make_arcs() {
  const std::size_t n = size();
  arc_.assign(n * n, -1.0);
  arc_with_water_.assign(n * n, -1.0);
  start_.assign(cars() * n, -1.0);
  can_end_.assign(cars() * n, 0);
  const auto worth = [&](std::size_t q, double ready) {
    const bool must = at(task_->options, nodes_[q].option).demand == MeetOption::Demand::must;
    return nodes_[q].worth * ready + (must ? must_bonus_ : 0.0);
  };
  for (std::size_t k = 0; k < chains_.size(); ++k) {
    const bool fills =
        std::any_of(chains_[k].begin(), chains_[k].end(), [&](std::size_t r) { return task_->refills[r].water; });
    for (std::size_t p = 0; p < n; ++p) {
      for (std::size_t q = p + 1; q < n; ++q) {
        const double ready = readiness(p, q, nodes_[p].leave, nodes_[p].place, k);
        if (ready < 0) continue;
        arc_[p * n + q] = std::max(arc_[p * n + q], worth(q, ready));
        if (fills) arc_with_water_[p * n + q] = std::max(arc_with_water_[p * n + q], worth(q, ready));
      }
      for (std::size_t c = 0; c < cars(); ++c) {
        const CrewCar& car = task_->cars[c];
        const auto home = follow(nodes_[p].leave, nodes_[p].place, car.end.value_or(nodes_[p].place), k);
        if (!home) continue;
        if (!car.back_by || home->arrival <= (*car.back_by - origin_).count() + rounding) can_end_[c * n + p] = 1;
      }
    }
    for (std::size_t c = 0; c < cars(); ++c) {
      const CrewCar& car = task_->cars[c];
      for (std::size_t q = 0; q < n; ++q) {
        if (!may_meet(c, q)) continue;
        const double ready = readiness(std::nullopt, q, (car.ready_from - origin_).count(), car.start, k);
        if (ready >= 0) start_[c * n + q] = std::max(start_[c * n + q], worth(q, ready));
      }
    }
  }
}

void MeetModel::make_gaps() {
  gap_.resize(task_->horses.size());
  for (std::size_t h = 0; h < gap_.size(); ++h) {
    const std::vector<RideEvent>& events = task_->horses[h].events;
    const std::size_t m = helps(h);
    std::vector<std::size_t> event_of(m + 1);  // 1-based: event e is e + 1; the start is 0
    for (std::size_t u = 1; u < m; ++u)
      event_of[u] = at(task_->options, nodes_[horse_nodes_[h][u - 1]].option).event + 1;
    event_of[m] = events.size();
    const auto along = [&](std::size_t e) { return e == 0 ? Metres{0.0} : events[e - 1].ride_along; };
    gap_[h].assign((m + 1) * (m + 1), 0.0);
    for (std::size_t u = 0; u < m; ++u) {
      for (std::size_t v = u + 1; v <= m; ++v) {
        Metres last = along(event_of[u]);
        double cost = 0;
        for (std::size_t e = event_of[u] + 1; e <= event_of[v]; ++e) {
          if (e < event_of[v] && events[e - 1].kind == RideEvent::Kind::pass) continue;
          cost += gap_cost(task_->settings, along(e) - last);
          last = along(e);
        }
        gap_[h][u * (m + 1) + v] = cost;
      }
    }
  }
}

bool MeetModel::have_one_start(std::size_t car, std::size_t other) const {
  return kind_[car] == kind_[other] && task_->cars[car].start == task_->cars[other].start &&
         task_->cars[car].ready_from == task_->cars[other].ready_from;
}

bool MeetModel::are_cars_alike() const {
  return std::all_of(kind_.begin(), kind_.end(), [&](std::size_t k) { return k == 0; });
}

void MeetModel::make_kinds() {
  kind_.resize(cars());
  for (std::size_t c = 0; c < cars(); ++c) {
    kind_[c] = c;
    for (std::size_t b = 0; b < c && kind_[c] == c; ++b) {
      const CrewCar& x = task_->cars[b];
      const CrewCar& y = task_->cars[c];
      bool alike = x.end == y.end && x.back_by == y.back_by && x.water_capacity == y.water_capacity &&
                   x.fuel_range == y.fuel_range && x.longest_driving == y.longest_driving &&
                   x.break_length == y.break_length;
      for (std::size_t q = 0; q < size() && alike; ++q) alike = may_meet(b, q) == may_meet(c, q);
      if (alike) kind_[c] = kind_[b];
    }
  }
}

}  // namespace outbye
