#include "formats/day_log/day_next_json.h"

#include "formats/plan_json/plan_json.h"

namespace outbye {
namespace {

const char* phase_name(GatePhase phase) {
  switch (phase) {
    case GatePhase::riding:
      return "riding";
    case GatePhase::waiting:
      return "waiting";
    case GatePhase::recovering:
      return "recovering";
    case GatePhase::holding:
      return "holding";
    case GatePhase::hold_over:
      return "hold over";
    case GatePhase::finished:
      return "finished";
    case GatePhase::left:
      return "left";
    case GatePhase::out_of_time:
      return "out of time";
    case GatePhase::no_attempts_left:
      break;
  }
  return "no attempts left";
}

void put(Json& json, const char* field, const std::optional<Instant>& time, const Clock& clock) {
  if (time) json[field] = iso8601(*time, clock);
}
void put(Json& json, const char* field, const std::optional<Seconds>& time) {
  if (time) json[field] = rounded(time->count(), 0);
}

}  // namespace

Json next_action_json(const RidePlan& plan, const NextAction& next) {
  const Clock& clock = plan.ride.clock;
  Json json{{"kind", next_action_name(next.kind)}, {"words", next.words}, {"beside", next.beside}};
  put(json, "at", next.at, clock);
  put(json, "until_s", next.until);
  json["place"] = next.place;
  if (next.meet) json["meet"] = at(plan.task.options, *next.meet).label;
  if (next.due) json["due"] = json_of(*next.due, clock);
  Json duties = Json::array();
  for (const DayDuty& duty : next.duties) {
    duties.push_back({{"who", duty.who}, {"tasks", duty.tasks}, {"cautions", duty.cautions}});
  }
  json["duties"] = std::move(duties);
  json["get_out"] = next.get_out;
  json["hazards"] = next.hazards;
  json["of_place"] = next.of_place;
  Json alarms = Json::array();
  for (const DayAlarm& alarm : next.alarms) {
    alarms.push_back({{"kind", day_alarm_name(alarm.kind)}, {"at", iso8601(alarm.at, clock)}, {"words", alarm.words}});
  }
  json["alarms"] = std::move(alarms);
  return json;
}

Json gate_json(const RidePlan& plan, const GateNow& gate) {
  const Clock& clock = plan.ride.clock;
  const GateState& s = gate.state;
  Json json{{"horse", at(plan.ride.horses, gate.horse).name},
            {"label", gate.label},
            {"finish", gate.is_finish},
            {"phase", phase_name(s.phase)},
            {"steps", gate.steps}};
  put(json, "present_from", s.earliest_presentation, clock);
  put(json, "present_by", s.latest_presentation, clock);
  put(json, "time_left_s", s.time_left);
  put(json, "in_time", s.in_time, clock);
  put(json, "out_time", s.out_time, clock);
  put(json, "to_out_time_s", s.to_out_time);
  put(json, "out_time_if_now", s.out_time_if_now, clock);
  if (s.attempts_left) json["presentations_left"] = *s.attempts_left;
  if (s.last_pulse) {
    json["last_pulse"] = {{"at", iso8601(s.last_pulse->at, clock)}, {"beats", rounded(s.last_pulse->pulse.value, 1)}};
  }
  if (gate.recovery && gate.recovery->p50) {
    Json down = Json::object();
    put(down, "p10", gate.recovery->p10, clock);
    put(down, "p50", gate.recovery->p50, clock);
    put(down, "p90", gate.recovery->p90, clock);
    json["pulse_down"] = std::move(down);
  }
  std::vector<std::string> warnings;
  for (const Warning& w : s.warnings) warnings.push_back(w.where + " " + w.what);
  json["warnings"] = warnings;
  json["assumptions"] = s.assumptions;
  return json;
}

}  // namespace outbye
