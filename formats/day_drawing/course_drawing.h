// The course and the roads of a drawing. Internal to day_drawing.
#pragma once

#include "core/roads/road_graph.h"
#include "engine/use_cases.h"
#include "formats/json_text/json_text.h"

namespace outbye {

Json km_drawn(Metres along);          // to the metre
Json position_drawn(Position place);  // [longitude, latitude], to 0.1 m

Json loops_drawn(const RidePlan& plan);
Json points_drawn(const RidePlan& plan);
// The drives of a car, in order of its day: into each stop, from one errand to the next, and home.
Json drives_drawn(const RidePlan& plan, std::size_t car, const RoadGraph* roads);

}  // namespace outbye
