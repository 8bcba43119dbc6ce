// The places cars drive to (venue, crew points, refills, errands), joined to the roads, and the drives between them.
// Internal to engine.
#pragma once

#include <vector>

#include "core/roads/drive_table.h"
#include "engine/use_cases.h"

namespace outbye {

struct Places {
  std::vector<PlaceReport> reports;  // row i of `drives`
  DriveTable drives;
  Warnings warnings;
  std::vector<std::string> assumptions;
};

// Row numbers: the venue, then crew points in the course's order, then refills and errands in the ride's order.
inline PlaceId venue_place() { return PlaceId{0}; }
inline PlaceId crew_point_place(CrewPointId point) { return PlaceId{1 + point.value}; }
PlaceId refill_place(const Course& course, std::size_t refill);
PlaceId errand_place(const Course& course, const Ride& ride, std::size_t errand);

// Where a car starts or ends: the venue or a crew point by name, upper and lower case alike.
Result<PlaceId> place_named(const Ride& ride, const Course& course, std::string_view name, std::string_view asked_by);

// Errors: no map and no drive times; a venue that no car can reach; a map that does not cover the course.
Result<Places> find_places(const RideInputs& inputs, const CourseReport& survey);

}  // namespace outbye
