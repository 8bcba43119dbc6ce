#include "engine/day_next.h"

#include <algorithm>
#include <cmath>

#include "core/base/text.h"
#include "engine/day.h"
#include "engine/day_alarms.h"
#include "engine/day_at_place.h"
#include "engine/day_meet_words.h"

namespace outbye {
namespace {

// A stop that nobody noted the end of is taken to be over so long after it was planned to be.
constexpr Seconds after_stop{300.0};
constexpr double likely_gone = 0.5;
constexpr double worth_saying = 0.005;

Seconds planned_stand(const RidePlan& plan, const MeetOption& option) {
  const PassForecast& pass =
      plan.passes[option.horse.value * at(plan.task.horses, option.horse).events.size() + option.event];
  return pass.out.p50 - pass.due.p50;
}

class Next {
 public:
  Next(const RidePlan& plan, const DayModel& model, const DayAnswer& answer, CarId car)
      : plan_(plan),
        model_(model),
        answer_(answer),
        car_(at(answer.state.cars, car)),
        advice_(at(answer.cars, car)),
        names_(plan),
        words_(plan, answer),
        now_(answer.state.now) {
    next_.car = car;
  }

  NextAction action() {
    if (!serves() && !packs()) goes_on();
    if (next_.at) next_.until = *next_.at - now_;
    if (next_.meet) tell_of_meet(*next_.meet);
    if (next_.place.empty()) next_.place = names_.place_name(car_.place);
    tell_of_place();
    next_.alarms = alarms_of(plan_, answer_, next_);
    return std::move(next_);
  }

 private:
  void say(NextAction::Kind kind, std::string words, std::optional<Instant> at_time = std::nullopt) {
    next_.kind = kind;
    next_.words = std::move(words);
    next_.at = at_time;
  }
  // A horse stands where the car stands.
  bool serves() {
    if (car_.is_driving) return false;
    for (const GateNow& gate : answer_.gates) {
      if (!names_.is_at(names_.events()[gate.event], car_.place)) continue;
      at_gate(gate);
      return true;
    }
    for (const HorseOnDay& horse : answer_.state.horses) {
      if (horse.seen.empty()) continue;
      const OwnSighting& last = horse.seen.back();
      if (last.out || !last.in || !last.is_met || !is_pass_here(last.event)) continue;
      const MeetOptionId meet = names_.option(horse.horse, last.event);
      const Instant goes_on = *last.in + planned_stand(plan_, words_.option(meet));
      if (now_ > goes_on + after_stop) continue;
      say(NextAction::Kind::serve,
          words_.Her(horse.horse) + " is here, since " + words_.clock(*last.in) + ": serve her.", goes_on);
      next_.beside.push_back("By the plan she goes on about " + words_.clock(goes_on) + ". Note it when she does.");
      next_.meet = meet;
      return true;
    }
    return false;
  }

  bool is_pass_here(std::size_t event) const {
    const RideEvent& what = names_.events()[event];
    return what.pass && names_.is_at(what, car_.place);
  }

  void at_gate(const GateNow& gate) {
    const GateState& s = gate.state;
    const auto exact = [&](Instant when) { return clock_words(when, plan_.ride.clock); };
    const auto gate_says = [&](std::string words, std::optional<Instant> when = std::nullopt) {
      say(NextAction::Kind::gate, std::move(words), when);
    };
    next_.beside = gate.steps;
    next_.meet = names_.option(gate.horse, gate.event);
    const bool is_refused =
        at(answer_.state.horses, gate.horse).accepted[names_.events()[gate.event].loop.value] == false;
    if (is_refused) {
      gate_says(gate.steps.front());
      next_.beside.clear();
      return;
    }
    switch (s.phase) {
      case GatePhase::waiting:
        return gate_says(
            "Present to the vet at " + exact(*s.earliest_presentation) + (s.is_appointment ? "." : " at the earliest."),
            s.earliest_presentation);
      case GatePhase::recovering:
        if (!s.latest_presentation) return gate_says("Present to the vet when the pulse is down.");
        return gate_says("Present to the vet by " + exact(*s.latest_presentation) + ".", s.latest_presentation);
      case GatePhase::holding:
      case GatePhase::hold_over:
        if (!s.out_time) return gate_says("Ask the officials for the out-time.");
        return gate_says("Out-time " + exact(*s.out_time) +
                             (s.phase == GatePhase::holding ? ": be at the start." : " is past: be at the start."),
                         s.out_time);
      default:
        gate_says(gate.steps.front());
        next_.beside.erase(next_.beside.begin());
    }
  }

  // She has gone on from here, and the kit is not in the car yet.
  bool packs() {
    if (car_.is_driving || !car_.since) return false;
    for (const HorseOnDay& horse : answer_.state.horses) {
      if (horse.seen.empty()) continue;
      const OwnSighting& last = horse.seen.back();
      if (!names_.is_at(names_.events()[last.event], car_.place)) continue;
      const MeetOptionId meet = names_.option(horse.horse, last.event);
      std::optional<Instant> gone = last.out;
      if (!gone && last.in && is_pass_here(last.event)) {
        gone = *last.in + (last.is_met ? planned_stand(plan_, words_.option(meet)) : Seconds{0});
      }
      if (!gone || *gone < *car_.since || now_ >= *gone + words_.option(meet).pack) continue;
      say(NextAction::Kind::pack, "Pack up at " + words_.place_of(meet) + ".", *gone + words_.option(meet).pack);
      next_.meet = meet;
      if (advice_.next) next_.beside.push_back("Then on to " + words_.place_of(*advice_.next) + ".");
      say_due(advice_.next);
      return true;
    }
    return false;
  }

  void goes_on() {
    if (car_.is_driving) return drives();
    const auto& ways = advice_.advice.ways;
    const bool waits =
        advice_.here && (ways.empty() || ways[advice_.advice.best].kind == WayOn::Kind::wait || !advice_.next);
    if (waits) return waits_here();
    if (!advice_.next) return ends();
    const bool takes_fallback = !ways.empty() && ways[advice_.advice.best].kind == WayOn::Kind::fallback;
    leaves(takes_fallback ? *advice_.fallback : *advice_.next, takes_fallback);
  }

  void waits_here() {
    const MeetOption& meet = words_.option(*advice_.here);
    next_.meet = advice_.here;
    if (car_.since && now_ < *car_.since + meet.setup) {
      say(NextAction::Kind::set_up, "Set up at " + words_.place_of(*advice_.here) + ".", *car_.since + meet.setup);
      say_due(advice_.here);
    } else {
      const PassOdds& odds = words_.outlook(*advice_.here).odds;
      if (odds.due && odds.gone < likely_gone) {
        say(NextAction::Kind::wait, words_.due_words(*advice_.here), odds.due->p50);
        if (odds.gone >= worth_saying) next_.beside.push_back(words_.gone_words(*advice_.here));
      } else {
        say(NextAction::Kind::wait, "Wait here at " + words_.place_of(*advice_.here) + ".", advice_.advice.ask_again);
        say_due(advice_.here);
      }
    }
    next_.beside.push_back(advice_.headline);
  }

  void leaves(MeetOptionId to, bool is_fallback) {
    next_.meet = to;
    const auto by = is_fallback ? std::nullopt : advice_.advice.leave_by;
    if (by && *by > now_ && !advice_.here) {
      say(NextAction::Kind::leave,
          "Leave by " + minute_before(*by, plan_.ride.clock) + " for " + words_.place_of(to) + ".", *by);
    } else {
      say(NextAction::Kind::leave, "Leave now for " + words_.place_of(to) + (is_fallback ? ", the fallback." : "."),
          now_);
    }
    say_due(to);
    say_on_the_way(to);
  }

  void drives() {
    if (!advice_.next) return ends();
    next_.meet = advice_.next;
    const MeetOption& meet = words_.option(*advice_.next);
    std::optional<Instant> there;
    if (const auto& drive = plan_.task.drives.drive(car_.place, meet.place); drive && car_.since) {
      there = *car_.since + plan_.task.settings.drive_allowance * drive->time;
    }
    say(NextAction::Kind::drive, "Drive to " + words_.place_of(*advice_.next) + ".", there);
    if (there) {
      next_.beside.push_back("There about " + words_.clock(*there) + ", set up about " +
                             words_.clock(*there + meet.setup) + ".");
    }
    say_due(advice_.next);
    say_on_the_way(*advice_.next);
    next_.beside.emplace_back("Note it when the car has parked.");
  }

  void ends() {
    const CrewCar& car = at(plan_.task.cars, car_.car);
    if (!car.end || (*car.end == car_.place && !car_.is_driving)) {
      return say(NextAction::Kind::nothing, "Nothing is left to meet for " + car.name + ".");
    }
    next_.place = names_.place_name(*car.end);
    say(NextAction::Kind::go_back,
        "Go back to " + next_.place +
            (car.back_by ? ", there by " + minute_before(*car.back_by, plan_.ride.clock) : "") + ".",
        car.back_by);
  }

  void say_due(const std::optional<MeetOptionId>& id) {
    if (!id) return;
    const PassOdds& odds = words_.outlook(*id).odds;
    if (odds.gone >= worth_saying) next_.beside.push_back(words_.gone_words(*id));
    if (odds.due && odds.gone < likely_gone) next_.beside.push_back(words_.due_words(*id));
  }

  // Refills, rests and errands that the plan has on the way to a meet.
  void say_on_the_way(MeetOptionId to) {
    const auto& stops = plan_.plan.days[car_.car.value].stops;
    const auto meet = std::find_if(stops.begin(), stops.end(), [&](const auto& s) { return s.stop.option == to; });
    if (meet == stops.end()) return;
    auto from = meet;
    while (from != stops.begin() && !std::prev(from)->stop.option) --from;
    for (; from != meet; ++from) {
      next_.beside.push_back(
          from->stop.kind == PlannedStop::Kind::refill
              ? "On the way, by the plan: fill up at " + names_.place_name(from->place) + "."
              : "By the plan the driver rests before: " + fixed(in_minutes(from->leave - from->arrive), 0) + " min.");
    }
  }

  void tell_of_meet(MeetOptionId id) {
    next_.place = words_.place_of(id);
    const PassOutlook& pass = words_.outlook(id);
    if (!pass.seen && pass.odds.due) next_.due = pass.odds.due;
    next_.duties = duties_at(model_, id, car_.car, next_.kind);
    if (next_.kind != NextAction::Kind::pack) next_.get_out = get_out_at(plan_, model_, id);
  }

  void tell_of_place() {
    for (const RideCrewPoint& point : plan_.ride.crew_points) {
      if (!same_name(point.name, next_.place)) continue;
      for (const RideHazard& hazard : point.hazards) next_.hazards.push_back(hazard.what);
      if (!point.approach.empty()) next_.of_place.push_back("Way in: " + point.approach);
      for (const std::string& allowed : point.allowed) next_.of_place.push_back("Allowed: " + allowed);
      if (!point.note.empty()) next_.of_place.push_back(point.note);
      if (!point.recce.empty()) next_.of_place.push_back("Seen beforehand: " + point.recce);
    }
  }

  const RidePlan& plan_;
  const DayModel& model_;
  const DayAnswer& answer_;
  const CarOnDay& car_;
  const CarAdvice& advice_;
  DayNames names_;
  MeetWords words_;
  Instant now_;
  NextAction next_;
};

}  // namespace

std::string minute_before(Instant at, const Clock& clock) {
  return hours_minutes(Instant{minutes(std::floor(in_minutes(at.time_since_epoch())))}, clock);
}

NextAction next_action(const RidePlan& plan, const DayModel& model, const DayAnswer& answer, CarId car) {
  return Next(plan, model, answer, car).action();
}

}  // namespace outbye
