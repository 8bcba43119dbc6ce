#include "core/crewing/check.h"

#include <optional>

#include "core/crewing/check_report.h"

namespace outbye {

bool check_names(const CrewingTask& task, const CrewPlan& plan, CheckReport& report) {
  if (plan.days.size() != task.cars.size()) {
    report.refuse("plan", "does not have one day for each car");
    return false;
  }
  for (std::size_t c = 0; c < plan.days.size(); ++c) {
    const std::string& car = task.cars[c].name;
    if (plan.days[c].car.value != c) {
      report.refuse(car, "does not come in the order of the cars");
      return false;
    }
    for (const TimedStop& t : plan.days[c].stops) {
      using Kind = PlannedStop::Kind;
      const bool is_meet = t.stop.kind == Kind::meet;
      const bool is_refill = t.stop.kind == Kind::refill;
      if (is_meet && (!t.stop.option || t.stop.option->value >= task.options.size())) {
        report.refuse(car, "has a meet that is not among the options");
        return false;
      }
      if (is_refill && (!t.stop.refill || *t.stop.refill >= task.refills.size())) {
        report.refuse(car, "has a refill that is not among the refill places");
        return false;
      }
      for (const std::optional<MeetOptionId>& named : {t.next_meet, t.fallback}) {
        if (named && named->value >= task.options.size()) {
          report.refuse(car, "names a next meet or fallback that is not among the options");
          return false;
        }
      }
      if (t.place.value >= task.drives.size()) {
        report.refuse(car, "stops at a place without drives");
        return false;
      }
    }
  }
  return true;
}

void check_choices(const CrewingTask& task, const CrewPlan& plan, CheckReport& report) {
  std::vector<std::size_t> times_met(task.options.size(), 0);
  for (const CarDay& day : plan.days) {
    for (std::size_t i = 0; i < day.stops.size(); ++i) {
      const TimedStop& t = day.stops[i];
      if (t.stop.kind != PlannedStop::Kind::meet) continue;
      const MeetOption& option = at(task.options, *t.stop.option);
      if (++times_met[t.stop.option->value] == 2) report.refuse(option.label, "is met twice");
      if (option.demand == MeetOption::Demand::never) report.refuse(option.label, "is met but must never be");
      if (option.only_car && *option.only_car != day.car)
        report.refuse(option.label, "is met by another car than the one asked for");
      std::optional<MeetOptionId> next;
      for (std::size_t k = i + 1; k < day.stops.size() && !next; ++k) {
        if (day.stops[k].stop.kind == PlannedStop::Kind::meet) next = day.stops[k].stop.option;
      }
      if (t.next_meet != next) report.refuse(option.label, "names another next meet than the car's next");
      if (t.leave_by.has_value() && !t.next_meet) report.refuse(option.label, "has a leave-by without a next meet");
      if (t.fallback && (t.fallback == t.next_meet || t.fallback == t.stop.option))
        report.refuse(option.label, "names as fallback the very meet that would be lost");
      if (t.fallback && at(task.options, *t.fallback).demand == MeetOption::Demand::never)
        report.refuse(option.label, "names as fallback a meet that must never be");
      if (t.fallback && !task.drives.drive(t.place, at(task.options, *t.fallback).place))
        report.refuse(option.label, "has no way by car to its fallback");
    }
  }
  for (std::size_t o = 0; o < task.options.size(); ++o) {
    if (task.options[o].demand == MeetOption::Demand::must && times_met[o] == 0)
      report.refuse(task.options[o].label, "must be met and is not");
  }
}

std::vector<Problem> check_plan(const CrewingTask& task, const CrewPlan& plan) {
  CheckReport report;
  if (!check_names(task, plan, report)) return report.reasons;
  check_choices(task, plan, report);
  for (const CarDay& day : plan.days) check_car(task, day, report);
  check_horses(task, plan, report);
  check_values(task, plan, report);
  return report.reasons;
}

}  // namespace outbye
