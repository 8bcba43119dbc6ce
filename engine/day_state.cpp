// The fold: from a log to where horses and cars are, with everything that cannot be used said.
#include <algorithm>
#include <cmath>

#include "core/base/text.h"
#include "engine/day.h"
#include "engine/day_riders.h"
#include "engine/day_sightings.h"
#include "engine/day_watches.h"
#include "engine/places.h"

namespace outbye {
namespace {

// A note may be this much ahead of its own time: a clock put right, a hurried thumb.
constexpr Seconds ahead{120};
class Fold {
 public:
  Fold(const RidePlan& plan, const DayLog& log, Instant now)
      : plan_(plan), names_(plan), now_(now), fold_{plan_, names_, now_, state_.troubles} {
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
    for (std::size_t h = 0; h < state_.horses.size(); ++h) {
      settle_sightings(fold_, noted_[h], stood_, state_.horses[h]);
    }
    watches_.settle(fold_, state_);
    settle_riders(fold_, state_);
    return std::move(state_);
  }

 private:
  void trouble(const std::string& id, const std::string& what) { fold_.trouble(id, what); }
  std::string clock_time(Instant at) const { return fold_.clock_time(at); }
  template <class T>
  std::optional<T> known(const StandingEntry& entry, Result<T> result) {
    return fold_.known(entry.id, std::move(result));
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
        return watches_.take(fold_, e);
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

  void put(HorseId horse, std::size_t event, std::optional<Noted> NotedPass::*which, const StandingEntry& e) {
    note_time(fold_, horse, event, noted_[horse.value][event].*which, {e.entry.at, e.id, e.noted});
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

  const RidePlan& plan_;
  DayNames names_;
  Instant now_;
  DayState state_;
  DayFold fold_;
  std::vector<StandingEntry> log_;
  std::vector<NotedPasses> noted_;  // by horse
  std::vector<Seconds> shift_;      // of each horse against the plan, by its last sighting
  WatchBook watches_;
  CarsStood stood_;
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
