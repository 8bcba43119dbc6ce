// outbye kit: what the crew takes along, how much of it, why, and what is packed already.
#include <memory>

#include "cli/command_line.h"
#include "cli/kit_text.h"
#include "cli/kit_ticks.h"
#include "cli/load_ride.h"
#include "cli/stock_section.h"
#include "cli/text_layout.h"
#include "engine/stock.h"
#include "formats/answer_json/answer_json.h"
#include "formats/file_io/file_io.h"
#include "formats/kit_catalogue/kit_catalogue.h"
#include "formats/ride_file/ride_file.h"
#include "formats/ride_inputs/kit_files.h"

namespace outbye {
namespace {

struct KitOptions {
  std::string file;
  std::string why;
  std::string not_dry;
  std::vector<std::string> tick;
  std::vector<std::string> untick;
  bool all{};
  bool catalogue{};
  bool json{};
};

std::string listed(const std::vector<std::string>& names) {
  std::string text;
  for (const auto& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

// Needs no plan, so that ticking in the yard takes no time.
ExitCode write_ticks(const KitOptions& options, Console& console) {
  const auto text = read_whole_file(options.file, 50'000'000);
  if (!text) return console.report(text.error());
  auto reading = check_ride_file(*text, options.file);
  if (!reading.ride) return console.report(reading.problems);
  const auto catalogue = kit_catalogue_of(*reading.ride, options.file);
  if (!catalogue) return console.report(catalogue.error());
  const auto ticks = with_ticks(*text, options.file, *catalogue, reading.ride->kit, options.tick, options.untick);
  if (!ticks) return console.report(ticks.error());
  if (auto ok = write_whole_file(options.file, ticks->text, Existing::replace); !ok) return console.report(ok.error());
  if (options.json || !options.why.empty() || options.all) return ExitCode::good;
  std::string said;
  if (!ticks->ticked.empty()) said += wrapped("Ticked as packed [x]: " + listed(ticks->ticked) + ".");
  if (!ticks->unticked.empty()) said += wrapped("Not packed [ ]: " + listed(ticks->unticked) + ".");
  said += wrapped("Ticked in " + options.file + ": " + kinds_of_things(ticks->packed.size()) + ".");
  console.print(said);
  return ExitCode::good;
}

ExitCode kit(const KitOptions& options, Console& console) {
  if (options.catalogue) {
    console.print(write_kit_catalogue(preset_kit()));
    return ExitCode::good;
  }
  if (options.file.empty()) {
    return console.report(Problem{Problem::Kind::bad_input, "command line",
                                  "needs RIDE (a ride file), or --catalogue for the things there are; `outbye kit "
                                  "--help` shows how"});
  }
  if (!options.why.empty() && options.json) {
    return console.report(Problem{Problem::Kind::bad_input, "--why",
                                  "is for reading; --json opens every thing and amount anyway: leave one of them out"});
  }
  if (!options.tick.empty() || !options.untick.empty()) {
    const ExitCode written = write_ticks(options, console);
    if (written != ExitCode::good || !(options.json || !options.why.empty() || options.all)) return written;
  }
  StockOptions stock_options;
  if (!options.not_dry.empty()) {
    const auto percent = number_from(options.not_dry, "--not-dry", 50.0, 99.0);
    if (!percent) return console.report(percent.error());
    stock_options.chance = *percent / 100.0;
  }
  auto loaded = load_ride(options.file, WithRoads::yes, console);
  if (!loaded) return console.report(loaded.error());
  const auto catalogue = kit_catalogue_of(loaded->inputs.ride, options.file);
  if (!catalogue) return console.report(catalogue.error());
  const Progress progress{[&console](const std::string& step, double share) { console.progress(step, share); }};
  const auto plan = plan_ride(loaded->inputs, progress);
  console.end_progress();
  if (!plan) return console.report(plan.error());
  const auto answer = plan_kit(*plan, *catalogue, loaded->inputs.roads);
  if (!answer) return console.report(answer.error());
  const auto stock = stock_of(*plan, stock_options);
  if (!stock) return console.report(stock.error());
  const Style style = console.style_of_output();
  if (options.json) {
    console.print(pretty_json(kit_json(plan->ride.name, *answer, stock_json(*stock))));
  } else if (!options.why.empty()) {
    const auto opened = kit_answer_why(*answer, options.why, style);
    if (!opened) return console.report(opened.error());
    console.print(*opened);
  } else {
    console.print(kit_table(plan->ride.name, *answer, options.all, style));
    console.print(stock_sections(*stock, style));
  }
  return ExitCode::good;
}

}  // namespace

Command add_kit(CLI::App& all) {
  auto options = std::make_shared<KitOptions>();
  CLI::App* app = all.add_subcommand(
      "kit",
      "What to take along and how much of it. Things by group with boxes to tick, and water, ice, feed, food and fuel "
      "as amounts that follow from the plan; each opens to its formula, inputs, source and range.");
  app->add_option("RIDE", options->file, "A ride file")->type_name("FILE");
  app->add_option("--why", options->why, "Open one thing or amount, by its name")->type_name("NAME");
  add_repeated(*app, "--tick", options->tick, "Mark a thing as packed in the ride file")->type_name("NAME");
  add_repeated(*app, "--untick", options->untick, "Take the mark away again")->type_name("NAME");
  app->add_option("--not-dry", options->not_dry,
                  "Wanted share of days, in percent, on which nothing runs dry [the ride's, else 95]")
      ->type_name("PERCENT");
  app->add_flag("--all", options->all, "Also what stays at home, and why");
  app->add_flag("--catalogue", options->catalogue, "The bundled catalogue as JSON, to make your own from");
  add_json_flag(*app, options->json);
  app->footer(
      "Example: outbye kit ride.json\n"
      "         outbye kit ride.json --why ice\n"
      "         outbye kit ride.json --tick torch --tick can-10");
  return {app, [options](Console& console) { return kit(*options, console); }};
}

}  // namespace outbye
