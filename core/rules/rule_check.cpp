#include "core/rules/rule_check.h"

#include <algorithm>
#include <cmath>

#include "core/rules/findings.h"

namespace outbye {

std::optional<Metres> length_of(const RideFacts& ride) {
  if (ride.length) return ride.length;
  if (ride.loops.empty()) return std::nullopt;
  Metres sum{};
  for (const auto& loop : ride.loops) sum += loop.length;
  return sum;
}

std::string clock_words(Seconds duration) {
  const auto whole = static_cast<std::int64_t>(std::llround(duration.count()));
  const auto two = [](std::int64_t n) { return (n < 10 ? "0" : "") + std::to_string(n); };
  return std::to_string(whole / 3600) + ":" + two(whole / 60 % 60) + ":" + two(whole % 60);
}

std::vector<RuleFinding> check_rules(const RuleSet& rules, const RideFacts& ride) {
  Findings findings;
  check_ride_rules(rules, ride, findings);
  check_gate_rules(rules, ride, findings);
  check_crew_rules(rules.level, ride, findings);
  auto found = findings.taken();
  std::stable_sort(found.begin(), found.end(),
                   [](const RuleFinding& a, const RuleFinding& b) { return a.severity < b.severity; });
  // The federation's rules refer to schedule, briefing and officials throughout; so does every national body.
  found.push_back({RuleFinding::Severity::notes, "ride",
                   "the rules of the day win: schedule, briefing and officials override every number here",
                   std::nullopt, "FEI Endurance Rules 2019, Art. 800.4-801; FEI Endurance Rules 2020"});
  return found;
}

}  // namespace outbye
