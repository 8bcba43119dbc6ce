#include "engine/jobs.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "core/base/text.h"
#include "engine/jobs_crew.h"

namespace outbye {
namespace {

std::string min_sec(Seconds time) {
  const auto s = static_cast<long>(std::ceil(time.count()));
  return std::to_string(s / 60) + ":" + (s % 60 < 10 ? "0" : "") + std::to_string(s % 60) + " min";
}

// Whole seconds after the car has stopped; not before it.
Seconds after_stopping(Instant horse, Instant arrive) {
  return Seconds{std::max(0.0, std::floor((horse - arrive).count()))};
}

// Index of the option's event in RidePlan::passes and PassWelfare: passes are by horse, then in order of its events.
std::size_t forecast_of(const RidePlan& plan, const MeetOption& option) {
  std::size_t before = 0;
  while (before < plan.passes.size() && plan.passes[before].horse < option.horse) ++before;
  return before + option.event;
}

// The persons at the horse: the rules' number, or the crew's own if that is lower.
std::uint32_t most_at_horse(const RidePlan& plan, StopJobs& jobs) {
  std::uint32_t most = 4;
  if (plan.ride.crew && *plan.ride.crew > 0) most = std::min(most, *plan.ride.crew);
  if (!plan.rules) {
    jobs.notes.emplace_back("No rules are named: ask how many of the crew may be with the horse in the gate.");
    return most;
  }
  const RuleLevel& level = plan.rules->level;
  if (level.crew_at_gate) {
    const std::uint32_t by_rule = level.crew_at_gate->value;
    most = std::min(most, std::max<std::uint32_t>(1, by_rule));
    jobs.notes.push_back("At most " + std::to_string(by_rule) + " of the crew with one horse in the gate (" +
                         plan.rules->book_name + ").");
  }
  if (level.people_at_inspection) {
    jobs.notes.push_back("At most " + std::to_string(level.people_at_inspection->value) +
                         " with the horse while the vet looks: the others stand back (" + plan.rules->book_name + ").");
  }
  jobs.notes.emplace_back("The rules of the day and the officials come first.");
  return most;
}

void what_kind(const RidePlan& plan, const MeetOption& option, StopJobs& jobs) {
  const std::size_t index = forecast_of(plan, option);
  const Seconds stands = plan.passes[index].out.p50 - plan.passes[index].due.p50;
  if (option.kind == RideEvent::Kind::pass) {
    jobs.what.kind = stop_kind_for(stands);
    jobs.planned_stop = stands;
  } else if (option.kind == RideEvent::Kind::gate) {
    jobs.what.kind = StopKind::vet_gate;
    jobs.planned_stop = stands;
    jobs.what.most_at_horse = most_at_horse(plan, jobs);
  } else {
    jobs.what.kind = StopKind::finish;
    jobs.what.most_at_horse = most_at_horse(plan, jobs);
  }
  jobs.what.is_refilled = option.has_water && option.kind == RideEvent::Kind::pass;
  if (index < plan.welfare.passes.size()) jobs.what.is_cold = plan.welfare.passes[index].cooling.is_cold;
  jobs.what.horse_at = after_stopping(jobs.due.p50, jobs.arrive);
}

void warn(StopJobs& jobs) {
  const StopSchedule& schedule = jobs.schedule;
  const Seconds stands = serving_time(schedule);
  if (jobs.planned_stop && stands > *jobs.planned_stop) {
    jobs.warnings.push_back("With these people the horse stands " + min_sec(stands) + " at least, but the plan says " +
                            min_sec(*jobs.planned_stop) + ": plan a longer stop, or leave something out.");
  }
  if (schedule.serve_start > jobs.stop.horse_at) {
    jobs.warnings.push_back("Not all is ready when the horse comes: it waits " +
                            min_sec(schedule.serve_start - jobs.stop.horse_at) + ", or something is left out.");
  } else if (schedule.ready > jobs.setup) {
    jobs.warnings.push_back("Getting ready takes " + min_sec(schedule.ready) + " with these people; the plan counts " +
                            min_sec(jobs.setup) + " (setup_min).");
  }
  if (const Seconds packing = schedule.end - schedule.serve_end; packing > jobs.pack) {
    jobs.warnings.push_back("Clearing takes " + min_sec(packing) + " with these people; the plan counts " +
                            min_sec(jobs.pack) + " (pack_min).");
  }
  for (const std::string& fault : check_stop_schedule(jobs.stop, schedule)) {
    jobs.warnings.push_back("The check of this schedule found a fault; do not use it: " + fault);
  }
}

void add_changes(StopJobs& jobs, const StopSearchLimits& limits) {
  const Seconds early = after_stopping(jobs.due.p10, jobs.arrive);
  if (early < jobs.stop.horse_at) {
    if (auto change = when_horse_is_early(jobs.stop, jobs.schedule, early, limits)) jobs.early = std::move(*change);
  }
  for (std::uint32_t h = 0; h < jobs.stop.helpers.size(); ++h) {
    jobs.missing.push_back(when_helper_is_missing(jobs.stop, jobs.schedule, HelperId{h}, limits));
  }
}

void schedule(RideJobs& all, StopJobs& jobs, const StopSearchLimits& limits) {
  std::vector<Helper> helpers;
  for (const std::size_t person : jobs.people) helpers.push_back(helper_of(all, person));
  auto stop = usual_stop(jobs.what, helpers);
  if (!stop) {
    jobs.problem = stop.error();
  } else if (auto answer = schedule_stop(*stop, limits); !answer) {
    jobs.problem = answer.error();
  } else {
    jobs.stop = std::move(*stop);
    jobs.stop.name = jobs.name;
    jobs.schedule = std::move(*answer);
  }
  if (jobs.problem) {
    jobs.problem->where = "helpers at " + jobs.name + ": " + jobs.problem->where;
    return;
  }
  jobs.cards = stop_cards(jobs.stop, jobs.schedule);
  warn(jobs);
  add_changes(jobs, limits);
  carry_work(jobs.schedule, helpers);
  for (std::size_t h = 0; h < helpers.size(); ++h) all.work[jobs.people[h]] = helpers[h].carried;
}

struct Meet {
  CarId car;
  const TimedStop* stop;
};

}  // namespace

Seconds serving_time(const StopSchedule& schedule) { return schedule.serve_end - schedule.serve_start; }

StopKind stop_kind_for(Seconds planned_stop) {
  if (planned_stop < Seconds{40.0}) return StopKind::flying_bottle;
  return planned_stop < Seconds{210.0} ? StopKind::short_stop : StopKind::drink_stop;
}

RideJobs jobs_of(const RidePlan& plan, const StopSearchLimits& limits) {
  RideJobs jobs;
  put_people_in_cars(plan, jobs);
  std::vector<Meet> meets;
  for (const CarDay& day : plan.plan.days) {
    for (const TimedStop& stop : day.stops) {
      if (stop.stop.option) meets.push_back({day.car, &stop});
    }
  }
  // Work is carried from stop to stop in the order of time, also for people who change cars at the venue.
  std::stable_sort(meets.begin(), meets.end(),
                   [](const Meet& a, const Meet& b) { return a.stop->arrive < b.stop->arrive; });
  for (const Meet& meet : meets) {
    const MeetOption& option = at(plan.task.options, *meet.stop->stop.option);
    StopJobs one;
    one.name = option.label;
    one.car = meet.car;
    one.option = *meet.stop->stop.option;
    one.arrive = meet.stop->arrive;
    one.due = meet.stop->due;
    one.setup = option.setup;
    one.pack = option.pack;
    what_kind(plan, option, one);
    one.people = people_at(plan, jobs, meet.car, *meet.stop, option.kind != RideEvent::Kind::pass);
    schedule(jobs, one, limits);
    jobs.stops.push_back(std::move(one));
  }
  return jobs;
}

std::string stop_heading(const StopJobs& stop, const Clock& clock) {
  return stop.name + ": car in " + hours_minutes(stop.arrive, clock) + ", horse due " +
         hours_minutes(stop.due.p50, clock);
}

}  // namespace outbye
