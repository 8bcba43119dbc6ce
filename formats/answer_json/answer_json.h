// The answers beside the plan as JSON, version 1 each: the course checked, heat, kit with stock, load, jobs. The
// schemas are in docs/schema; the plan itself is formats/plan_json.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/jobs.h"
#include "engine/kit.h"
#include "engine/load.h"
#include "engine/stock.h"
#include "engine/use_cases.h"
#include "formats/json_text/json_text.h"

namespace outbye {

// A place of the ride as cars reach it; a road, or why there is none.
struct RoadCheck {
  std::string name;
  std::optional<Snap> snap;
  std::string problem;
};
// Venue and crew points; empty without a road map.
std::vector<RoadCheck> check_roads(const RideInputs& inputs, const CourseReport& survey);

struct CheckAnswer {
  CourseReport survey;
  std::vector<RoadCheck> roads;
  std::optional<RuleSet> rules;
  std::vector<RuleFinding> findings;
  Warnings warnings;  // of the files and the course
};
// Errors: as survey_course and ride_rules. `warnings`: of the files.
Result<CheckAnswer> check_course(const RideInputs& inputs, const Warnings& warnings);
Json check_json(const std::string& name, const CheckAnswer& answer);  // check-1.json

// The hours of a weather at one place.
struct HeatHours {
  Weather weather;  // not empty
  Position place;
  Clock clock;
  std::vector<HeatLoad> loads;  // one an hour
};
Json heat_json(const HeatHours& hours, bool people_are_acclimatised);  // heat-1.json

// `stock`: stock_json() of the same plan.
Json kit_json(const std::string& ride, const KitPlan& kit, const Json& stock);  // kit-1.json
Json stock_json(const std::vector<CarStock>& stocks);                           // docs/stock.md lists the fields

struct LoadAnswer {
  RideLoad load;
  std::vector<std::optional<LoadAfterStop>> after;  // one a car when it was asked for, else empty
  Warnings warnings;                                // of the files and the plan
  std::vector<std::string> pictures;                // files written
};
Json load_json(const RidePlan& plan, const LoadAnswer& answer);  // load-1.json

Json jobs_json(const RidePlan& plan, const RideJobs& jobs);  // jobs-1.json

}  // namespace outbye
