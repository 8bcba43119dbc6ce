#include "formats/gate_log/gate_log.h"

#include <algorithm>
#include <cmath>

#include "formats/gate_log/time_on_day.h"
#include "formats/json_text/json_fields.h"
#include "formats/rule_book/rule_book_file.h"
#include "formats/time_zone/time_zone.h"

namespace outbye {
namespace {

constexpr Range loop_km{0.0, 400.0, true};
constexpr Range bpm{20.0, 260.0, false};
constexpr Range rider_kg{20.0, 250.0, false};
constexpr Range recovery_min{0.0, 120.0, false};
constexpr std::size_t loops_at_most = 20;

class Reader {
 public:
  explicit Reader(std::string file) : file_(std::move(file)) {}

  GateLogReading read(std::string_view text, const std::vector<RuleBook>& books) {
    const auto json = parse_json(text, file_);
    if (!json) return {std::nullopt, {json.error()}};
    JsonFields in(*json, file_, "", problems_);
    if (!is_ours(in)) return {std::nullopt, problems_};
    in.find("$schema");
    in.text("name", log_.name, true);
    read_clock(in);
    read_rules(in, books);
    in.number("rider_weight_kg", rider_kg, [&](double kg) { log_.day.rider_weight = Kilograms{kg}; });
    log_.now = time(in, "now");
    in.require("loops", "write each loop of the day with its length_km");
    in.items("loops", [&](const Json& item, const std::string& path) { read_loop(item, path); });
    if (in.find("loops") != nullptr && log_.day.loops.empty()) in.report("loops", "is empty; give at least one loop");
    if (log_.day.loops.size() > loops_at_most) in.report("loops", "are more than 20; a day has fewer");
    in.finish();
    if (problems_.empty()) set_gates();
    if (problems_.empty()) check_order();
    if (!problems_.empty()) return {std::nullopt, problems_};
    return {std::move(log_), {}};
  }

 private:
  bool is_ours(JsonFields& in) {
    if (!problems_.empty()) return false;
    std::string format;
    in.text("format", format);
    if (format != "gate log") {
      in.report("format", "is not \"gate log\"; docs/gate.md shows how a gate log begins");
      return false;
    }
    const Json* version = in.find("version");
    if (version != nullptr && version->is_number_integer() && version->get<std::int64_t>() == gate_log_version) {
      return true;
    }
    in.report("version", version == nullptr ? "is missing; write \"version\": 1"
                                            : "is " + version->dump() + ", but this outbye reads version 1");
    return false;
  }

  void read_clock(JsonFields& in) {
    in.text("date", date_);
    Instant noon;
    if (!date_.empty()) {
      const auto written = parse_written_time(date_ + "T12:00");
      if (written) {
        noon = Instant{written->local.time_since_epoch()};
      } else {
        in.report("date", "is '" + date_ + "', but must be a day such as 2026-06-13");
        date_.clear();
      }
    } else {
      in.require("date", "write the day of the ride, such as 2026-06-13");
    }
    std::string zone = "UTC";
    in.text("time_zone", zone);
    if (auto clock = clock_for_zone(zone, noon)) {
      log_.clock = std::move(*clock);
    } else {
      in.report("time_zone", clock.error().where + " " + clock.error().what);
      log_.clock.zone = zone;
    }
  }

  void read_rules(JsonFields& in, const std::vector<RuleBook>& books) {
    RuleChoice choice;
    const Json* field = in.find("rules");
    if (field != nullptr) {
      const std::size_t before = problems_.size();
      JsonFields at(*field, file_, "rules", problems_);
      read_rule_choice(at, choice);
      if (problems_.size() != before) return;
    }
    auto rules = rule_set(books, choice);
    if (rules) {
      log_.rules = std::move(*rules);
    } else {
      problems_.push_back({rules.error().kind, file_ + ": " + rules.error().where, rules.error().what});
    }
  }

  std::optional<Instant> time(JsonFields& in, std::string_view name) {
    std::string text;
    in.text(name, text);
    if (text.empty()) return std::nullopt;
    const auto instant = time_on_day(text, date_, log_.clock);
    if (instant) return *instant;
    // Without a date every time of day would be a problem of its own; the missing date has been reported.
    if (!date_.empty()) in.report(name, instant.error().where + " " + instant.error().what);
    return std::nullopt;
  }

  void read_times(JsonFields& in, DayLoop& loop) {
    if (const auto out = time(in, "out")) loop.out = out;
    if (const auto arrival = time(in, "arrival")) loop.gate.arrival = arrival;
    if (const auto in_time = time(in, "in")) loop.gate.in_time = in_time;
  }

  void read_loop(const Json& item, const std::string& path) {
    JsonFields in(item, file_, path, problems_);
    DayLoop loop;
    in.text("name", loop.name);
    in.require("length_km", "how long the loop is, in kilometres");
    in.number("length_km", loop_km, [&](double km) { loop.length = {std::round(km * 1e9) / 1e6}; });
    in.number("expected_recovery_min", recovery_min, [&](double min) { loop.expected_recovery = minutes(min); });
    read_times(in, loop);
    in.items("pulses", [&](const Json& pulse, const std::string& at) { read_pulse(pulse, at, loop.gate.pulses); });
    in.items("corrections", [&](const Json& correction, const std::string& at) {
      JsonFields fields(correction, file_, at, problems_);
      read_times(fields, loop);
      fields.finish();
    });
    in.finish();
    log_.day.loops.push_back(std::move(loop));
  }

  // An entry that corrects another takes its place; one that only corrects strikes it out.
  void read_pulse(const Json& item, const std::string& path, std::vector<GatePulse>& pulses) {
    JsonFields in(item, file_, path, problems_);
    GatePulse pulse;
    const std::size_t before = problems_.size();
    const auto corrects = time(in, "corrects");
    const bool strikes = corrects && in.find("at") == nullptr && in.find("bpm") == nullptr;
    if (!strikes) {
      in.require("at", "when the pulse was counted");
      in.require("bpm", "beats a minute");
    }
    if (const auto at = time(in, "at")) pulse.at = *at;
    in.number("bpm", bpm, [&](double value) { pulse.pulse = {value}; });
    in.flag("presented", pulse.presented);
    if (in.find("accepted") != nullptr) {
      bool accepted = false;
      in.flag("accepted", accepted);
      pulse.accepted = accepted;
      if (in.find("presented") != nullptr && !pulse.presented) {
        in.report("accepted", "is said of a pulse that was not presented; write \"presented\": true");
      }
      pulse.presented = true;
    }
    in.finish();
    if (corrects) {
      const auto wrong =
          std::find_if(pulses.begin(), pulses.end(), [&](const GatePulse& other) { return other.at == *corrects; });
      if (wrong == pulses.end()) {
        in.report("corrects", "names no pulse before this entry; give the time of the one to correct");
      } else {
        pulses.erase(wrong);
      }
    }
    if (problems_.size() == before && !strikes) pulses.push_back(pulse);
  }

  void set_gates() {
    auto& loops = log_.day.loops;
    for (std::size_t i = 0; i < loops.size(); ++i) {
      const bool is_finish = i + 1 == loops.size();
      loops[i].rules = is_finish ? finish_rules(log_.rules) : gate_rules(log_.rules, static_cast<std::uint32_t>(i + 1));
    }
  }

  void check_order() {
    const auto progress = day_progress(log_.rules.level, log_.day, Instant{});
    if (progress) return;
    problems_.push_back({progress.error().kind, file_ + ": " + progress.error().where,
                         progress.error().what + " (after midnight, write the date with the time)"});
  }

  std::string file_;
  std::string date_;
  Problems problems_;
  GateLog log_;
};

}  // namespace

GateLogReading read_gate_log(std::string_view text, const std::string& file, const std::vector<RuleBook>& books) {
  return Reader(file).read(text, books);
}

}  // namespace outbye
