#include "engine/day_gates.h"

#include "core/rules/rule_set.h"
#include "engine/day.h"
#include "engine/day_names.h"

namespace outbye {
namespace {

std::optional<RecoveryForecast> recovery_of(const GateRules& rules, const GateVisit& visit, const GateState& gate,
                                            Instant now) {
  const auto limit = greatest_accepted(rules);
  if (!limit || (gate.phase != GatePhase::recovering && gate.phase != GatePhase::waiting)) return std::nullopt;
  std::vector<PulseReading> readings;
  for (const GatePulse& pulse : visit.pulses) {
    if (pulse.at <= now) readings.push_back({pulse.at, pulse.pulse});
  }
  return forecast_recovery(*visit.arrival, readings, *limit, gate.latest_presentation);
}

}  // namespace

GateRules rules_of_gate(const RidePlan& plan, LoopId loop, bool is_finish) {
  GateRules rules;
  if (plan.rules) rules = is_finish ? finish_rules(*plan.rules) : gate_rules(*plan.rules, loop.value + 1);
  if (is_finish) return rules;
  // The plan counts on this hold; the loop's own value wins over the book's in the plan, so here as well.
  rules.hold = Ruled<Seconds>{at(plan.ride.loops, loop).pace.hold, Mark::event, "the ride's plan"};
  if (!rules.hold_from) rules.hold_from = Ruled<HoldFrom>{HoldFrom::in_time, Mark::event, "the ride's plan"};
  return rules;
}

std::vector<GateNow> gates_now(const RidePlan& plan, const DayState& state) {
  std::vector<GateNow> all;
  const DayNames names(plan);
  for (const HorseOnDay& horse : state.horses) {
    if (horse.seen.empty()) continue;
    const std::size_t event = horse.seen.back().event;
    const RideEvent& where = names.events()[event];
    if (where.pass || horse.seen.back().out) continue;
    GateVisit visit = horse.gates[where.loop.value];
    if (!visit.arrival) visit.arrival = visit.in_time;  // only the in-time was noted
    if (!visit.arrival || visit.left) continue;
    GateNow gate;
    gate.horse = horse.horse;
    gate.event = event;
    gate.label = names.label(horse.horse, event);
    gate.is_finish = where.kind == RideEvent::Kind::finish;
    const GateRules rules = rules_of_gate(plan, where.loop, gate.is_finish);
    gate.state = gate_state(rules, visit, state.now);
    gate.recovery = recovery_of(rules, visit, gate.state, state.now);
    if (horse.accepted[where.loop.value] == false) {
      gate.steps.emplace_back("Noted as not accepted here: go by what the vet and the officials say now.");
    } else {
      gate.steps = next_steps(gate.state, plan.ride.clock);
      if (gate.recovery && gate.recovery->basis != RecoveryBasis::nothing) {
        for (auto& s : describe(*gate.recovery, *greatest_accepted(rules), state.now, plan.ride.clock)) {
          gate.steps.push_back(std::move(s));
        }
      }
    }
    all.push_back(std::move(gate));
  }
  return all;
}

}  // namespace outbye
