// A first ride from the files that are there and five answers.
#include <chrono>

#include "core/base/text.h"
#include "core/jobs/stop_task.h"
#include "formats/new_ride/new_ride.h"
#include "formats/ride_file/ride_file.h"
#include "server/engine_calls/engine_calls.h"

namespace outbye {
namespace {

std::vector<std::string> names_of_kind(const StoredFiles& files, const std::string& kind) {
  std::vector<std::string> names;
  for (const auto& [name, file] : files) {
    if (file.kind == kind) names.push_back(name);
  }
  return names;
}

// The text of a field, or nothing when it is missing or blank.
std::optional<std::string> text_of(const Json& object, const char* name) {
  const auto found = object.find(name);
  if (found == object.end() || !found->is_string()) return std::nullopt;
  const std::string text(trimmed(found->get_ref<const std::string&>()));
  if (text.empty()) return std::nullopt;
  return text;
}

// What is not blank in a list of texts.
std::vector<std::string> texts_of(const Json& object, const char* name) {
  std::vector<std::string> texts;
  const auto found = object.find(name);
  if (found == object.end() || !found->is_array()) return texts;
  for (const Json& item : *found) {
    if (!item.is_string()) continue;
    const std::string text(trimmed(item.get_ref<const std::string&>()));
    if (!text.empty()) texts.push_back(text);
  }
  return texts;
}

bool is_speed(const Json& value) {
  return value.is_number() && value.get<double>() > 0.0 && value.get<double>() <= 60.0;
}

Answer<void> check_answers(const Json& answers) {
  if (const auto speed = answers.find("speed_kmh"); speed != answers.end() && !is_speed(*speed)) {
    return trouble(Trouble::Kind::bad_input, "answers.speed_kmh", "must be above 0 and at most 60 km/h");
  }
  const auto speeds = answers.find("speeds_kmh");
  if (speeds == answers.end() || speeds->is_null()) return {};
  if (!speeds->is_array()) return trouble(Trouble::Kind::bad_input, "answers.speeds_kmh", "must be a list of speeds");
  for (std::size_t i = 0; i < speeds->size(); ++i) {
    if (is_speed((*speeds)[i])) continue;
    return trouble(Trouble::Kind::bad_input, "answers.speeds_kmh[" + std::to_string(i) + "]",
                   "must be above 0 and at most 60 km/h");
  }
  return {};
}

void put_in_people(const Json& answers, Ride& ride) {
  for (const std::string& name : texts_of(answers, "helpers")) {
    RideHelper helper;
    helper.name = name;
    helper.skills = {skill_holds_horse, skill_first_aid, skill_driver, skill_lifts, skill_pulse, skill_tack};
    ride.helpers.push_back(std::move(helper));
  }
  if (const auto horse = answers.find("horse"); horse != answers.end() && horse->is_object()) {
    if (const auto rider = text_of(*horse, "rider")) ride.horses.front().rider = *rider;
    if (const auto number = text_of(*horse, "number")) ride.horses.front().number = *number;
  }
  const auto speeds = answers.find("speeds_kmh");
  if (speeds == answers.end() || !speeds->is_array()) return;
  for (std::size_t i = 0; i < speeds->size() && i < ride.loops.size(); ++i) {
    ride.loops[i].pace.speed = KmPerHour{(*speeds)[i].get<double>()};
  }
}

}  // namespace

Answer<Json> draft_ride_call(EngineCalls&, const RideQuestion& question) {
  const Json answers = question.request.value("answers", Json::object());
  if (!answers.is_object()) return trouble(Trouble::Kind::bad_input, "answers", "must be a JSON object");
  if (auto ok = check_answers(answers); !ok) return tl::make_unexpected(ok.error());
  NewRideAnswers asked;
  asked.course_files = names_of_kind(question.files, "course");
  if (asked.course_files.empty()) {
    return trouble(Trouble::Kind::bad_input, "files.course", "has no course yet; add a GPX file of the ride");
  }
  asked.road_files = names_of_kind(question.files, "map");
  asked.elevation_files = names_of_kind(question.files, "elevation");
  if (const auto drives = names_of_kind(question.files, "drive_times"); !drives.empty()) {
    asked.drive_times_file = drives.front();
  }
  if (const auto weather = names_of_kind(question.files, "weather"); !weather.empty()) {
    asked.weather_file = weather.front();
  }
  asked.names_options = false;  // a page has none
  asked.name = text_of(answers, "name");
  asked.start = text_of(answers, "start");
  if (answers.contains("speed_kmh")) asked.speed = KmPerHour{answers["speed_kmh"].get<double>()};
  asked.cars = texts_of(answers, "cars");
  if (const auto horse = answers.find("horse"); horse != answers.end() && horse->is_object()) {
    if (const auto name = text_of(*horse, "name")) asked.horses = {*name};
  }
  const auto as_it_is = [](const std::string& name) { return name; };
  auto made = make_new_ride(asked, find_in(question.files), as_it_is, std::chrono::system_clock::now(),
                            {"", progress_of(question)});
  if (!made) return tl::make_unexpected(in_names_of(question.files, made.error()));
  put_in_people(answers, made->ride);
  made->ride.rule_files = names_of_kind(question.files, "rules");
  made->ride.kit_files = names_of_kind(question.files, "kit");
  const std::string text = write_ride_file(made->ride);
  if (auto readable = read_ride(text); !readable) return tl::make_unexpected(readable.error());
  Json notes = made->found;
  for (const Warning& warning : made->warnings) notes.push_back(warning.where + " " + warning.what);
  return Json{{"ride", Json::parse(text)}, {"notes", std::move(notes)}};
}

}  // namespace outbye
