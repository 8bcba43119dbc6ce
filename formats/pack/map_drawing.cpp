#include "formats/pack/map_drawing.h"

#include <algorithm>
#include <cmath>

#include "core/base/text.h"
#include "formats/picture/marks.h"

namespace outbye {
namespace {

constexpr double beyond = 12;  // units, so that the edge cuts no line short

void draw_arrow(Svg& svg, Spot tip, Spot heading, double size, const std::string& attributes) {
  const Spot back{tip.x - size * heading.x, tip.y - size * heading.y};
  const Spot side{-heading.y * size * 0.5, heading.x * size * 0.5};
  svg.path({tip, {back.x + side.x, back.y + side.y}, {back.x - side.x, back.y - side.y}}, attributes, true);
}

void draw_arrows(Svg& svg, const std::vector<Spot>& line, const Box& map, double apart, double size,
                 const std::string& ink) {
  double left = apart / 2;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double dx = line[i].x - line[i - 1].x, dy = line[i].y - line[i - 1].y;
    const double piece = std::hypot(dx, dy);
    double done = 0;
    while (piece > 0 && done + left <= piece) {
      done += left;
      left = apart;
      const Spot at{line[i - 1].x + done / piece * dx, line[i - 1].y + done / piece * dy};
      if (at.x < map.left || at.x > map.right || at.y < map.top || at.y > map.bottom) continue;
      draw_arrow(svg, at, {dx / piece, dy / piece}, size, "fill=\"" + ink + "\" stroke=\"#fff\" stroke-width=\"1\"");
    }
    left -= piece - done;
  }
}

}  // namespace

std::vector<std::vector<Spot>> pieces_on(const std::vector<Spot>& line, const Box& map) {
  const Box wide{map.left - beyond, map.top - beyond, map.right + beyond, map.bottom + beyond};
  std::vector<std::vector<Spot>> pieces;
  bool goes_on = false;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const Spot &a = line[i - 1], &b = line[i];
    const bool is_off = std::max(a.x, b.x) < wide.left || std::min(a.x, b.x) > wide.right ||
                        std::max(a.y, b.y) < wide.top || std::min(a.y, b.y) > wide.bottom;
    if (!is_off && !goes_on) pieces.push_back({a});
    if (!is_off) pieces.back().push_back(b);
    goes_on = !is_off;
  }
  return pieces;
}

void draw_loops(Svg& svg, const RidePlan& plan, const MapFrame& frame, const Box& map, double thickness,
                double arrows_apart, Labels& labels) {
  const auto& loops = plan.survey.course.loops;
  std::vector<std::vector<std::vector<Spot>>> drawn;
  for (std::size_t l = 0; l < loops.size(); ++l) {
    std::vector<Spot> line;
    for (const auto& point : loops[l].points) line.push_back(frame.spot(point.position));
    // Loops on one trail, and both ways of an out-and-back, lie beside each other.
    const double lane = loops.size() == 1 ? 0.4 : 0.4 + 0.95 * static_cast<double>(l);
    drawn.push_back(pieces_on(beside(simplified(line, 0.6), lane * thickness), map));
    for (const auto& piece : drawn.back()) {
      svg.path(piece, "class=\"casing\" stroke-width=\"" + number(1.7 * thickness) + '"');
    }
  }
  for (std::size_t l = 0; l < loops.size(); ++l) {
    for (const auto& piece : drawn[l]) {
      svg.path(piece, "class=\"course\" stroke=\"" + ink(l) + "\" stroke-width=\"" + number(thickness) +
                          "\" stroke-dasharray=\"" + (dashes(l).empty() ? "none" : dashes(l)) + '"');
      draw_arrows(svg, piece, map, arrows_apart, 3.2 * thickness, ink(l));
      labels.avoid(piece);
    }
  }
}

void draw_scale(Svg& svg, const MapFrame& frame, const Box& map, double size, Labels& labels) {
  const double metres = round_length(0.3 * (map.right - map.left) / frame.units_per_metre());
  const double length = metres * frame.units_per_metre();
  const std::string words = metres >= 1000 ? number(metres / 1000) + " km" : number(metres) + " m";
  const Spot at{map.left + 14, map.bottom - 12};
  const double right = at.x + length + 8 + text_width(words, size) + 2.2 * size;
  const Box box{map.left + 4, map.bottom - size - 14, right, map.bottom - 4};
  svg.rectangle(box, "fill=\"#fff\" fill-opacity=\".9\"");
  svg.line(at, {at.x + length, at.y}, "stroke=\"#1f2428\" stroke-width=\"3\"");
  for (const double x : {at.x, at.x + length}) {
    svg.line({x, at.y - 6}, {x, at.y + 2}, "stroke=\"#1f2428\" stroke-width=\"2\"");
  }
  svg.text({at.x + length + 8, at.y + 2}, words + "  N\u2191", size);
  labels.take(box);
}

bool draw_label(Svg& svg, Labels& labels, Spot mark, const std::string& words, double size, double gap, double reach,
                bool is_bold) {
  const auto placed = labels.place(mark, text_width(words, size, is_bold) + 4, 1.2 * size, gap, reach);
  if (!placed) return false;
  const Box& box = placed->box;
  if (placed->needs_leader) {
    svg.line(mark, {std::clamp(mark.x, box.left, box.right), std::clamp(mark.y, box.top, box.bottom)},
             "class=\"leader\"");
  }
  svg.text({box.left + 2, box.bottom - 0.28 * size}, words, size, Anchor::start,
           std::string("class=\"halo\"") + (is_bold ? " font-weight=\"bold\"" : ""));
  return true;
}

void fill_projection(PlaceMap& map, const MapFrame& frame, Position somewhere) {
  // The frame is straight in latitude and longitude, so two positions say all of it.
  constexpr double step = 0.01;
  const Spot here = frame.spot(somewhere);
  const Spot north = frame.spot({somewhere.latitude + step, somewhere.longitude});
  const Spot east = frame.spot({somewhere.latitude, somewhere.longitude + step});
  MapProjection& made = map.projection;
  made = {here.x, here.y, somewhere.longitude, somewhere.latitude, (east.x - here.x) / step, (here.y - north.y) / step};
  const auto longitude = [&](double x) {
    const double degrees = made.west + (x - made.left) / made.x_per_degree;
    return degrees > 180 ? degrees - 360 : degrees < -180 ? degrees + 360 : degrees;
  };
  const auto latitude = [&](double y) { return made.north - (y - made.top) / made.y_per_degree; };
  map.bounds = {latitude(map.height), longitude(0), latitude(0), longitude(map.width)};
}

}  // namespace outbye
