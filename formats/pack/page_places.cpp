#include "formats/exports/place_codes.h"
#include "formats/exports/plan_words.h"
#include "formats/pack/page_parts.h"
#include "formats/plan_json/plan_json.h"

namespace outbye {
namespace {

Json passes_at(const RidePlan& plan, PlaceId place) {
  Json list = Json::array();
  for (const PassForecast& pass : plan.passes) {
    const bool is_at_venue = !pass.event.pass;
    const bool is_here = is_at_venue
                             ? place.value == 0
                             : at(plan.survey.course.passes, *pass.event.pass).crew_point.value + 1 == place.value;
    if (!is_here) continue;
    list.push_back(Json{{"loop", pass.event.loop.value + 1},
                        {"along_km", rounded(in_kilometres(pass.loop_along), 2)},
                        {"horse", at(plan.ride.horses, pass.horse).name},
                        {"due", json_of(pass.due, plan.ride.clock)}});
  }
  return list;
}

Json place_json(const PageSources& from, PlaceId place, const std::string& name, Position position) {
  const RidePlan& plan = from.plan;
  static const RideCrewPoint nothing_said;
  const RideCrewPoint* said = crew_point_of(plan, place);
  const RideCrewPoint& point = said == nullptr ? nothing_said : *said;
  Json hazards = Json::array(), photos = Json::array(), open = Json::array();
  for (const RideHazard& hazard : point.hazards) {
    hazards.push_back(
        Json{{"what", hazard.what}, {"position", hazard.position ? lat_lon(*hazard.position) : Json(nullptr)}});
  }
  for (const RidePhoto& photo : point.photos) {
    const std::string file = from.photo ? from.photo(photo.file) : "";
    if (!file.empty()) photos.push_back(Json{{"file", file}, {"alt", photo.alt}});
  }
  for (const auto& hours : point.open) {
    open.push_back(Json{{"from", iso8601(hours.from, plan.ride.clock)}, {"to", iso8601(hours.to, plan.ride.clock)}});
  }
  const Position car = point.parking.value_or(position);
  Json codes = Json::array({coordinates(car)});
  if (const auto grid = national_grid(car)) codes.push_back(grid_reference(*grid));
  std::string note = point.note;
  if (note.empty() && place.value > 0) note = at(plan.survey.course.crew_points, CrewPointId{place.value - 1}).note;
  Json json{{"name", name}, {"is_venue", place.value == 0}, {"position", lat_lon(position)}};
  json["parking"] = point.parking ? lat_lon(*point.parking) : Json(nullptr);
  json["is_closed"] = point.is_closed;
  json["has_water"] = point.has_water;
  json["open"] = std::move(open);
  json["note"] = note;
  json["approach"] = point.approach;
  json["recce"] = point.recce;
  json["allowed"] = point.allowed;
  json["hazards"] = std::move(hazards);
  json["photos"] = std::move(photos);
  json["codes"] = std::move(codes);
  json["geo"] = geo_uri(car);
  json["passes"] = passes_at(plan, place);
  return json;
}

}  // namespace

Json places_json(const PageSources& from) {
  const RidePlan& plan = from.plan;
  Json places = Json::array({place_json(from, PlaceId{0}, plan.ride.venue, plan.survey.venue)});
  const auto& points = plan.survey.course.crew_points;
  for (std::uint32_t p = 0; p < points.size(); ++p) {
    places.push_back(place_json(from, PlaceId{p + 1}, points[p].name, points[p].position));
  }
  return places;
}

}  // namespace outbye
