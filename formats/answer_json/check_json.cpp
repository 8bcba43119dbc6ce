#include "core/roads/route.h"
#include "formats/answer_json/answer_json.h"
#include "formats/plan_json/plan_json.h"
#include "formats/plan_json/welfare_json.h"

namespace outbye {
namespace {

Json road_json(const std::vector<RoadCheck>& checks) {
  Json list = Json::array();
  for (const auto& check : checks) {
    Json json{{"name", check.name}};
    if (check.snap) {
      json["to_road_m"] = rounded(check.snap->distance.value, 1);
      json["road"] = check.snap->road;
    } else {
      json["problem"] = check.problem;
    }
    list.push_back(std::move(json));
  }
  return list;
}

}  // namespace

std::vector<RoadCheck> check_roads(const RideInputs& inputs, const CourseReport& survey) {
  std::vector<RoadCheck> checks;
  if (inputs.roads == nullptr) return checks;
  const Ride& ride = inputs.ride;
  const auto add = [&](const std::string& name, Position position) {
    const auto snapped = snap(*inputs.roads, position, ride.snap_limit);
    if (snapped) {
      checks.push_back({name, *snapped, ""});
    } else {
      checks.push_back({name, std::nullopt, snapped.error().what});
    }
  };
  add(ride.venue, survey.venue);
  for (std::size_t i = 0; i < survey.course.crew_points.size(); ++i) {
    const auto& point = survey.course.crew_points[i];
    const bool has_parking = i < ride.crew_points.size() && ride.crew_points[i].parking.has_value();
    add(point.name, has_parking ? *ride.crew_points[i].parking : point.position);
  }
  return checks;
}

Result<CheckAnswer> check_course(const RideInputs& inputs, const Warnings& warnings) {
  auto survey = survey_course(inputs);
  if (!survey) return tl::make_unexpected(survey.error());
  auto rules = ride_rules(inputs);
  if (!rules) return tl::make_unexpected(rules.error());
  CheckAnswer answer;
  answer.warnings = warnings;
  answer.warnings.insert(answer.warnings.end(), survey->course.warnings.begin(), survey->course.warnings.end());
  answer.roads = check_roads(inputs, *survey);
  if (*rules) answer.findings = check_course_rules(inputs, *survey, **rules);
  answer.rules = std::move(*rules);
  answer.survey = std::move(*survey);
  return answer;
}

Json check_json(const std::string& name, const CheckAnswer& answer) {
  Json json{{"format", "outbye check"},
            {"version", 1},
            {"name", name},
            {"venue_position", json_of(answer.survey.venue)},
            {"course", json_of(answer.survey.course)}};
  if (!answer.roads.empty()) json["to_roads"] = road_json(answer.roads);
  if (answer.rules) {
    json["rules"] = json_of(*answer.rules);
    json["rules"]["findings"] = json_of(answer.findings);
  }
  json["warnings"] = json_of(answer.warnings);
  json["assumptions"] = answer.survey.assumptions;
  return json;
}

}  // namespace outbye
