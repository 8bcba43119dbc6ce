// What a ride or its plan is, as the rules ask it. Internal to engine.
#pragma once

#include "engine/use_cases.h"

namespace outbye {

// Of the course and the ride file alone: lengths, speeds and holds as typed.
RideFacts course_facts(const Ride& ride, const Course& course);

// With what the simulated days say: speeds with their ranges, recoveries, elapsed time, passes in the dark. Of several
// horses the facts are those of `horse`. `rules` gives the presentation limits that chances are worked out against.
RideFacts plan_facts(const RidePlan& plan, HorseId horse, const RuleSet& rules);

// Findings of all horses, each said once; those that are about one horse of several name it.
std::vector<RuleFinding> plan_findings(const RidePlan& plan, const RuleSet& rules);

}  // namespace outbye
