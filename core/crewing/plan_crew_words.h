// What a plan says about itself: its weakest meet, warnings, and what is proven.
#pragma once

#include <string>

#include "core/crewing/plan.h"
#include "core/crewing/search.h"

namespace outbye {

// Sets `weakest` and `warnings`. The plan's days must be complete.
void explain_plan(const CrewingTask& task, CrewPlan& plan);

// One or two sentences for people on the worth at median times.
std::string sentence_on_exactness(const SearchResult& found, const PlanValue& value);

}  // namespace outbye
