// outbye load: what goes into which car, step by step, and what stays at home.
#include <algorithm>
#include <chrono>
#include <filesystem>
#include <memory>

#include "cli/command_line.h"
#include "cli/load_ride.h"
#include "cli/load_table.h"
#include "core/base/text.h"
#include "engine/kit.h"
#include "formats/file_io/file_io.h"
#include "formats/file_io/file_word.h"
#include "formats/load_items/load_items.h"
#include "formats/load_items/timed_search.h"
#include "formats/load_picture/load_picture.h"
#include "formats/ride_inputs/kit_files.h"

namespace outbye {
namespace {

struct LoadOptions {
  std::string file;
  std::string car;
  std::string items;
  std::string after;
  std::string pictures;
  std::string max_moves;
  std::string seconds;
  bool json{};
  bool force{};
};

constexpr double usual_seconds = 2.0;

Outcome<BootLoadSettings> settings_of(const LoadOptions& options) {
  BootLoadSettings settings;
  double seconds = usual_seconds;
  if (!options.seconds.empty()) {
    const auto typed = number_from(options.seconds, "--seconds", 0.0, 600.0);
    if (!typed) return tl::make_unexpected(std::vector<Problem>{typed.error()});
    seconds = *typed;
  }
  if (!options.max_moves.empty()) {
    const auto typed = number_from(options.max_moves, "--max-moves", -1.0, 100.0);
    if (!typed || *typed != static_cast<int>(*typed)) {
      return tl::make_unexpected(std::vector<Problem>{
          {Problem::Kind::bad_input, "--max-moves",
           "'" + options.max_moves + "' is not a number of moves; give a whole number from 0 to 100"}});
    }
    settings.max_moves = static_cast<int>(*typed);
  }
  if (!options.car.empty()) settings.car = options.car;
  settings.search = searches_of(Seconds{seconds});
  return settings;
}

Outcome<std::vector<BootItem>> own_items(const LoadOptions& options) {
  const auto refused = [](Problem problem) { return tl::make_unexpected(std::vector<Problem>{std::move(problem)}); };
  if (options.items.empty()) return std::vector<BootItem>{};
  const auto text = read_whole_file(options.items, 10'000'000);
  if (!text) return refused(text.error());
  if (!is_json(*text)) {
    if (const auto other = looks_like(*text); !other.empty()) {
      return refused({Problem::Kind::bad_input, options.items, "is " + other + ", but things to load are JSON"});
    }
  }
  auto reading = read_load_items(*text, options.items);
  if (!reading.problems.empty()) return tl::make_unexpected(std::move(reading.problems));
  return std::move(reading.items);
}

struct OutFile {
  std::string path;
  std::string bytes;
};

std::vector<OutFile> pictures_of(const LoadOptions& options, const LoadAnswer& answer) {
  std::vector<OutFile> files;
  const std::filesystem::path folder(options.pictures);
  const auto draw = [&](const std::string& stem, const LoadTask& task, const Load& load, const std::string& title) {
    for (LoadPicture& picture : load_pictures(task, load, title, LoadPages::one_by_one)) {
      for (std::size_t p = 0; p < picture.pages.size(); ++p) {
        const std::string number = picture.pages.size() > 1 ? "-" + std::to_string(p + 1) : "";
        const std::string name = stem + picture.space + "-" + picture.kind + number + ".svg";
        files.push_back({(folder / name).string(), std::move(picture.pages[p])});
      }
    }
  };
  std::vector<std::string> used;
  for (std::size_t c = 0; c < answer.load.cars.size(); ++c) {
    const CarLoad& car = answer.load.cars[c];
    std::string word = file_word(car.name);
    if (word.empty()) word = "car-" + std::to_string(c + 1);
    if (std::find(used.begin(), used.end(), word) != used.end()) word += "-" + std::to_string(c + 1);
    used.push_back(word);
    draw("load-" + word, car.task, car.load, car.name);
    if (c < answer.after.size() && answer.after[c]) {
      const LoadAfterStop& after = *answer.after[c];
      draw("load-" + word + "-after", after.repack.task, after.repack.load, car.name + " after " + after.stop);
    }
  }
  return files;
}

// The cars that stop there; a stop that no car makes is refused with the first car's stops.
Outcome<std::vector<std::optional<LoadAfterStop>>> afters_of(const LoadOptions& options, const RidePlan& plan,
                                                             const RideLoad& load, const BootLoadSettings& settings) {
  std::vector<std::optional<LoadAfterStop>> afters;
  if (options.after.empty()) return afters;
  std::optional<Problem> unknown;
  bool has_any = false;
  for (const CarLoad& car : load.cars) {
    auto after = load_after(plan, car, options.after, settings.search());
    if (after) {
      has_any = true;
      afters.emplace_back(std::move(*after));
      continue;
    }
    if (after.error().kind != Problem::Kind::not_found) {
      return tl::make_unexpected(std::vector<Problem>{after.error()});
    }
    if (!unknown) unknown = after.error();
    afters.emplace_back(std::nullopt);
  }
  if (!has_any && unknown) {
    return tl::make_unexpected(std::vector<Problem>{{unknown->kind, "--after", unknown->where + " " + unknown->what}});
  }
  return afters;
}

ExitCode load(const LoadOptions& options, Console& console) {
  const Existing existing = options.force ? Existing::replace : Existing::keep;
  const auto settings = settings_of(options);
  if (!settings) return console.report(settings.error());
  auto items = own_items(options);
  if (!items) return console.report(items.error());
  const auto planned = load_and_plan(options.file, console);
  if (!planned) return console.report(planned.error());
  const RidePlan& plan = planned->plan;
  if (options.items.empty()) {  // what `outbye kit` says to take
    const auto catalogue = kit_catalogue_of(planned->loaded.inputs.ride, options.file);
    if (!catalogue) return console.report(catalogue.error());
    const auto kit = plan_kit(plan, *catalogue, planned->loaded.inputs.roads);
    if (!kit) return console.report(kit.error());
    *items = boot_items(kit->list, plan.ride.cars);
  }
  auto boots = boot_load(plan, *items, *settings);
  if (!boots) return console.report(boots.error());
  LoadAnswer answer;
  auto afters = afters_of(options, plan, *boots, *settings);
  if (!afters) return console.report(afters.error());
  answer.load = std::move(*boots);
  answer.after = std::move(*afters);
  answer.warnings = planned->loaded.warnings;
  if (!options.pictures.empty()) {
    const auto files = pictures_of(options, answer);
    std::error_code fault;  // that it is not there is said of the first picture
    std::filesystem::create_directory(options.pictures, fault);
    for (const auto& file : files) {
      if (auto ok = check_writable(file.path, existing); !ok) return console.report(ok.error());
    }
    for (const auto& file : files) {
      if (auto ok = write_whole_file(file.path, file.bytes, existing); !ok) return console.report(ok.error());
      answer.pictures.push_back(file.path);
    }
  }
  console.print(options.json ? pretty_json(load_json(plan, answer))
                             : load_table(plan, answer, console.style_of_output()));
  return ExitCode::good;
}

}  // namespace

Command add_load(CLI::App& all) {
  auto options = std::make_shared<LoadOptions>();
  CLI::App* app = all.add_subcommand(
      "load",
      "Plan the load of each car. Step by step: where each thing goes, what must be moved to reach it, who lifts it, "
      "what is left of the payload, and what stays at home when not all fits.");
  app->add_option("RIDE", options->file, "The ride file; cars[].boot has the boots as measured")
      ->required()
      ->type_name("FILE");
  app->add_option("--items", options->items,
                  "What is to be loaded, a list of one's own (JSON, docs/load.md) [the kit of the ride]")
      ->type_name("FILE");
  app->add_option("--car", options->car, "Only this car [all of the ride]")->type_name("NAME");
  app->add_option("--after", options->after,
                  "Also what to move after this stop (its place or number), with the water used by then gone")
      ->type_name("STOP");
  app->add_option("--max-moves", options->max_moves, "What a stop needs is reached in so many moves at most [2]")
      ->type_name("NUMBER");
  app->add_option("--seconds", options->seconds, "Search at most so long, a car [2]")->type_name("NUMBER");
  app->add_option("--pictures", options->pictures, "Also draw the steps and the layers (SVG) into this folder")
      ->type_name("DIR");
  add_json_flag(*app, options->json);
  app->add_flag("--force", options->force, "Replace files that are already there");
  app->footer("Example: outbye load ride.json --pictures load");
  return {app, [options](Console& console) { return load(*options, console); }};
}

}  // namespace outbye
