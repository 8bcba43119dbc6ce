// Where the parts of check_rules() put what they find. Inside this folder only.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/rules/rule_check.h"
#include "core/rules/rule_fields.h"
#include "core/rules/rule_set.h"

namespace outbye {

class Findings {
 public:
  // A rule is not kept: a break where the number can be trusted, a question where it is weak. `says` is a clause that
  // can stand after "ask the officials: ".
  template <class T>
  void not_kept(const std::string& where, const std::string& says, const Ruled<T>& rule) {
    const bool is_firm = rule.mark == Mark::published || rule.mark == Mark::event;
    add(is_firm ? RuleFinding::Severity::breaks : RuleFinding::Severity::asks, where,
        is_firm ? says : "ask the officials: " + says, rule.mark, rule.source);
  }
  void ask(const std::string& where, const std::string& question) {
    add(RuleFinding::Severity::asks, where, "ask the officials: " + question, std::nullopt, "");
  }
  template <class T>
  void ask(const std::string& where, const std::string& question, const Ruled<T>& rule) {
    add(RuleFinding::Severity::asks, where, "ask the officials: " + question, rule.mark, rule.source);
  }
  void note(const std::string& where, const std::string& says) {
    add(RuleFinding::Severity::notes, where, says, std::nullopt, "");
  }
  template <class T>
  void note(const std::string& where, const std::string& says, const Ruled<T>& rule) {
    add(RuleFinding::Severity::notes, where, says, rule.mark, rule.source);
  }
  std::vector<RuleFinding> taken() { return std::move(found_); }

 private:
  void add(RuleFinding::Severity severity, const std::string& where, const std::string& what, std::optional<Mark> mark,
           const std::string& source) {
    found_.push_back({severity, where, what, mark, source});
  }
  std::vector<RuleFinding> found_;
};

// Distance, loops, speeds, time limit, rider weight.
void check_ride_rules(const RuleSet& rules, const RideFacts& ride, Findings& findings);
// Holds, recovery, and what a book leaves open about the gates and the finish.
void check_gate_rules(const RuleSet& rules, const RideFacts& ride, Findings& findings);
// How many people, where they may help, and the dark.
void check_crew_rules(const RuleLevel& level, const RideFacts& ride, Findings& findings);

// The whole course: as given, or the sum of the loops.
std::optional<Metres> length_of(const RideFacts& ride);

// "2:40:00": a riding time to the second, as speed windows are read out.
std::string clock_words(Seconds duration);

}  // namespace outbye
