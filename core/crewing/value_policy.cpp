#include "core/crewing/value_policy.h"

#include <algorithm>
#include <string>

#include "core/crewing/value_run.h"

namespace outbye {
namespace {

using Kind = PlannedStop::Kind;

class PolicyMaker {
 public:
  PolicyMaker(ValuationDays& days, const CrewOrders& orders)
      : days_(days), task_(days.task()), orders_(orders), typical_(days.typical()) {}

  Result<Policy> make() {
    if (auto fault = check(); !fault) return tl::unexpected(fault.error());
    const CrewingSettings& settings = task_.settings;
    policy_.interval = static_cast<float>(in_kilometres(settings.water_interval));
    policy_.slope = static_cast<float>(settings.gap_penalty);
    policy_.part = static_cast<float>(settings.part_worth);
    if (auto fault = order_stops(); !fault) return tl::unexpected(fault.error());
    if (auto fault = set_drives(); !fault) return tl::unexpected(fault.error());
    set_meets();
    set_limits();
    return std::move(policy_);
  }

 private:
  using Check = Result<bool>;

  Check check() {
    std::vector<bool> has_car(task_.cars.size(), false);
    std::vector<std::vector<bool>> is_planned;
    for (const HorseDays& horse : task_.horses) is_planned.emplace_back(horse.events.size(), false);
    for (const CarOrders& day : orders_) {
      if (day.car.value >= task_.cars.size() || has_car[day.car.value])
        return bad_input("crew orders", "name a car that is not there, or one twice");
      has_car[day.car.value] = true;
      for (const PlannedStop& stop : day.stops) {
        if (stop.kind == Kind::refill && (!stop.refill || *stop.refill >= task_.refills.size()))
          return bad_input("crew orders", "name a refill that is not there");
        if (stop.kind != Kind::meet) continue;
        if (!stop.option || stop.option->value >= task_.options.size())
          return bad_input("crew orders", "name a meet that is not there");
        const MeetOption& option = at(task_.options, *stop.option);
        std::vector<bool>& planned = is_planned[option.horse.value];
        if (planned[option.event]) return bad_input(option.label, "is met twice");
        planned[option.event] = true;
      }
    }
    planned_ = std::move(is_planned);
    return true;
  }

  const MeetOption* meet_of(const PlannedStop& stop) const {
    return stop.kind == Kind::meet ? &at(task_.options, *stop.option) : nullptr;
  }

  // A list in which every car's stops and every horse's meets keep their order: the car with the smallest id goes on
  // as long as its next meet is the next planned one of the horse.
  Check order_stops() {
    std::vector<std::size_t> done(orders_.size(), 0);
    std::vector<std::size_t> next_event(task_.horses.size(), 0);
    const auto skip_unplanned = [&](std::size_t h) {
      while (next_event[h] < planned_[h].size() && !planned_[h][next_event[h]]) ++next_event[h];
    };
    for (std::size_t h = 0; h < task_.horses.size(); ++h) skip_unplanned(h);
    policy_.first_stop.resize(task_.cars.size());
    std::vector<std::optional<std::size_t>> last(task_.cars.size());
    for (bool moved = true; moved;) {
      moved = false;
      for (std::size_t k = 0; k < orders_.size(); ++k) {
        while (done[k] < orders_[k].stops.size()) {
          const PlannedStop& stop = orders_[k].stops[done[k]];
          const MeetOption* meet = meet_of(stop);
          if (meet != nullptr && next_event[meet->horse.value] != meet->event) break;
          if (meet != nullptr) {
            ++next_event[meet->horse.value];
            skip_unplanned(meet->horse.value);
          }
          PolicyStop p;
          p.stop = stop;
          p.car = orders_[k].car;
          p.index = done[k]++;
          p.before = last[p.car.value];
          const std::size_t here = policy_.stops.size();
          if (p.before) {
            policy_.stops[*p.before].next = here;
          } else {
            policy_.first_stop[p.car.value] = here;
          }
          last[p.car.value] = here;
          policy_.stops.push_back(p);
          moved = true;
        }
      }
    }
    for (std::size_t k = 0; k < orders_.size(); ++k) {
      if (done[k] == orders_[k].stops.size()) continue;
      const MeetOption* meet = meet_of(orders_[k].stops[done[k]]);
      return bad_input(meet->label, "is planned against the order in which the horse comes by");
    }
    return true;
  }

  Check set_drives() {
    policy_.start.resize(task_.cars.size());
    policy_.first_drive.resize(task_.cars.size());
    places_.resize(policy_.stops.size());
    for (std::size_t s = 0; s < policy_.stops.size(); ++s) {
      PolicyStop& p = policy_.stops[s];
      const CrewCar& car = at(task_.cars, p.car);
      const PlaceId from = p.before ? places_[*p.before] : car.start;
      places_[s] = p.stop.kind == Kind::meet     ? at(task_.options, *p.stop.option).place
                   : p.stop.kind == Kind::refill ? task_.refills[*p.stop.refill].place
                                                 : from;
      const std::optional<Drive>& drive = task_.drives.drive(from, places_[s]);
      if (!drive) {
        return impossible(car.name, "has no way by car from " + task_.drives.places()[from.value] + " to " +
                                        task_.drives.places()[places_[s].value]);
      }
      const auto time = static_cast<float>(drive->time.count());
      if (p.before) {
        policy_.stops[*p.before].drive_next = time;
      } else {
        policy_.first_drive[p.car.value] = time;
        policy_.start[p.car.value] = days_.seconds(car.ready_from);
      }
      if (p.stop.kind == Kind::refill) p.duration = static_cast<float>(task_.refills[*p.stop.refill].duration.count());
      if (p.stop.kind == Kind::rest) p.duration = static_cast<float>(car.break_length.count());
    }
    return true;
  }

  // Everything about a meet but what hangs on the car's lateness.
  void set_meets() {
    due_.assign(policy_.stops.size(), 0.0F);
    gone_.assign(policy_.stops.size(), 0.0F);
    last_met_.assign(policy_.stops.size(), std::nullopt);
    std::vector<std::optional<std::size_t>> last(task_.horses.size());
    std::vector<float> stood(task_.horses.size(), 0.0F);
    for (std::size_t s = 0; s < policy_.stops.size(); ++s) {
      PolicyStop& p = policy_.stops[s];
      const MeetOption* meet = meet_of(p.stop);
      if (meet == nullptr) {
        if (p.stop.kind == Kind::refill) open_refill(p);
        continue;
      }
      const std::size_t h = meet->horse.value;
      const std::vector<RideEvent>& events = task_.horses[h].events;
      p.horse = meet->horse;
      p.event = meet->event;
      p.pack = static_cast<float>(meet->pack.count());
      p.setup = static_cast<float>(meet->setup.count());
      p.worth = static_cast<float>(meet->worth);
      p.is_held = events[meet->event].kind == RideEvent::Kind::pass;
      p.along = static_cast<float>(in_kilometres(events[meet->event].ride_along));
      p.wait = days_.expectation(meet->horse, last[h], meet->event);
      set_gates(events, last[h] ? *last[h] + 1 : 0, meet->event, p.passes_gate, p.first_gate, p.last_gate,
                p.gates_penalty);
      due_[s] = typical_.horses[h].base[meet->event] + stood[h];
      const float stand = typical_.horses[h].stand[meet->event];
      gone_[s] = due_[s] + stand;
      if (p.is_held) stood[h] += stand;
      open_meet(p, *meet, s);
      last_met_[s] = last[h];
      last[h] = meet->event;
    }
    for (std::size_t h = 0; h < task_.horses.size(); ++h) {
      const std::vector<RideEvent>& events = task_.horses[h].events;
      Policy::LastGap gap;
      float last_gate = 0;
      if (!events.empty()) {
        set_gates(events, last[h] ? *last[h] + 1 : 0, events.size() - 1, gap.passes_gate, gap.first_gate, last_gate,
                  gap.gates_penalty);
      }
      policy_.last_gaps.push_back(gap);
    }
  }

  // Where the gap begins anew whatever is met: gates, and the end of the day, among the events [from, to].
  void set_gates(const std::vector<RideEvent>& events, std::size_t from, std::size_t to, bool& passes, float& first,
                 float& last, float& penalty) const {
    for (std::size_t e = from; e <= to; ++e) {
      if (events[e].kind == RideEvent::Kind::pass && e + 1 < events.size()) continue;
      const auto along = static_cast<float>(in_kilometres(events[e].ride_along));
      if (passes) {
        penalty += policy_.slope * std::max(0.0F, along - last - policy_.interval);
      } else {
        first = along;
      }
      passes = true;
      last = along;
    }
  }

  // The earliest opening that holds the horse's going and the packing on a typical day; if none does, the last.
  void open_meet(PolicyStop& p, const MeetOption& meet, std::size_t s) {
    const float leaves = gone_[s] + p.pack;
    std::optional<Interval<Instant>> chosen;
    for (const Interval<Instant>& open : meet.open) {
      const bool holds = days_.seconds(open.from) <= leaves + 0.01F && leaves <= days_.seconds(open.to) + 0.01F;
      if (holds && (!chosen || open.from < chosen->from)) chosen = open;
    }
    if (!chosen && !meet.open.empty()) chosen = meet.open.back();
    if (chosen) {
      p.open_from = days_.seconds(chosen->from);
      p.open_to = days_.seconds(chosen->to) + 0.02F;
    }
    const PolicyStop* before = p.before ? &policy_.stops[*p.before] : nullptr;
    p.stays = before != nullptr && before->stop.kind == Kind::meet && places_[*p.before] == meet.place &&
              p.open_from <= gone_[*p.before] + 0.01F;
    if (p.stays) p.setup = 0;
    const CrewCar& car = at(task_.cars, p.car);
    if (car.back_by) {
      const std::optional<Drive>& home = task_.drives.drive(meet.place, car.end ? *car.end : meet.place);
      const double time = home ? home->time.count() * task_.settings.drive_allowance : 0.0;
      p.open_to = std::min(p.open_to, days_.seconds(*car.back_by) - static_cast<float>(time) + 0.02F);
    }
  }

  void open_refill(PolicyStop& p) const {
    const std::vector<Interval<Instant>>& open = task_.refills[*p.stop.refill].open;
    if (!open.empty()) p.open_from = days_.seconds(open.front().from);
    for (const Interval<Instant>& i : open) p.open_from = std::min(p.open_from, days_.seconds(i.from));
  }

  // Stands of the horse at planned meets after `last_met` and before `event`, typically.
  float held_between(HorseId horse, std::optional<std::size_t> last_met, std::size_t event) const {
    const std::vector<RideEvent>& events = at(task_.horses, horse).events;
    float held = 0;
    for (std::size_t e = last_met ? *last_met + 1 : 0; e < event; ++e) {
      if (planned_[horse.value][e] && events[e].kind == RideEvent::Kind::pass)
        held += typical_.horses[horse.value].stand[e];
    }
    return held;
  }

  void set_limits() {
    // A typical day on which nothing is given up tells how late the plan itself means the car to be.
    DayRunner runner;
    RunCounts counts;
    float worth = 0;
    runner.run(policy_, typical_, 0, 1, &worth, counts);
    std::vector<const PolicyStop*> last_own(policy_.stops.size(), nullptr);
    for (std::size_t s = 0; s < policy_.stops.size(); ++s) {
      PolicyStop& p = policy_.stops[s];
      last_own[s] = p.stop.kind == Kind::meet ? &p : p.before ? last_own[*p.before] : nullptr;
      if (!p.before) hold_start(p);
      if (!p.next) continue;
      const PolicyStop& next = policy_.stops[*p.next];
      if (next.stop.kind != Kind::meet || next.stays) continue;
      const PolicyStop* own = last_own[s];
      p.is_relative = own != nullptr && own->horse == next.horse;
      std::optional<std::size_t> reference;
      if (p.is_relative) reference = own->event;
      const float held = held_between(next.horse, reference, next.event);
      const Margin margin = *days_.margin(places_[s], reference, *next.stop.option);
      p.wanted = margin.wanted + held;
      const float lateness = runner.left(s, 0) - (p.is_relative ? runner.known(s, 0) : 0.0F);
      const float early = days_.expectation(next.horse, reference, next.event).middle + held - next.setup -
                          static_cast<float>(task_.settings.drive_allowance) * p.drive_next -
                          static_cast<float>(task_.settings.longest_wait.count());
      p.hold = std::min(early, p.wanted - 1.0F);
      // The plan's own departure on a typical day is never too late, whatever the odds: it means to go there.
      p.limit = std::max(margin.least + held, lateness + 1.0F);
      if (!p.is_relative && p.stop.kind == Kind::meet) p.leave_by = std::max(p.wanted, due_[s] + 1.0F);
      set_fallback(s);
    }
  }

  void hold_start(PolicyStop& p) {
    if (p.stop.kind != Kind::meet) return;
    const CrewCar& car = at(task_.cars, p.car);
    const std::optional<Margin> margin = days_.margin(car.start, std::nullopt, *p.stop.option);
    const float held = held_between(p.horse, std::nullopt, p.event);
    const float early = days_.expectation(p.horse, std::nullopt, p.event).middle + held - p.setup -
                        static_cast<float>(task_.settings.drive_allowance) * policy_.first_drive[p.car.value] -
                        static_cast<float>(task_.settings.longest_wait.count());
    float& start = policy_.start[p.car.value];
    start = std::max(start, std::min(early, margin->wanted + held - 1.0F));
  }

  // The later stop that promises most for a car that has just become too late for its next meet: what it gives up on
  // the way counts against it. The first refill after the next meet is the last stop considered; never past a rest.
  void set_fallback(std::size_t s) {
    PolicyStop& p = policy_.stops[s];
    const PolicyStop* own = nullptr;
    for (std::optional<std::size_t> b = s; b && own == nullptr; b = policy_.stops[*b].before) {
      if (policy_.stops[*b].stop.kind == Kind::meet) own = &policy_.stops[*b];
    }
    // Absolute time just after the limit on a typical day.
    const float leaves = p.limit + (p.is_relative ? due_of(own) : 0.0F);
    double best = -1;
    double given_up = 0;
    std::size_t looked = 0;
    for (std::optional<std::size_t> j = policy_.stops[*p.next].next; j && looked < 4; j = policy_.stops[*j].next) {
      const PolicyStop& to = policy_.stops[*j];
      if (to.stop.kind == Kind::rest) break;
      const std::optional<Drive>& drive = task_.drives.drive(places_[s], places_[*j]);
      if (drive) {
        double promise = -given_up;
        if (to.stop.kind == Kind::meet) {
          std::optional<std::size_t> from;
          if (own != nullptr && own->horse == to.horse) from = own->event;
          const float lateness = leaves - (from ? due_of(own) : 0.0F);
          promise += static_cast<double>(to.worth) * days_.chance_ready(places_[s], from, *to.stop.option, lateness,
                                                                        held_between(to.horse, from, to.event));
        }
        if (promise > best) {
          best = promise;
          p.fallback = j;
          p.drive_fallback = static_cast<float>(drive->time.count());
          p.fallback_setup = to.stays ? static_cast<float>(at(task_.options, *to.stop.option).setup.count()) : 0.0F;
        }
      }
      if (to.stop.kind == Kind::refill) break;
      given_up += static_cast<double>(to.worth);
      ++looked;
    }
  }

  float due_of(const PolicyStop* own) const {
    return own == nullptr ? 0.0F : due_[static_cast<std::size_t>(own - policy_.stops.data())];
  }

  ValuationDays& days_;
  const CrewingTask& task_;
  const CrewOrders& orders_;
  const DaySet& typical_;
  Policy policy_;
  std::vector<std::vector<bool>> planned_;  // [horse][event]
  std::vector<PlaceId> places_;             // by stop
  std::vector<float> due_;                  // by stop: typical arrival of its horse
  std::vector<float> gone_;
  std::vector<std::optional<std::size_t>> last_met_;
};

}  // namespace

Result<Policy> make_policy(ValuationDays& days, const CrewOrders& orders) { return PolicyMaker(days, orders).make(); }

}  // namespace outbye
