#include "engine/day_alarms.h"

#include <algorithm>

#include "engine/day_meet_words.h"

namespace outbye {
namespace {

class Alarms {
 public:
  Alarms(const RidePlan& plan, const DayAnswer& answer, const NextAction& next)
      : plan_(plan),
        answer_(answer),
        of_(next),
        car_(at(answer.state.cars, next.car)),
        advice_(at(answer.cars, next.car)),
        words_(plan, answer),
        now_(answer.state.now) {}

  std::vector<DayAlarm> all() {
    using Kind = DayAlarm::Kind;
    const Clock& local = plan_.ride.clock;
    const auto& by = advice_.advice.leave_by;
    if (by && advice_.next && !car_.is_driving) {
      alarm(Kind::leave_by, by,
            "Leave by " + minute_before(*by, local) + " for " + words_.place_of(*advice_.next) + ".");
    }
    if (of_.kind == NextAction::Kind::set_up) {
      alarm(Kind::set_up_by, of_.at, "Set up by " + minute_before(*of_.at, local) + ".");
    }
    for (const auto& id : {advice_.here, advice_.next}) {
      if (!id || words_.outlook(*id).seen || !words_.outlook(*id).odds.due) continue;
      const Instant from = words_.outlook(*id).odds.due->p10;
      alarm(Kind::due_from, from,
            words_.Her(words_.option(*id).horse) + " may come to " + words_.place_of(*id) + " from " +
                minute_before(from, local) + ".");
    }
    if (const auto& again = advice_.advice.ask_again; again && of_.kind == NextAction::Kind::wait && advice_.next) {
      alarm(Kind::ask_again, again, "It is " + words_.clock(*again) + ": wait on or drive on? Ask again.");
    }
    for (const GateNow& gate : answer_.gates) set_gate_alarms(gate);
    if (const auto& back = at(plan_.task.cars, car_.car).back_by; back && at(plan_.task.cars, car_.car).end) {
      alarm(Kind::back_by, back, "Be back by " + minute_before(*back, local) + ".");
    }
    std::stable_sort(alarms_.begin(), alarms_.end(), [](const DayAlarm& a, const DayAlarm& b) { return a.at < b.at; });
    return std::move(alarms_);
  }

 private:
  void alarm(DayAlarm::Kind kind, std::optional<Instant> when, std::string words) {
    if (when && *when > now_) alarms_.push_back({kind, *when, std::move(words)});
  }

  void set_gate_alarms(const GateNow& gate) {
    using Kind = DayAlarm::Kind;
    const GateState& s = gate.state;
    const std::string of = plan_.ride.horses.size() > 1 ? " (" + words_.her(gate.horse) + ")" : "";
    const auto exact = [&](Instant when) { return clock_words(when, plan_.ride.clock); };
    if (s.phase == GatePhase::waiting) {
      alarm(Kind::present_from, s.earliest_presentation,
            "Present to the vet from " + exact(*s.earliest_presentation) + " on" + of + ".");
    }
    if (s.latest_presentation && (s.phase == GatePhase::waiting || s.phase == GatePhase::recovering)) {
      alarm(Kind::present_by, s.latest_presentation,
            "Present to the vet by " + exact(*s.latest_presentation) + of + ".");
    }
    if (s.phase == GatePhase::holding && s.out_time) {
      alarm(Kind::out_time, s.out_time, "Out-time " + exact(*s.out_time) + of + ": be at the start.");
    }
  }

  const RidePlan& plan_;
  const DayAnswer& answer_;
  const NextAction& of_;
  const CarOnDay& car_;
  const CarAdvice& advice_;
  MeetWords words_;
  Instant now_;
  std::vector<DayAlarm> alarms_;
};

}  // namespace

const char* day_alarm_name(DayAlarm::Kind kind) {
  switch (kind) {
    case DayAlarm::Kind::leave_by:
      return "leave by";
    case DayAlarm::Kind::set_up_by:
      return "set up by";
    case DayAlarm::Kind::due_from:
      return "due from";
    case DayAlarm::Kind::present_from:
      return "present from";
    case DayAlarm::Kind::present_by:
      return "present by";
    case DayAlarm::Kind::out_time:
      return "out-time";
    case DayAlarm::Kind::ask_again:
      return "ask again";
    case DayAlarm::Kind::back_by:
      break;
  }
  return "back by";
}

const char* next_action_name(NextAction::Kind kind) {
  switch (kind) {
    case NextAction::Kind::leave:
      return "leave";
    case NextAction::Kind::drive:
      return "drive";
    case NextAction::Kind::set_up:
      return "set up";
    case NextAction::Kind::wait:
      return "wait";
    case NextAction::Kind::serve:
      return "serve";
    case NextAction::Kind::gate:
      return "gate";
    case NextAction::Kind::pack:
      return "pack";
    case NextAction::Kind::go_back:
      return "go back";
    case NextAction::Kind::nothing:
      break;
  }
  return "nothing";
}

std::vector<DayAlarm> alarms_of(const RidePlan& plan, const DayAnswer& answer, const NextAction& next) {
  return Alarms(plan, answer, next).all();
}

}  // namespace outbye
