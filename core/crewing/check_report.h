// What the checker's parts share: the plan under the lens and the reasons found against it.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/base/result.h"
#include "core/crewing/crewing_task.h"
#include "core/crewing/plan.h"

namespace outbye {

struct CheckReport {
  std::vector<Problem> reasons;
  void refuse(std::string where, std::string what) {
    reasons.push_back({Problem::Kind::impossible, std::move(where), std::move(what)});
  }
};

// Do all indices name something that is there, and is there one day a car in order? The other checks rely on it.
bool check_names(const CrewingTask& task, const CrewPlan& plan, CheckReport& report);
// One car through its day: drives, times, openings, water, fuel, breaks, the way home.
void check_car(const CrewingTask& task, const CarDay& day, CheckReport& report);
// Who meets what: each once, `must`, `never`, `only_car`.
void check_choices(const CrewingTask& task, const CrewPlan& plan, CheckReport& report);
// When the horses come and go on the simulated days.
void check_horses(const CrewingTask& task, const CrewPlan& plan, CheckReport& report);
// Odds, worth, bounds.
void check_values(const CrewingTask& task, const CrewPlan& plan, CheckReport& report);

}  // namespace outbye
