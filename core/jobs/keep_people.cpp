#include <algorithm>
#include <numeric>

#include "core/jobs/change_words.h"

namespace outbye {
namespace {

using People = std::vector<HelperId>;  // who stands in the place of each helper

bool has_all(const Helper& helper, const std::vector<std::string>& skills) {
  return std::all_of(skills.begin(), skills.end(), [&](const std::string& skill) {
    return std::find(helper.skills.begin(), helper.skills.end(), skill) != helper.skills.end();
  });
}

bool is_had_by(const ScheduledTask& was, HelperId old) {
  return std::find(was.hands.begin(), was.hands.end(), old) != was.hands.end();
}

const ScheduledTask* planned_task(const StopSchedule& planned, TaskId old) {
  const auto found = std::find_if(planned.tasks.begin(), planned.tasks.end(),
                                  [&](const ScheduledTask& one) { return one.task == old; });
  return found == planned.tasks.end() ? nullptr : &*found;
}

// Seconds of work of the step that stay with those who had it; nothing when somebody lacks a skill.
std::optional<Seconds> kept_work(const StopSchedule& planned, const RestOfStop& rest, const StopSchedule& schedule,
                                 RoutineStep step, const People& people) {
  Seconds kept{};
  for (const ScheduledTask& one : schedule.tasks) {
    const StopTask& task = at(rest.stop.tasks, one.task);
    if (task.step != step) continue;
    const ScheduledTask* was = planned_task(planned, at(rest.old, one.task));
    for (std::size_t k = 0; k < one.hands.size(); ++k) {
      const HelperId now = at(people, one.hands[k]);
      if (!has_all(at(rest.stop.helpers, now), task.modes[one.mode].hands[k].skills)) return std::nullopt;
      if (was != nullptr && is_had_by(*was, at(rest.helpers, now))) kept += one.end - one.start;
    }
  }
  if (step == RoutineStep::serve && schedule.holder) {
    const HelperId now = at(people, *schedule.holder);
    if (!has_all(at(rest.stop.helpers, now), {skill_holds_horse})) return std::nullopt;
    if (planned.holder == at(rest.helpers, now)) kept += schedule.serve_end - schedule.serve_start;
  }
  return kept;
}

void put_in_place(const RestOfStop& rest, RoutineStep step, const People& people, StopSchedule& schedule) {
  for (ScheduledTask& one : schedule.tasks) {
    if (at(rest.stop.tasks, one.task).step != step) continue;
    for (HelperId& hand : one.hands) hand = at(people, hand);
  }
  if (step != RoutineStep::serve) return;
  if (schedule.holder) schedule.holder = at(people, *schedule.holder);
  for (HelperId& helper : schedule.at_horse) helper = at(people, helper);
  std::sort(schedule.at_horse.begin(), schedule.at_horse.end());
}

}  // namespace

void keep_people(const StopSchedule& planned, const RestOfStop& rest, StopSchedule& schedule) {
  People people;
  for (std::uint32_t h = 0; h < rest.stop.helpers.size(); ++h) people.push_back(HelperId{h});
  for (const RoutineStep step : routine) {
    People best = people;
    Seconds most = kept_work(planned, rest, schedule, step, best).value_or(Seconds{0});
    People other = people;
    while (std::next_permutation(other.begin(), other.end())) {
      const auto kept = kept_work(planned, rest, schedule, step, other);
      if (!kept || *kept <= most) continue;
      most = *kept;
      best = other;
    }
    if (best == people) continue;
    put_in_place(rest, step, best, schedule);
    schedule.is_fairest_proven = false;
  }
  std::fill(schedule.work.begin(), schedule.work.end(), Seconds{0});
  for (const ScheduledTask& one : schedule.tasks) {
    for (const HelperId hand : one.hands) at(schedule.work, hand) += one.end - one.start;
  }
  if (schedule.holder) at(schedule.work, *schedule.holder) += schedule.serve_end - schedule.serve_start;
}

}  // namespace outbye
