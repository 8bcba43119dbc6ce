// outbye check: does the course make sense, and where and how often does it pass the crew points?
#include <algorithm>
#include <filesystem>
#include <memory>

#include "cli/command_line.h"
#include "cli/load_ride.h"
#include "cli/plan_table.h"
#include "cli/text_layout.h"
#include "cli/welfare_table.h"
#include "core/base/text.h"
#include "formats/answer_json/answer_json.h"
#include "formats/file_io/file_io.h"

namespace outbye {
namespace {

struct CheckOptions {
  std::string file;
  std::vector<std::string> elevation;
  bool json{};
};

std::string loop_table(const Course& course, const Style& style) {
  std::string text = style.quiet("      km  climb  drop  points  loop") + "\n";
  for (std::size_t i = 0; i < course.loops.size(); ++i) {
    const Loop& loop = course.loops[i];
    const bool has_heights = loop.profile.unknown < loop.length;
    text += right(fixed(in_kilometres(loop.length), 2), 8) + right(has_heights ? fixed(loop.climb.value, 0) : "-", 7) +
            right(has_heights ? fixed(loop.descent.value, 0) : "-", 6) + right(std::to_string(loop.points.size()), 8) +
            "  " + cut_to(std::to_string(i + 1) + " " + loop.name, 47) + "\n";
  }
  text += right(fixed(in_kilometres(course.length), 2), 8) + "  in all\n";
  return text;
}

std::string pass_table(const Course& course, const Style& style) {
  std::string text = style.quiet(" loop      km  ride km  off course  crew point") + "\n";
  for (const auto& pass : course.passes) {
    std::string name = at(course.crew_points, pass.crew_point).name;
    if (pass.nth_in_loop > 1) name += " (pass " + std::to_string(pass.nth_in_loop) + " in this loop)";
    text += right(std::to_string(pass.loop.value + 1), 5) + right(fixed(in_kilometres(pass.along), 2), 8) +
            right(fixed(in_kilometres(pass.ride_along), 1), 9) + right(fixed(pass.distance.value, 0) + " m", 12) +
            "  " + cut_to(name, 44) + "\n";
  }
  return text;
}

std::string road_table(const std::vector<RoadCheck>& checks, const Style& style) {
  std::string text;
  for (const auto& check : checks) {
    if (check.snap) {
      text += right(fixed(check.snap->distance.value, 0) + " m", 7) + "  " + left(check.name, 28) + "  " +
              cut_to(check.snap->road, 40) + "\n";
    } else {
      text += style.bad("     no") + "  " + wrapped(check.name + ": " + check.problem, "", line_width - 9);
    }
  }
  return text;
}

// A course alone becomes a ride with every default.
Outcome<LoadedRide> load(const CheckOptions& options, Console& console) {
  auto bytes = read_whole_file(options.file);
  if (!bytes) return tl::make_unexpected(std::vector<Problem>{bytes.error()});
  if (!is_json(*bytes)) {
    Ride ride;
    ride.name = std::filesystem::path(options.file).stem().string();
    ride.course_files = {options.file};
    ride.elevation_files = options.elevation;
    return load_files_of(std::move(ride), "", WithRoads::no, console);
  }
  if (!options.elevation.empty()) {
    return tl::make_unexpected(
        std::vector<Problem>{{Problem::Kind::bad_input, "--elevation",
                              "goes with a course alone; a ride file names its own under files.elevation"}});
  }
  return load_ride(options.file, WithRoads::yes, console);
}

ExitCode check(const CheckOptions& options, Console& console) {
  auto loaded = load(options, console);
  if (!loaded) return console.report(loaded.error());
  const auto answer = check_course(loaded->inputs, loaded->warnings);
  if (!answer) return console.report(answer.error());
  if (options.json) {
    console.print(pretty_json(check_json(loaded->inputs.ride.name, *answer)));
    return ExitCode::good;
  }
  const Course& course = answer->survey.course;
  const Style style = console.style_of_output();
  std::string text =
      style.heading(cut_to(loaded->inputs.ride.name.empty() ? options.file : loaded->inputs.ride.name, line_width)) +
      "\n\n";
  text += loop_table(course, style);
  if (course.passes.empty()) {
    text += "\nNo crew point is passed.\n";
  } else {
    text += "\n" + std::to_string(course.passes.size()) + " passes of " + std::to_string(course.crew_points.size()) +
            " crew points\n" + pass_table(course, style);
  }
  if (!answer->roads.empty()) {
    text += "\n" + style.heading("From place to road") + "\n" + road_table(answer->roads, style);
  }
  text += rules_section(answer->rules, answer->findings, style);
  text += warnings_section(answer->warnings, style);
  text += list_section("Taken for granted", answer->survey.assumptions, style);
  console.print(text);
  return ExitCode::good;
}

}  // namespace

Command add_check(CLI::App& all) {
  auto options = std::make_shared<CheckOptions>();
  CLI::App* app = all.add_subcommand(
      "check",
      "Check a ride or a course alone. Shows loops with length and climb, every pass of every crew point, and "
      "all that was repaired or looks odd.");
  app->add_option("FILE", options->file, "A ride file (JSON) or a course (GPX)")->required()->type_name("FILE");
  add_repeated(*app, "--elevation", options->elevation, "Heights for a course without: an SRTM tile (.hgt)")
      ->type_name("FILE");
  add_json_flag(*app, options->json);
  app->footer("Example: outbye check course.gpx");
  return {app, [options](Console& console) { return check(*options, console); }};
}

}  // namespace outbye
