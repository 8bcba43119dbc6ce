#include "core/jobs/stop_changes.h"

#include <algorithm>
#include <set>

#include "core/jobs/change_words.h"
#include "core/jobs/step_model.h"

namespace outbye {
namespace {

// The stop without some tasks. What came after one of them comes after its predecessors.
RestOfStop without(const CrewStop& stop, const std::set<TaskId>& out) {
  RestOfStop rest;
  rest.stop = stop;
  rest.stop.tasks.clear();
  std::vector<std::optional<TaskId>> now(stop.tasks.size());
  for (std::uint32_t i = 0; i < stop.tasks.size(); ++i) {
    if (out.count(TaskId{i}) > 0) continue;
    now[i] = TaskId{static_cast<std::uint32_t>(rest.old.size())};
    rest.old.push_back(TaskId{i});
  }
  for (const TaskId id : rest.old) {
    StopTask task = at(stop.tasks, id);
    std::set<TaskId> after, seen;
    std::vector<TaskId> open = task.after;
    while (!open.empty()) {
      const TaskId before = open.back();
      open.pop_back();
      if (!seen.insert(before).second) continue;
      if (const auto kept = now[before.value]) {
        after.insert(*kept);
      } else {
        const auto& further = at(stop.tasks, before).after;
        open.insert(open.end(), further.begin(), further.end());
      }
    }
    task.after.assign(after.begin(), after.end());
    rest.stop.tasks.push_back(std::move(task));
  }
  return rest;
}

Result<void> fits(const CrewStop& stop, const StopSchedule& planned) {
  if (planned.work.size() == stop.helpers.size() && planned.tasks.size() == stop.tasks.size()) return {};
  return bad_input("planned schedule", "belongs to another stop: schedule this stop first");
}

// Tasks that may be left out, the least necessary first.
std::vector<TaskId> by_necessity(const CrewStop& stop) {
  std::vector<TaskId> tasks;
  for (std::uint32_t i = 0; i < stop.tasks.size(); ++i) {
    if (stop.tasks[i].necessity > 0) tasks.push_back(TaskId{i});
  }
  std::stable_sort(tasks.begin(), tasks.end(),
                   [&](TaskId a, TaskId b) { return at(stop.tasks, a).necessity > at(stop.tasks, b).necessity; });
  return tasks;
}

bool can_be_done(const CrewStop& stop, const StopTask& task) {
  return std::any_of(task.modes.begin(), task.modes.end(),
                     [&](const TaskMode& mode) { return people_for(stop, task, mode, {}) != 0; });
}

}  // namespace

Result<StopChange> when_horse_is_early(const CrewStop& stop, const StopSchedule& planned, Seconds horse_at,
                                       const StopSearchLimits& limits) {
  if (auto ok = fits(stop, planned); !ok) return tl::unexpected(ok.error());
  if (!(horse_at < stop.horse_at)) {
    return bad_input("time of the horse",
                     "is not earlier than planned (" + minutes_and_seconds(stop.horse_at) + " after stopping)");
  }
  CrewStop early = stop;
  early.horse_at = horse_at;
  if (auto ok = check_stop(early); !ok) return tl::unexpected(ok.error());
  const StopSearchLimits quick{limits.shortest_nodes, 0};
  std::set<TaskId> out;
  auto schedule = schedule_stop(early, quick);
  if (!schedule) return tl::unexpected(schedule.error());
  std::vector<TaskId> given_up;
  for (const TaskId id : by_necessity(stop)) {
    if (schedule->ready <= horse_at) break;
    if (at(stop.tasks, id).step >= RoutineStep::serve) continue;
    out.insert(id);
    given_up.push_back(id);
    schedule = schedule_stop(without(early, out).stop, quick);
    if (!schedule) return tl::unexpected(schedule.error());
  }
  // Take back, the most necessary first, what costs no time after all.
  const Seconds ready = std::max(horse_at, schedule->ready);
  for (auto id = given_up.rbegin(); id != given_up.rend(); ++id) {
    std::set<TaskId> fewer = out;
    fewer.erase(*id);
    const auto with_it = schedule_stop(without(early, fewer).stop, quick);
    if (with_it && with_it->ready <= ready) out = std::move(fewer);
  }
  RestOfStop rest = without(early, out);
  for (std::uint32_t h = 0; h < stop.helpers.size(); ++h) rest.helpers.push_back(HelperId{h});
  auto final_schedule = schedule_stop(rest.stop, limits);
  if (!final_schedule) return tl::unexpected(final_schedule.error());
  StopChange change;
  for (const TaskId id : given_up) {
    if (out.count(id) > 0) change.left_out.push_back(id);
  }
  change.stop = rest.stop;
  change.schedule = std::move(*final_schedule);
  keep_people(planned, rest, change.schedule);
  say_changes(stop, planned, rest, change);
  return change;
}

Result<StopChange> when_helper_is_missing(const CrewStop& stop, const StopSchedule& planned, HelperId missing,
                                          const StopSearchLimits& limits) {
  if (auto ok = fits(stop, planned); !ok) return tl::unexpected(ok.error());
  if (missing.value >= stop.helpers.size()) {
    return not_found("helper " + std::to_string(missing.value + 1), "is not one of this stop");
  }
  const std::string name = at(stop.helpers, missing).name;
  if (stop.helpers.size() == 1) return impossible("helpers", "are none without " + name + ": bring another helper");
  CrewStop fewer = stop;
  fewer.helpers.erase(fewer.helpers.begin() + static_cast<std::ptrdiff_t>(missing.value));
  StopChange change;
  std::set<TaskId> out;
  for (const TaskId id : by_necessity(stop)) {
    if (can_be_done(fewer, at(stop.tasks, id))) continue;
    out.insert(id);
    change.left_out.push_back(id);
  }
  RestOfStop rest = without(fewer, out);
  auto schedule = schedule_stop(rest.stop, limits);
  if (!schedule && rest.stop.holder == Holder::helper) {
    rest.stop.holder = Holder::rider_on_foot;
    schedule = schedule_stop(rest.stop, limits);
  }
  if (!schedule) {
    Problem why = schedule.error();
    why.what += " (without " + name + ")";
    return tl::unexpected(std::move(why));
  }
  for (std::uint32_t h = 0; h < stop.helpers.size(); ++h) {
    if (h != missing.value) rest.helpers.push_back(HelperId{h});
  }
  change.stop = rest.stop;
  change.schedule = std::move(*schedule);
  keep_people(planned, rest, change.schedule);
  say_changes(stop, planned, rest, change);
  return change;
}

}  // namespace outbye
