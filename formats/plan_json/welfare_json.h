// Heat, light, water and rules of a plan as JSON: parts of docs/schema/plan-1.json that `outbye check`, `outbye heat`
// and others share.
#pragma once

#include <string>
#include <vector>

#include "core/rules/rule_check.h"
#include "core/rules/rule_set.h"
#include "core/welfare/heat_load.h"
#include "core/welfare/sun.h"
#include "engine/use_cases.h"
#include "formats/json_text/json_text.h"

namespace outbye {

// "comfortable", "extreme", ...: stable words for programs.
std::string word(HeatBand band);
std::string word(Light light);
std::string word(RuleFinding::Severity severity);

// Every index with its name, the band and which index set it, and the limits that apply, in sentences.
Json json_of(const HeatLoad& load);
Json json_of(const SunTimes& sun, const Clock& clock);
Json json_of(const CrewHeat& heat);
Json json_of(const Interval<Litres>& interval);  // [from, to]
Json json_of(const WaterBalance& water);
Json json_of(const CoolingAdvice& cooling);
Json json_of(const HorseDayWater& day);
Json json_of(const std::vector<RuleFinding>& findings);
// The book and level, and what the event sets differently.
Json json_of(const RuleSet& rules);

// Adds what a pass asks to its object.
void add_welfare(Json& pass, const PassWelfare& welfare);
// Sun, crew heat and the heat along the course.
Json json_of(const RideWelfare& welfare, const Ride& ride);

}  // namespace outbye
