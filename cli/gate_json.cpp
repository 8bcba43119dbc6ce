// The gate and the day as JSON: docs/gate.md lists the fields.
#include "cli/gate_report.h"
#include "formats/plan_json/plan_json.h"

namespace outbye {
namespace {

std::string phase_name(GatePhase phase) {
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
  return "no presentation left";
}

std::string outlook_name(DayOutlook outlook) {
  switch (outlook) {
    case DayOutlook::no_limits:
      return "no limits";
    case DayOutlook::open:
      return "open";
    case DayOutlook::done:
      return "done";
    case DayOutlook::too_slow:
      return "too slow";
    case DayOutlook::too_fast:
      return "too fast";
    case DayOutlook::clash:
      break;
  }
  return "clash";
}

// Adds fields where there is a value.
struct Fields {
  const Clock& clock;
  Json json = Json::object();

  void time(const char* name, const std::optional<Instant>& at) {
    if (at) json[name] = iso8601(*at, clock);
  }
  void seconds(const char* name, const std::optional<Seconds>& duration) {
    if (duration) json[name] = rounded(duration->count(), 0);
  }
  void speed(const char* name, const std::optional<KmPerHour>& speed) {
    if (speed) json[name] = rounded(speed->value, 4);
  }
};

Json forecast_json(const RecoveryForecast& forecast, const Clock& clock) {
  Fields fields{clock};
  fields.json["basis"] = forecast.basis == RecoveryBasis::fitted  ? "fitted"
                         : forecast.basis == RecoveryBasis::rough ? "rough"
                                                                  : "nothing";
  fields.json["readings_used"] = forecast.readings_used;
  fields.time("p10", forecast.p10);
  fields.time("p50", forecast.p50);
  fields.time("p90", forecast.p90);
  if (forecast.chance_in_time) fields.json["chance_in_time"] = rounded(*forecast.chance_in_time, 3);
  if (forecast.basis != RecoveryBasis::nothing) {
    fields.json["curve"] = Json{{"at_arrival_bpm", rounded(forecast.curve.at_arrival.value, 1)},
                                {"resting_bpm", rounded(forecast.curve.resting.value, 1)},
                                {"tau_s", rounded(forecast.curve.tau.count(), 0)}};
  }
  fields.json["missing"] = forecast.missing;
  return fields.json;
}

Json gate_json_of(const GateReport& report, std::size_t i) {
  const DayLoop& loop = report.log.day.loops[i];
  const LoopProgress& progress = report.loops[i];
  const GateState& gate = progress.gate;
  Fields fields{report.log.clock};
  const bool is_finish = report.is_day ? i + 1 == report.loops.size() : loop.gate.is_finish;
  fields.json["gate"] = report.first_gate + i;
  fields.json["is_finish"] = is_finish;
  if (!loop.name.empty()) fields.json["loop"] = loop.name;
  if (loop.length > Metres{0.0}) fields.json["length_km"] = rounded(in_kilometres(loop.length), 3);
  fields.json["phase"] = phase_name(gate.phase);
  if (loop.out && *loop.out <= report.now) fields.time("out", loop.out);
  if (gate.phase != GatePhase::riding) fields.time("arrival", loop.gate.arrival);
  fields.time("earliest_presentation", gate.earliest_presentation);
  fields.time("latest_presentation", gate.latest_presentation);
  fields.seconds("time_left_s", gate.time_left);
  if (gate.at_once) fields.json["present_at_once"] = true;
  fields.time("in_time", gate.in_time);
  fields.seconds("recovery_s", gate.recovery);
  fields.seconds("hold_s", gate.hold);
  fields.time("out_time", gate.out_time);
  fields.time("out_time_if_accepted_now", gate.out_time_if_now);
  fields.json["presentations_used"] = gate.attempts_used;
  if (gate.attempts_left) fields.json["presentations_left"] = *gate.attempts_left;
  fields.seconds("late_departure_s", gate.late_departure);
  fields.seconds("early_departure_s", gate.early_departure);
  fields.seconds("riding_s", progress.riding);
  fields.speed("loop_speed_kmh", progress.loop_speed);
  fields.speed("phase_speed_kmh", progress.phase_speed);
  if (i == report.current) {
    fields.json["next"] = next_steps(gate, report.log.clock);
    if (report.forecast) fields.json["pulse_forecast"] = forecast_json(*report.forecast, report.log.clock);
  }
  fields.json["warnings"] = json_of(gate.warnings);
  fields.json["assumptions"] = gate.assumptions;
  return fields.json;
}

Json day_json(const DayProgress& day, const Clock& clock) {
  Fields fields{clock};
  fields.json["ridden_km"] = rounded(in_kilometres(day.ridden), 3);
  fields.json["remaining_km"] = rounded(in_kilometres(day.remaining), 3);
  fields.seconds("riding_s", day.riding);
  fields.seconds("elapsed_s", day.elapsed);
  fields.seconds("late_departures_s", day.late_departures);
  fields.speed("average_kmh", day.average);
  fields.json["outlook"] = outlook_name(day.outlook);
  fields.speed("needed_kmh", day.needed);
  if (!day.needed_for.empty()) fields.json["needed_for"] = day.needed_for;
  fields.speed("allowed_kmh", day.allowed);
  fields.speed("fastest_loop_kmh", day.loop_cap);
  fields.time("latest_finish", day.latest_finish);
  fields.json["in_words"] = describe(day, clock);
  fields.json["warnings"] = json_of(day.warnings);
  return fields.json;
}

}  // namespace

std::string gate_json(const GateReport& report) {
  Json json{{"format", "outbye gate"}, {"version", 1}};
  if (!report.log.name.empty()) json["name"] = report.log.name;
  json["now"] = iso8601(report.now, report.log.clock);
  json["gates"] = Json::array();
  for (std::size_t i = 0; i < report.loops.size(); ++i) json["gates"].push_back(gate_json_of(report, i));
  json["current"] = report.current;
  if (report.day) json["day"] = day_json(*report.day, report.log.clock);
  if (report.index) {
    json["recovery_index"] = Json{{"rise_bpm", rounded(report.index->rise.value, 1)},
                                  {"is_suspect", report.index->is_suspect},
                                  {"warnings", json_of(report.index->warnings)}};
  }
  if (!report.log.rules.book_id.empty()) json["set_for_this_event"] = report.log.rules.overridden;
  json["last_word"] = gate_last_word();
  return pretty_json(json);
}

}  // namespace outbye
