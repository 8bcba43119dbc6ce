// outbye day: the day of the ride replayed from its log: state and advice at any time.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <memory>

#include "cli/command_line.h"
#include "cli/load_ride.h"
#include "cli/text_layout.h"
#include "core/base/text.h"
#include "formats/day_log/day_json.h"
#include "formats/file_io/file_io.h"
#include "formats/gate_log/time_on_day.h"
#include "formats/ride_inputs/kit_files.h"

namespace outbye {
namespace {

struct DayOptions {
  std::string file;
  std::vector<std::string> logs;
  std::string at;
  bool rest{};
  bool json{};
};

constexpr std::size_t rest_days = 1024;

std::string clock_of(const RidePlan& plan, Instant at) { return hours_minutes(at, plan.ride.clock); }

std::string passes_text(const RidePlan& plan, const DayAnswer& answer) {
  std::string text;
  for (const PassOutlook& pass : answer.passes) {
    std::string line = "  " + pass.label;
    const std::size_t width = display_width(line);
    line += std::string(width < 30 ? 30 - width : 1, ' ');
    if (pass.seen) {
      line += "seen " + clock_of(plan, *pass.seen);
    } else if (pass.odds.gone > 0.999) {
      line += "gone by, not seen";
    } else {
      line += "due " + clock_of(plan, pass.odds.due->p50) + " (" + clock_of(plan, pass.odds.due->p10) + " to " +
              clock_of(plan, pass.odds.due->p90) + ")";
      if (pass.odds.gone >= 0.005) line += ", gone by: " + odds_words(pass.odds.gone);
    }
    text += line + "\n";
  }
  return text;
}

std::string next_text(const NextAction& next, const Style& style) {
  std::string text = style.heading(next.words) + "\n";
  if (next.until && std::abs(next.until->count()) >= 30.0) {
    text += wrapped((next.until->count() > 0 ? "In " : "Past by ") +
                    duration_words(Seconds{60.0 * std::round(std::abs(in_minutes(*next.until)))}) + ".");
  }
  const auto lines = [&](const std::string& title, const std::vector<std::string>& all) {
    if (all.empty()) return;
    text += title + "\n";
    for (const auto& line : all) text += wrapped("- " + line);
  };
  for (const auto& line : next.beside) text += wrapped("- " + line);
  for (const DayDuty& duty : next.duties) {
    std::string tasks;
    for (const auto& task : duty.tasks) tasks += (tasks.empty() ? "" : "; ") + task;
    text += wrapped(duty.who + ": " + tasks + ".");
    for (const auto& caution : duty.cautions) text += wrapped("  Mind: " + caution);
  }
  lines("Get out for " + next.place + ":", next.get_out);
  lines("Hazards at " + next.place + ":", next.hazards);
  lines(next.place + ":", next.of_place);
  std::vector<std::string> alarms;
  for (const DayAlarm& alarm : next.alarms) alarms.push_back(alarm.words);
  lines("Alarms:", alarms);
  return text;
}

std::string grams(Grams mass) { return fixed(mass.value, 0); }

std::string stores_text(const RidePlan& plan, const DayAnswer& answer, const Style& style) {
  std::string text;
  for (const GateNow& gate : answer.gates) {
    text += "\n" + style.heading(at(plan.ride.horses, gate.horse).name + ", " + gate.label) + "\n";
    for (const auto& step : gate.steps) text += wrapped("- " + step);
  }
  text += "\n" + style.heading("Water and salts, by the log") + "\n";
  for (const WaterNow& water : answer.water) {
    const WaterBalance& b = water.balance;
    text +=
        wrapped("- " + at(plan.ride.horses, water.horse).name + ": short of " + fixed(b.deficit.from.value, 1) +
                " to " + fixed(b.deficit.to.value, 1) + " L (" + fixed(b.percent.from, 1) + " to " +
                fixed(b.percent.to, 1) + " % of its mass; an estimate). " + std::string(deficit_band_advice(b.band)));
    text += wrapped("- Salts lost less what is noted as given: sodium " + grams(water.salts.short_low.sodium) + " to " +
                    grams(water.salts.short_high.sodium) + " g, chloride " + grams(water.salts.short_low.chloride) +
                    " to " + grams(water.salts.short_high.chloride) + " g, potassium " +
                    grams(water.salts.short_low.potassium) + " to " + grams(water.salts.short_high.potassium) + " g.");
    for (const auto& note : water.notes) text += wrapped("- " + note);
    for (const auto& caution : water.salts.cautions) text += wrapped("- " + caution);
  }
  for (const CarStockLeft& car : answer.stock) {
    text += "\n" + style.heading("Stock of " + at(plan.task.cars, car.car).name) + "\n";
    for (const KindLeft& kind : car.kinds) {
      const std::string unit(stock_kind_unit(kind.kind));
      const std::string left = kind.capacity > 0
                                   ? fixed(kind.left, 0) + " of " + fixed(kind.capacity, 0) + " " + unit + " left"
                                   : std::string("nothing carried for it alone");
      text += wrapped("- " + std::string(stock_kind_name(kind.kind)) + ": " + left + "; by the plan " +
                      fixed(kind.to_come, 0) + " " + unit + " more is taken");
    }
    for (const auto& note : car.notes) text += wrapped("- " + note);
  }
  return text;
}

std::string day_text(const RidePlan& plan, const DayAnswer& answer, const std::optional<Result<RestOfDay>>& rest,
                     const std::vector<UnreadLine>& unread, const Style& style) {
  std::string text = style.heading(plan.ride.name + ", " + clock_of(plan, answer.state.now)) + "\n";
  for (std::size_t c = 0; c < answer.cars.size(); ++c) {
    const CarAdvice& advice = answer.cars[c];
    const CarOnDay& car = answer.state.cars[c];
    text += "\n" + style.heading(at(plan.task.cars, advice.car).name) + (car.is_driving ? ", left " : ", at ") +
            at(plan.places, car.place).name;
    if (car.since) text += (car.is_driving ? " at " : " since ") + clock_of(plan, *car.since);
    text += "\n" + next_text(answer.next[c], style);
    text += "Wait or drive on? " + advice.headline + "\n";
    for (const auto& sentence : advice.sentences) text += wrapped("- " + sentence);
    if (!advice.why.empty()) text += "Why:\n";
    for (const auto& sentence : advice.why) text += wrapped("- " + sentence);
  }
  text += "\n" + style.heading("Passes") + "\n" + passes_text(plan, answer);
  text += stores_text(plan, answer, style);
  if (rest) {
    text += "\n" + style.heading("The rest of the day, planned anew") + "\n";
    if (!*rest) {
      text += wrapped(rest->error().where + " " + rest->error().what);
    } else {
      for (const CarDay& day : (*rest)->plan.days) {
        for (const TimedStop& stop : day.stops) {
          if (!stop.stop.option) continue;
          text +=
              wrapped("- " + at((*rest)->task.cars, day.car).name + ": leave " + clock_of(plan, stop.depart) + ", at " +
                      at((*rest)->task.options, *stop.stop.option).label + " " + clock_of(plan, stop.arrive) +
                      ", she is due " + clock_of(plan, stop.due.p50) + ", set up " + odds_words(stop.chance_ready));
        }
      }
      for (const auto& change : (*rest)->changes) text += wrapped("- " + change);
      for (const auto& note : (*rest)->notes) text += wrapped("- " + note);
    }
  }
  if (!answer.state.troubles.empty() || !unread.empty()) {
    text += "\n" + style.doubtful("To put right (all of it is kept)") + "\n";
    for (const DayTrouble& t : answer.state.troubles) {
      text += wrapped("- " + (t.id.empty() ? "" : "event " + t.id + ": ") + t.what);
    }
    for (const UnreadLine& line : unread) {
      for (const Problem& p : line.problems) text += wrapped("- line " + std::to_string(line.number) + ": " + p.what);
    }
  }
  text += "\n" + wrapped(
                     "The co-driver reads this, never the driver. Where officials or vets say otherwise, they are "
                     "right.");
  return text;
}

ExitCode day(const DayOptions& options, Console& console) {
  DayLogReading reading;
  for (std::size_t i = 0; i < options.logs.size(); ++i) {
    const auto text = read_whole_file(options.logs[i], 50'000'000);
    if (!text) return console.report(text.error());
    auto one = read_day_log(*text, options.logs[i]);
    if (!one) return console.report(one.error());
    reading = i == 0 ? std::move(*one) : merged(reading, *one);
  }
  auto planned = load_and_plan(options.file, console);
  if (!planned) return console.report(planned.error());
  const RidePlan& plan = planned->plan;
  DayLog log = reading.log;
  // Whole seconds, as they are written down; the engine is told the time.
  Instant now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
  if (!options.at.empty()) {
    const auto at = time_on_day(options.at, local_date(plan.ride.start, plan.ride.clock), plan.ride.clock);
    if (!at) {
      return console.report(Problem{at.error().kind, "--at", at.error().where + " " + at.error().what});
    }
    now = *at;
    log = known_by(log, now);
  }
  const auto catalogue = kit_catalogue_of(planned->loaded.inputs.ride, options.file);
  if (!catalogue) return console.report(catalogue.error());
  const auto model = day_model(plan, {}, &*catalogue);
  if (!model) return console.report(model.error());
  const DayAnswer answer = day_answer(plan, *model, log, now);
  std::optional<Result<RestOfDay>> rest;
  if (options.rest) rest = plan_rest(plan, answer, rest_days);
  if (options.json) {
    console.print(pretty_json(day_json(plan, answer, rest, reading.unread)));
  } else {
    console.print(day_text(plan, answer, rest, reading.unread, console.style_of_output()));
  }
  return ExitCode::good;
}

}  // namespace

Command add_day(CLI::App& all) {
  auto options = std::make_shared<DayOptions>();
  CLI::App* app = all.add_subcommand(
      "day",
      "Replay the log of the day: where horse and cars are, whether she has gone by, whether to wait or to drive on, "
      "and what the answer rests on. At any time of the day, as it was known then.");
  app->add_option("RIDE", options->file, "A ride file")->type_name("FILE")->required();
  add_repeated(*app, "--log", options->logs, "A day log; more than one are merged (docs/day.md)")
      ->type_name("FILE")
      ->required();
  app->add_option("--at", options->at, "The time to look at: 11:40, or with the date [now]")->type_name("TIME");
  app->add_flag("--rest", options->rest, "Also plan the rest of the day anew");
  app->add_flag("--json", options->json, "Answer in JSON (docs/day.md)");
  app->footer(
      "Example: outbye day ride.json --log day.log --at 11:40\n"
      "         outbye day ride.json --log anna.log --log ben.log --rest --json");
  return {app, [options](Console& console) { return day(*options, console); }};
}

}  // namespace outbye
