#include "formats/pack/page_json.h"

#include <algorithm>

#include "core/base/text.h"
#include "formats/exports/exports.h"
#include "formats/pack/packed_files.h"
#include "formats/pack/page_parts.h"
#include "formats/pack/place_map.h"
#include "formats/plan_json/cautions.h"
#include "formats/plan_json/plan_json.h"

namespace outbye {
namespace {

Json map_json(const PlaceMap& map, const Json& place) {
  const MapProjection& p = map.projection;
  return Json{{"place", place},
              {"title", map.title},
              {"width", map.width},
              {"height", map.height},
              {"svg", map.svg},
              {"bounds",
               {{"south", rounded(map.bounds.south, 6)},
                {"west", rounded(map.bounds.west, 6)},
                {"north", rounded(map.bounds.north, 6)},
                {"east", rounded(map.bounds.east, 6)}}},
              {"projection",
               {{"left", rounded(p.left, 3)},
                {"top", rounded(p.top, 3)},
                {"west", rounded(p.west, 7)},
                {"north", rounded(p.north, 7)},
                {"x_per_degree", rounded(p.x_per_degree, 3)},
                {"y_per_degree", rounded(p.y_per_degree, 3)}}}};
}

// A car's people: who is said to ride in it, and in the first who is said to ride in none.
Json people_of(const Ride& ride, std::size_t car) {
  Json names = Json::array();
  for (const RideHelper& helper : ride.helpers) {
    const bool is_here = helper.car ? same_name(*helper.car, ride.cars[car].name) : car == 0;
    if (is_here) names.push_back(helper.name);
  }
  return names;
}

Json notes_json(const PageSources& from) {
  Json notes = from.plan.assumptions;
  const auto add = [&notes](const Warnings& warnings) {
    for (const Warning& warning : warnings) notes.push_back(warning.where + " " + warning.what);
  };
  add(from.plan.warnings);
  if (from.parts.load) {
    add(from.parts.load->warnings);
    for (const CarLoad& car : from.parts.load->cars) add(car.warnings);
  }
  for (const Problem& problem : from.parts.problems) {
    const std::string sentence = problem.where + " " + problem.what;
    if (std::find(notes.begin(), notes.end(), Json(sentence)) == notes.end()) notes.push_back(sentence);
  }
  for (const auto& note : from.notes) notes.push_back(note);
  return notes;
}

}  // namespace

Json lat_lon(Position position) { return Json::array({rounded(position.latitude, 6), rounded(position.longitude, 6)}); }

std::string ride_key(const Ride& ride) {
  std::string text = ride.name + '\n' + ride.venue + '\n' + local_date(ride.start, ride.clock);
  for (const RideHorse& horse : ride.horses) text += '\n' + horse.name;
  return sha256(text).substr(0, 16);
}

Json maps_json(const RidePlan& plan, const RoadGraph* roads) {
  Json maps = Json::array({map_json(area_map(plan, roads), nullptr)});
  const auto points = plan.survey.course.crew_points.size();
  for (std::uint32_t p = 0; p <= points; ++p) {
    const std::string& name = p == 0 ? plan.ride.venue : at(plan.survey.course.crew_points, CrewPointId{p - 1}).name;
    maps.push_back(map_json(place_map(plan, roads, PlaceId{p}), name));
  }
  return maps;
}

Json page_json(const PageSources& from, Instant made) {
  const RidePlan& plan = from.plan;
  const Ride& ride = plan.ride;
  Json horses = Json::array(), cars = Json::array(), sheets = Json::array();
  for (const RideHorse& horse : ride.horses) {
    horses.push_back(Json{{"name", horse.name}, {"rider", horse.rider}, {"number", horse.number}});
  }
  for (std::size_t c = 0; c < ride.cars.size(); ++c) {
    cars.push_back(Json{{"name", ride.cars[c].name}, {"people", people_of(ride, c)}});
  }
  for (const PageSheet& sheet : from.sheets) {
    sheets.push_back(Json{{"name", sheet.name}, {"words", sheet.words}, {"file", sheet.file}, {"bytes", sheet.bytes}});
  }
  Json page{{"format", "outbye page"}, {"version", page_json_version}};
  page["ride"] = ride.name;
  page["key"] = ride_key(ride);
  page["plan"] = plan_mark(plan);
  page["made"] = iso8601(made, ride.clock);
  page["made_by"] = std::string("outbye ") + OUTBYE_VERSION;
  page["start"] = iso8601(ride.start, ride.clock);
  page["time_zone"] = ride.clock.zone;
  page["venue"] = ride.venue;
  page["course_km"] = rounded(in_kilometres(plan.survey.course.length), 2);
  page["horses"] = std::move(horses);
  page["cars"] = std::move(cars);
  page["maps"] = maps_json(plan, from.roads);
  page["map_credit"] = from.roads == nullptr ? "" : "© OpenStreetMap contributors";  // ODbL 1.0, 4.3
  page["places"] = places_json(from);
  page["stops"] = stops_json(from);
  page["kit"] = page_kit_json(from);
  page["sheets"] = std::move(sheets);
  page["calendar"] = from.calendar;
  page["digest"] = plan_digest(plan, {});
  page["cautions"] = crew_cautions();
  page["notes"] = notes_json(from);
  return page;
}

}  // namespace outbye
