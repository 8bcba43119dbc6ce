#include <algorithm>

#include "core/crewing/meet_model.h"

// What a car carries from meet to meet: driving since its last break, fuel and water (rules 7 to 12 in fixed_time.h).
namespace outbye {
namespace {

constexpr double rounding = 1e-6;
constexpr double no_way = 1e200;

}  // namespace

// The most driving before the next break, metres and litres that any day may still need after each node: what cannot
// bind is dropped from the labels (fuel and water for the rest of the day, driving until the next break), so that only
// real scarcity costs search.
void MeetModel::make_needs() {
  needs_.resize(cars());
  for (std::size_t c = 0; c < cars(); ++c) {
    const CrewCar& car = task_->cars[c];
    Needs& need = needs_[c];
    need.driving.assign(size() + 1, 0.0);
    need.length.assign(size() + 1, 0.0);
    need.water.assign(size() + 1, 0.0);
    const bool is_limited = car.longest_driving.count() > 0 || car.fuel_range.value > 0 || car.water_capacity.value > 0;
    if (!is_limited) continue;
    for (std::size_t p = size(); p-- > 0;) add_needs(c, p);
    add_needs(c, std::nullopt);
  }
}

void MeetModel::add_needs(std::size_t c, std::optional<std::size_t> p) {
  const CrewCar& car = task_->cars[c];
  Needs& need = needs_[c];
  const std::size_t i = p.value_or(size());
  const double free = p ? nodes_[*p].leave : (car.ready_from - origin_).count();
  const PlaceId from = p ? nodes_[*p].place : car.start;
  for (std::size_t k = 0; k < chains_.size() && p && car.end; ++k) {
    if (const auto home = follow(free, from, *car.end, k)) {
      need.driving[i] = std::max(need.driving[i], home->driving);
      need.length[i] = std::max(need.length[i], home->length);
    }
  }
  for (std::size_t q = p ? *p + 1 : 0; q < size(); ++q) {
    if ((p ? arc(*p, q) : start(c, q)) < 0 || !may_meet(c, q)) continue;
    for (std::size_t k = 0; k < chains_.size(); ++k) {
      const auto leg = follow(free, from, nodes_[q].place, k);
      if (!leg || leg->arrival > nodes_[q].gone + rounding) continue;
      const bool rests = nodes_[q].leave - leg->arrival >= car.break_length.count() - rounding;
      need.driving[i] = std::max(need.driving[i], leg->driving + (rests ? 0.0 : need.driving[q]));
      need.length[i] = std::max(need.length[i], leg->length + need.length[q]);
    }
    const MeetOption& option = at(task_->options, nodes_[q].option);
    need.water[i] = std::max(need.water[i], option.has_water ? 0.0 : option.water.value + need.water[q]);
  }
}

CarLoad MeetModel::without_needs(std::size_t car, std::optional<std::size_t> p, CarLoad load) const {
  const CrewCar& limits = task_->cars[car];
  const Needs& need = needs_[car];
  const std::size_t i = p.value_or(size());
  if (limits.longest_driving.count() <= 0 || load.driving + need.driving[i] <= limits.longest_driving.count()) {
    load.driving = -1.0;
  }
  if (load.driving <= 0) load.standing_since = -1e300;
  if (limits.fuel_range.value <= 0 || load.used + need.length[i] <= limits.fuel_range.value) load.used = -1.0;
  if (limits.water_capacity.value <= 0 || need.water[i] <= load.stock) load.stock = 1e300;
  return load;
}

CarLoad MeetModel::load_at_start(std::size_t car) const {
  const CrewCar& limits = task_->cars[car];
  return without_needs(car, std::nullopt,
                       {0.0, (limits.ready_from - origin_).count(), 0.0, limits.water_capacity.value});
}

bool MeetModel::is_free_of_limits(std::size_t car) const {
  const double longest = task_->cars[car].longest_driving.count();
  const std::vector<double>& driving = needs_[car].driving;
  return !load_at_start(car).has_need() &&
         (longest <= 0 || std::all_of(driving.begin(), driving.end(), [&](double d) { return d <= longest; }));
}

std::optional<MeetModel::Step> MeetModel::walk(std::size_t car, std::optional<std::size_t> p,
                                               std::optional<std::size_t> q, const CarLoad& load, Leg leg) const {
  const CrewCar& limits = task_->cars[car];
  if (q && !may_meet(car, *q)) return std::nullopt;
  if (leg.rests != 0 && (load.driving < 0 || ((!p || load.driving == 0) && (leg.rests & 1U) != 0))) return std::nullopt;
  Step step;
  CarLoad& now = step.load;
  now = load;
  PlaceId place = p ? nodes_[*p].place : limits.start;
  double free = p ? nodes_[*p].leave : (limits.ready_from - origin_).count();
  double standing = free;  // since when for certain
  const auto drive = [&](PlaceId to) {
    if (to == place) return true;
    const double time = planned(place, to);
    if (time >= no_way) return false;
    if (now.driving >= 0) {
      if (free - now.standing_since >= limits.break_length.count() - rounding) now.driving = 0;
      now.driving += time;
      if (now.driving > limits.longest_driving.count() + rounding) return false;
    }
    if (now.used >= 0) {
      now.used += task_->drives.drive(place, to)->length.value;
      if (now.used > limits.fuel_range.value + rounding) return false;
    }
    free += time;
    standing = free;
    if (now.driving >= 0) now.standing_since = free;
    place = to;
    return true;
  };
  const std::vector<std::size_t>& chain = chains_[leg.chain];
  const bool stays = p && q && chain.empty() && leg.rests == 0 && place == nodes_[*q].place &&
                     nodes_[*q].opens <= nodes_[*p].gone + rounding;
  for (std::size_t k = 0; k < chain.size(); ++k) {
    const RefillPlace& refill = task_->refills[chain[k]];
    if (((static_cast<unsigned>(leg.rests) >> k) & 1U) != 0) free += limits.break_length.count();
    if (!drive(refill.place)) return std::nullopt;
    const bool helps = (refill.fuel && now.used > 0) || (refill.water && now.stock < limits.water_capacity.value);
    if (!helps) return std::nullopt;
    double begin = refill.open.empty() ? free : 1e300;
    for (const auto& interval : refill.open) {
      const double at_earliest = std::max(free, (interval.from - origin_).count());
      if (at_earliest + refill.duration.count() <= (interval.to - origin_).count() + rounding) {
        begin = std::min(begin, at_earliest);
      }
    }
    if (begin >= 1e299) return std::nullopt;
    free = begin + refill.duration.count();
    if (refill.fuel && now.used >= 0) now.used = 0;
    if (refill.water && now.stock < 1e299) now.stock = limits.water_capacity.value;
  }
  if (((static_cast<unsigned>(leg.rests) >> chain.size()) & 1U) != 0) free += limits.break_length.count();
  if (!q) {
    if (limits.end && !drive(*limits.end)) return std::nullopt;
    if (limits.back_by && free > (*limits.back_by - origin_).count() + rounding) return std::nullopt;
    return step;
  }
  const MeetNode& to = nodes_[*q];
  double in, ready;
  if (stays) {
    in = ready = nodes_[*p].gone;
  } else {
    if (!drive(to.place)) return std::nullopt;
    in = std::max(free, to.opens);
    ready = in + to.setup;
  }
  step.is_ready = ready <= to.ready_by + rounding;
  if (!step.is_ready && in > to.there_by + rounding) return std::nullopt;
  const MeetOption& option = at(task_->options, to.option);
  if (now.stock < 1e299) {
    if (!option.has_water) now.stock -= option.water.value;
    if (now.stock < -rounding) return std::nullopt;
    if (option.has_water) now.stock = limits.water_capacity.value;
  }
  // A break at this meet, or standing here and at the meets before: driving counts afresh.
  const double since = now.driving >= 0 ? now.standing_since : standing;
  if (limits.longest_driving.count() > 0 && to.leave - since >= limits.break_length.count() - rounding) now.driving = 0;
  now = without_needs(car, q, now);
  return step;
}

void append_leg(std::vector<PlannedStop>& stops, const MeetModel& model, Leg leg, std::optional<std::size_t> q) {
  const std::vector<std::size_t>& chain = model.chains()[leg.chain];
  for (std::size_t k = 0; k <= chain.size(); ++k) {
    if (((static_cast<unsigned>(leg.rests) >> k) & 1U) != 0)
      stops.push_back({PlannedStop::Kind::rest, std::nullopt, std::nullopt});
    if (k < chain.size()) stops.push_back({PlannedStop::Kind::refill, std::nullopt, chain[k]});
  }
  if (q) stops.push_back({PlannedStop::Kind::meet, model.nodes()[*q].option, std::nullopt});
}

}  // namespace outbye
