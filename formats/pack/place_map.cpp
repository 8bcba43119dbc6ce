#include "formats/pack/place_map.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "formats/exports/plan_words.h"
#include "formats/pack/map_drawing.h"
#include "formats/picture/marks.h"
#include "formats/picture/road_background.h"

namespace outbye {
namespace {

void draw_venue(Svg& svg, Spot at, double radius) {
  svg.circle(at, radius, "class=\"mark\"");
  svg.circle(at, 0.45 * radius, "class=\"full\"");
}

// A triangle with the number of the hazard in the list of the place.
void draw_hazard(Svg& svg, Spot at, std::size_t number_of) {
  svg.path({{at.x, at.y - 13}, {at.x + 13, at.y + 9}, {at.x - 13, at.y + 9}},
           "fill=\"#ffe680\" stroke=\"#1f2428\" stroke-width=\"2\"", true);
  svg.text({at.x, at.y + 6}, std::to_string(number_of), 13, Anchor::middle, "font-weight=\"bold\"");
}

void draw_parking(Svg& svg, Spot at) {
  svg.rectangle({at.x - 11, at.y - 11, at.x + 11, at.y + 11}, "class=\"full\"");
  svg.text({at.x, at.y + 6}, "P", 17, Anchor::middle, "font-weight=\"bold\" style=\"fill:#fff\"");
}

void take(Labels& labels, Spot at, double r) { labels.take({at.x - r, at.y - r, at.x + r, at.y + r}); }

// The drives of the cars, each road once.
void draw_drives(Svg& svg, const RidePlan& plan, const MapFrame& frame, const Box& map) {
  std::vector<std::pair<PlaceId, PlaceId>> drawn;
  for (std::size_t d = 0; d < plan.plan.days.size(); ++d) {
    const CarDay& day = plan.plan.days[d];
    PlaceId here = at(plan.task.cars, day.car).start;
    for (std::size_t s = 0; s < day.stops.size(); ++s) {
      const std::pair drive{here, day.stops[s].place};
      here = drive.second;
      const Route* route = drive_into(plan, d, s);
      if (route == nullptr || std::find(drawn.begin(), drawn.end(), drive) != drawn.end()) continue;
      drawn.push_back(drive);
      std::vector<Spot> line;
      for (const Position position : route->geometry) line.push_back(frame.spot(position));
      for (const auto& piece : pieces_on(simplified(line, 0.6), map)) svg.path(piece, "class=\"car\"");
    }
  }
}

// Each name once, at the longest stretch of road that bears it.
void name_roads(Svg& svg, const RoadGraph& roads, const MapFrame& frame, const Box& map, Labels& labels) {
  struct Stretch {
    double length{};
    Spot middle;
  };
  std::map<std::string, Stretch> longest;
  for (std::uint32_t e = 0; e < roads.edge_count(); ++e) {
    if (roads.edges()[e].name == 0) continue;
    std::vector<Spot> line;
    for (const Position position : roads.geometry(e)) line.push_back(frame.spot(position));
    for (const auto& piece : pieces_on(line, map)) {
      double length = 0;
      for (std::size_t i = 1; i < piece.size(); ++i) {
        length += std::hypot(piece[i].x - piece[i - 1].x, piece[i].y - piece[i - 1].y);
      }
      const Spot middle = piece[piece.size() / 2];
      const bool is_on = middle.x > map.left && middle.x < map.right && middle.y > map.top && middle.y < map.bottom;
      Stretch& best = longest[std::string(roads.name(e))];
      if (is_on && length > best.length) best = {length, middle};
    }
  }
  for (const auto& [name, stretch] : longest) {
    if (stretch.length > 40) draw_label(svg, labels, stretch.middle, shortened(name, 24), 14, 3, 30, false);
  }
}

std::vector<Position> whole_area(const RidePlan& plan) {
  std::vector<Position> all{plan.survey.venue};
  for (const auto& loop : plan.survey.course.loops) {
    for (const auto& point : loop.points) all.push_back(point.position);
  }
  for (const auto& point : plan.survey.course.crew_points) all.push_back(point.position);
  return all;
}

// High where the area is, within what a phone shows.
double height_for(const std::vector<Position>& positions, double width) {
  const auto bounds = bounding_box(positions);
  const double middle = (bounds->south + bounds->north) / 2 * 3.14159265358979323846 / 180;
  const double across = outbye::width(*bounds) * std::max(std::cos(middle), 0.01);
  const double aspect = across > 0 ? (bounds->north - bounds->south) / across : 1.0;
  return std::round(width * std::clamp(aspect, 0.7, 1.5));
}

}  // namespace

PlaceMap area_map(const RidePlan& plan, const RoadGraph* roads) {
  const std::vector<Position> positions = whole_area(plan);
  PlaceMap map;
  map.title = plan.ride.name + ": course, crew points and drives";
  map.width = 800;
  map.height = height_for(positions, map.width);
  const Box box{1, 1, map.width - 1, map.height - 1};
  const MapFrame frame(positions, box, 40);
  fill_projection(map, frame, plan.survey.venue);
  Svg svg(map.width, map.height, map.title,
          "North is up. The loops with arrows the way they are ridden, the crew points, and the cars' drives.",
          map_style);
  Labels labels({box.left + 3, box.top + 3, box.right - 3, box.bottom - 3});
  svg.clip("map", box);
  svg.open("clip-path=\"url(#map)\"");
  if (roads != nullptr) draw_roads(svg, *roads, frame, box);
  draw_drives(svg, plan, frame, box);
  draw_loops(svg, plan, frame, box, 4, 160, labels);
  svg.close();
  svg.rectangle(box, "class=\"frame\"");
  draw_scale(svg, frame, box, 20, labels);
  const Spot venue = frame.spot(plan.survey.venue);
  take(labels, venue, 11);
  std::vector<double> chances(plan.survey.course.crew_points.size(), 2.0);
  for (const auto& meet : meets_of(plan)) {
    const auto row = meet.option->place.value;
    if (row > 0 && row <= chances.size()) {
      chances[row - 1] = std::min(chances[row - 1], meet.stop->chance_ready);
    }
  }
  const auto& points = plan.survey.course.crew_points;
  for (const auto& point : points) take(labels, frame.spot(point.position), 9);
  draw_venue(svg, venue, 10);
  draw_label(svg, labels, venue, shortened(plan.ride.venue, 24), 22, 12, 120, true);
  // Those that are met first: they matter more when room is short.
  for (const bool is_met : {true, false}) {
    for (std::size_t p = 0; p < points.size(); ++p) {
      if ((chances[p] <= 1.0) != is_met) continue;
      const Spot at = frame.spot(points[p].position);
      draw_mark(svg, at, is_met ? standing_of(chances[p]) : Standing::unmet);
      draw_label(svg, labels, at, shortened(points[p].name, 24), 22, 11, 120, is_met);
    }
  }
  map.svg = std::move(svg).finish();
  return map;
}

PlaceMap place_map(const RidePlan& plan, const RoadGraph* roads, PlaceId place) {
  const RideCrewPoint* point = crew_point_of(plan, place);
  const bool is_venue = place.value == 0;
  const std::string name = place_words(plan, place);
  const Position met =
      is_venue ? plan.survey.venue : at(plan.survey.course.crew_points, CrewPointId{place.value - 1}).position;
  std::vector<Position> positions{met};
  if (point != nullptr && point->parking) positions.push_back(*point->parking);
  if (point != nullptr) {
    for (const auto& hazard : point->hazards) {
      if (hazard.position) positions.push_back(*hazard.position);
    }
  }
  PlaceMap map;
  map.title = name + " and the ground around it";
  map.width = map.height = 480;
  const Box box{1, 1, map.width - 1, map.height - 1};
  const MapFrame frame(positions, box, positions.size() > 1 ? 40 : 10);
  fill_projection(map, frame, met);
  Svg svg(map.width, map.height, map.title,
          "North is up. Where the horse is met, where the car stands (P), hazards by their numbers, the course with "
          "arrows the way it is ridden, and roads.",
          map_style);
  Labels labels({box.left + 3, box.top + 3, box.right - 3, box.bottom - 3});
  svg.clip("map", box);
  svg.open("clip-path=\"url(#map)\"");
  if (roads != nullptr) draw_roads(svg, *roads, frame, box);
  draw_drives(svg, plan, frame, box);
  draw_loops(svg, plan, frame, box, 4, 110, labels);
  svg.close();
  svg.rectangle(box, "class=\"frame\"");
  draw_scale(svg, frame, box, 16, labels);
  for (const Position position : positions) take(labels, frame.spot(position), 14);
  const Spot here = frame.spot(met);
  if (is_venue) {
    draw_venue(svg, here, 11);
  } else {
    svg.circle(here, 8, "class=\"full\" stroke=\"#fff\" stroke-width=\"2\"");
  }
  if (point != nullptr && point->parking) draw_parking(svg, frame.spot(*point->parking));
  draw_label(svg, labels, here, shortened(name, 24), 18, 14, 120, true);
  if (point != nullptr) {
    for (std::size_t h = 0; h < point->hazards.size(); ++h) {
      if (point->hazards[h].position) draw_hazard(svg, frame.spot(*point->hazards[h].position), h + 1);
    }
  }
  if (roads != nullptr) name_roads(svg, *roads, frame, box, labels);
  map.svg = std::move(svg).finish();
  return map;
}

}  // namespace outbye
