#include "core/jobs/schedule_stop.h"

#include <algorithm>
#include <bit>
#include <cmath>

#include "core/jobs/fair_search.h"

namespace outbye {
namespace {

bool has_skill(const Helper& helper, const char* skill) {
  return std::find(helper.skills.begin(), helper.skills.end(), skill) != helper.skills.end();
}

// Every way to choose who may be at the horse and who holds it.
std::vector<ServeCrew> serve_crews(const CrewStop& stop) {
  const std::size_t n = stop.helpers.size();
  const bool has_holder = stop.holder == Holder::helper;
  const bool is_limited =
      stop.most_at_horse < n && (has_holder || std::any_of(stop.tasks.begin(), stop.tasks.end(),
                                                           [](const StopTask& task) { return task.is_at_horse; }));
  const int size = static_cast<int>(is_limited ? stop.most_at_horse : n);
  std::vector<ServeCrew> crews;
  for (unsigned set = 1; set < (1U << n); ++set) {
    if (std::popcount(set) != size) continue;
    if (!has_holder) crews.push_back({static_cast<PeopleSet>(set), std::nullopt});
    for (std::uint32_t h = 0; has_holder && h < n; ++h) {
      if (((set >> h) & 1U) && has_skill(stop.helpers[h], skill_holds_horse)) {
        crews.push_back({static_cast<PeopleSet>(set), HelperId{h}});
      }
    }
  }
  return crews;
}

// Some task has no way left whoever holds the horse and whoever may be near it: say which, and what to change.
tl::unexpected<Problem> too_few(const CrewStop& stop, const std::vector<ServeCrew>& crews) {
  std::string names;
  for (const StopTask& task : stop.tasks) {
    if (task.step != RoutineStep::serve) continue;
    const bool is_possible = std::any_of(crews.begin(), crews.end(), [&](const ServeCrew& crew) {
      return std::any_of(task.modes.begin(), task.modes.end(),
                         [&](const TaskMode& mode) { return people_for(stop, task, mode, crew) != 0; });
    });
    if (!is_possible) names += (names.empty() ? "\"" : ", \"") + task.name + "\"";
  }
  const std::string what = names.empty() ? "the tasks at the horse cannot all be done" : names + " cannot be done";
  std::string why;
  if (stop.holder == Holder::helper) why = " while one helper holds the horse";
  if (stop.most_at_horse < stop.helpers.size()) {
    why += (why.empty() ? " with at most " : " and at most ") + std::to_string(stop.most_at_horse) + " at the horse";
  }
  return impossible("step \"serve\"", what + why + ": let the rider hold the horse, give another helper the skill, " +
                                          "or add a way to do it with fewer");
}

struct Shortest {
  FairStep step;
  StepRun run;
  std::int32_t bound{};
};

// The shortest of a step over all ways to crew it; the ways that are as short are kept for the fairest.
Result<Shortest> shortest_of(const CrewStop& stop, RoutineStep step, std::uint64_t limit, std::uint64_t& nodes) {
  const std::vector<ServeCrew> crews =
      step == RoutineStep::serve ? serve_crews(stop) : std::vector<ServeCrew>{ServeCrew{}};
  std::vector<StepChoice> choices;
  for (const ServeCrew& crew : crews) {
    if (auto model = step_model(stop, step, crew)) choices.push_back({crew, std::move(*model)});
  }
  if (choices.empty()) return too_few(stop, crews);
  Shortest best;
  if (choices.front().model.tasks.empty()) {
    best.step.choices = std::move(choices);
    return best;
  }
  std::stable_sort(choices.begin(), choices.end(),
                   [](const StepChoice& a, const StepChoice& b) { return a.model.bound < b.model.bound; });
  std::vector<const StepModel*> models;
  models.reserve(choices.size());
  for (const StepChoice& choice : choices) models.push_back(&choice.model);
  StepAnswer answer = shortest_step(models, limit > nodes ? limit - nodes : 0);
  nodes += answer.nodes;
  best.step.length = answer.end;
  best.bound = answer.bound;
  for (std::size_t c = 0; c < choices.size(); ++c) {
    if (choices[c].model.bound > answer.end) continue;
    if (c == *answer.model) best.run = {best.step.choices.size(), std::move(answer.starts)};
    best.step.choices.push_back(std::move(choices[c]));
  }
  return best;
}

// Who fills which hand: the first assignment that fits, people in order.
std::vector<HelperId> hands_of(const CrewStop& stop, const StopTask& task, std::size_t mode, PeopleSet people) {
  std::vector<HelperId> filled;
  const std::vector<Hand>& hands = task.modes[mode].hands;
  const auto fill = [&](const auto& self, PeopleSet left) -> bool {
    if (filled.size() == hands.size()) return true;
    for (std::uint32_t h = 0; h < stop.helpers.size(); ++h) {
      if (!((left >> h) & 1U)) continue;
      const Hand& hand = hands[filled.size()];
      if (!std::all_of(hand.skills.begin(), hand.skills.end(),
                       [&](const std::string& skill) { return has_skill(stop.helpers[h], skill.c_str()); })) {
        continue;
      }
      filled.push_back(HelperId{h});
      if (self(self, static_cast<PeopleSet>(left & ~(1U << h)))) return true;
      filled.pop_back();
    }
    return false;
  };
  fill(fill, people);
  return filled;
}

void write_step(const CrewStop& stop, const FairStep& step, const StepRun& run, Seconds begin, StopSchedule& schedule) {
  const StepChoice& choice = step.choices[run.choice];
  for (const StepStart& start : run.starts) {
    const TaskId id = choice.model.tasks[start.task].id;
    ScheduledTask task;
    task.task = id;
    task.mode = start.way.mode;
    task.start = begin + Seconds{static_cast<double>(start.start)};
    task.end = task.start + Seconds{static_cast<double>(start.way.duration)};
    task.hands = hands_of(stop, at(stop.tasks, id), start.way.mode, start.way.people);
    for (const HelperId helper : task.hands) at(schedule.work, helper) += task.end - task.start;
    schedule.tasks.push_back(std::move(task));
  }
}

}  // namespace

Result<StopSchedule> schedule_stop(const CrewStop& stop, const StopSearchLimits& limits) {
  if (auto ok = check_stop(stop); !ok) return tl::unexpected(ok.error());
  StopSchedule schedule;
  std::vector<FairStep> steps;
  std::vector<StepRun> runs;
  std::int32_t before_bound = 0, after_bound = 0;  // of the steps up to the horse, and from there on
  for (const RoutineStep step : routine) {
    auto shortest = shortest_of(stop, step, limits.shortest_nodes, schedule.nodes);
    if (!shortest) return tl::unexpected(shortest.error());
    (step < RoutineStep::serve ? before_bound : after_bound) += shortest->bound;
    steps.push_back(std::move(shortest->step));
    runs.push_back(std::move(shortest->run));
  }
  FairAnswer fair = fairest_runs(steps, stop.helpers, runs, limits.fairest_nodes);
  schedule.nodes += fair.nodes;
  schedule.is_fairest_proven = fair.is_proven;
  // Where the shortest is not proven, the fairest may turn out to be shorter still.
  for (std::size_t k = 0; k < steps.size(); ++k) {
    std::int32_t end = 0;
    for (const StepStart& start : fair.runs[k].starts) end = std::max(end, start.start + start.way.duration);
    if (end < steps[k].length) schedule.is_fairest_proven = false;
    steps[k].length = end;
  }
  schedule.work.resize(stop.helpers.size());
  Seconds now{};
  for (std::size_t k = 0; k < steps.size(); ++k) {
    const bool is_serve = routine[k] == RoutineStep::serve;
    const Seconds length{static_cast<double>(steps[k].length)};
    if (is_serve) {
      schedule.ready = now;
      schedule.serve_start = now = std::max(now, stop.horse_at);
      const ServeCrew& crew = steps[k].choices[fair.runs[k].choice].crew;
      for (std::uint32_t h = 0; h < stop.helpers.size(); ++h) {
        if ((crew.at_horse >> h) & 1U) schedule.at_horse.push_back(HelperId{h});
      }
      schedule.holder = crew.holder;
      if (crew.holder) at(schedule.work, *crew.holder) += length;
    }
    write_step(stop, steps[k], fair.runs[k], now, schedule);
    now += length;
    if (is_serve) schedule.serve_end = now;
  }
  schedule.end = now;
  std::stable_sort(schedule.tasks.begin(), schedule.tasks.end(), [](const ScheduledTask& a, const ScheduledTask& b) {
    return a.start != b.start ? a.start < b.start : a.task < b.task;
  });
  schedule.bound =
      std::max(Seconds{static_cast<double>(before_bound)}, stop.horse_at) + Seconds{static_cast<double>(after_bound)};
  schedule.is_shortest_proven = schedule.end == schedule.bound;
  return schedule;
}

void carry_work(const StopSchedule& schedule, std::vector<Helper>& helpers) {
  for (std::size_t h = 0; h < helpers.size() && h < schedule.work.size(); ++h) helpers[h].carried += schedule.work[h];
}

}  // namespace outbye
