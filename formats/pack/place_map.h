// Maps for a phone's screen: the whole area, and the ground around one place, as SVG with what puts a position on them.
// Text is large enough at the width of a phone; nothing is said by colour alone. The same plan gives the same bytes.
#pragma once

#include <optional>
#include <string>

#include "core/geo/bounding_box.h"
#include "core/roads/road_graph.h"
#include "engine/use_cases.h"

namespace outbye {

// In units of the picture: x = left + (longitude - west) * x_per_degree, y = top + (north - latitude) * y_per_degree.
struct MapProjection {
  double left{};
  double top{};
  double west{};  // degrees
  double north{};
  double x_per_degree{};
  double y_per_degree{};
};

struct PlaceMap {
  std::string title;  // what it shows
  double width{};
  double height{};
  std::string svg;
  BoundingBox bounds;  // of the picture
  MapProjection projection;
};

// Course, roads, crew points and the cars' drives. `roads` may be null: then the background is blank.
PlaceMap area_map(const RidePlan& plan, const RoadGraph* roads);

// About a kilometre around the venue (PlaceId 0) or a crew point: where the horse is met, where the car stands,
// hazards, the course and which way it is ridden, roads with their names.
PlaceMap place_map(const RidePlan& plan, const RoadGraph* roads, PlaceId place);

}  // namespace outbye
