// Heat, light, water and rules of a plan for people, in 80 columns.
#pragma once

#include <string>
#include <vector>

#include "cli/console.h"
#include "engine/use_cases.h"

namespace outbye {

// Per horse a row a pass, then what follows from it; empty for a plan without welfare.
std::string welfare_sections(const RidePlan& plan, const Style& style);

// What is broken, what is to be asked, what is to be known. Empty without findings.
std::string rules_section(const std::optional<RuleSet>& rules, const std::vector<RuleFinding>& findings,
                          const Style& style);

// "Light from 03:58 (civil dawn), sunrise 04:41, ..."
std::string sun_sentence(const SunTimes& sun, const Clock& clock);

}  // namespace outbye
