// outbye print: sheets of paper for the dashboard, the saddle and the boot lid.
#include <algorithm>
#include <chrono>
#include <filesystem>
#include <memory>

#include "cli/command_line.h"
#include "cli/load_ride.h"
#include "formats/file_io/file_io.h"
#include "formats/load_items/timed_search.h"
#include "formats/paper/paper.h"
#include "formats/ride_inputs/kit_files.h"

namespace outbye {
namespace {

struct PrintOptions {
  std::string file;
  std::string out;
  std::vector<std::string> sheets;
  std::string paper{"a4"};
  std::string version;
  bool force{};
};

constexpr Seconds load_search_time{2.0};  // a car, as `outbye load`

// Those asked for, else all that this paper has room for.
Result<std::vector<Sheet>> sheets_of(const PrintOptions& options, PaperSize size) {
  std::vector<Sheet> sheets;
  for (const auto& name : options.sheets) {
    const auto sheet = parse_sheet(name);
    if (!sheet) return bad_input("--sheet", sheet.error().what);
    if (!fits_paper(*sheet, size)) {
      return bad_input("--sheet", "a " + name + " has no room on a pocket card; use --paper a5");
    }
    if (std::find(sheets.begin(), sheets.end(), *sheet) == sheets.end()) sheets.push_back(*sheet);
  }
  for (const Sheet sheet : all_sheets) {
    if (options.sheets.empty() && fits_paper(sheet, size)) sheets.push_back(sheet);
  }
  return sheets;
}

std::string path_of(const PrintOptions& options, Sheet sheet) {
  return (std::filesystem::path(options.out) / (std::string(sheet_name(sheet)) + ".pdf")).string();
}

ExitCode print(const PrintOptions& options, Console& console) {
  const auto size = parse_paper(options.paper);
  if (!size) return console.report(size.error());
  const auto sheets = sheets_of(options, *size);
  if (!sheets) return console.report(sheets.error());
  const Existing existing = options.force ? Existing::replace : Existing::keep;
  std::error_code fault;  // that the folder cannot be had is said of the first sheet
  const bool is_new = !std::filesystem::exists(options.out, fault);
  for (const Sheet sheet : *sheets) {
    if (is_new) break;
    if (auto ok = check_writable(path_of(options, sheet), existing); !ok) return console.report(ok.error());
  }
  auto planned = load_and_plan(options.file, console);
  if (!planned) return console.report(planned.error());
  RidePlan& plan = planned->plan;
  plan.warnings.insert(plan.warnings.begin(), planned->loaded.warnings.begin(), planned->loaded.warnings.end());
  const auto catalogue = kit_catalogue_of(plan.ride, options.file);
  if (!catalogue) return console.report(catalogue.error());
  const PaperParts parts =
      work_out_parts(plan, *catalogue, *sheets, planned->loaded.roads.get(), searches_of(load_search_time));
  for (const Problem& problem : parts.problems) console.note(problem.where + " " + problem.what);
  const PaperSources sources = sources_of(plan, parts, planned->loaded.roads.get());
  PaperSettings settings;
  settings.size = *size;
  settings.version = options.version;
  settings.made = Instant{std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now())};
  // All are drawn before the first is written.
  std::vector<std::string> pdfs;
  for (const Sheet sheet : *sheets) {
    auto pdf = sheet_pdf(sheet, sources, settings);
    if (!pdf) return console.report(pdf.error());
    pdfs.push_back(std::move(*pdf));
  }
  if (is_new) std::filesystem::create_directory(options.out, fault);
  for (std::size_t i = 0; i < pdfs.size(); ++i) {
    const std::string path = path_of(options, (*sheets)[i]);
    if (auto ok = write_whole_file(path, pdfs[i], existing); !ok) return console.report(ok.error());
    console.print("Wrote " + path + "\n");
  }
  return ExitCode::good;
}

}  // namespace

Command add_print(CLI::App& all) {
  auto options = std::make_shared<PrintOptions>();
  CLI::App* app = all.add_subcommand(
      "print",
      "Make sheets of paper (PDF). The crew book with the day, each stop, gates, telephone and emergency page; the "
      "rider's "
      "card; kit and shopping list; boot plan with its steps; the spotter's sheet. For when every battery is flat.");
  app->add_option("RIDE", options->file, "The ride file")->required()->type_name("FILE");
  app->add_option("--out", options->out, "The folder for the sheets")->required()->type_name("DIR");
  add_repeated(*app, "--sheet", options->sheets,
               "crew-book, rider-card, kit-list, boot-plan or spotter [all that the paper has room for]")
      ->type_name("NAME");
  add_choice(*app, "--paper", options->paper, {"a4", "letter", "a5", "pocket"},
             "The paper; pocket: cards of 74 x 105 mm, for rider card and kit list [a4]");
  app->add_option("--mark", options->version, "What the plan is called on every page [six letters that follow from it]")
      ->type_name("TEXT");
  app->add_flag("--force", options->force, "Replace files that are already there");
  app->footer(
      "Example: outbye print ride.json --out sheets\n"
      "         outbye print ride.json --out cards --paper pocket --sheet rider-card");
  return {app, [options](Console& console) { return print(*options, console); }};
}

}  // namespace outbye
