// A ride from a course file and a few answers; everything not answered has a sensible default that is listed.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "formats/ride_inputs/ride_inputs.h"

namespace outbye {

struct NewRideAnswers {
  std::string out;                        // where the ride file goes; for whoever asks
  std::vector<std::string> course_files;  // as whoever asks names them
  std::vector<std::string> road_files;
  std::vector<std::string> elevation_files;
  std::optional<std::string> drive_times_file;
  std::optional<std::string> weather_file;
  std::optional<std::string> rules;  // id of a bundled rule book
  std::optional<std::string> level;
  std::optional<std::string> name;
  std::optional<std::string> start;  // 2026-06-13T07:00, with or without offset
  std::optional<std::string> zone;
  std::optional<std::string> country;
  std::optional<std::string> venue;
  std::optional<KmPerHour> speed;
  std::optional<Seconds> hold;
  std::vector<std::string> cars;
  std::vector<std::string> horses;
  bool names_options{true};  // assumptions name the option of `outbye new` that would change them
};

struct NewRide {
  Ride ride;  // with its assumptions
  CourseReport survey;
  Warnings warnings;
  std::vector<std::string> found;  // what the files hold, in sentences
};

// Next Saturday, 07:00: the default start. `now` from outside.
std::string next_saturday(Instant now);

// Reads the files, surveys the course, joins the places to the roads. Errors as load_ride and survey_course; a road
// map on which no place of the ride can be reached.
//
// `find`: where the files of the answers are. `named`: what the ride file calls them.
Outcome<NewRide> make_new_ride(const NewRideAnswers& answers, const FindFile& find,
                               const std::function<std::string(const std::string&)>& named, Instant now,
                               const Reading& reading);

}  // namespace outbye
