#include "formats/new_ride/new_ride.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>

#include "core/base/text.h"
#include "core/roads/route.h"
#include "core/rules/rule_fields.h"
#include "core/rules/rule_set.h"
#include "formats/new_ride/guess_zone.h"
#include "formats/osm/map_country.h"
#include "formats/rule_book/rule_book_file.h"
#include "formats/time_zone/long_date.h"
#include "formats/time_zone/time_zone.h"

namespace outbye {
namespace {

namespace fs = std::filesystem;

// " (--zone)", or nothing for whoever has no options.
std::string by_option(const NewRideAnswers& answers, const std::string& option) {
  return answers.names_options ? " (" + option + ")" : "";
}

tl::unexpected<std::vector<Problem>> refused(Problem problem) {
  return tl::make_unexpected(std::vector<Problem>{std::move(problem)});
}

std::optional<Position> first_position(const std::vector<GpxDocument>& files) {
  for (const auto& file : files) {
    for (const auto& track : file.tracks) {
      for (const auto& segment : track.segments) {
        if (!segment.points.empty()) return segment.points.front().position;
      }
    }
  }
  return std::nullopt;
}

// Zone, country and start belong together: the zone's offsets are looked up about the start.
Result<void> set_time(const NewRideAnswers& answers, const FindFile& find, Position place, Instant now, Ride& ride) {
  const std::string typed = answers.start.value_or(next_saturday(now));
  const auto written = parse_written_time(typed);
  if (!written) return bad_input("start", written.error().where + " " + written.error().what);
  const Instant about{written->local.time_since_epoch()};
  std::string zone = answers.zone.value_or("");
  std::vector<fs::path> maps;
  for (const auto& file : answers.road_files) maps.emplace_back(find(file).path);
  const auto by_map = answers.country ? answers.country : map_country(maps);
  auto guess = by_map ? nearest_zone_here(place, *by_map) : std::nullopt;
  const bool is_by_map = guess.has_value();
  if (!guess) guess = nearest_zone_here(place);
  if (zone.empty() && is_by_map) {
    zone = guess->zone;
    ride.assumptions.push_back("The time zone is " + zone + ", the nearest of " + *by_map +
                               by_option(answers, "--zone") + ".");
  } else if (zone.empty()) {
    // The zone of the machine wins when it tells the same time: it is more likely the user's own country.
    zone = local_zone();
    const auto here = clock_for_zone(zone, about);
    const auto there = guess ? clock_for_zone(guess->zone, about) : here;
    const bool machine_has_a_country = country_of_zone(zone).has_value();
    if (there && (!here || !machine_has_a_country || offset_at(*here, about) != offset_at(*there, about))) {
      zone = guess ? guess->zone : zone;
    }
    ride.assumptions.push_back("The time zone is " + zone + ", guessed from where the course is and near a border " +
                               "perhaps the neighbour's" + by_option(answers, "--zone") + ".");
  }
  const auto clock = clock_for_zone(zone, about);
  if (!clock) return tl::make_unexpected(clock.error());
  ride.clock = *clock;
  const auto start = to_instant(*written, *clock);
  if (!start) return bad_input("start", start.error().where + " " + start.error().what);
  ride.start = Instant{Seconds{std::floor(start->time_since_epoch().count() + 0.5)}};
  if (!answers.start) {
    ride.assumptions.push_back("The ride starts on " + long_date(ride.start, ride.clock) + " at " +
                               hours_minutes(ride.start, ride.clock) + by_option(answers, "--start") + ".");
  }
  if (answers.country) {
    ride.country = *answers.country;
    if (ride.country.size() != 2 || ride.country.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZ") != std::string::npos) {
      return bad_input("country", "'" + ride.country + "' is not a country code; give two capitals such as GB or DE");
    }
  } else if (by_map) {
    ride.country = *by_map;
    ride.assumptions.push_back("Roads without a sign have the default limits of " + ride.country +
                               ", the country that the road map names" + by_option(answers, "--country") + ".");
  } else {
    ride.country = country_of_zone(zone).value_or(guess ? guess->country : ride.country);
    ride.assumptions.push_back("Roads without a sign have the default limits of " + ride.country +
                               ", the country of that time zone; put it right if it is another" +
                               by_option(answers, "--country") + ".");
  }
  return {};
}

// The waypoint that the survey took for the venue, by name; nothing when the venue is just where loop 1 starts.
std::optional<std::string> venue_waypoint(const LoadedRide& loaded, const CourseReport& survey) {
  for (const auto& file : loaded.inputs.course_files) {
    for (const auto& waypoint : file.waypoints) {
      const std::string name(trimmed(waypoint.name));
      const bool is_crew_point = std::any_of(survey.course.crew_points.begin(), survey.course.crew_points.end(),
                                             [&](const CrewPoint& point) { return same_name(point.name, name); });
      if (waypoint.position == survey.venue && !name.empty() && !is_crew_point) return name;
    }
  }
  return std::nullopt;
}

void set_course(const LoadedRide& loaded, const CourseReport& survey, const NewRideAnswers& answers, Ride& ride) {
  std::map<std::string, int> waypoints;
  std::map<std::string, int> tracks;
  for (const auto& file : loaded.inputs.course_files) {
    for (const auto& waypoint : file.waypoints) ++waypoints[in_lower_case(trimmed(waypoint.name))];
    for (const auto& track : file.tracks) ++tracks[in_lower_case(track.name)];
  }
  if (const auto name = venue_waypoint(loaded, survey)) {
    ride.venue = *name;
  } else {
    ride.venue_position = survey.venue;
  }
  for (const auto& loop : survey.course.loops) {
    RideLoop made;
    made.name = loop.name;
    if (tracks[in_lower_case(loop.name)] == 1) made.tracks = {loop.name};
    made.pace = ride.default_pace;
    ride.loops.push_back(std::move(made));
  }
  for (const auto& point : survey.course.crew_points) {
    RideCrewPoint made;
    made.name = point.name;
    made.note = point.note;
    if (waypoints[in_lower_case(point.name)] != 1) made.position = point.position;
    ride.crew_points.push_back(std::move(made));
  }
  ride.assumptions.push_back(
      "The horse averages " + fixed(ride.default_pace.speed.value, 1) + " km/h over " +
      (ride.loops.size() == 1 ? "the loop" : "each of the " + std::to_string(ride.loops.size()) + " loops") +
      (answers.speed ? "." : by_option(answers, "--speed") + ".") + " Hills move time about within a loop.");
  if (ride.loops.size() > 1) {
    ride.assumptions.push_back("At a gate the horse is accepted after about " +
                               fixed(in_minutes(ride.default_pace.recovery.median), 0) + " min and held for " +
                               fixed(in_minutes(ride.default_pace.hold), 0) + " min" +
                               (answers.hold            ? ""
                                : answers.names_options ? " (--hold; the rules of the day decide)"
                                                        : " (the rules of the day decide)") +
                               ".");
  }
}

void set_people(const NewRideAnswers& answers, Ride& ride) {
  for (const auto& name : answers.horses) ride.horses.push_back({name, "", "", Seconds{0}, std::nullopt});
  if (ride.horses.empty()) ride.horses.push_back({"Horse", "", "", Seconds{0}, std::nullopt});
  for (const auto& name : answers.cars) ride.cars.emplace_back().name = name;
  if (ride.cars.empty()) {
    ride.cars.emplace_back().name = "Car 1";
    ride.assumptions.push_back("There is one crew car" + by_option(answers, "--car for others") + ".");
  }
  ride.assumptions.push_back("Every car waits at " + ride.venue +
                             " from an hour before the start, with enough fuel and water for the day.");
  ride.assumptions.push_back("The crew needs " + fixed(in_minutes(ride.setup), 0) + " min to set up and " +
                             fixed(in_minutes(ride.pack), 0) + " min to pack; a met horse stands about " +
                             fixed(in_minutes(ride.stop.median), 0) + " min.");
  ride.assumptions.push_back("Meeting a pass is worth 1 point, a gate " + fixed(ride.gate_worth, 0) + ", the finish " +
                             fixed(ride.finish_worth, 0) + "; beyond " +
                             fixed(in_kilometres(ride.crewing.water_interval), 0) +
                             " km without help the plan loses points.");
}

// How the places join the roads; refused when none does.
Result<void> join_roads(const LoadedRide& loaded, NewRide& made) {
  std::size_t joined = 0;
  std::string not_joined;
  const auto& points = made.survey.course.crew_points;
  if (snap(*loaded.roads, made.survey.venue, made.ride.snap_limit)) ++joined;
  for (const auto& point : points) {
    const auto snapped = snap(*loaded.roads, point.position, made.ride.snap_limit);
    if (snapped) {
      ++joined;
    } else {
      made.warnings.push_back({"crew point '" + point.name + "'", snapped.error().what});
    }
  }
  if (joined == 0) {
    const auto box = loaded.roads->box();
    return bad_input("road map", "no place of the ride is within " + fixed(made.ride.snap_limit.value, 0) +
                                     " m of a road on it: it covers " + fixed(box.south_west.latitude, 3) + "," +
                                     fixed(box.south_west.longitude, 3) + " to " + fixed(box.north_east.latitude, 3) +
                                     "," + fixed(box.north_east.longitude, 3) +
                                     "; take an extract of the area of the course");
  }
  made.found.push_back(std::to_string(joined) + " of " + std::to_string(points.size() + 1) +
                       " places are beside a road of the map.");
  return {};
}

// The book's hold at every gate becomes the ride's, and is said.
Result<void> set_rules(const NewRideAnswers& answers, Ride& ride) {
  if (!answers.rules) return {};
  RuleChoice choice;
  choice.book = *answers.rules;
  choice.level = answers.level.value_or("");
  const auto rules = rule_set(preset_books(), choice);
  if (!rules) {
    return tl::make_unexpected(
        Problem{rules.error().kind, rules.error().where == "rules.level" ? "--level" : "--rules", rules.error().what});
  }
  choice.level = rules->level.name;
  if (const auto& hold = rules->level.gate.hold; hold && !answers.hold) {
    ride.default_pace.hold = hold->value;
    ride.assumptions.push_back("The hold of " + fixed(in_minutes(hold->value), 0) + " min is that of " +
                               rules->book_name + ", " + rules->level.name + " (" + in_words(hold->mark) +
                               "); the rules of the day decide.");
  }
  ride.rules = std::move(choice);
  return {};
}

}  // namespace

std::string next_saturday(Instant now) {
  const auto today = std::chrono::floor<std::chrono::days>(now);
  const auto ahead = std::chrono::Saturday - std::chrono::weekday{today};
  const auto day = today + (ahead.count() == 0 ? std::chrono::days{7} : ahead);
  return local_date(Instant{day}, Clock{}) + "T07:00";
}

Outcome<NewRide> make_new_ride(const NewRideAnswers& answers, const FindFile& find,
                               const std::function<std::string(const std::string&)>& named, Instant now,
                               const Reading& reading) {
  const auto all_named = [&named](const std::vector<std::string>& files) {
    std::vector<std::string> names;
    for (const auto& file : files) names.push_back(named(file));
    return names;
  };
  Ride files_only;
  files_only.course_files = answers.course_files;
  files_only.road_files = answers.road_files;
  files_only.elevation_files = answers.elevation_files;
  files_only.drive_times_file = answers.drive_times_file;
  if (answers.venue) files_only.venue = *answers.venue;
  // The country decides how roads are read, and the zone how it is guessed: the course first, then the roads.
  auto loaded = load_files_of(files_only, find, WithRoads::no, reading);
  if (!loaded) return tl::make_unexpected(loaded.error());
  auto survey = survey_course(loaded->inputs);
  if (!survey) return refused(survey.error());
  NewRide made;
  Ride& ride = made.ride;
  ride.name = answers.name.value_or("");
  if (ride.name.empty()) ride.name = loaded->inputs.course_files.front().name;
  if (trimmed(ride.name).empty()) ride.name = fs::path(answers.course_files.front()).stem().string();
  if (answers.venue) ride.venue = *answers.venue;
  const auto place = first_position(loaded->inputs.course_files);
  if (auto ok = set_time(answers, find, place.value_or(survey->venue), now, ride); !ok) return refused(ok.error());
  if (answers.speed) ride.default_pace.speed = *answers.speed;
  if (auto ok = set_rules(answers, ride); !ok) return refused(ok.error());
  if (answers.hold) ride.default_pace.hold = *answers.hold;
  if (answers.weather_file) {
    // Read now, so that a slip in it is said now; the ride file only names it.
    Ride with_weather;
    with_weather.start = ride.start;
    with_weather.clock = ride.clock;
    with_weather.weather_file = answers.weather_file;
    auto weather = load_files_of(std::move(with_weather), find, WithRoads::no, reading);
    if (!weather) return tl::make_unexpected(weather.error());
    ride.weather_file = named(*answers.weather_file);
  }
  set_course(*loaded, *survey, answers, ride);
  set_people(answers, ride);
  ride.assumptions.insert(ride.assumptions.end(), survey->assumptions.begin(), survey->assumptions.end());
  made.survey = std::move(*survey);
  made.warnings = loaded->warnings;
  made.warnings.insert(made.warnings.end(), made.survey.course.warnings.begin(), made.survey.course.warnings.end());
  made.found.push_back(fixed(in_kilometres(made.survey.course.length), 1) + " km in " +
                       std::to_string(made.survey.course.loops.size()) + " loops, " +
                       std::to_string(made.survey.course.passes.size()) + " passes of " +
                       std::to_string(made.survey.course.crew_points.size()) + " crew points.");
  if (!answers.road_files.empty()) {
    Ride with_country = files_only;
    with_country.country = ride.country;
    auto with_roads = load_files_of(std::move(with_country), find, WithRoads::yes, reading);
    if (!with_roads) return tl::make_unexpected(with_roads.error());
    made.warnings.insert(made.warnings.end(),
                         with_roads->warnings.begin() + static_cast<std::ptrdiff_t>(std::min(
                                                            with_roads->warnings.size(), loaded->warnings.size())),
                         with_roads->warnings.end());
    if (auto ok = join_roads(*with_roads, made); !ok) return refused(ok.error());
  } else if (!answers.drive_times_file) {
    made.warnings.push_back({"drives",
                             "no road map and no drive-time table yet: `outbye plan` needs one of them; add "
                             "it under files.roads or files.drive_times"});
  }
  ride.course_files = all_named(answers.course_files);
  ride.road_files = all_named(answers.road_files);
  ride.elevation_files = all_named(answers.elevation_files);
  if (answers.drive_times_file) ride.drive_times_file = named(*answers.drive_times_file);
  return made;
}

}  // namespace outbye
