// The gate and the day as text in 80 columns.
#include <algorithm>

#include "cli/gate_report.h"
#include "cli/plan_table.h"
#include "cli/text_layout.h"
#include "core/base/text.h"
#include "core/rules/rule_fields.h"

namespace outbye {
namespace {

std::string numbered_gate(const GateReport& report, std::size_t i) {
  const bool is_finish = report.is_day ? i + 1 == report.loops.size() : report.log.day.loops[i].gate.is_finish;
  return is_finish ? "Finish" : "Gate " + std::to_string(report.first_gate + i);
}

std::string phase_words(GatePhase phase) {
  switch (phase) {
    case GatePhase::riding:
      return "on the loop";
    case GatePhase::waiting:
      return "waiting to present";
    case GatePhase::recovering:
      return "to be presented";
    case GatePhase::holding:
      return "in the hold";
    case GatePhase::hold_over:
      return "hold over by the clock";
    case GatePhase::finished:
      return "finished, in-time recorded";
    case GatePhase::left:
      return "out on the next loop";
    case GatePhase::out_of_time:
      return "out of time by the clock";
    case GatePhase::no_attempts_left:
      break;
  }
  return "no presentation left";
}

std::string clock_of(const std::optional<Instant>& at, const Clock& clock) {
  return at ? hours_minutes_seconds(*at, clock) : "-";
}

std::string minutes_seconds(const std::optional<Seconds>& duration) {
  if (!duration) return "-";
  const auto s = static_cast<long>(duration->count() + 0.5);
  return std::to_string(s / 60) + ":" + (s % 60 < 10 ? "0" : "") + std::to_string(s % 60);
}

std::string speed_of(const std::optional<KmPerHour>& speed) { return speed ? fixed(speed->value, 2) : "-"; }

std::string row(const std::string& name, const std::string& value) {
  return wrapped(value, "  " + left(name, 18), line_width);
}

// "64 bpm or less (set for this event)"
template <class T>
std::string ruled_words(const Ruled<T>& rule, const std::string& words) {
  return words + " (" + in_words(rule.mark) + ")";
}

std::string rule_rows(const GateRules& rules) {
  std::string text;
  if (rules.pulse_limit) {
    const bool below = rules.pulse_must_be_below && rules.pulse_must_be_below->value;
    const std::string limit = in_words(rules.pulse_limit->value);
    text += row("pulse limit", ruled_words(*rules.pulse_limit, below ? "below " + limit : limit + " or less"));
  }
  if (rules.present_within) {
    text += row("present within", ruled_words(*rules.present_within, in_words(rules.present_within->value)));
  }
  if (rules.present_after) {
    text += row("present not before", ruled_words(*rules.present_after, in_words(rules.present_after->value)));
  }
  if (rules.hold) {
    const std::string from = rules.hold_from ? " from " + in_words(rules.hold_from->value) : "";
    text += row("hold", ruled_words(*rules.hold, in_words(rules.hold->value) + from));
  }
  return text;
}

std::string pulse_rows(const DayLoop& loop, Instant now, const Clock& clock) {
  std::vector<GatePulse> pulses = loop.gate.pulses;
  std::stable_sort(pulses.begin(), pulses.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
  std::string text;
  for (const auto& pulse : pulses) {
    if (pulse.at > now) continue;
    std::string words = hours_minutes_seconds(pulse.at, clock) + right(fixed(pulse.pulse.value, 0), 6) + " bpm  " +
                        (pulse.presented ? "presented" : "counted");
    if (pulse.accepted) words += *pulse.accepted ? ", accepted" : ", not accepted";
    if (loop.rules.pulse_limit) words += is_down(loop.rules, pulse.pulse) ? "; down to the limit" : "; above the limit";
    text += "  " + left(text.empty() ? "pulses" : "", 18) + words + "\n";
  }
  return text;
}

std::string gate_section(const GateReport& report, const Style& style) {
  const DayLoop& loop = report.log.day.loops[report.current];
  const LoopProgress& progress = report.loops[report.current];
  const GateState& gate = progress.gate;
  const Clock& clock = report.log.clock;
  std::string text = style.heading(numbered_gate(report, report.current) + ": " + phase_words(gate.phase)) + " at " +
                     hours_minutes_seconds(report.now, clock) + "\n\n";
  if (gate.phase != GatePhase::riding) text += row("arrival", clock_of(loop.gate.arrival, clock));
  text += pulse_rows(loop, report.now, clock);
  text += rule_rows(loop.rules);
  if (loop.rules.present_after && gate.earliest_presentation) {
    text += row("earliest", clock_of(gate.earliest_presentation, clock));
  }
  if (gate.latest_presentation) text += row("latest", clock_of(gate.latest_presentation, clock));
  if (gate.attempts_used > 0) {
    text += row("presentations", std::to_string(gate.attempts_used) + " used" +
                                     (gate.attempts_left ? ", " + std::to_string(*gate.attempts_left) + " left" : ""));
  }
  if (gate.in_time) {
    text += row("in-time", clock_of(gate.in_time, clock) + ", recovery " + minutes_seconds(gate.recovery));
  }
  if (gate.out_time) text += row("out-time", clock_of(gate.out_time, clock));
  if (progress.riding) text += row("riding time", duration_words(*progress.riding));
  if (progress.loop_speed) {
    std::string speeds = speed_of(progress.loop_speed) + " km/h over the loop";
    if (progress.phase_speed) speeds += ", " + speed_of(progress.phase_speed) + " with the recovery";
    text += row("speed", speeds);
  }
  return text;
}

std::string loop_table(const GateReport& report, const Style& style) {
  const Clock& clock = report.log.clock;
  std::string text =
      style.quiet("   loop          km      out  arrival  in-time  recov.  km/h  with it  out-time") + "\n";
  for (std::size_t i = 0; i < report.loops.size(); ++i) {
    const DayLoop& loop = report.log.day.loops[i];
    const LoopProgress& p = report.loops[i];
    const bool is_out = loop.out && *loop.out <= report.now;
    const bool is_in = p.gate.phase != GatePhase::riding;
    text += right(std::to_string(i + 1), 2) + " " + left(loop.name, 8) +
            right(fixed(in_kilometres(loop.length), 1), 7) +
            right(is_out ? hours_minutes_seconds(*loop.out, clock) : "-", 9) +
            right(is_in ? clock_of(loop.gate.arrival, clock) : "-", 9) + right(clock_of(p.gate.in_time, clock), 9) +
            right(minutes_seconds(p.gate.recovery), 8) + right(speed_of(p.loop_speed), 6) +
            right(speed_of(p.phase_speed), 9) + right(clock_of(p.gate.out_time, clock), 10) + "\n";
  }
  return text;
}

std::string sentences(const std::string& title, const std::vector<std::string>& list, const Style& style) {
  if (list.empty()) return "";
  std::string text = "\n" + style.heading(title) + "\n";
  for (const auto& sentence : list) text += wrapped(sentence, "  ");
  return text;
}

}  // namespace

std::string gate_text(const GateReport& report, const Style& style) {
  const Clock& clock = report.log.clock;
  const GateState& gate = report.loops[report.current].gate;
  std::string text;
  if (report.is_day) {
    const std::string name = report.log.name.empty() ? "Day at the gates" : report.log.name;
    text += style.heading(cut_to(name, 50)) + ", " + local_date(report.now, clock) + " " +
            offset_words(report.now, clock) + "\n\n" + loop_table(report, style) + "\n";
  }
  text += gate_section(report, style);
  text += sentences("Next", next_steps(gate, clock), style);
  if (report.forecast) {
    const auto limit = *greatest_accepted(report.log.day.loops[report.current].rules);
    text += sentences("Pulse", describe(*report.forecast, limit, report.now, clock), style);
  }
  if (report.day) text += sentences("Speeds", describe(*report.day, clock), style);
  Warnings warnings;
  for (const auto& loop : report.loops) {
    warnings.insert(warnings.end(), loop.gate.warnings.begin(), loop.gate.warnings.end());
  }
  if (report.day) warnings.insert(warnings.end(), report.day->warnings.begin(), report.day->warnings.end());
  if (report.index) {
    text += sentences("Recovery index",
                      {"Change of " + fixed(report.index->rise.value, 0) +
                       " bpm from before the trot to after it; more than 4 up is suspect."},
                      style);
    warnings.insert(warnings.end(), report.index->warnings.begin(), report.index->warnings.end());
  }
  text += warnings_section(warnings, style);
  if (!report.log.rules.book_id.empty()) {
    text += list_section("Set for this event", report.log.rules.overridden, style);
  }
  text += list_section("Taken for granted", gate.assumptions, style);
  return text + "\n" + wrapped(gate_last_word());
}

}  // namespace outbye
