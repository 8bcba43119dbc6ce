#include <algorithm>
#include <cmath>

#include "core/base/text.h"
#include "core/rules/findings.h"

namespace outbye {
namespace {

// Below this chance of being accepted in time a gate is named: one day in ten goes wrong, as in every window shown.
constexpr double named_below = 0.9;

void check_recovery(const std::string& where, const GateRules& gate, const GateFacts& facts, Findings& findings) {
  if (!gate.present_within) return;
  const auto& within = *gate.present_within;
  if (facts.recovery && *facts.recovery > within.value) {
    findings.not_kept(where,
                      "the pulse is expected down " + in_words(*facts.recovery) +
                          " after arrival; to be presented within " + in_words(within.value),
                      within);
  } else if (facts.chance_in_time && *facts.chance_in_time < named_below) {
    findings.note(where,
                  "accepted in time on " + fixed(std::floor(100.0 * *facts.chance_in_time), 0) +
                      " of 100 days; to be presented within " + in_words(within.value),
                  within);
  }
}

void check_hold(const std::string& where, const GateRules& gate, const GateFacts& facts, Findings& findings) {
  if (!gate.hold || !facts.hold || *facts.hold >= gate.hold->value) return;
  findings.not_kept(
      where, "a hold of " + in_words(*facts.hold) + " is planned, at least " + in_words(gate.hold->value) + " is asked",
      *gate.hold);
}

// What a gate needs before its clock can be worked.
std::vector<std::string> open_questions(const GateRules& gate, bool is_finish) {
  std::vector<std::string> open;
  if (!gate.pulse_limit) open.emplace_back("which pulse limit holds?");
  if (!gate.present_within && !gate.present_at_once) {
    open.emplace_back("within which time is the horse to be presented?");
  }
  if (is_finish) return open;
  if (!gate.hold) open.emplace_back("how long is the hold?");
  if (!gate.hold_from) open.emplace_back("does the hold run from arrival or from in-time?");
  return open;
}

// One question for all gates where all leave it open, else with their numbers.
void ask_about_gates(const RuleSet& rules, std::uint32_t gates, Findings& findings) {
  std::vector<std::pair<std::string, std::vector<std::uint32_t>>> open;
  for (std::uint32_t gate = 1; gate <= gates; ++gate) {
    for (const auto& question : open_questions(gate_rules(rules, gate), false)) {
      const auto it =
          std::find_if(open.begin(), open.end(), [&](const auto& known) { return known.first == question; });
      if (it == open.end()) {
        open.push_back({question, {gate}});
      } else {
        it->second.push_back(gate);
      }
    }
  }
  for (const auto& [question, where] : open) {
    std::string name = where.size() == 1 ? "gate" : "gates";
    if (where.size() == gates && gates > 1) {
      name = "every gate";
    } else {
      for (std::size_t i = 0; i < where.size(); ++i) name += (i == 0 ? " " : ", ") + std::to_string(where[i]);
    }
    findings.ask(name, question + " The book gives none");
  }
}

void note_attempts(const std::string& where, const GateRules& gate, Findings& findings) {
  if (!gate.attempts || gate.attempts->value != 1) return;
  findings.note(where, "the horse is presented once only: no second try", *gate.attempts);
}

}  // namespace

void check_gate_rules(const RuleSet& rules, const RideFacts& ride, Findings& findings) {
  // Gates follow every loop but the last; a plan may give the gates alone.
  const std::size_t by_loops = ride.loops.empty() ? 0 : ride.loops.size() - 1;
  const auto gates = static_cast<std::uint32_t>(std::max(by_loops, ride.gates.size()));
  for (std::uint32_t gate = 1; gate <= gates; ++gate) {
    const GateRules asked = gate_rules(rules, gate);
    const std::string where = "gate " + std::to_string(gate);
    const GateFacts facts = gate <= ride.gates.size() ? ride.gates[gate - 1] : GateFacts{};
    check_hold(where, asked, facts, findings);
    check_recovery(where, asked, facts, findings);
    note_attempts(where, asked, findings);
  }
  ask_about_gates(rules, gates, findings);
  const GateRules finish = finish_rules(rules);
  check_recovery("finish", finish, ride.finish.value_or(GateFacts{}), findings);
  note_attempts("finish", finish, findings);
  for (const auto& question : open_questions(finish, true)) findings.ask("finish", question + " The book gives none");
}

}  // namespace outbye
