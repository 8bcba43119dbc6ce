#include "cli/gate_options.h"

#include <cmath>
#include <utility>

#include "cli/command_line.h"
#include "core/base/text.h"
#include "formats/gate_log/time_on_day.h"
#include "formats/rule_book/rule_book_file.h"
#include "formats/time_zone/time_zone.h"

namespace outbye {
namespace {

// Reads the options one by one and keeps the first problem.
class OptionReader {
 public:
  OptionReader(std::string date, Clock clock) : date_(std::move(date)), clock_(std::move(clock)) {}

  std::optional<Instant> time(const std::string& text, const std::string& option) {
    if (text.empty()) return std::nullopt;
    auto instant = time_from(text, option, date_, clock_);
    if (instant) return *instant;
    fail(instant.error());
    return std::nullopt;
  }

  std::optional<double> number(std::string_view text, const std::string& option, double above, double at_most) {
    if (text.empty()) return std::nullopt;
    auto value = number_from(text, option, above, at_most);
    if (value) return *value;
    fail(value.error());
    return std::nullopt;
  }

  void pulse(const std::string& text, const std::string& option, bool presented, std::vector<GatePulse>& into) {
    const auto equals = text.find('=');
    if (equals == std::string::npos) {
      fail({Problem::Kind::bad_input, option, "'" + text + "' is not a time and a pulse; write it like 10:34=72"});
      return;
    }
    const auto at = time(text.substr(0, equals), option);
    const auto bpm = number(std::string_view(text).substr(equals + 1), option, 19, 260);
    if (at && bpm) {
      into.push_back({*at, {*bpm}, presented, std::nullopt});
    } else {
      fail({Problem::Kind::bad_input, option, "'" + text + "' is not a time and a pulse; write it like 10:34=72"});
    }
  }

  void fail(Problem problem) {
    if (!problem_) problem_ = std::move(problem);
  }
  const std::optional<Problem>& problem() const { return problem_; }

 private:
  std::string date_;
  Clock clock_;
  std::optional<Problem> problem_;
};

template <class T>
Ruled<T> said(T value) {
  return {value, Mark::event, "command line"};
}

GateRules own_rules(const GateOptions& options, OptionReader& read) {
  GateRules own;
  const auto duration = [&](const std::string& text, const std::string& option, Rule<Seconds>& into) {
    if (const auto min = read.number(text, option, -1e-9, 1440)) into = said(minutes(*min));
  };
  if (const auto bpm = read.number(options.limit, "--limit", 19, 260)) own.pulse_limit = said(BeatsPerMinute{*bpm});
  if (!options.at_limit.empty()) own.pulse_must_be_below = said(options.at_limit == "too-high");
  duration(options.within, "--within", own.present_within);
  duration(options.not_before, "--not-before", own.present_after);
  duration(options.again_within, "--again-within", own.present_again_within);
  duration(options.hold, "--hold", own.hold);
  if (options.at_once) own.present_at_once = said(true);
  if (const auto n = read.number(options.attempts, "--attempts", 0, 10)) {
    if (*n != std::floor(*n)) {
      read.fail({Problem::Kind::bad_input, "--attempts", "is " + options.attempts + ", but must be a whole number"});
    }
    own.attempts = said(static_cast<std::uint32_t>(*n));
  }
  if (!options.hold_from.empty()) {
    own.hold_from = said(options.hold_from == "arrival" ? HoldFrom::arrival : HoldFrom::in_time);
  }
  if (!options.clock_stops.empty()) {
    own.clock_stops = said(options.clock_stops == "line" ? ClockStops::at_line : ClockStops::at_in_time);
  }
  return own;
}

std::optional<Problem> order_problem(const DayLoop& loop, Instant now, const Clock& clock) {
  const auto refuse = [](std::string option, std::string what) {
    return Problem{Problem::Kind::bad_input, std::move(option), std::move(what)};
  };
  const Instant arrival = *loop.gate.arrival;
  if (arrival > now) {
    return refuse("--arrival", "is later than now (" + iso8601(now, clock) +
                                   "); for a time of another day give --date, for another present --now");
  }
  const auto is_to_come = [&](const std::optional<Instant>& at) { return at && *at > now; };
  if (is_to_come(loop.gate.in_time)) return refuse("--in", "is later than now (" + iso8601(now, clock) + ")");
  if (is_to_come(loop.gate.left)) return refuse("--left", "is later than now (" + iso8601(now, clock) + ")");
  for (const auto& pulse : loop.gate.pulses) {
    if (pulse.at <= now) continue;
    return refuse(pulse.presented ? "--present" : "--pulse",
                  hours_minutes_seconds(pulse.at, clock) + " is later than now (" + iso8601(now, clock) + ")");
  }
  if (loop.out && *loop.out >= arrival) return refuse("--out", "is not before the arrival");
  if (loop.gate.in_time && *loop.gate.in_time < arrival) return refuse("--in", "is before the arrival");
  if (loop.gate.left && *loop.gate.left < arrival) return refuse("--left", "is before the arrival");
  return std::nullopt;
}

}  // namespace

Result<Instant> time_from(const std::string& text, const std::string& option, const std::string& date,
                          const Clock& clock) {
  auto instant = time_on_day(text, date, clock);
  if (instant) return *instant;
  return problem(
      instant.error().kind, option,
      instant.error().where + " " + instant.error().what + "; write it like 10:32, 10:32:15 or 2026-06-13T10:32");
}

Result<GateReport> one_gate(const GateOptions& options, Instant clock_now) {
  const std::string zone = options.zone.empty() ? local_zone() : options.zone;
  auto clock = clock_for_zone(zone, clock_now);
  if (!clock) return problem(clock.error().kind, "--zone", clock.error().where + " " + clock.error().what);
  std::string date = local_date(clock_now, *clock);
  if (!options.date.empty()) {
    const auto day = parse_written_time(options.date + "T12:00");
    if (!day) return bad_input("--date", "'" + options.date + "' is not a day; write it like 2026-06-13");
    date = options.date;
    clock = clock_for_zone(zone, Instant{day->local.time_since_epoch()});
    if (!clock) return tl::make_unexpected(clock.error());
  }
  OptionReader read(date, *clock);
  GateReport report;
  report.log.clock = *clock;
  report.now = read.time(options.now, "--now").value_or(clock_now);
  DayLoop loop;
  loop.gate.arrival = read.time(options.arrival, "--arrival");
  loop.gate.in_time = read.time(options.in_time, "--in");
  loop.gate.left = read.time(options.left, "--left");
  loop.gate.is_finish = options.finish;
  loop.out = read.time(options.out, "--out");
  if (const auto km = read.number(options.km, "--km", 0, 400)) loop.length = kilometres(*km);
  for (const auto& text : options.pulses) read.pulse(text, "--pulse", false, loop.gate.pulses);
  for (const auto& text : options.presented) read.pulse(text, "--present", true, loop.gate.pulses);
  const auto gate = read.number(options.gate, "--gate", 0, 20);
  if (gate && *gate != std::floor(*gate)) return bad_input("--gate", "is " + options.gate + ", but must be 1, 2, 3...");
  report.first_gate = static_cast<std::uint32_t>(gate.value_or(1.0));
  RuleChoice choice{options.rules, options.level, {}};
  GateRules& own = options.finish ? choice.own.finish : choice.own.gates[report.first_gate];
  own = own_rules(options, read);
  if (read.problem()) return tl::make_unexpected(*read.problem());
  if (auto wrong = order_problem(loop, report.now, *clock)) return tl::make_unexpected(std::move(*wrong));
  auto rules = rule_set(preset_books(), choice);
  if (!rules) {
    const bool is_level = rules.error().where == "rules.level";
    return problem(rules.error().kind, is_level ? "--level" : "--rules", rules.error().what);
  }
  report.log.rules = std::move(*rules);
  loop.rules = options.finish ? finish_rules(report.log.rules) : gate_rules(report.log.rules, report.first_gate);
  report.log.day.loops.push_back(std::move(loop));
  return report;
}

std::optional<std::string> option_of_one_gate(const GateOptions& o) {
  const std::pair<const char*, bool> given[] = {{"--arrival", !o.arrival.empty()},
                                                {"--in", !o.in_time.empty()},
                                                {"--left", !o.left.empty()},
                                                {"--date", !o.date.empty()},
                                                {"--zone", !o.zone.empty()},
                                                {"--out", !o.out.empty()},
                                                {"--km", !o.km.empty()},
                                                {"--pulse", !o.pulses.empty()},
                                                {"--present", !o.presented.empty()},
                                                {"--gate", !o.gate.empty()},
                                                {"--rules", !o.rules.empty()},
                                                {"--level", !o.level.empty()},
                                                {"--limit", !o.limit.empty()},
                                                {"--at-limit", !o.at_limit.empty()},
                                                {"--within", !o.within.empty()},
                                                {"--not-before", !o.not_before.empty()},
                                                {"--again-within", !o.again_within.empty()},
                                                {"--attempts", !o.attempts.empty()},
                                                {"--hold", !o.hold.empty()},
                                                {"--hold-from", !o.hold_from.empty()},
                                                {"--clock-stops", !o.clock_stops.empty()},
                                                {"--finish", o.finish},
                                                {"--at-once", o.at_once}};
  for (const auto& [name, is_given] : given) {
    if (is_given) return name;
  }
  return std::nullopt;
}

Result<RecoveryPrior> prior_from(const GateOptions& options) {
  RecoveryPrior prior;
  if (options.own_rate.empty()) return prior;
  const auto rate = number_from(options.own_rate, "--own-rate", 20, 100);
  if (!rate) return tl::make_unexpected(rate.error());
  prior.resting = {*rate};
  prior.resting_sd = {2.0};  // the same horse from gate to gate: a choice
  return prior;
}

Result<std::optional<RecoveryIndex>> index_from(const GateOptions& options) {
  if (options.trot.empty()) return std::optional<RecoveryIndex>{};
  const auto equals = options.trot.find('=');
  if (equals == std::string::npos) {
    return bad_input("--trot", "'" + options.trot + "' is not two pulses; write it like 56=60");
  }
  const auto first = number_from(std::string_view(options.trot).substr(0, equals), "--trot", 19, 260);
  if (!first) return tl::make_unexpected(first.error());
  const auto second = number_from(std::string_view(options.trot).substr(equals + 1), "--trot", 19, 260);
  if (!second) return tl::make_unexpected(second.error());
  Seconds after{60.0};
  if (!options.trot_after.empty()) {
    const auto seconds = number_from(options.trot_after, "--trot-after", 0, 600);
    if (!seconds) return tl::make_unexpected(seconds.error());
    after = Seconds{*seconds};
  }
  return std::optional(recovery_index({*first}, {*second}, after));
}

}  // namespace outbye
