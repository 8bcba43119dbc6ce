// A plan as numbers ready to be scaled, for whoever draws it: docs/schema/day-drawing-1.json. Times are whole seconds
// since 1970 UTC, distances kilometres of the ride, positions [longitude, latitude].
#pragma once

#include <string>

#include "core/roads/road_graph.h"
#include "engine/use_cases.h"
#include "formats/json_text/json_text.h"

namespace outbye {

constexpr int day_drawing_version = 1;

// `roads` may be null: then the ways to errands and home are straight lines.
Json day_drawing_json(const RidePlan& plan, const RoadGraph* roads);

// docs/schema/plan-changes-1.json
Json plan_changes_json(const RidePlan& before, const RidePlan& after);

// Odds in words: "all but sure" from 95 % ready before the horse, "likely" from 80 %, "even" from 50 %, "unlikely".
std::string odds_in_words(double chance_ready);

}  // namespace outbye
