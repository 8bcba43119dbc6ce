// outbye export: the plan for devices, maps, calendars, spreadsheets and messages.
#include <chrono>
#include <memory>

#include "cli/command_line.h"
#include "cli/load_ride.h"
#include "core/base/text.h"
#include "formats/day_log/day_log_file.h"
#include "formats/exports/exports.h"
#include "formats/file_io/file_io.h"
#include "formats/plan_gpx/plan_gpx.h"
#include "formats/ride_file/ride_file.h"

namespace outbye {
namespace {

struct ExportOptions {
  std::string file;
  std::string out;
  std::string format;
  std::string device{"crew"};
  std::string car;
  std::string horse;
  bool drive_tracks{};
  bool no_routes{};
  bool course{};
  bool all_points{};
  std::vector<std::string> logs;
  bool force{};
};

Result<std::optional<std::uint32_t>> row_named(const std::vector<std::string>& names, const std::string& name,
                                               const std::string& option, const std::string& kind) {
  if (name.empty()) return std::optional<std::uint32_t>{};
  for (std::uint32_t i = 0; i < names.size(); ++i) {
    if (same_name(names[i], name)) return std::optional<std::uint32_t>{i};
  }
  const std::vector<std::string_view> views(names.begin(), names.end());
  const auto nearest = nearest_name(name, views);
  std::string known;
  for (const auto& one : names) known += (known.empty() ? "" : ", ") + one;
  return bad_input(option, "'" + name + "' is no " + kind + " of this ride; " +
                               (nearest ? "did you mean '" + std::string(*nearest) + "'?" : "known: " + known));
}

// By --format, else by the end of the file's name, else GPX.
std::string format_of(const ExportOptions& options) {
  if (!options.format.empty()) return options.format;
  const auto dot = options.out.rfind('.');
  const std::string end = dot == std::string::npos ? "" : in_lower_case(options.out.substr(dot + 1));
  for (const char* known : {"kml", "geojson", "csv", "ics"}) {
    if (end == known) return known;
  }
  return end == "txt" ? "text" : "gpx";
}

// What was asked for but says nothing in this format.
Result<void> check_options(const ExportOptions& options, const std::string& format) {
  const bool is_crew_gpx = format == "gpx" && options.device == "crew";
  const auto only = [](const char* option, const char* what) {
    return bad_input(option, std::string("says something for ") + what + " only; leave it out");
  };
  if (options.no_routes && !is_crew_gpx) return only("--no-routes", "the crew's GPX");
  if (options.drive_tracks && !is_crew_gpx) return only("--drive-tracks", "the crew's GPX");
  if (options.all_points && !is_crew_gpx) return only("--all-points", "the crew's GPX");
  if (options.device == "watch" && format != "gpx") return only("--for", "GPX");
  if (options.device == "watch" && !options.car.empty()) return only("--car", "the crew");
  if (!options.horse.empty() && options.device != "watch") return only("--horse", "--for watch");
  if (options.course && !is_crew_gpx && format != "kml" && format != "geojson") {
    return only("--course", "the crew's GPX, KML and GeoJSON");
  }
  if (!options.logs.empty() && format != "csv") return only("--log", "CSV");
  if (!options.logs.empty() && !options.car.empty()) return only("--car", "the plan");
  if (options.out.empty() && format != "text") {
    return bad_input("command line", "needs --out (the file to write); `outbye export --help` shows how");
  }
  return {};
}

struct Exported {
  std::string bytes;
  std::string said;  // what is in it
};

Exported gpx_of(const GpxOutput& gpx) {
  return {write_gpx(gpx), std::to_string(gpx.waypoints.size()) + " waypoints, " + std::to_string(gpx.routes.size()) +
                              " routes, " + std::to_string(gpx.tracks.size()) + " tracks"};
}

Result<Exported> exported(const RidePlan& plan, const ExportOptions& options, const std::string& format) {
  std::vector<std::string> cars, horses;
  for (const CrewCar& car : plan.task.cars) cars.push_back(car.name);
  for (const RideHorse& horse : plan.ride.horses) horses.push_back(horse.name);
  const auto car = row_named(cars, options.car, "--car", "car");
  if (!car) return tl::make_unexpected(car.error());
  const auto horse = row_named(horses, options.horse, "--horse", "horse");
  if (!horse) return tl::make_unexpected(horse.error());
  ExportChoice choice;
  if (*car) choice.only_car = CarId{**car};
  choice.with_course = options.course;
  if (format == "kml") return Exported{plan_kml(plan, choice), "KML 2.2"};
  if (format == "geojson") return Exported{plan_geojson(plan, choice), "GeoJSON"};
  if (format == "csv") return Exported{plan_csv(plan, choice), "a table, comma separated"};
  if (format == "text") return Exported{plan_digest(plan, choice), "a message"};
  if (format == "ics") {
    const auto now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
    return Exported{plan_calendar(plan, choice, Instant{now}), "a calendar"};
  }
  if (options.device == "watch") return gpx_of(course_gpx(plan, HorseId{horse->value_or(0)}));
  PlanGpxOptions wanted;
  wanted.drives_as_routes = !options.no_routes;
  wanted.drives_as_tracks = options.drive_tracks;
  wanted.course = options.course;
  wanted.points_not_met = options.all_points;
  wanted.only_car = choice.only_car;
  return gpx_of(plan_gpx(plan, wanted));
}

// The log needs no plan, only the clock of the ride.
Result<Exported> exported_log(const ExportOptions& options, Console& console) {
  const auto text = read_whole_file(options.file, 50'000'000);
  if (!text) return tl::make_unexpected(text.error());
  const auto ride = read_ride_file(*text, options.file);
  if (!ride) return tl::make_unexpected(ride.error());
  DayLogReading reading;
  for (std::size_t i = 0; i < options.logs.size(); ++i) {
    const auto lines = read_whole_file(options.logs[i], 50'000'000);
    if (!lines) return tl::make_unexpected(lines.error());
    auto one = read_day_log(*lines, options.logs[i]);
    if (!one) return tl::make_unexpected(one.error());
    reading = i == 0 ? std::move(*one) : merged(reading, *one);
  }
  for (const UnreadLine& line : reading.unread) {
    console.note("line " + std::to_string(line.number) + " of the log could not be read and is left out: " + line.text);
  }
  return Exported{log_csv(reading.log, ride->clock),
                  "the log of the day, " + std::to_string(standing(reading.log).entries.size()) + " entries"};
}

ExitCode export_plan(const ExportOptions& options, Console& console) {
  const Existing existing = options.force ? Existing::replace : Existing::keep;
  const std::string format = format_of(options);
  if (auto ok = check_options(options, format); !ok) return console.report(ok.error());
  if (!options.out.empty()) {
    if (auto ok = check_writable(options.out, existing); !ok) return console.report(ok.error());
  }
  Result<Exported> made;
  if (options.logs.empty()) {
    const auto planned = load_and_plan(options.file, console);
    if (!planned) return console.report(planned.error());
    made = exported(planned->plan, options, format);
  } else {
    made = exported_log(options, console);
  }
  if (!made) return console.report(made.error());
  if (options.out.empty()) {
    console.print(made->bytes);
    return ExitCode::good;
  }
  if (auto ok = write_whole_file(options.out, made->bytes, existing); !ok) return console.report(ok.error());
  console.print("Wrote " + options.out + ": " + made->said + "\n");
  return ExitCode::good;
}

}  // namespace

Command add_export(CLI::App& all) {
  auto options = std::make_shared<ExportOptions>();
  CLI::App* app = all.add_subcommand(
      "export",
      "Write the plan for GPS devices, maps, calendars, spreadsheets or a message, or the log of the day as a table. "
      "GPX has a waypoint a meet with its "
      "due "
      "window, leave-by and note, and a route a drive; the calendar rings at each leave-by; the message has less than "
      "1,200 characters.");
  app->add_option("RIDE", options->file, "The ride file")->required()->type_name("FILE");
  app->add_option("--out", options->out, "The file to write; a message may go to the terminal instead")
      ->type_name("FILE");
  add_choice(*app, "--format", options->format, {"gpx", "kml", "geojson", "csv", "ics", "text"},
             "What to write [by the end of the file's name, else gpx]");
  add_choice(*app, "--for", options->device, {"crew", "watch"},
             "GPX for the crew's device (points and drives) or the rider's watch (the course) [crew]");
  app->add_option("--car", options->car, "Only this car's day")->type_name("NAME");
  app->add_option("--horse", options->horse, "With --for watch: the times of this horse [the first]")
      ->type_name("NAME");
  app->add_flag("--no-routes", options->no_routes, "Leave the drives out");
  app->add_flag("--drive-tracks", options->drive_tracks, "The drives as tracks too, point by point");
  app->add_flag("--course", options->course, "The loops of the course as well");
  app->add_flag("--all-points", options->all_points, "Crew points that no car meets as well");
  add_repeated(*app, "--log", options->logs,
               "A table of this day log instead of the plan (CSV); more than one are merged (docs/day.md)")
      ->type_name("FILE");
  app->add_flag("--force", options->force, "Replace a file that is already there");
  app->footer(
      "Example: outbye export ride.json --out meets.gpx --car Van\n"
      "         outbye export ride.json --out day.ics\n"
      "         outbye export ride.json --log day.log --out log.csv\n"
      "         outbye export ride.json --format text");
  return {app, [options](Console& console) { return export_plan(*options, console); }};
}

}  // namespace outbye
