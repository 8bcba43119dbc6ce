#include <algorithm>
#include <cmath>

#include "core/base/text.h"
#include "core/rules/rule_set.h"
#include "formats/exports/plan_words.h"
#include "formats/paper/sheets.h"

namespace outbye {
namespace {

struct GateWords {
  GateRules rules;  // empty without rules
  std::optional<Seconds> hold;
  bool from_arrival{};
};

GateWords gate_of(const RidePlan& plan, const PassForecast& pass) {
  GateWords gate;
  const std::uint32_t number = pass.event.loop.value + 1;
  const bool is_finish = pass.event.kind == RideEvent::Kind::finish;
  if (plan.rules) gate.rules = is_finish ? finish_rules(*plan.rules) : gate_rules(*plan.rules, number);
  if (is_finish) return gate;
  const auto loop = pass.event.loop.value;
  gate.hold = loop < plan.ride.loops.size() ? plan.ride.loops[loop].pace.hold : plan.ride.default_pace.hold;
  gate.from_arrival = gate.rules.hold_from && gate.rules.hold_from->value == HoldFrom::arrival;
  return gate;
}

std::string whole_minutes(Seconds time) { return duration_in_words(time); }

void rules_of(Paper& paper, const GateWords& gate) {
  std::vector<std::string> lines;
  const GateRules& rules = gate.rules;
  if (rules.pulse_limit) {
    const bool below = rules.pulse_must_be_below && rules.pulse_must_be_below->value;
    lines.push_back(std::string("Pulse limit: ") + (below ? "below " : "") +
                    std::to_string(static_cast<int>(std::lround(rules.pulse_limit->value.value))) + " beats a minute.");
  }
  if (rules.present_within)
    lines.push_back("Present within " + whole_minutes(rules.present_within->value) + " of arrival.");
  if (rules.present_after)
    lines.push_back("Present not before " + whole_minutes(rules.present_after->value) + " after arrival.");
  if (rules.attempts) lines.push_back("Presentations allowed: " + std::to_string(rules.attempts->value) + ".");
  if (gate.hold) {
    lines.push_back("Hold: " + whole_minutes(*gate.hold) + " from " + (gate.from_arrival ? "arrival" : "in-time") +
                    ".");
  }
  lines.emplace_back("What the officials say on the day wins over all of it.");
  paper.list(lines);
}

// One column of times and one of what follows from each, several pairs beside each other.
void clock_table(Paper& paper, const RidePlan& plan, const std::string& head, const std::string& tail, Instant from,
                 Instant to, Seconds add) {
  const double minutes_long = std::max(1.0, in_minutes(to - from));
  double step = 1;
  for (const double wider : {1.0, 2.0, 5.0, 10.0, 15.0, 30.0, 60.0}) {
    step = wider;
    if (minutes_long / wider <= 36) break;
  }
  const auto first = std::floor(in_minutes(from.time_since_epoch()) / step) * step;
  std::vector<Instant> times;
  for (double m = first; m <= in_minutes(to.time_since_epoch()) + step - 0.01; m += step)
    times.push_back(Instant{minutes(m)});
  const std::size_t pairs = paper.width() > 400 ? 4 : paper.width() > 300 ? 3 : 2;
  const std::size_t rows = (times.size() + pairs - 1) / pairs;
  Table table;
  table.is_boxed = true;
  for (std::size_t p = 0; p < pairs; ++p) table.columns.insert(table.columns.end(), {{head, true}, {tail, true}});
  for (std::size_t r = 0; r < rows; ++r) {
    std::vector<TableCell> row;
    for (std::size_t p = 0; p < pairs; ++p) {
      const std::size_t i = p * rows + r;
      row.emplace_back(i < times.size() ? time_words(times[i], plan) : "");
      row.emplace_back(i < times.size() ? time_words(times[i] + add, plan) : "", true);
    }
    table.rows.push_back(std::move(row));
  }
  paper.table(table);
}

}  // namespace

void gate_pages(Paper& paper, const PaperSources& from) {
  const RidePlan& plan = from.plan;
  bool is_first = true;
  for (const PassForecast& pass : plan.passes) {
    if (pass.event.kind == RideEvent::Kind::pass) continue;
    if (is_first) {
      paper.new_page();
      paper.heading(1, "Gates");
      is_first = false;
    }
    paper.keep_together([&] {
      const GateWords gate = gate_of(plan, pass);
      paper.heading(2, pass_words(plan, pass) + ": " + horse_in_words(plan, pass.horse));
      std::string words = "Due " + time_words(pass.due.p50, plan) + " (" + span_words(pass.due, plan) + ")";
      if (gate.hold)
        words += "; out " + time_words(pass.out.p50, plan) + " (" + span_words(pass.out, plan) + ") as foreseen";
      paper.text(words + ".", paper.bold());
      rules_of(paper, gate);
      paper.to_fill_in({"arrived at", "present by", "pulse", "in-time", "out-time", "went out"}, 80);
      if (gate.rules.present_within) {
        paper.heading(3, "Arrived at, and present by");
        clock_table(paper, plan, "Arrived", "Present by", pass.due.p10, pass.due.p90, gate.rules.present_within->value);
      }
      if (gate.hold) {
        const char* head = gate.from_arrival ? "Arrived" : "In-time";
        paper.heading(3, std::string(head) + ", and out-time");
        const Instant begin = gate.from_arrival ? pass.due.p10 : std::min(pass.out.p10 - *gate.hold, pass.due.p90);
        const Instant end = gate.from_arrival ? pass.due.p90 : std::max(pass.out.p90 - *gate.hold, pass.due.p90);
        clock_table(paper, plan, head, "Out", begin, end, *gate.hold);
      }
    });
  }
}

}  // namespace outbye
