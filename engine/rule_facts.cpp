#include "engine/rule_facts.h"

#include <algorithm>

#include "core/base/quantile.h"
#include "core/base/text.h"

namespace outbye {
namespace {

// One column of an event-by-event table: see HorseDays.
std::vector<double> column_of(const HorseDays& days, const std::vector<double>& table, std::size_t event) {
  const auto begin = table.begin() + static_cast<std::ptrdiff_t>(event * days.days);
  return {begin, begin + static_cast<std::ptrdiff_t>(days.days)};
}

std::vector<bool> is_met(const RidePlan& plan, HorseId horse) {
  std::vector<bool> met;
  for (const auto& pass : plan.passes) {
    if (pass.horse == horse) met.push_back(pass.is_met);
  }
  return met;
}

// Riding time of each loop on each day, from out-time to arrival at its end: stops on the way are in it.
std::vector<std::vector<double>> riding_times(const HorseDays& days, const std::vector<double>& arrival,
                                              std::size_t loops) {
  std::vector<std::vector<double>> riding(loops, std::vector<double>(days.days, 0.0));
  std::vector<double> out(days.days, 0.0);
  for (std::size_t e = 0; e < days.events.size(); ++e) {
    if (days.events[e].kind == RideEvent::Kind::pass) continue;
    const std::size_t loop = days.events[e].loop.value;
    for (std::size_t d = 0; d < days.days; ++d) {
      const std::size_t at = e * days.days + d;
      riding[loop][d] = arrival[at] - out[d];
      out[d] = arrival[at] + days.stand[at];
    }
  }
  return riding;
}

GateFacts gate_facts(const HorseDays& days, std::size_t event, const GateRules& rules) {
  GateFacts facts;
  std::vector<double> recovery = column_of(days, days.in_time, event);
  facts.recovery = Seconds{quantile(recovery, 0.5)};
  if (rules.present_within) {
    const double limit = rules.present_within->value.count();
    const auto in_time = std::count_if(recovery.begin(), recovery.end(), [limit](double s) { return s <= limit; });
    facts.chance_in_time = static_cast<double>(in_time) / static_cast<double>(days.days);
  }
  return facts;
}

std::string pass_words(const PassForecast& pass) {
  const std::string loop = ", loop " + std::to_string(pass.event.loop.value + 1);
  switch (pass.event.kind) {
    case RideEvent::Kind::gate:
      return "the gate" + loop;
    case RideEvent::Kind::finish:
      return "the finish";
    case RideEvent::Kind::pass:
      break;
  }
  return pass.name + loop;
}

}  // namespace

RideFacts course_facts(const Ride& ride, const Course& course) {
  RideFacts facts;
  facts.length = course.length;
  for (std::size_t l = 0; l < course.loops.size(); ++l) {
    LoopFacts loop;
    loop.name = course.loops[l].name;
    loop.length = course.loops[l].length;
    const LoopPace& pace = l < ride.loops.size() ? ride.loops[l].pace : ride.default_pace;
    if (pace.is_average) loop.speed = pace.speed;
    facts.loops.push_back(std::move(loop));
    if (l + 1 == course.loops.size()) continue;
    GateFacts gate;
    gate.hold = pace.hold;
    gate.recovery = pace.recovery.median;
    facts.gates.push_back(gate);
  }
  facts.crew = ride.crew;
  if (!ride.horses.empty()) {
    facts.rider_weight = ride.horses.front().rider_weight;
    facts.horse_is_novice = ride.horses.front().is_novice;
  }
  return facts;
}

RideFacts plan_facts(const RidePlan& plan, HorseId horse, const RuleSet& rules) {
  const Course& course = plan.survey.course;
  RideFacts facts = course_facts(plan.ride, course);
  const RideHorse& typed = at(plan.ride.horses, horse);
  facts.rider_weight = typed.rider_weight;
  facts.horse_is_novice = typed.is_novice;
  const HorseDays& days = at(plan.task.horses, horse);
  const auto arrival = arrivals(days, is_met(plan, horse));
  auto riding = riding_times(days, arrival, course.loops.size());
  for (std::size_t l = 0; l < course.loops.size(); ++l) {
    const Metres length = course.loops[l].length;
    const auto speed = [&](double share) { return length / Seconds{quantile(riding[l], share)}; };
    facts.loops[l].speed = speed(0.5);
    facts.loops[l].speed_range = {speed(0.9), speed(0.1)};  // the slow end first
  }
  for (std::size_t e = 0; e < days.events.size(); ++e) {
    const RideEvent& event = days.events[e];
    if (event.kind == RideEvent::Kind::gate) {
      const auto gate = event.loop.value;
      const auto hold = facts.gates[gate].hold;
      facts.gates[gate] = gate_facts(days, e, gate_rules(rules, gate + 1));
      facts.gates[gate].hold = hold;
    } else if (event.kind == RideEvent::Kind::finish) {
      facts.finish = gate_facts(days, e, finish_rules(rules));
      std::vector<double> elapsed = column_of(days, arrival, e);
      facts.elapsed = Seconds{quantile(elapsed, 0.5)};
      facts.elapsed_range = {Seconds{quantile(elapsed, 0.1)}, Seconds{quantile(elapsed, 0.9)}};
    }
  }
  for (std::size_t p = 0; p < plan.passes.size(); ++p) {
    if (plan.passes[p].horse == horse && plan.welfare.passes[p].darkest != Light::day) {
      facts.in_the_dark.push_back(pass_words(plan.passes[p]));
    }
  }
  return facts;
}

std::vector<RuleFinding> plan_findings(const RidePlan& plan, const RuleSet& rules) {
  std::vector<std::vector<RuleFinding>> by_horse;
  for (std::uint32_t h = 0; h < plan.ride.horses.size(); ++h) {
    by_horse.push_back(check_rules(rules, plan_facts(plan, HorseId{h}, rules)));
  }
  const auto is_said_by_all = [&by_horse](const RuleFinding& finding) {
    return std::all_of(by_horse.begin(), by_horse.end(), [&finding](const auto& findings) {
      return std::find(findings.begin(), findings.end(), finding) != findings.end();
    });
  };
  std::vector<RuleFinding> all;
  for (std::size_t h = 0; h < by_horse.size(); ++h) {
    for (RuleFinding finding : by_horse[h]) {
      const bool is_common = is_said_by_all(finding);
      if (finding == by_horse[h].back() || (is_common && h > 0)) continue;
      if (!is_common) finding.where = plan.ride.horses[h].name + ", " + finding.where;
      all.push_back(std::move(finding));
    }
  }
  // Breaks first, then questions, then notes, whichever horse they are about; last what always is: the rules of the
  // day.
  std::stable_sort(all.begin(), all.end(),
                   [](const RuleFinding& a, const RuleFinding& b) { return a.severity < b.severity; });
  if (!by_horse.empty()) all.push_back(by_horse.front().back());
  return all;
}

Result<std::optional<RuleSet>> ride_rules(const RideInputs& inputs) {
  if (!inputs.ride.rules) return std::optional<RuleSet>{};
  auto rules = rule_set(inputs.rule_books, *inputs.ride.rules);
  if (!rules) return tl::unexpected(rules.error());
  return std::optional<RuleSet>{std::move(*rules)};
}

std::vector<RuleFinding> check_course_rules(const RideInputs& inputs, const CourseReport& survey,
                                            const RuleSet& rules) {
  return check_rules(rules, course_facts(inputs.ride, survey.course));
}

}  // namespace outbye
