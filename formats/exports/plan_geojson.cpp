#include <algorithm>
#include <cmath>

#include "formats/exports/exports.h"
#include "formats/exports/plan_words.h"
#include "formats/exports/stop_lines.h"
#include "formats/gpx/utf8.h"
#include "formats/json_text/json_text.h"
#include "formats/plan_json/plan_json.h"

namespace outbye {
namespace {

// Longitude first; 7 decimals, about 1 cm.
Json position(Position at) { return Json::array({rounded(at.longitude, 7), rounded(at.latitude, 7)}); }

// RFC 7946, 3.1.9: a line that crosses the antimeridian is cut there.
Json line(const std::vector<Position>& points) {
  Json parts = Json::array({Json::array()});
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (i > 0 && std::fabs(points[i].longitude - points[i - 1].longitude) > 180) {
      const Position from = points[i - 1], to = points[i];
      const double side = from.longitude > 0 ? 180.0 : -180.0;
      const double run = (side - from.longitude) + (to.longitude + side);
      const double share = run == 0 ? 0.0 : (side - from.longitude) / run;
      const double latitude = from.latitude + std::clamp(share, 0.0, 1.0) * (to.latitude - from.latitude);
      parts.back().push_back(position({latitude, side}));
      parts.push_back(Json::array({position({latitude, -side})}));
    }
    parts.back().push_back(position(points[i]));
  }
  if (parts.size() == 1) return Json{{"type", "LineString"}, {"coordinates", parts.front()}};
  return Json{{"type", "MultiLineString"}, {"coordinates", std::move(parts)}};
}

Json feature(Json geometry, Json properties) {
  return Json{{"type", "Feature"}, {"geometry", std::move(geometry)}, {"properties", std::move(properties)}};
}

Json point(Position at) { return Json{{"type", "Point"}, {"coordinates", position(at)}}; }

Json stop_feature(const RidePlan& plan, const CarDay& day, std::size_t index) {
  const TimedStop& stop = day.stops[index];
  const Clock& clock = plan.ride.clock;
  Json about{{"name", xml_text(stop_words(plan, stop))},
             {"kind", stop.stop.option   ? "meet"
                      : stop.stop.refill ? "refill"
                                         : "rest"},
             {"car", xml_text(car_words(plan, day.car))},
             {"number", index + 1},
             {"place", xml_text(place_words(plan, stop.place))},
             {"depart", iso8601(stop.depart, clock)},
             {"arrive", iso8601(stop.arrive, clock)},
             {"ready", iso8601(stop.ready, clock)},
             {"leave", iso8601(stop.leave, clock)}};
  if (stop.stop.option) {
    about["horse"] = xml_text(horse_in_words(plan, at(plan.task.options, *stop.stop.option).horse));
    about["due"] = json_of(stop.due, clock);
    about["chance_ready"] = rounded(stop.chance_ready, 4);
  }
  if (const TimedStop* limit = limit_for(day, index)) {
    about["leave_by"] = iso8601(*limit->leave_by, clock);
    if (limit->fallback) about["fallback"] = xml_text(meet_words(plan, *limit->fallback));
  }
  about["words"] = xml_text(stop_line(plan, day, index));
  return feature(point(at(plan.places, stop.place).position), std::move(about));
}

}  // namespace

std::string plan_geojson(const RidePlan& plan, const ExportChoice& choice) {
  Json features = Json::array();
  for (std::size_t d = 0; d < plan.plan.days.size(); ++d) {
    const CarDay& day = plan.plan.days[d];
    if (choice.only_car && day.car != *choice.only_car) continue;
    for (std::size_t s = 0; s < day.stops.size(); ++s) {
      features.push_back(stop_feature(plan, day, s));
      const Route* route = drive_into(plan, d, s);
      if (route == nullptr) continue;
      features.push_back(
          feature(line(route->geometry), Json{{"name", xml_text("Drive to " + stop_words(plan, day.stops[s]))},
                                              {"kind", "drive"},
                                              {"car", xml_text(car_words(plan, day.car))},
                                              {"words", drive_line(day.stops[s])}}));
    }
  }
  for (const CrewPoint* other : points_without_stop(plan, choice)) {
    features.push_back(feature(point(other->position), Json{{"name", xml_text(other->name)},
                                                            {"kind", "crew point without a stop"},
                                                            {"words", xml_text(other->note)}}));
  }
  for (std::uint32_t l = 0; choice.with_course && l < plan.survey.course.loops.size(); ++l) {
    const Loop& loop = plan.survey.course.loops[l];
    std::vector<Position> points;
    for (const CoursePoint& at : loop.points) points.push_back(at.position);
    features.push_back(feature(line(points), Json{{"name", xml_text(loop_words(plan, LoopId{l}))},
                                                  {"kind", "loop"},
                                                  {"length_km", rounded(in_kilometres(loop.length), 3)}}));
  }
  // One feature a line: a map of a ride is megabytes, and still can be compared line by line.
  std::string out = "{\"type\": \"FeatureCollection\", \"features\": [";
  bool is_first = true;
  for (const Json& one : features) {
    out += (is_first ? "\n" : ",\n") + one.dump();
    is_first = false;
  }
  return out + "\n]}\n";
}

}  // namespace outbye
