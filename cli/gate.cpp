// outbye gate: how the clock of a vet gate stands, and what speed the rest of the day needs and allows.
#include <chrono>
#include <memory>

#include "cli/command_line.h"
#include "cli/gate_options.h"
#include "formats/file_io/file_io.h"
#include "formats/rule_book/rule_book_file.h"

namespace outbye {
namespace {

ExitCode show(GateReport report, const GateOptions& options, Console& console) {
  const auto prior = prior_from(options);
  if (!prior) return console.report(prior.error());
  const auto index = index_from(options);
  if (!index) return console.report(index.error());
  report.index = *index;
  if (auto ok = work_out(report, *prior); !ok) return console.report(ok.error());
  console.print(options.json ? gate_json(report) : gate_text(report, console.style_of_output()));
  return ExitCode::good;
}

ExitCode gate(const GateOptions& options, Console& console) {
  // Whole seconds, as they are written down; the core is told the time, it has no clock of its own.
  const Instant clock_now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
  if (options.file.empty()) {
    if (options.arrival.empty()) {
      return console.report(Problem{Problem::Kind::bad_input, "command line",
                                    "needs --arrival TIME for one gate, or a gate log for the day; `outbye gate "
                                    "--help` shows how"});
    }
    auto report = one_gate(options, clock_now);
    if (!report) return console.report(report.error());
    return show(std::move(*report), options, console);
  }
  if (const auto name = option_of_one_gate(options)) {
    return console.report(
        Problem{Problem::Kind::bad_input, *name, "tells of one gate, but a gate log is given; write it into the log"});
  }
  const auto text = read_whole_file(options.file);
  if (!text) return console.report(text.error());
  auto reading = read_gate_log(*text, options.file, preset_books());
  if (!reading.log) return console.report(reading.problems);
  GateReport report;
  report.is_day = true;
  report.log = std::move(*reading.log);
  report.now = report.log.now.value_or(clock_now);
  if (!options.now.empty()) {
    const Instant on_the_day = report.log.day.loops.front().out.value_or(report.now);
    const auto now = time_from(options.now, "--now", local_date(on_the_day, report.log.clock), report.log.clock);
    if (!now) return console.report(now.error());
    report.now = *now;
  }
  return show(std::move(report), options, console);
}

void add_rule_options(CLI::App& app, GateOptions& o) {
  app.add_option("--rules", o.rules, "Rule book (international, british, american, french, dutch, australian)")
      ->type_name("BOOK");
  app.add_option("--level", o.level, "Level of the book")->type_name("LEVEL");
  app.add_option("--limit", o.limit, "Pulse limit, beats a minute")->type_name("BPM");
  add_choice(app, "--at-limit", o.at_limit, {"accepted", "too-high"}, "A pulse exactly at the limit");
  app.add_option("--within", o.within, "Present within this of arrival, minutes")->type_name("MIN");
  app.add_option("--not-before", o.not_before, "Present not before this from arrival, minutes")->type_name("MIN");
  app.add_flag("--at-once", o.at_once, "The pulse is counted on arrival");
  app.add_option("--again-within", o.again_within, "Present again within this of the first presentation, minutes")
      ->type_name("MIN");
  app.add_option("--attempts", o.attempts, "Presentations allowed")->type_name("N");
  app.add_option("--hold", o.hold, "Hold, minutes")->type_name("MIN");
  add_choice(app, "--hold-from", o.hold_from, {"in-time", "arrival"}, "Where the hold begins");
  add_choice(app, "--clock-stops", o.clock_stops, {"in-time", "line"}, "Where the riding time of the loop ends");
}

}  // namespace

Command add_gate(CLI::App& all) {
  auto options = std::make_shared<GateOptions>();
  GateOptions& o = *options;
  CLI::App* app = all.add_subcommand(
      "gate",
      "Work the clock of a vet gate: by when to present, in-time, out-time, and when the pulse is likely to be down. "
      "One gate from options, or a day's gate log with the speeds still needed and allowed. Options win over the "
      "rule book. The vet's and the officials' decision is final.");
  app->add_option("FILE", o.file, "A gate log (JSON, docs/gate.md) instead of the options")->type_name("FILE");
  app->add_option("--arrival", o.arrival, "Arrival at the gate: 10:32, 10:32:15 or with the date")->type_name("TIME");
  add_repeated(*app, "--pulse", o.pulses, "A pulse counted by the crew, like 10:34=72")->type_name("TIME=BPM");
  add_repeated(*app, "--present", o.presented, "A pulse taken at a presentation, like 10:36=60")->type_name("TIME=BPM");
  app->add_option("--in", o.in_time, "In-time as the officials wrote it down")->type_name("TIME");
  app->add_option("--left", o.left, "When the horse went out again")->type_name("TIME");
  app->add_option("--now", o.now, "The present [of the system's clock]")->type_name("TIME");
  app->add_option("--date", o.date, "Day of the times [today]")->type_name("DAY");
  app->add_option("--zone", o.zone, "Time zone of the times [of this machine]")->type_name("ZONE");
  app->add_option("--gate", o.gate, "Which gate of the ride [1]")->type_name("N");
  app->add_flag("--finish", o.finish, "The last inspection: no hold");
  app->add_option("--out", o.out, "When the horse went out on the loop, for its speed")->type_name("TIME");
  app->add_option("--km", o.km, "Length of the loop, for its speed")->type_name("KM");
  add_rule_options(*app, o);
  app->add_option("--own-rate", o.own_rate, "The horse's own pulse standing quiet at gates [44]")->type_name("BPM");
  app->add_option("--trot", o.trot, "Pulse before the trot and 60 s after it began, like 56=60")->type_name("BPM=BPM");
  app->add_option("--trot-after", o.trot_after, "When the second was counted [60]")->type_name("SECONDS");
  app->add_flag("--json", o.json, "Answer in JSON (docs/gate.md)");
  app->footer(
      "Example: outbye gate --arrival 10:32 --pulse 10:34=72 --pulse 10:36=66 \\\n"
      "           --limit 64 --within 20 --hold 30\n"
      "         outbye gate day.json");
  return {app, [options](Console& console) { return gate(*options, console); }};
}

}  // namespace outbye
