// The plan against the simulated days: when horses come and go, and whether odds and worth can be what they say.
#include <algorithm>
#include <cmath>
#include <optional>

#include "core/base/text.h"
#include "core/crewing/check_report.h"

namespace outbye {
namespace {

using Kind = PlannedStop::Kind;

// Whether `value` is a quantile of the column, by counting. A quantile lies at rank p (n - 1), between two neighbours
// in proportion: the neighbour below is at or below it, and no more than the neighbour above and what follows are
// above.
bool is_quantile(const std::vector<double>& column, double p, double value, double rounding) {
  double below = 0;
  double at_or_below = 0;
  for (const double x : column) {
    below += x < value - rounding ? 1 : 0;
    at_or_below += x <= value + rounding ? 1 : 0;
  }
  const double rank = std::floor(p * static_cast<double>(column.size() - 1)) + 1.0;
  return at_or_below >= rank && below <= rank;
}

std::vector<const TimedStop*> meets_of(const CrewPlan& plan) {
  std::vector<const TimedStop*> meets;
  for (const CarDay& day : plan.days) {
    for (const TimedStop& t : day.stops) {
      if (t.stop.kind == Kind::meet) meets.push_back(&t);
    }
  }
  return meets;
}

void check_horse(const CrewingTask& task, const CrewPlan& plan, std::size_t h, CheckReport& report) {
  const HorseDays& horse = task.horses[h];
  std::vector<const TimedStop*> met(horse.events.size(), nullptr);
  for (const TimedStop* t : meets_of(plan)) {
    const MeetOption& option = at(task.options, *t->stop.option);
    if (option.horse.value == h) met[option.event] = t;
  }
  std::vector<double> stood(horse.days, 0.0);
  std::vector<double> column(horse.days);
  for (std::size_t e = 0; e < horse.events.size(); ++e) {
    if (met[e] == nullptr) continue;
    const TimedStop& t = *met[e];
    const MeetOption& option = at(task.options, *t.stop.option);
    const auto after_origin = [&](Instant at) { return (at - horse.origin).count(); };
    for (std::size_t d = 0; d < horse.days; ++d) column[d] = horse.base[e * horse.days + d] + stood[d];
    if (!is_quantile(column, 0.1, after_origin(t.due.p10), 1.0) ||
        !is_quantile(column, 0.5, after_origin(t.due.p50), 1.0) ||
        !is_quantile(column, 0.9, after_origin(t.due.p90), 1.0)) {
      report.refuse(option.label, "is due at another time than on the simulated days");
    }
    for (std::size_t d = 0; d < horse.days; ++d) column[d] += horse.stand[e * horse.days + d];
    if (!is_quantile(column, 0.5, after_origin(t.leave - option.pack), 1.5))
      report.refuse(option.label, "is left at another time than the horse's going and the packing give");
    if (horse.events[e].kind != RideEvent::Kind::pass) continue;
    for (std::size_t d = 0; d < horse.days; ++d) stood[d] += horse.stand[e * horse.days + d];
  }
}

// Worth lost to the horses' ways without help, if exactly the meets in `helps` are met.
double lost_to_gaps(const CrewingTask& task, const std::vector<std::vector<bool>>& helps) {
  double lost = 0;
  for (std::size_t h = 0; h < task.horses.size(); ++h) {
    const std::vector<RideEvent>& events = task.horses[h].events;
    double last = 0;
    for (std::size_t e = 0; e < events.size(); ++e) {
      const bool has_help = helps[h][e] || events[e].kind != RideEvent::Kind::pass || e + 1 == events.size();
      if (!has_help) continue;
      const double gap = events[e].ride_along.value - last - task.settings.water_interval.value;
      if (gap > 0) lost += task.settings.gap_penalty * gap / 1000.0;
      last = events[e].ride_along.value;
    }
  }
  return lost;
}

}  // namespace

void check_horses(const CrewingTask& task, const CrewPlan& plan, CheckReport& report) {
  for (std::size_t h = 0; h < task.horses.size(); ++h) check_horse(task, plan, h, report);
}

void check_values(const CrewingTask& task, const CrewPlan& plan, CheckReport& report) {
  std::vector<std::vector<bool>> none;
  for (const HorseDays& horse : task.horses) none.emplace_back(horse.events.size(), false);
  std::vector<std::vector<bool>> all = none;
  double additive = 0;
  double fixed_least = 0;
  double fixed_most = 0;
  double least_ready = 2;
  for (const TimedStop* t : meets_of(plan)) {
    const MeetOption& option = at(task.options, *t->stop.option);
    all[option.horse.value][option.event] = true;
    if (!(t->chance_ready >= 0 && t->chance_ready <= t->chance_there && t->chance_there <= 1))
      report.refuse(option.label, "has odds that are none: ready at most there, both from 0 to 1");
    if (!std::isfinite(t->worth)) report.refuse(option.label, "has a worth that is not a number");
    additive += option.worth * (t->chance_ready + task.settings.part_worth * (t->chance_there - t->chance_ready));
    fixed_most += option.worth * (t->slack.count() >= -2.0 ? 1.0 : task.settings.part_worth);
    fixed_least += option.worth * (t->slack.count() > 2.0 ? 1.0 : task.settings.part_worth);
    least_ready = std::min(least_ready, t->chance_ready);
  }
  const PlanValue& v = plan.value;
  const double lost_least = lost_to_gaps(task, all);
  const double lost_most = lost_to_gaps(task, none);
  const double rounding = 1e-3 * std::max(1.0, additive);
  if (!(v.worth <= additive - lost_least + rounding && v.worth >= additive - lost_most - rounding))
    report.refuse("plan",
                  "says it is worth " + fixed(v.worth, 3) + ", which its meets' odds and gaps do not add up to");
  if (!(v.fixed_worth <= fixed_most - lost_least + rounding && v.fixed_worth >= fixed_least - lost_least - rounding))
    report.refuse("plan",
                  "says it is worth " + fixed(v.fixed_worth, 3) + " at median times, which its times do not give");
  if (!(v.standard_error >= 0 && v.upper_bound_error >= 0)) report.refuse("plan", "has a standard error below 0");
  if (!(v.upper_bound >= v.worth - 1e-9)) report.refuse("plan", "has an upper bound below its worth");
  if (!(std::fabs(v.upper_bound - v.worth - v.gap) <= 1e-9))
    report.refuse("plan", "has a gap that is not bound less worth");
  if (v.is_fixed_exact && std::fabs(v.fixed_bound - v.fixed_worth) > 1e-6)
    report.refuse("plan", "calls itself exact at median times and has a bound apart from its worth");
  const bool has_meet = least_ready <= 1;
  if (plan.weakest.has_value() != has_meet) {
    report.refuse("plan", "names no weakest meet, or one without meets");
  } else if (has_meet) {
    const auto meets = meets_of(plan);
    const bool is_weakest = std::any_of(meets.begin(), meets.end(), [&](const TimedStop* t) {
      return t->stop.option == plan.weakest && t->chance_ready <= least_ready;
    });
    if (!is_weakest) report.refuse("plan", "names another meet as the weakest than the one least likely to be ready");
  }
}

}  // namespace outbye
