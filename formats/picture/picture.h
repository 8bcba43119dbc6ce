// Pictures of a plan: SVG 1.1 text for A4 landscape (1123 x 794 units of 1/96 inch), text at least 9 units high. The
// same plan gives the same bytes. Readable in grey: dashes, shapes and numbers carry the meaning, colour only helps.
#pragma once

#include <string>

#include "core/roads/road_graph.h"
#include "engine/use_cases.h"

namespace outbye {

// The course loop by loop with kilometre marks, crew points with the chance of each meet, and the cars' drives. `roads`
// may be null: then the background is blank. Labels never cover each other; one that finds no room becomes a number
// with its name in the margin.
std::string course_map_svg(const RidePlan& plan, const RoadGraph* roads);

// Clock time to the right, kilometres of the ride upwards: each horse as a p10 to p90 band around its p50 line, with
// recovery and hold as level stretches; each car as drives, set-up, wait, meet and pack, with its odds and leave-by.
std::string time_distance_svg(const RidePlan& plan);

}  // namespace outbye
