// Planned meets and drives as GPX 1.1, for GPS devices in the cars; and the course for the rider's watch.
#pragma once

#include "engine/use_cases.h"
#include "formats/gpx/gpx.h"

namespace outbye {

struct PlanGpxOptions {
  bool drives_as_routes{true};   // a route a drive, its points where to turn
  bool drives_as_tracks{false};  // the drives' full geometry
  bool course{false};            // the loops as tracks
  bool points_not_met{false};    // waypoints for crew points that no car meets
  std::optional<CarId> only_car;
};

GpxOutput plan_gpx(const RidePlan& plan, const PlanGpxOptions& options);

// The course as the rider rides it: a track a loop with heights and the median times of this horse at each point, and
// a waypoint at each pass, gate and finish with its window. Times run evenly between passes.
GpxOutput course_gpx(const RidePlan& plan, HorseId horse);

}  // namespace outbye
