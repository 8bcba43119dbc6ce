// The fold: from a log to where horses and cars are, with everything that cannot be used said.
#include <algorithm>
#include <cmath>
#include <map>

#include "core/base/text.h"
#include "engine/day.h"
#include "engine/day_names.h"
#include "engine/places.h"

namespace outbye {
namespace {

// A note may be this much ahead of its own time: a clock put right, a hurried thumb.
constexpr Seconds ahead{120};
// Faster than this share of the expected riding time nobody rides (a choice): two such sightings contradict.
constexpr double least_share = 0.45;
constexpr double rider_least_share = 0.35;
constexpr double default_overlook = 0.05;

struct Noted {  // a time of a horse at an event
  Instant at;
  std::string id;
  HybridTime noted;
};
struct NotedPass {
  std::optional<Noted> in, in_time, out;
};

class Fold {
 public:
  Fold(const RidePlan& plan, const DayLog& log, Instant now) : plan_(plan), names_(plan), now_(now) {
    state_.now = now;
    for (std::uint32_t h = 0; h < plan.task.horses.size(); ++h) {
      HorseOnDay horse;
      horse.horse = HorseId{h};
      horse.gates.resize(plan.survey.course.loops.size());
      for (std::uint32_t l = 0; l < horse.gates.size(); ++l) {
        horse.gates[l].gate = l + 1;
        horse.gates[l].is_finish = l + 1 == horse.gates.size();
      }
      horse.accepted.resize(horse.gates.size());
      state_.horses.push_back(std::move(horse));
    }
    for (std::uint32_t c = 0; c < plan.task.cars.size(); ++c) {
      state_.cars.push_back({CarId{c}, plan.task.cars[c].start, std::nullopt, false, std::nullopt});
    }
    noted_.resize(state_.horses.size());
    shift_.assign(state_.horses.size(), Seconds{0});
    StandingLog standing_log = standing(log);
    for (const Warning& w : standing_log.warnings) {
      const std::string id = w.where.rfind("event ", 0) == 0 ? w.where.substr(6) : "";
      trouble(id, w.what);
    }
    log_ = std::move(standing_log.entries);
  }

  DayState state() {
    for (const StandingEntry& entry : log_) {
      for (const Problem& p : check_entry(entry.entry)) trouble(entry.id, "'" + p.where + "' " + p.what);
      if (!check_entry(entry.entry).empty()) continue;
      if (entry.entry.at > now_) {
        const Instant noted{Seconds{static_cast<double>(entry.noted.milliseconds) / 1000.0}};
        if (entry.entry.at > noted + ahead) {
          trouble(entry.id, "is said to be at " + clock_time(entry.entry.at) +
                                ", which is still to come; it is left "
                                "aside until then: put the time right");
        }
        continue;
      }
      take(entry);
    }
    for (std::size_t h = 0; h < state_.horses.size(); ++h) settle_horse(h);
    settle_watches();
    settle_riders();
    return std::move(state_);
  }

 private:
  void trouble(const std::string& id, const std::string& what) { state_.troubles.push_back({id, what}); }
  std::string clock_time(Instant at) const { return hours_minutes_seconds(at, plan_.ride.clock); }

  // The value, or a trouble and nothing.
  template <class T>
  std::optional<T> known(const StandingEntry& entry, Result<T> result) {
    if (result) return *result;
    trouble(entry.id, result.error().what + " (kept, not used)");
    return std::nullopt;
  }

  void take(const StandingEntry& e) {
    switch (e.entry.kind) {
      case DayKind::horse_in:
      case DayKind::horse_out:
        return take_horse(e);
      case DayKind::number_seen:
        return take_number(e);
      case DayKind::car_at:
      case DayKind::car_left:
        return take_car(e);
      case DayKind::word:
        return take_word(e);
      case DayKind::watch_begin:
      case DayKind::watch_end:
      case DayKind::break_begin:
      case DayKind::break_end:
      case DayKind::watched:
        return take_watch(e);
      case DayKind::gate_in_time:
      case DayKind::gate_outcome:
      case DayKind::gate_out:
      case DayKind::pulse:
        return take_gate(e);
      case DayKind::drink:
      case DayKind::electrolyte:
      case DayKind::feed:
        if (const auto horse = known(e, names_.horse(e.entry.horse))) {
          at(state_.horses, *horse)
              .intakes.push_back({e.id, e.entry.kind, e.entry.at, e.entry.what, e.entry.amount, e.entry.unit});
        }
        return;
      case DayKind::stock_used:
      case DayKind::stock_filled:
        return take_stock(e);
      case DayKind::note:
        state_.notes.push_back(e);
        return;
    }
  }

  // A time at an event; of two that differ the one noted later counts, and both are named.
  void put(HorseId horse, std::size_t event, std::optional<Noted> NotedPass::*which, const StandingEntry& e) {
    auto& slot = noted_[horse.value][event].*which;
    const Noted noted{e.entry.at, e.id, e.noted};
    if (slot && std::fabs((slot->at - noted.at).count()) > 60.0) {
      const bool later = noted.noted > slot->noted;
      const Noted& kept = later ? noted : *slot;
      const Noted& other = later ? *slot : noted;
      trouble(other.id, names_.label(horse, event) + " is noted at " + clock_time(other.at) + " and at " +
                            clock_time(kept.at) + "; the one noted last counts: withdraw or correct the wrong one");
    }
    if (!slot || noted.noted > slot->noted) slot = noted;
    if (which == &NotedPass::in) shift_[horse.value] = e.entry.at - names_.due(horse, event);
  }

  void take_horse(const StandingEntry& e) {
    const auto horse = known(e, names_.horse(e.entry.horse));
    const auto place = known(e, names_.place(e.entry.place));
    if (!horse || !place) return;
    const bool is_in = e.entry.kind == DayKind::horse_in;
    if (!is_in && !e.entry.loop) {
      // Out of where it came in last, if that was there.
      std::optional<std::size_t> last;
      for (const auto& [event, pass] : noted_[horse->value]) {
        if (pass.in && !pass.out && names_.is_at(names_.events()[event], *place)) last = event;
      }
      if (last) return put(*horse, *last, &NotedPass::out, e);
    }
    const auto event = known(e, names_.event_at(*horse, e.entry, *place, e.entry.at, shift_[horse->value]));
    if (event) put(*horse, *event, is_in ? &NotedPass::in : &NotedPass::out, e);
  }

  void take_number(const StandingEntry& e) {
    const auto place = known(e, names_.place(e.entry.place));
    if (!place) return;
    if (const auto ours = names_.horse_with_number(e.entry.number)) {
      const auto event = known(e, names_.event_at(*ours, e.entry, *place, e.entry.at, shift_[ours->value]));
      if (event) put(*ours, *event, &NotedPass::in, e);
      return;
    }
    // Where other riders are on the course is judged by where our first horse is.
    const auto event = known(e, names_.event_at(HorseId{0}, e.entry, *place, e.entry.at, shift_[0]));
    if (!event) return;
    const RideEvent& there = names_.events()[*event];
    const Metres along = there.pass ? at(plan_.survey.course.passes, *there.pass).along
                                    : at(plan_.survey.course.loops, there.loop).length;
    state_.riders.push_back(
        {e.id, std::string(trimmed(e.entry.number)), e.entry.at, names_.place_name(*place), there.loop, along});
  }

  void take_car(const StandingEntry& e) {
    const auto car = known(e, names_.car(e.entry.car));
    if (!car) return;
    CarOnDay& state = at(state_.cars, *car);
    std::optional<PlaceId> place;
    if (!e.entry.place.empty()) {
      place = known(e, names_.place(e.entry.place));
      if (!place) return;
    }
    if (e.entry.kind == DayKind::car_left && place && state.since && !state.is_driving && *place != state.place) {
      trouble(e.id, "has the car leave " + names_.place_name(*place) + ", but it was noted at " +
                        names_.place_name(state.place) + " before; add or correct what is missing");
    }
    if (place) state.place = *place;
    state.since = e.entry.at;
    state.is_driving = e.entry.kind == DayKind::car_left;
    if (!state.is_driving) stood_.push_back({state.place, e.entry.at});
  }

  void take_word(const StandingEntry& e) {
    const auto horse = known(e, names_.horse(e.entry.horse));
    const auto place = known(e, names_.place(e.entry.place));
    if (!horse || !place) return;
    const Instant when = e.entry.seen_at.value_or(e.entry.at);
    if (when > e.entry.at + ahead) {
      return trouble(e.id, "says that she was seen at " + clock_time(when) +
                               ", after the word itself came (kept, not "
                               "used); put one of the times right");
    }
    const auto event = known(e, names_.event_at(*horse, e.entry, *place, when, shift_[horse->value]));
    if (!event) return;
    Word word;
    word.event = *event;
    word.at = e.entry.at;
    word.seen_at = e.entry.seen_at;
    word.doubt = e.entry.doubt.value_or(word.doubt);
    word.trust = e.entry.trust.value_or(word.trust);
    at(state_.horses, *horse).words.push_back(word);
  }

  void take_watch(const StandingEntry& e) {
    const std::string who = e.entry.who.empty() ? e.device : e.entry.who;
    if (e.entry.kind == DayKind::watched || e.entry.kind == DayKind::watch_begin) {
      const auto place = known(e, names_.place(e.entry.place));
      if (!place) return;
      const double overlook = e.entry.overlook.value_or(default_overlook);
      if (e.entry.kind == DayKind::watched) {
        if (*e.entry.until > now_) trouble(e.id, "watches until a time still to come; only the time until now counts");
        watches_.push_back({*place, who, e.entry.at, std::min(*e.entry.until, now_), false, overlook});
        return;
      }
      end_watch(who, e.entry.at);
      open_[who] = {*place, e.entry.at, overlook, false};
      return;
    }
    const auto open = open_.find(who);
    if (open == open_.end()) {
      return trouble(e.id, "is about a watch of '" + who + "' that was not begun; note when it began");
    }
    if (e.entry.kind == DayKind::watch_end) return end_watch(who, e.entry.at);
    if (e.entry.kind == DayKind::break_begin) {
      if (!open->second.is_paused) close_stretch(who, e.entry.at, false);
      open->second.is_paused = true;
    } else {
      open->second.is_paused = false;
      open->second.from = e.entry.at;
    }
  }

  struct OpenWatch {
    PlaceId place;
    Instant from;
    double overlook{};
    bool is_paused{};
  };
  struct ClosedWatch {
    PlaceId place;
    std::string who;
    Instant from, to;
    bool is_going_on{};
    double overlook{};
  };
  void close_stretch(const std::string& who, Instant to, bool is_going_on) {
    const OpenWatch& w = open_[who];
    if (to > w.from) watches_.push_back({w.place, who, w.from, to, is_going_on, w.overlook});
  }
  void end_watch(const std::string& who, Instant to) {
    const auto open = open_.find(who);
    if (open == open_.end()) return;
    if (!open->second.is_paused) close_stretch(who, to, false);
    open_.erase(open);
  }

  void take_gate(const StandingEntry& e) {
    const auto horse = known(e, names_.horse(e.entry.horse));
    if (!horse) return;
    HorseOnDay& state = at(state_.horses, *horse);
    if (e.entry.kind == DayKind::gate_out && e.entry.loop == 0u) {
      if (state.started && std::fabs((*state.started - e.entry.at).count()) > 60.0) {
        trouble(e.id, "is a second start, at " + clock_time(e.entry.at) + " beside " + clock_time(*state.started) +
                          "; the later entry counts: withdraw the wrong one");
      }
      state.started = e.entry.at;
      shift_[horse->value] = e.entry.at - plan_.task.horses[horse->value].origin;
      return;
    }
    const auto event = gate_of(*horse, e);
    if (!event) return;
    GateVisit& gate = state.gates[names_.events()[*event].loop.value];
    switch (e.entry.kind) {
      case DayKind::gate_in_time:
        gate.in_time = e.entry.at;
        return put(*horse, *event, &NotedPass::in_time, e);
      case DayKind::gate_out:
        gate.left = e.entry.at;
        return put(*horse, *event, &NotedPass::out, e);
      case DayKind::gate_outcome:
        state.accepted[names_.events()[*event].loop.value] = e.entry.accepted;
        return;
      default:
        gate.pulses.push_back({e.entry.at, BeatsPerMinute{*e.entry.beats}, e.entry.presented, e.entry.accepted});
    }
  }

  // The gate that an entry is about: by its loop, else the last that the horse came to, else the nearest in time.
  std::optional<std::size_t> gate_of(HorseId horse, const StandingEntry& e) {
    std::optional<std::size_t> last;
    for (const auto& [event, pass] : noted_[horse.value]) {
      if (!names_.events()[event].pass && pass.in && pass.in->at <= e.entry.at) last = event;
    }
    if (!e.entry.loop && last) return last;
    return known(e, names_.event_at(horse, e.entry, venue_place(), e.entry.at, shift_[horse.value]));
  }

  void take_stock(const StandingEntry& e) {
    if (!known(e, names_.car(e.entry.car))) return;
    const DayEntry& entry = e.entry;
    state_.stock_entries.push_back(e);
    auto line = std::find_if(state_.stock.begin(), state_.stock.end(), [&](const StockOnDay& s) {
      return same_name(s.what, entry.what) && s.unit == entry.unit;
    });
    if (line == state_.stock.end()) line = state_.stock.insert(line, {entry.what, entry.unit, 0.0, 0.0});
    (entry.kind == DayKind::stock_used ? line->used : line->filled) += *entry.amount;
  }

  bool a_car_stood(PlaceId place, Instant when) const {
    for (const auto& [stood, since] : stood_) {
      if (stood == place && since <= when) return true;
    }
    return false;
  }

  void settle_horse(std::size_t h) {
    HorseOnDay& horse = state_.horses[h];
    auto& noted = noted_[h];
    drop_contradictions(h);
    for (auto& [event, pass] : noted) {
      const RideEvent& what = names_.events()[event];
      if (pass.in && pass.out && pass.out->at < pass.in->at) {
        trouble(pass.out->id, "has her leave " + names_.label(horse.horse, event) +
                                  " before she came; the time of "
                                  "leaving is left aside: put one of the two right");
        pass.out.reset();
      }
      if (pass.in && pass.in_time && pass.in_time->at < pass.in->at) {
        trouble(pass.in_time->id, "is an in-time before she came in; it is left aside: put one of the two right");
        pass.in_time.reset();
        horse.gates[what.loop.value].in_time.reset();
      }
      OwnSighting seen;
      seen.event = event;
      if (pass.in) seen.in = pass.in->at;
      if (pass.in_time) seen.in_time = pass.in_time->at;
      if (pass.out) seen.out = pass.out->at;
      if (!seen.in && !seen.in_time && !seen.out) continue;
      if (what.pass) {
        const PlaceId place = crew_point_place(at(plan_.survey.course.passes, *what.pass).crew_point);
        const Instant when = seen.in.value_or(seen.out.value_or(now_));
        const bool stood = seen.in && seen.out && *seen.out - *seen.in > Seconds{30};
        seen.is_met = stood || (!(seen.in && seen.out) && a_car_stood(place, when));
      } else if (seen.in) {
        horse.gates[what.loop.value].arrival = seen.in;
      }
      horse.seen.push_back(seen);
    }
  }

  // Sightings in an order or at a pace that cannot be are left out one by one, the one first that clashes with most;
  // of equals, the one farther from the plan.
  void drop_contradictions(std::size_t h) {
    auto& noted = noted_[h];
    const HorseId horse{static_cast<std::uint32_t>(h)};
    const auto time_of = [](const NotedPass& p) { return p.in ? *p.in : p.in_time ? *p.in_time : *p.out; };
    for (;;) {
      std::map<std::size_t, int> clashes;
      for (auto a = noted.begin(); a != noted.end(); ++a) {
        for (auto b = std::next(a); b != noted.end(); ++b) {
          const Instant left = a->second.out ? a->second.out->at : time_of(a->second).at;
          if (time_of(b->second).at - left >= least_share * riding_between(a->first, b->first)) continue;
          ++clashes[a->first];
          ++clashes[b->first];
        }
      }
      if (clashes.empty()) return;
      std::size_t worst = clashes.begin()->first;
      const auto off = [&](std::size_t e) { return std::fabs((time_of(noted[e]).at - names_.due(horse, e)).count()); };
      for (const auto& [event, count] : clashes) {
        if (count > clashes[worst] || (count == clashes[worst] && off(event) > off(worst))) worst = event;
      }
      const Noted dropped = time_of(noted[worst]);
      std::string others;
      for (const auto& [event, count] : clashes) {
        if (event == worst) continue;
        others +=
            (others.empty() ? "" : ", ") + names_.label(horse, event) + " at " + clock_time(time_of(noted[event]).at);
      }
      trouble(dropped.id, "has her at " + names_.label(horse, worst) + " at " + clock_time(dropped.at) +
                              ", which cannot be together with " + others +
                              "; it is kept but not used: correct or "
                              "withdraw whichever is wrong");
      noted.erase(worst);
    }
  }

  // Expected riding time without stands and gates, from the plan's own speeds.
  Seconds riding_between(std::size_t from, std::size_t to) const {
    Seconds sum{0};
    const auto& events = names_.events();
    double along = events[from].ride_along.value;
    for (std::size_t l = events[from].loop.value; l <= events[to].loop.value; ++l) {
      double end = 0;
      for (const auto& e : events) {
        if (!e.pass && e.loop.value == l) end = e.ride_along.value;
      }
      const double until = std::min(end, events[to].ride_along.value);
      if (until > along) sum += Metres{until - along} / plan_.ride.loops[l].pace.speed;
      along = std::max(along, until);
    }
    return sum;
  }

  void settle_watches() {
    std::vector<std::string> going_on;
    for (const auto& [who, open] : open_) {
      if (!open.is_paused) going_on.push_back(who);
    }
    for (const std::string& who : going_on) close_stretch(who, now_, true);
    for (const ClosedWatch& w : watches_) {
      state_.watches.push_back({names_.place_name(w.place), w.who, w.from, w.to, w.is_going_on, w.overlook});
      for (HorseOnDay& horse : state_.horses) {
        for (const std::size_t e : names_.events_at(w.place)) horse.watches.push_back({e, w.from, w.to, w.overlook});
      }
    }
  }

  void settle_riders() {
    std::map<std::string, const RiderSeen*> last;
    for (const RiderSeen& seen : state_.riders) {
      const RiderSeen*& before = last[seen.number];
      if (before != nullptr && before->loop == seen.loop && seen.along > before->along) {
        const Metres way = seen.along - before->along;
        const Seconds time = seen.at - before->at;
        const Seconds expected = way / at(plan_.ride.loops, seen.loop).pace.speed;
        if (time < rider_least_share * expected) {
          trouble(seen.id, "number " + seen.number + " would have come from " + before->place + " (" +
                               fixed(in_kilometres(way), 1) + " km) in " + fixed(in_minutes(time), 0) +
                               " min; one of the two numbers is a slip: correct it. Neither is used");
        } else {
          state_.stretches.push_back({seen.number, seen.loop, before->along, seen.along, time,
                                      passes_between(seen.loop, before->along, seen.along)});
        }
      }
      before = &seen;
    }
  }

  std::uint32_t passes_between(LoopId loop, Metres from, Metres to) const {
    std::uint32_t count = 0;
    for (const Pass& pass : plan_.survey.course.passes) {
      if (pass.loop == loop && pass.along.value > from.value + 1 && pass.along.value < to.value - 1) ++count;
    }
    return count;
  }

  const RidePlan& plan_;
  DayNames names_;
  Instant now_;
  DayState state_;
  std::vector<StandingEntry> log_;
  std::vector<std::map<std::size_t, NotedPass>> noted_;  // [horse][event]
  std::vector<Seconds> shift_;                           // of each horse against the plan, by its last sighting
  std::map<std::string, OpenWatch> open_;
  std::vector<ClosedWatch> watches_;
  std::vector<std::pair<PlaceId, Instant>> stood_;
};

}  // namespace

DayState day_state(const RidePlan& plan, const DayLog& log, Instant now) { return Fold(plan, log, now).state(); }

DayLog known_by(const DayLog& log, Instant time) {
  DayLog known;
  for (const DayEvent& event : log.events) {
    if (static_cast<double>(event.noted.milliseconds) / 1000.0 <= time.time_since_epoch().count()) {
      known.events.push_back(event);
    }
  }
  return known;
}

}  // namespace outbye
