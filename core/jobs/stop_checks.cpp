// What is refused before anything is scheduled, and what to change.
#include <algorithm>
#include <bit>
#include <cmath>

#include "core/base/text.h"
#include "core/jobs/step_model.h"

namespace outbye {
namespace {

std::string named(const StopTask& task, std::size_t i) {
  return "task " + std::to_string(i + 1) + (task.name.empty() ? "" : " \"" + task.name + "\"");
}

std::optional<std::string> wrong_time(Seconds time, double most) {
  const double s = time.count();
  if (!std::isfinite(s)) return "is not a number: give whole seconds";
  if (s < 0) return "is " + fixed(s, 0) + " s: a time cannot be negative";
  if (s > most) return "is " + fixed(s, 0) + " s: at most " + fixed(most / 3600.0, 0) + " h";
  if (s != std::floor(s)) return "is " + fixed(s, 3) + " s: give whole seconds";
  return std::nullopt;
}

Result<void> check_helpers(const CrewStop& stop) {
  if (stop.helpers.empty()) return bad_input("helpers", "are missing: a stop needs one helper at least");
  if (stop.helpers.size() > most_helpers) {
    return bad_input("helpers", "are " + std::to_string(stop.helpers.size()) +
                                    ": at most 4 can be scheduled together; " + "split the crew into two stops");
  }
  for (std::size_t h = 0; h < stop.helpers.size(); ++h) {
    const Helper& helper = stop.helpers[h];
    const std::string where = "helper " + std::to_string(h + 1) + (helper.name.empty() ? "" : " " + helper.name);
    if (helper.name.empty()) return bad_input(where, "has no name: cards need one");
    for (std::size_t other = 0; other < h; ++other) {
      if (same_name(stop.helpers[other].name, helper.name)) {
        return bad_input(where, "has the name of helper " + std::to_string(other + 1) + ": give each their own");
      }
    }
    if (!(helper.share > 0 && helper.share <= 10)) {
      return bad_input(where,
                       "has a share of " + fixed(helper.share, 2) + ": more than 0, at most 10; 1 is an equal share");
    }
    if (const auto wrong = wrong_time(helper.carried, 48 * 3600.0)) return bad_input(where + ", work so far", *wrong);
  }
  return {};
}

// The tasks of a cycle in order, "a -> b -> a"; empty when there is none.
std::string cycle_of(const CrewStop& stop) {
  enum class Mark : std::uint8_t { fresh, open, closed };
  std::vector<Mark> marks(stop.tasks.size(), Mark::fresh);
  std::vector<std::uint32_t> path;
  std::string cycle;
  const auto visit = [&](const auto& self, std::uint32_t task) -> bool {
    marks[task] = Mark::open;
    path.push_back(task);
    for (const TaskId before : stop.tasks[task].after) {
      if (marks[before.value] == Mark::open) {
        // The path runs from late to early; read it backwards.
        const auto first = std::find(path.begin(), path.end(), before.value);
        cycle = stop.tasks[before.value].name;
        for (auto i = path.end(); i != first;) cycle += " -> " + stop.tasks[*--i].name;
        return true;
      }
      if (marks[before.value] == Mark::fresh && self(self, before.value)) return true;
    }
    marks[task] = Mark::closed;
    path.pop_back();
    return false;
  };
  for (std::uint32_t i = 0; i < stop.tasks.size(); ++i) {
    if (marks[i] == Mark::fresh && visit(visit, i)) return cycle;
  }
  return {};
}

// Why none of the modes finds its people, and who comes nearest.
std::string nobody_can(const CrewStop& stop, const StopTask& task) {
  const TaskMode& mode = task.modes.front();
  for (const Hand& hand : mode.hands) {
    std::string nearest, missing;
    std::size_t fewest = SIZE_MAX;
    for (const Helper& helper : stop.helpers) {
      std::vector<std::string> lacks;
      for (const std::string& skill : hand.skills) {
        if (std::find(helper.skills.begin(), helper.skills.end(), skill) == helper.skills.end()) lacks.push_back(skill);
      }
      if (lacks.size() >= fewest) continue;
      fewest = lacks.size();
      nearest = helper.name;
      missing.clear();
      for (const std::string& skill : lacks) missing += (missing.empty() ? "\"" : " and \"") + skill + "\"";
    }
    if (fewest > 0) {
      return "can be done by nobody here: it needs " + missing + "; " + nearest +
             " could do it with that skill, or bring somebody who has it";
    }
  }
  if (mode.hands.size() > stop.helpers.size()) {
    return "needs " + std::to_string(mode.hands.size()) + " people at once and there are " +
           std::to_string(stop.helpers.size()) + ": bring another helper or add a way to do it with fewer";
  }
  std::string skills;
  for (const Hand& hand : mode.hands) {
    for (const std::string& skill : hand.skills) {
      if (skills.find("\"" + skill + "\"") == std::string::npos)
        skills += (skills.empty() ? "\"" : ", \"") + skill + "\"";
    }
  }
  return "needs " + std::to_string(mode.hands.size()) + " people at once with " + skills +
         ", and the same helper would have to fill two places: give one of the others a skill of these";
}

Result<void> check_task(const CrewStop& stop, std::size_t i) {
  const StopTask& task = stop.tasks[i];
  const std::string where = named(task, i);
  if (task.name.empty()) return bad_input(where, "has no name: cards need one");
  if (task.modes.empty() || task.modes.size() > 6) {
    return bad_input(where, "has " + std::to_string(task.modes.size()) + " ways to do it: give 1 to 6");
  }
  for (std::size_t m = 0; m < task.modes.size(); ++m) {
    const std::string way = task.modes.size() == 1 ? "" : ", way " + std::to_string(m + 1);
    if (const auto wrong = wrong_time(task.modes[m].duration, 12 * 3600.0)) {
      return bad_input(where + way + ", duration", *wrong);
    }
    if (task.modes[m].hands.size() > most_helpers) return bad_input(where + way, "takes more than 4 people at once");
  }
  for (const TaskId before : task.after) {
    if (before.value >= stop.tasks.size()) {
      return bad_input(where, "comes after task " + std::to_string(before.value + 1) + ", which does not exist");
    }
    if (at(stop.tasks, before).step > task.step) {
      return bad_input(where, std::string("belongs to \"") + step_name(task.step) + "\" and cannot come after \"" +
                                  at(stop.tasks, before).name + "\" of the later step \"" +
                                  step_name(at(stop.tasks, before).step) + "\": change the step of one of them");
    }
  }
  if (task.is_at_horse && task.step != RoutineStep::serve) {
    return bad_input(where, std::string("is at the horse but belongs to \"") + step_name(task.step) +
                                "\": the horse is there in the step \"serve\" alone");
  }
  return {};
}

}  // namespace

Result<void> check_stop(const CrewStop& stop) {
  if (auto ok = check_helpers(stop); !ok) return ok;
  if (stop.tasks.size() > most_tasks) {
    return bad_input("tasks", "are " + std::to_string(stop.tasks.size()) +
                                  ": at most 30; join small ones that one helper " + "does in one go");
  }
  if (const auto wrong = wrong_time(stop.horse_at, 24 * 3600.0)) return bad_input("time of the horse", *wrong);
  if (stop.most_at_horse == 0) return bad_input("most helpers at the horse", "is 0: at least 1");
  for (std::size_t i = 0; i < stop.tasks.size(); ++i) {
    if (auto ok = check_task(stop, i); !ok) return ok;
  }
  if (const std::string cycle = cycle_of(stop); !cycle.empty()) {
    return bad_input("order of tasks", "goes in a circle: " + cycle + "; take one of these out");
  }
  for (std::size_t i = 0; i < stop.tasks.size(); ++i) {
    const StopTask& task = stop.tasks[i];
    const bool is_possible = std::any_of(task.modes.begin(), task.modes.end(),
                                         [&](const TaskMode& mode) { return people_for(stop, task, mode, {}) != 0; });
    if (!is_possible) return impossible(named(task, i), nobody_can(stop, task));
  }
  if (stop.holder == Holder::helper) {
    StopTask holding;
    holding.name = "hold the horse";
    holding.modes = {{Seconds{0}, {{{skill_holds_horse}, ""}}}};
    if (people_for(stop, holding, holding.modes.front(), {}) == 0) {
      return impossible("hold the horse", nobody_can(stop, holding) + ", or let the rider hold it");
    }
  }
  return {};
}

}  // namespace outbye
