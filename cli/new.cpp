// outbye new: a ride file from a course, without a question or step by step.
#include <chrono>
#include <filesystem>
#include <memory>

#include "cli/command_line.h"
#include "cli/load_ride.h"
#include "cli/plan_table.h"
#include "cli/wizard.h"
#include "core/base/text.h"
#include "formats/file_io/file_io.h"
#include "formats/new_ride/new_ride.h"
#include "formats/ride_file/ride_file.h"

namespace outbye {
namespace {

struct NewOptions {
  NewRideAnswers answers;
  std::string drive_times, weather, rules, level, name, start, zone, country, venue, speed, hold;
  bool force{};
};

Result<NewRideAnswers> answers_from(const NewOptions& options) {
  NewRideAnswers answers = options.answers;
  const auto take = [](const std::string& text, std::optional<std::string>& into) {
    if (!text.empty()) into = text;
  };
  take(options.drive_times, answers.drive_times_file);
  take(options.weather, answers.weather_file);
  take(options.rules, answers.rules);
  take(options.level, answers.level);
  if (answers.level && !answers.rules) {
    return bad_input("--level", "needs --rules, the book that the level is in; `outbye rules` lists the books");
  }
  take(options.name, answers.name);
  take(options.start, answers.start);
  take(options.zone, answers.zone);
  take(options.country, answers.country);
  take(options.venue, answers.venue);
  if (!options.speed.empty()) {
    const auto speed = number_from(options.speed, "--speed", 0, 60);
    if (!speed) return tl::make_unexpected(speed.error());
    answers.speed = KmPerHour{*speed};
  }
  if (!options.hold.empty()) {
    const auto hold = number_from(options.hold, "--hold", -1e-9, 1440);
    if (!hold) return tl::make_unexpected(hold.error());
    answers.hold = minutes(*hold);
  }
  if (answers.start) {
    if (const auto written = parse_written_time(*answers.start); !written) {
      return bad_input("--start", written.error().where + " " + written.error().what);
    }
  }
  return answers;
}

// A file as the ride file will name it: relative to the ride file's folder.
std::string beside(const std::string& out, const std::string& file) {
  std::error_code error;
  const std::filesystem::path folder =
      std::filesystem::weakly_canonical(std::filesystem::absolute(out, error).parent_path(), error);
  const std::filesystem::path target = std::filesystem::weakly_canonical(std::filesystem::absolute(file, error), error);
  const std::filesystem::path relative = target.lexically_relative(folder);
  return relative.empty() ? target.string() : relative.string();
}

ExitCode make(const NewOptions& options, Console& console) {
  const Existing existing = options.force ? Existing::replace : Existing::keep;
  if (auto ok = check_writable(options.answers.out, existing); !ok) return console.report(ok.error());
  auto answers = answers_from(options);
  if (!answers) return console.report(answers.error());
  const Instant now = std::chrono::system_clock::now();
  if (answers->course_files.empty()) {
    auto asked = ask_for_ride(*answers, now, console);
    if (!asked) return console.report(asked.error());
    answers = std::move(asked);
  }
  const auto named = [&answers](const std::string& file) { return beside(answers->out, file); };
  const auto made = make_new_ride(*answers, files_in(""), named, now, reading_with(console));
  console.end_progress();
  if (!made) return console.report(made.error());
  const std::string text = write_ride_file(made->ride);
  // What was written must be readable: a name twice, say, is said now and not at the kitchen table.
  const auto reading = check_ride_file(text, answers->out);
  if (!reading.ride) return console.report(reading.problems);
  if (auto ok = write_whole_file(answers->out, text, existing); !ok) return console.report(ok.error());
  const Style style = console.style_of_output();
  console.print("Wrote " + answers->out + "\n");
  console.print(list_section("Found", made->found, style));
  console.print(list_section("Taken for granted (kept in the ride file)", made->ride.assumptions, style));
  console.print(warnings_section(made->warnings, style));
  console.print("\nNext: outbye plan " + answers->out + "\n");
  return ExitCode::good;
}

}  // namespace

Command add_new(CLI::App& all) {
  auto options = std::make_shared<NewOptions>();
  NewRideAnswers& answers = options->answers;
  CLI::App* app = all.add_subcommand(
      "new",
      "Make a ride file from a course. With --course no question is asked and every assumption is listed; "
      "without, it asks step by step.");
  app->add_option("OUT", answers.out, "The ride file to write")->required()->type_name("FILE");
  add_repeated(*app, "--course", answers.course_files, "The course, GPX: a track a loop, waypoints for crew points")
      ->type_name("FILE");
  add_repeated(*app, "--roads", answers.road_files, "A road map: an OpenStreetMap extract (.osm.pbf, .osm)")
      ->type_name("FILE");
  add_repeated(*app, "--elevation", answers.elevation_files, "Heights for a course without: an SRTM tile (.hgt)")
      ->type_name("FILE");
  app->add_option("--drive-times", options->drive_times, "Drive times typed in by hand (CSV), without or beside a map")
      ->type_name("FILE");
  app->add_option("--weather", options->weather, "The weather of the day, hour by hour (CSV; `outbye heat --help`)")
      ->type_name("FILE");
  app->add_option("--rules", options->rules, "Rule book whose hold is taken; `outbye rules` lists them")
      ->type_name("BOOK");
  app->add_option("--level", options->level, "Level of the rule book")->type_name("LEVEL");
  app->add_option("--start", options->start, "When the ride starts, like 2026-06-13T07:00 [next Saturday, 07:00]")
      ->type_name("TIME");
  app->add_option("--speed", options->speed, "Average of the horse over a loop, km/h [12]")->type_name("KMH");
  app->add_option("--hold", options->hold, "Hold at each vet gate, minutes [40]")->type_name("MIN");
  app->add_option("--zone", options->zone, "Time zone, like Europe/London or +01:00 [from where the course is]")
      ->type_name("ZONE");
  app->add_option("--country", options->country, "Whose speed limits hold where no sign is known [of the time zone]")
      ->type_name("CODE");
  app->add_option("--name", options->name, "Name of the ride [of the course]")->type_name("NAME");
  app->add_option("--venue", options->venue, "Waypoint of start, finish and vet gates [the one at the start]")
      ->type_name("NAME");
  add_repeated(*app, "--car", answers.cars, "Name of a crew car [Car 1]")->type_name("NAME");
  add_repeated(*app, "--horse", answers.horses, "Name of a horse [Horse]")->type_name("NAME");
  app->add_flag("--force", options->force, "Replace a ride file that is already there");
  app->footer(
      "Example: outbye new ride.json --course course.gpx --roads map.osm.pbf \\\n"
      "           --start 2026-06-13T07:00 --speed 12");
  return {app, [options](Console& console) { return make(*options, console); }};
}

}  // namespace outbye
