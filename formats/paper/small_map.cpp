#include <algorithm>
#include <cmath>

#include "core/base/text.h"
#include "formats/exports/plan_words.h"
#include "formats/paper/sheets.h"
#include "formats/picture/labels.h"
#include "formats/picture/map_frame.h"

namespace outbye {
namespace {

struct MapLine {
  std::vector<Spot> points;
  double thickness{};
  double grey{};
  std::vector<double> dashes;
};

// Clipped to the map's box: roads and course go on beyond it.
void put_clipped(Paper& paper, const Box& box, std::vector<MapLine> lines) {
  paper.draw([box, lines = std::move(lines)](cairo_t* cr) {
    cairo_save(cr);
    cairo_rectangle(cr, box.left, box.top, box.right - box.left, box.bottom - box.top);
    cairo_clip(cr);
    cairo_set_line_join(cr, CAIRO_LINE_JOIN_ROUND);
    for (const MapLine& line : lines) {
      cairo_set_source_rgb(cr, line.grey, line.grey, line.grey);
      cairo_set_line_width(cr, line.thickness);
      cairo_set_dash(cr, line.dashes.data(), static_cast<int>(line.dashes.size()), 0);
      for (const Spot& at : line.points) cairo_line_to(cr, at.x, at.y);
      cairo_stroke(cr);
    }
    cairo_restore(cr);
  });
}

bool touches(const std::vector<Spot>& line, const Box& box) {
  Box bounds{1e9, 1e9, -1e9, -1e9};
  for (const Spot& at : line) {
    bounds = {std::min(bounds.left, at.x), std::min(bounds.top, at.y), std::max(bounds.right, at.x),
              std::max(bounds.bottom, at.y)};
  }
  return !(bounds.left > box.right || bounds.right < box.left || bounds.top > box.bottom || bounds.bottom < box.top);
}

double thickness_of(RoadClass road) {
  switch (road) {
    case RoadClass::motorway:
    case RoadClass::trunk:
    case RoadClass::primary:
      return 2.4;
    case RoadClass::secondary:
    case RoadClass::tertiary:
      return 1.7;
    case RoadClass::unclassified:
    case RoadClass::residential:
    case RoadClass::living_street:
    case RoadClass::ferry:
      return 1.0;
    case RoadClass::service:
    case RoadClass::track:
      break;
  }
  return 0.5;
}

std::vector<MapLine> road_lines(const RoadGraph& roads, const MapFrame& frame, const Box& box) {
  std::vector<MapLine> lines;
  const auto& points = roads.parts().geometry;
  for (std::uint32_t e = 0; e < roads.edge_count(); ++e) {
    const RoadEdge& edge = roads.edges()[e];
    const std::size_t end = e + 1 < roads.edge_count() ? roads.edges()[e + 1].geometry : points.size();
    std::vector<Spot> line;
    for (std::size_t i = edge.geometry; i < end; ++i) line.push_back(frame.spot(position_of(points[i])));
    if (touches(line, box)) lines.push_back({simplified(line, 0.3), thickness_of(edge.road_class), 0.75, {}});
  }
  return lines;
}

std::vector<MapLine> course_lines(const RidePlan& plan, const MapFrame& frame, const Box& box) {
  std::vector<MapLine> lines;
  for (const Loop& loop : plan.survey.course.loops) {
    std::vector<Spot> line;
    for (const CoursePoint& point : loop.points) line.push_back(frame.spot(point.position));
    if (touches(line, box)) lines.push_back({simplified(line, 0.4), 1.2, 0.35, {1.2, 2.4}});
  }
  return lines;
}

void put_label(Paper& paper, Labels& labels, Spot mark, const std::string& words, bool is_bold) {
  const TextLook look{paper.format().least, is_bold, 0.0, TextAlign::start};
  const LayoutPtr layout = paper.typesetter().layout(words, look, 0);
  const auto placed = labels.place(mark, layout_width(layout.get()) + 4, layout_height(layout.get()), 5, 60);
  if (!placed) return;  // the block beside the map names both ends
  paper.put_rectangle(placed->box, 0, 1.0);
  paper.put(layout, {placed->box.left + 2, placed->box.top}, look);
}

}  // namespace

void drive_map(Paper& paper, const RidePlan& plan, const Route& route, const TimedStop& stop, const RoadGraph* roads,
               const Box& box) {
  std::vector<Position> shown = route.geometry;
  const Position end = at(plan.places, stop.place).position;
  shown.push_back(end);
  const MapFrame frame(shown, box, 16);
  std::vector<MapLine> lines;
  if (roads != nullptr) lines = road_lines(*roads, frame, box);
  for (MapLine& line : course_lines(plan, frame, box)) lines.push_back(std::move(line));
  std::vector<Spot> drive;
  for (const Position at : route.geometry) drive.push_back(frame.spot(at));
  drive = simplified(drive, 0.3);
  lines.push_back({drive, 2.2, 0.0, {}});
  put_clipped(paper, box, std::move(lines));
  paper.put_rectangle(box, 0.6, std::nullopt, 0.4);

  Labels labels({box.left + 2, box.top + 2, box.right - 2, box.bottom - 2});
  labels.avoid(drive);
  const Spot from = drive.front(), to = frame.spot(end);
  for (const Spot& mark : {from, to}) labels.take({mark.x - 4, mark.y - 4, mark.x + 4, mark.y + 4});
  paper.put_ring(from, 3.2, 1.0);
  paper.put_ring(to, 3.6, 0.0);

  // The scale, in the corner where the drive is not.
  const TextLook look{paper.format().least, false, 0.0, TextAlign::start};
  const double length = round_length(0.3 * (box.right - box.left) / frame.units_per_metre());
  const LayoutPtr words = paper.typesetter().layout(
      "N up, " + (length < 1000 ? fixed(length, 0) + " m" : fixed(length / 1000, 0) + " km"), look, 0);
  const double wide = std::max(layout_width(words.get()), length * frame.units_per_metre()) + 6,
               high = layout_height(words.get()) + 8;
  std::optional<Box> corner;
  for (const Box& one : {Box{box.left + 2, box.bottom - high - 2, box.left + 2 + wide, box.bottom - 2},
                         Box{box.right - wide - 2, box.bottom - high - 2, box.right - 2, box.bottom - 2},
                         Box{box.left + 2, box.top + 2, box.left + 2 + wide, box.top + 2 + high},
                         Box{box.right - wide - 2, box.top + 2, box.right - 2, box.top + 2 + high}}) {
    const bool is_crossed = std::any_of(drive.begin(), drive.end(), [&](const Spot& at) {
      return at.x > one.left && at.x < one.right && at.y > one.top && at.y < one.bottom;
    });
    if (!corner && !is_crossed) corner = one;
  }
  const Box scale = corner.value_or(Box{box.left + 2, box.bottom - high - 2, box.left + 2 + wide, box.bottom - 2});
  labels.take(scale);
  paper.put_rectangle(scale, 0, 1.0);
  paper.put(words, {scale.left + 3, scale.top}, look);
  const double level = scale.bottom - 4;
  paper.put_line({scale.left + 3, level}, {scale.left + 3 + length * frame.units_per_metre(), level}, 1.4);
  put_label(paper, labels, to, place_words(plan, stop.place), true);
}

}  // namespace outbye
