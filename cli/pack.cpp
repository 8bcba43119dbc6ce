// outbye pack: a ride as an offline page for phones.
#include <chrono>
#include <memory>

#include "cli/command_line.h"
#include "cli/load_ride.h"
#include "cli/pack_sources.h"
#include "cli/write_folder.h"
#include "core/base/text.h"
#include "formats/load_items/timed_search.h"
#include "formats/packed_ride/packed_ride.h"
#include "formats/ride_inputs/kit_files.h"

namespace outbye {
namespace {

struct PackOptions {
  std::string file;
  std::string out;
  std::string single_file;
  std::string page;
  std::string engine;
  bool json{};
  bool force{};
};

constexpr Seconds packing_search_time{2.0};  // a car, as `outbye load`

// "1.2 MB", "14 kB": as file managers count.
std::string size_words(std::size_t bytes) {
  const double size = static_cast<double>(bytes);
  return size < 999'500 ? fixed(std::max(size / 1000, 1.0), 0) + " kB" : fixed(size / 1'000'000, 1) + " MB";
}

Result<void> check_targets(const PackOptions& options) {
  if (options.out.empty() && options.single_file.empty()) {
    return bad_input("command line",
                     "needs --out (a folder to make) or --single-file (an HTML file); `outbye pack --help` shows how");
  }
  const Existing existing = options.force ? Existing::replace : Existing::keep;
  if (!options.out.empty()) {
    if (auto ok = check_folder(options.out, existing); !ok) return ok;
  }
  if (!options.single_file.empty()) return check_writable(options.single_file, existing);
  return {};
}

struct Written {
  std::vector<PackedFile> files;  // of the folder
  std::string page;               // the single file
};

std::string text_answer(const PackOptions& options, const PackSources& from, const Written& written) {
  std::string text = (from.plan.ride.name.empty() ? "The ride" : from.plan.ride.name) + ", plan " +
                     plan_mark(from.plan) + ": " + std::to_string(from.plan.survey.course.crew_points.size() + 1) +
                     " places, " + std::to_string(from.photos.size()) + " photos, " +
                     std::to_string(from.sheets.size()) + " sheets\n";
  if (!options.out.empty()) {
    std::size_t all = 0;
    for (const PackedFile& file : written.files) all += file.bytes.size();
    const auto size_of = [&](const std::string& name) {
      for (const PackedFile& file : written.files) {
        if (file.name == name) return size_words(file.bytes.size());
      }
      return std::string("0 kB");
    };
    text += "Wrote " + options.out + ": " + std::to_string(written.files.size()) + " files, " + size_words(all) +
            " (ride " + size_of("ride.json") + ", maps and lists " + size_of("page.json") + ", engine " +
            size_of("outbye_day.wasm") + ")\n";
  }
  if (!options.single_file.empty()) {
    text += "Wrote " + options.single_file + ": " + size_words(written.page.size()) + "\n";
  }
  return text;
}

Json json_answer(const PackOptions& options, const PackSources& from, const Written& written) {
  Json json{{"format", "outbye pack"}, {"version", 1}, {"ride", from.plan.ride.name}, {"plan", plan_mark(from.plan)}};
  if (!options.out.empty()) {
    Json list = Json::array();
    for (const PackedFile& file : written.files)
      list.push_back(Json{{"file", file.name}, {"bytes", file.bytes.size()}});
    json["folder"] = Json{{"path", options.out}, {"files", std::move(list)}};
  }
  if (!options.single_file.empty()) {
    json["single_file"] = Json{{"path", options.single_file}, {"bytes", written.page.size()}};
  }
  json["notes"] = from.notes;
  return json;
}

// Both are made before either is written.
Outcome<Written> write_packed(const PackOptions& options, const PackSources& from, Console& console) {
  const auto refused = [](Problem problem) { return tl::make_unexpected(std::vector<Problem>{std::move(problem)}); };
  const Instant made{std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now())};
  const Existing existing = options.force ? Existing::replace : Existing::keep;
  Written written;
  if (!options.out.empty()) {
    console.progress("drawing maps", 0.8);
    auto files = packed_folder(from, made);
    if (!files) return refused(files.error());
    written.files = std::move(*files);
  }
  if (!options.single_file.empty()) {
    console.progress("drawing maps", 0.9);
    auto page = packed_page(from, made);
    if (!page) return refused(page.error());
    written.page = std::move(*page);
  }
  console.progress("writing", 0.95);
  if (!options.out.empty()) {
    if (auto ok = write_whole_folder(options.out, written.files, existing); !ok) return refused(ok.error());
  }
  if (!options.single_file.empty()) {
    if (auto ok = write_whole_file(options.single_file, written.page, existing); !ok) return refused(ok.error());
  }
  return written;
}

ExitCode pack(const PackOptions& options, Console& console) {
  if (auto ok = check_targets(options); !ok) return console.report(ok.error());
  auto web = read_built_page(options.page);
  if (!web) return console.report(web.error());
  auto engine = read_built_engine(options.engine);
  if (!engine) return console.report(engine.error());
  auto planned = load_and_plan(options.file, console);
  if (!planned) return console.report(planned.error());
  RidePlan& plan = planned->plan;
  const auto catalogue = kit_catalogue_of(plan.ride, options.file);
  if (!catalogue) return console.report(catalogue.error());
  console.progress("people, kit and load", 0.2);
  const PaperParts parts = work_out_parts(plan, *catalogue, {std::begin(all_sheets), std::end(all_sheets)},
                                          planned->loaded.roads.get(), searches_of(packing_search_time));
  auto packed = packed_ride(planned->loaded.inputs, plan, parts.kit ? parts.kit->list.taken : std::vector<KitEntry>{});
  if (!packed) return console.report(packed.error());
  plan.warnings.insert(plan.warnings.begin(), planned->loaded.warnings.begin(), planned->loaded.warnings.end());
  const RoadGraph* roads = planned->loaded.roads.get();
  console.progress("sheets of paper", 0.6);
  PaperSettings paper;
  paper.made = Instant{std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now())};
  auto sheets = sheet_files(sources_of(plan, parts, roads), paper);
  if (!sheets) return console.report(sheets.error());
  PackSources from{plan,
                   parts,
                   roads,
                   std::move(*packed),
                   std::move(*web),
                   std::move(engine->script),
                   std::move(engine->wasm),
                   std::move(*sheets),
                   {},
                   {}};
  from.photos = read_photos(plan.ride, options.file, from.notes);
  const auto written = write_packed(options, from, console);
  console.end_progress();
  if (!written) return console.report(written.error());
  for (const Problem& problem : parts.problems) console.note(problem.where + " " + problem.what);
  for (const std::string& note : from.notes) console.note(note);
  console.print(options.json ? pretty_json(json_answer(options, from, *written))
                             : text_answer(options, from, *written));
  return ExitCode::good;
}

}  // namespace

Command add_pack(CLI::App& all) {
  auto options = std::make_shared<PackOptions>();
  CLI::App* app = all.add_subcommand("pack",
                                     "Pack a ride for the crew's phones. A page that works without a network, with the "
                                     "plan, maps, sheets, photos, kit and "
                                     "the engine that answers \"has she gone by?\": as a folder for a web server (or "
                                     "`outbye serve --pack`), or as one HTML "
                                     "file.");
  app->add_option("RIDE", options->file, "The ride file")->required()->type_name("FILE");
  app->add_option("--out", options->out, "The folder to make")->type_name("DIR");
  app->add_option("--single-file", options->single_file, "All of it in one HTML file")->type_name("FILE");
  app->add_option("--page", options->page, "The built page of the day [beside the program]")->type_name("DIR");
  app->add_option("--engine", options->engine, "The engine built for phones [beside the program]")->type_name("DIR");
  app->add_flag("--force", options->force, "Replace the packed ride or the file that is there; other files stay");
  add_json_flag(*app, options->json);
  app->footer(
      "Example: outbye pack ride.json --out day\n"
      "         outbye pack ride.json --single-file day.html");
  return {app, [options](Console& console) { return pack(*options, console); }};
}

}  // namespace outbye
