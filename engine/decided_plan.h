// A plan that was made elsewhere: what was decided and what it rests on, without what follows from these. For a packed
// ride, whose plan must be the one on paper and not one searched anew.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/roads/drive_table.h"
#include "engine/use_cases.h"

namespace outbye {

struct DecidedPlan {
  Ride ride;  // as the plan was asked for: defaults not filled in
  CourseReport survey;
  std::vector<PlaceReport> places;
  DriveTable drives;                 // rows are `places`
  std::vector<RuleBook> rule_books;  // those that the ride names
  CrewPlan plan;
  ErrandPlan errands;
  std::vector<std::vector<std::optional<Route>>> routes;
  Warnings warnings;
  std::vector<std::string> assumptions;
};

// `inputs` are those that `plan` was made from; its rule books beside the one that the ride names are left out.
DecidedPlan decided_plan(const RideInputs& inputs, const RidePlan& plan);

// The whole plan again: days simulated, forecasts, heat, water and rule findings worked out. The same ride gives what
// plan_ride gave, to the bit in the same build. Errors: bad_input when plan, places and ride do not fit together.
Result<RidePlan> dressed_plan(DecidedPlan decided);

}  // namespace outbye
