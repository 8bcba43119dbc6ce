#include "cli/gate_report.h"

namespace outbye {
namespace {

GateVisit visit_of(const GateReport& report, std::size_t i) {
  GateVisit visit = report.log.day.loops[i].gate;
  visit.gate = report.first_gate + static_cast<std::uint32_t>(i);
  return visit;
}

// One gate: its state, and the speeds of its loop where --out and --km give them.
LoopProgress single_gate(const GateReport& report) {
  const DayLoop& loop = report.log.day.loops.front();
  LoopProgress progress;
  progress.gate = gate_state(loop.rules, visit_of(report, 0), report.now);
  if (!loop.out || progress.gate.phase == GatePhase::riding) return progress;
  if (progress.gate.clock_stop) progress.riding = *progress.gate.clock_stop - *loop.out;
  if (!(loop.length > Metres{0.0})) return progress;
  progress.loop_speed = loop.length / (*loop.gate.arrival - *loop.out);
  if (progress.gate.in_time) progress.phase_speed = loop.length / (*progress.gate.in_time - *loop.out);
  return progress;
}

// The last gate that the horse has reached and not left; on a loop, the gate that ends it.
std::size_t current_gate(const std::vector<LoopProgress>& loops) {
  for (std::size_t i = 0; i < loops.size(); ++i) {
    if (loops[i].gate.phase != GatePhase::left) return i;
  }
  return loops.size() - 1;
}

}  // namespace

Result<void> work_out(GateReport& report, const RecoveryPrior& prior) {
  if (report.is_day) {
    auto day = day_progress(report.log.rules.level, report.log.day, report.now);
    if (!day) return tl::make_unexpected(day.error());
    report.loops = day->loops;
    report.day = std::move(*day);
  } else {
    report.loops = {single_gate(report)};
  }
  report.current = current_gate(report.loops);
  const DayLoop& loop = report.log.day.loops[report.current];
  const GateState& gate = report.loops[report.current].gate;
  const auto limit = greatest_accepted(loop.rules);
  const bool recovers = gate.phase == GatePhase::waiting || gate.phase == GatePhase::recovering;
  if (!limit || !recovers || gate.last_is_down) return {};
  std::vector<PulseReading> readings;
  for (const auto& pulse : loop.gate.pulses) {
    if (pulse.at <= report.now) readings.push_back({pulse.at, pulse.pulse});
  }
  report.forecast = forecast_recovery(*loop.gate.arrival, readings, *limit, gate.latest_presentation, prior);
  return {};
}

std::string gate_last_word() {
  return "The vet's and the officials' decision is final, and the rules of the day win over every number here.";
}

}  // namespace outbye
