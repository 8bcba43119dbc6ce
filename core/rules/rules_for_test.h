// Rules and a ride to check, and what is found in words. For the tests of this folder.
#pragma once

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ostream>
#include <string>
#include <vector>

#include "core/rules/rule_check.h"

namespace outbye {

inline void PrintTo(const RuleFinding& finding, std::ostream* out) {
  *out << static_cast<int>(finding.severity) << " " << finding.where << ": " << finding.what;
}

using Severity = RuleFinding::Severity;

template <class T>
Rule<T> published(T value) {
  return Ruled<T>{value, Mark::published, "Invented rules, Art. 1"};
}
template <class T>
Rule<T> weak(T value) {
  return Ruled<T>{value, Mark::common_practice, ""};
}

inline auto finding(Severity severity, const std::string& where, const std::string& words) {
  return testing::AllOf(testing::Field(&RuleFinding::severity, severity), testing::Field(&RuleFinding::where, where),
                        testing::Field(&RuleFinding::what, testing::HasSubstr(words)));
}
inline auto breaks(const std::string& where, const std::string& words) {
  return finding(Severity::breaks, where, words);
}
inline auto asks(const std::string& where, const std::string& words) { return finding(Severity::asks, where, words); }
inline auto notes(const std::string& where, const std::string& words) { return finding(Severity::notes, where, words); }

// 80 km in two loops of 40 km at 12 km/h, one gate.
inline RideFacts two_loops() {
  RideFacts ride;
  ride.loops = {{"Red", kilometres(40), KmPerHour{12}, {}}, {"Blue", kilometres(40), KmPerHour{12}, {}}};
  ride.gates = {{minutes(40), minutes(5), 0.99}};
  ride.finish = GateFacts{std::nullopt, minutes(6), 0.99};
  return ride;
}

// Answers every question, so that a test sees only what it is about.
inline RuleSet full_rules() {
  RuleSet rules;
  RuleLevel& level = rules.level;
  level.distance = published(Interval<Metres>{kilometres(70), kilometres(90)});
  level.min_speed = published(KmPerHour{9});
  level.max_speed = published(KmPerHour{18});
  level.gate.pulse_limit = published(BeatsPerMinute{64});
  level.gate.present_within = published(minutes(20));
  level.gate.hold = published(minutes(40));
  level.gate.hold_from = published(HoldFrom::in_time);
  level.finish = level.gate;
  level.crew_anywhere = published(false);
  return rules;
}

inline std::vector<RuleFinding> broken(const std::vector<RuleFinding>& found) {
  std::vector<RuleFinding> some;
  for (const auto& f : found) {
    if (f.severity != Severity::notes) some.push_back(f);
  }
  return some;
}

}  // namespace outbye
