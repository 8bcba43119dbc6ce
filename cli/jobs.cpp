// outbye jobs: who does what at each stop, in the shortest and then the fairest way.
#include <algorithm>
#include <filesystem>
#include <memory>

#include "cli/command_line.h"
#include "cli/jobs_report.h"
#include "cli/load_ride.h"
#include "core/base/text.h"
#include "formats/answer_json/answer_json.h"
#include "formats/file_io/file_io.h"
#include "formats/jobs_picture/jobs_picture.h"

namespace outbye {
namespace {

struct JobsOptions {
  std::string file;
  std::string stop;
  std::string person;
  std::string without;
  std::string svg;
  bool rider{};
  bool all{};
  bool json{};
  bool force{};
};

std::string known(const std::vector<std::string_view>& names) {
  std::string text;
  for (std::size_t i = 0; i < names.size() && i < 12; ++i) text += (i == 0 ? "" : ", ") + std::string(names[i]);
  return text + (names.size() > 12 ? " and " + std::to_string(names.size() - 12) + " more" : "");
}

Result<std::size_t> index_of(const std::string& name, const std::vector<std::string_view>& names,
                             const std::string& option, const std::string& kind) {
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (same_name(names[i], name)) return i;
  }
  const auto nearest = nearest_name(name, names);
  return not_found(option, "'" + name + "' is no " + kind + " of this day; " +
                               (nearest         ? "did you mean '" + std::string(*nearest) + "'?"
                                : names.empty() ? "there is none"
                                                : "known: " + known(names)));
}

// "gate loop 1" -> "1-gate-loop-1.svg": in the order of the day, in letters that every file system takes.
std::string file_name(std::size_t number, const std::string& name) {
  std::string file = (number < 9 ? "0" : "") + std::to_string(number + 1) + "-";
  for (const char c : in_lower_case(name)) {
    const bool is_plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (is_plain || file.back() != '-') file += is_plain ? c : '-';
  }
  while (file.back() == '-') file.pop_back();
  return file + ".svg";
}

Result<void> write_pictures(const JobsOptions& options, const RidePlan& plan, const RideJobs& jobs) {
  const Existing existing = options.force ? Existing::replace : Existing::keep;
  std::vector<std::string> paths;
  for (std::size_t i = 0; i < jobs.stops.size(); ++i) {
    paths.push_back((std::filesystem::path(options.svg) / file_name(i, jobs.stops[i].name)).string());
    if (auto ok = check_writable(paths.back(), existing); !ok) return ok;
  }
  for (std::size_t i = 0; i < jobs.stops.size(); ++i) {
    const StopJobs& stop = jobs.stops[i];
    const std::string title = stop_heading(stop, plan.ride.clock);
    if (auto ok = write_whole_file(paths[i], stop_picture_svg(stop.stop, stop.schedule, title), existing); !ok) {
      return ok;
    }
  }
  return {};
}

struct Asked {
  std::optional<std::size_t> stop;
  std::optional<std::size_t> person;
  std::optional<std::size_t> without;
};

Result<Asked> what_is_asked(const JobsOptions& options, const RideJobs& jobs) {
  std::vector<std::string_view> stops;
  for (const StopJobs& stop : jobs.stops) stops.push_back(stop.name);
  std::vector<std::string_view> people;
  for (const RideHelper& helper : jobs.people) people.push_back(helper.name);
  Asked asked;
  if (!options.stop.empty()) {
    const auto index = index_of(options.stop, stops, "--stop", "stop");
    if (!index) return tl::make_unexpected(index.error());
    asked.stop = *index;
  }
  if (!options.person.empty()) {
    const auto index = index_of(options.person, people, "--person", "helper");
    if (!index) return tl::make_unexpected(index.error());
    asked.person = *index;
  }
  if (!options.without.empty()) {
    const auto index = index_of(options.without, people, "--without", "helper");
    if (!index) return tl::make_unexpected(index.error());
    asked.without = *index;
  }
  return asked;
}

std::string text_of(const RidePlan& plan, const RideJobs& jobs, const Asked& asked, const JobsOptions& options,
                    const Style& style) {
  std::string text;
  const auto add = [&text](const std::string& part) { text += (text.empty() ? "" : "\n") + part; };
  if (asked.stop) add(stop_text(plan, jobs.stops[*asked.stop], options.all, style));
  if (asked.person) add(person_text(plan, jobs, *asked.person, style));
  if (options.rider) add(rider_text(plan, jobs, style));
  if (asked.without) add(without_text(jobs, *asked.without, options.all, style));
  if (text.empty()) add(jobs_overview(plan, jobs, style));
  return text;
}

ExitCode jobs(const JobsOptions& options, Console& console) {
  const auto planned = load_and_plan(options.file, console);
  if (!planned) return console.report(planned.error());
  const RidePlan& plan = planned->plan;
  const RideJobs jobs = jobs_of(plan);
  // Work that nobody can do is put right in the ride file, before anybody relies on the rest.
  std::vector<Problem> problems;
  for (const StopJobs& stop : jobs.stops) {
    if (stop.problem) problems.push_back(*stop.problem);
  }
  if (!problems.empty()) return console.report(problems);
  const auto asked = what_is_asked(options, jobs);
  if (!asked) return console.report(asked.error());
  if (!options.svg.empty()) {
    if (auto ok = write_pictures(options, plan, jobs); !ok) return console.report(ok.error());
  }
  if (options.json) {
    console.print(pretty_json(jobs_json(plan, jobs)));
  } else {
    console.print(text_of(plan, jobs, *asked, options, console.style_of_output()));
  }
  return ExitCode::good;
}

}  // namespace

Command add_jobs(CLI::App& all) {
  auto options = std::make_shared<JobsOptions>();
  CLI::App* app = all.add_subcommand(
      "jobs",
      "Who does what at each stop. The shortest stop for the people there, then the fairest sharing of the work over "
      "the day; cards for each person and the rider; what changes when the horse is early or a helper is missing.");
  app->add_option("RIDE", options->file, "The ride file")->required()->type_name("FILE");
  app->add_option("--stop", options->stop, "One stop, who does what when: \"gate loop 1\"")->type_name("NAME");
  app->add_option("--person", options->person, "The card of one helper for the whole day")->type_name("NAME");
  app->add_flag("--rider", options->rider, "The rider's card: who gives you what");
  app->add_option("--without", options->without, "What changes when this helper is missing")->type_name("NAME");
  app->add_flag("--all", options->all, "With --stop and --without: every difference, not only those that matter");
  app->add_option("--svg", options->svg, "Also draw each stop into this folder")->type_name("DIR");
  add_json_flag(*app, options->json);
  app->add_flag("--force", options->force, "Replace files that are already there");
  app->footer("Example: outbye jobs ride.json --stop \"gate loop 1\"");
  return {app, [options](Console& console) { return jobs(*options, console); }};
}

}  // namespace outbye
