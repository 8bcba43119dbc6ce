// outbye plan: who meets the horse where, when to leave, and what to do when it slips.
#include <charconv>
#include <filesystem>
#include <memory>

#include "cli/command_line.h"
#include "cli/load_ride.h"
#include "cli/plan_table.h"
#include "formats/file_io/file_io.h"
#include "formats/picture/picture.h"
#include "formats/plan_gpx/plan_gpx.h"
#include "formats/plan_json/plan_json.h"

namespace outbye {
namespace {

struct PlanOptions {
  std::string file;
  std::vector<std::string> what_ifs;
  std::string seed;
  std::string days;
  std::string gpx;
  std::string pictures;
  bool turns{};
  bool json{};
  bool force{};
};

Result<std::uint64_t> whole_number(const std::string& text, const std::string& option, std::uint64_t from,
                                   std::uint64_t to) {
  std::uint64_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error == std::errc{} && end == text.data() + text.size() && value >= from && value <= to) return value;
  return bad_input(option,
                   "'" + text + "' is not a whole number from " + std::to_string(from) + " to " + std::to_string(to));
}

Result<void> apply(const PlanOptions& options, Ride& ride) {
  if (!options.seed.empty()) {
    const auto seed = whole_number(options.seed, "--seed", 0, UINT64_MAX);
    if (!seed) return tl::make_unexpected(seed.error());
    ride.seed = {*seed};
  }
  if (!options.days.empty()) {
    const auto days = whole_number(options.days, "--days", 64, 1000000);
    if (!days) return tl::make_unexpected(days.error());
    ride.days = static_cast<std::size_t>(*days);
  }
  return {};
}

struct OutFile {
  std::string path;
  std::string bytes;
};

// What is asked for besides standard output, by name; bytes are filled in once there is a plan.
std::vector<OutFile> files_to_write(const PlanOptions& options) {
  std::vector<OutFile> files;
  if (!options.gpx.empty()) files.push_back({options.gpx, ""});
  if (!options.pictures.empty()) {
    const std::filesystem::path folder(options.pictures);
    files.push_back({(folder / "map.svg").string(), ""});
    files.push_back({(folder / "time-distance.svg").string(), ""});
  }
  return files;
}

void fill_in(std::vector<OutFile>& files, const PlanOptions& options, const LoadedRide& loaded, const RidePlan& plan) {
  std::size_t next = 0;
  if (!options.gpx.empty()) files[next++].bytes = write_gpx(plan_gpx(plan, {}));
  if (!options.pictures.empty()) {
    files[next++].bytes = course_map_svg(plan, loaded.roads.get());
    files[next++].bytes = time_distance_svg(plan);
  }
}

ExitCode plan(const PlanOptions& options, Console& console) {
  // What can be refused without work is refused first.
  const Existing existing = options.force ? Existing::replace : Existing::keep;
  std::vector<WhatIf> questions;
  for (const auto& words : options.what_ifs) {
    const auto question = parse_what_if(words);
    if (!question) return console.report(question.error());
    questions.push_back(*question);
  }
  auto files = files_to_write(options);
  for (const auto& file : files) {
    if (auto ok = check_writable(file.path, existing); !ok) return console.report(ok.error());
  }
  Ride only_options;
  if (auto ok = apply(options, only_options); !ok) return console.report(ok.error());

  auto planned = load_and_plan(options.file, console, [&options](Ride& ride) { (void)apply(options, ride); });
  if (!planned) return console.report(planned.error());
  const LoadedRide& loaded = planned->loaded;
  RidePlan& answer = planned->plan;
  answer.warnings.insert(answer.warnings.begin(), loaded.warnings.begin(), loaded.warnings.end());

  std::vector<WhatIfAnswer> what_ifs;
  for (const auto& question : questions) {
    what_ifs.push_back(answer_what_if(loaded.inputs, answer, question));
    const auto& tried = what_ifs.back().plan;
    // A change that cannot be made is a slip of the pen; a change that leaves no plan is an answer.
    if (!tried && tried.error().kind != Problem::Kind::impossible) return console.report(tried.error());
  }
  fill_in(files, options, loaded, answer);
  for (const auto& file : files) {
    if (auto ok = write_whole_file(file.path, file.bytes, existing); !ok) return console.report(ok.error());
  }
  if (options.json) {
    console.print(write_plan_json(answer, what_ifs));
  } else {
    console.print(plan_table(answer, what_ifs, {options.turns}, console.style_of_output()));
  }
  return ExitCode::good;
}

}  // namespace

Command add_plan(CLI::App& all) {
  auto options = std::make_shared<PlanOptions>();
  CLI::App* app = all.add_subcommand(
      "plan",
      "Plan the crewing of a ride. For each car in order: when to leave, the drive, when the horse is due, the "
      "odds of being ready, and where to go instead when it slips.");
  app->add_option("RIDE", options->file, "The ride file")->required()->type_name("FILE");
  add_repeated(*app, "--what-if", options->what_ifs,
               "Try a change: \"stop CP3 +5min\", \"start +30min\", \"without CP5\", \"extra car\"")
      ->type_name("CHANGE");
  app->add_option("--seed", options->seed, "Seed of the simulated days instead of the ride's")->type_name("NUMBER");
  app->add_option("--days", options->days, "Simulated days instead of the ride's (64 to 1000000)")->type_name("NUMBER");
  app->add_option("--gpx", options->gpx, "Also write the meets and drives as GPX 1.1")->type_name("FILE");
  app->add_option("--pictures", options->pictures, "Also draw map.svg and time-distance.svg into this folder")
      ->type_name("DIR");
  app->add_flag("--turns", options->turns, "A driver's list of turns under every drive");
  add_json_flag(*app, options->json);
  app->add_flag("--force", options->force, "Replace files that are already there");
  app->footer("Example: outbye plan ride.json --what-if \"stop CP3 +5min\" --what-if \"extra car\"");
  return {app, [options](Console& console) { return plan(*options, console); }};
}

}  // namespace outbye
