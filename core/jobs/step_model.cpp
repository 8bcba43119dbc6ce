#include "core/jobs/step_model.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <numeric>

namespace outbye {
namespace {

bool has_skills(const Helper& helper, const Hand& hand) {
  return std::all_of(hand.skills.begin(), hand.skills.end(), [&](const std::string& skill) {
    return std::find(helper.skills.begin(), helper.skills.end(), skill) != helper.skills.end();
  });
}

int count(PeopleSet people) { return std::popcount(people); }

// The tasks of which some way is no way any more when the two helpers swap places.
std::uint32_t tasks_that_differ(const StepModel& model, std::size_t a, std::size_t b) {
  std::uint32_t differ = 0;
  for (std::size_t i = 0; i < model.tasks.size(); ++i) {
    const std::vector<StepWay>& ways = model.tasks[i].ways;
    for (const StepWay& way : ways) {
      PeopleSet other = way.people;
      if (((other >> a) & 1U) != ((other >> b) & 1U)) other = static_cast<PeopleSet>(other ^ (1U << a) ^ (1U << b));
      const bool is_there = std::any_of(
          ways.begin(), ways.end(), [&](const StepWay& w) { return w.people == other && w.duration == way.duration; });
      if (!is_there) differ |= 1U << i;
    }
  }
  return differ;
}

void add_needs(StepTask& task) {
  task.shortest = task.ways.front().duration;
  for (const StepWay& way : task.ways) task.shortest = std::min(task.shortest, way.duration);
  for (std::size_t set = 0; set < people_sets; ++set) {
    std::int32_t least = INT32_MAX, most = 0;
    for (const StepWay& way : task.ways) {
      const std::int32_t work = way.duration * count(static_cast<PeopleSet>(way.people & set));
      least = std::min(least, work);
      most = std::max(most, work);
    }
    task.need[set] = least;
    task.most[set] = most;
  }
}

// The least time that the tasks of `group` take together, with the tails already known; `heads`: with the heads too.
std::int32_t group_bound(const StepModel& model, const Limit& limit, std::uint32_t group, bool heads) {
  const std::int64_t most = limit.room[(std::size_t{1} << model.helpers) - 1];
  std::int32_t bound = 0;
  for (std::size_t h = 0; h < model.tasks.size(); ++h) {
    if (!((group >> h) & 1U)) continue;
    const std::int32_t head = heads ? model.tasks[h].head : 0;
    std::int64_t work = 0;
    for (const std::uint8_t i : model.by_tail) {
      if (!((group >> i) & 1U) || (heads && model.tasks[i].head < head)) continue;
      work += limit.need[i];
      bound = std::max(bound, head + model.tasks[i].tail + static_cast<std::int32_t>((work + most - 1) / most));
    }
    if (!heads) break;
  }
  return bound;
}

std::int32_t group_bound(const StepModel& model, std::uint32_t group, bool heads) {
  std::int32_t bound = 0;
  for (std::size_t i = 0; i < model.tasks.size(); ++i) {
    if (!((group >> i) & 1U)) continue;
    bound = std::max(bound, (heads ? model.tasks[i].head : 0) + model.tasks[i].shortest + model.tasks[i].tail);
  }
  for (const Limit& limit : model.limits) bound = std::max(bound, group_bound(model, limit, group, heads));
  return (bound + model.unit - 1) / model.unit * model.unit;
}

void add_limit(StepModel& model, const std::array<std::int64_t, people_sets>& use) {
  Limit limit;
  limit.use = use;
  const std::size_t sets = std::size_t{1} << model.helpers;
  for (std::size_t free = 1; free < sets; ++free) {
    for (std::size_t busy = free; busy != 0; busy = (busy - 1) & free) {
      limit.room[free] = std::max(limit.room[free], use[busy] + limit.room[free ^ busy]);
    }
  }
  bool is_used = false;
  for (std::size_t i = 0; i < model.tasks.size(); ++i) {
    std::int64_t need = INT64_MAX;
    for (const StepWay& way : model.tasks[i].ways) need = std::min(need, way.duration * use[way.people]);
    limit.need[i] = need;
    is_used = is_used || need > 0;
  }
  if (is_used) model.limits.push_back(limit);
}

void add_limits(StepModel& model) {
  const unsigned all = (1U << model.helpers) - 1U;
  const auto add = [&](const auto& use_of) {
    std::array<std::int64_t, people_sets> use{};
    for (unsigned people = 1; people <= all; ++people) use[people] = use_of(static_cast<PeopleSet>(people));
    add_limit(model, use);
  };
  for (unsigned set = 1; set <= all; ++set) {
    // A set that needs no more than a smaller one says less than that one.
    bool is_useful = true;
    for (unsigned h = 0; h < model.helpers; ++h) {
      if (!((set >> h) & 1U)) continue;
      is_useful = is_useful && std::any_of(model.tasks.begin(), model.tasks.end(), [&](const StepTask& task) {
                    return task.need[set] > task.need[set ^ (1U << h)];
                  });
    }
    if (is_useful) add([&](PeopleSet people) { return count(static_cast<PeopleSet>(people & set)); });
    if (count(static_cast<PeopleSet>(set)) == 3) {
      add([&](PeopleSet people) { return count(static_cast<PeopleSet>(people & set)) >= 2 ? 1 : 0; });
    }
  }
  if (model.helpers < 4) return;
  for (unsigned h = 0; h < 4; ++h) {
    const unsigned one = 1U << h, others = all ^ one;
    add([&](PeopleSet people) {
      const bool is_with_one = (people & one) != 0 && (people & others) != 0;
      return is_with_one || (people & others) == others ? 1 : 0;
    });
  }
  add([](PeopleSet people) { return std::clamp(count(people) - 1, 0, 2); });
}

void order_by_tail(StepModel& model) {
  std::stable_sort(model.by_tail.begin(), model.by_tail.end(),
                   [&](std::uint8_t a, std::uint8_t b) { return model.tasks[a].tail > model.tasks[b].tail; });
}

void add_bounds(StepModel& model) {
  const std::size_t n = model.tasks.size();
  for (std::size_t i = 0; i < n; ++i) model.by_tail.push_back(static_cast<std::uint8_t>(i));
  add_limits(model);
  std::vector<std::uint32_t> behind(n), ahead(n);  // all that must come after, before
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      if ((model.tasks[i].before >> j) & 1U) ahead[i] |= ahead[j] | (1U << j);
    }
    for (std::size_t j = 0; j < i; ++j) {
      if ((ahead[i] >> j) & 1U) behind[j] |= 1U << i;
    }
  }
  for (std::size_t i = n; i-- > 0;) {
    order_by_tail(model);
    model.tasks[i].tail = group_bound(model, behind[i], false);
  }
  order_by_tail(model);
  for (std::size_t i = 0; i < n; ++i) {
    // The head is the tail of the step run backwards.
    StepModel mirrored = model;
    for (StepTask& task : mirrored.tasks) std::swap(task.head, task.tail);
    order_by_tail(mirrored);
    model.tasks[i].head = group_bound(mirrored, ahead[i], false);
  }
  const auto all = static_cast<std::uint32_t>((std::uint64_t{1} << n) - 1);
  model.bound = group_bound(model, all, true);
  // A limit far from tight at the beginning hardly ever becomes so.
  std::erase_if(model.limits,
                [&](const Limit& limit) { return 2 * group_bound(model, limit, all, true) < model.bound; });
}

}  // namespace

std::uint32_t people_for(const CrewStop& stop, const StopTask& task, const TaskMode& mode, const ServeCrew& crew) {
  std::uint32_t sets = 1;  // of the hands so far: the empty set
  for (const Hand& hand : mode.hands) {
    std::uint32_t wider = 0;
    for (std::size_t h = 0; h < stop.helpers.size(); ++h) {
      if (!has_skills(stop.helpers[h], hand)) continue;
      if (task.step == RoutineStep::serve) {
        if (crew.holder && crew.holder->value == h) continue;
        if (task.is_at_horse && !((crew.at_horse >> h) & 1U)) continue;
      }
      for (std::size_t set = 0; set < people_sets; ++set) {
        if (((sets >> set) & 1U) && !((set >> h) & 1U)) wider |= 1U << (set | (1U << h));
      }
    }
    sets = wider;
  }
  return sets;
}

std::optional<StepModel> step_model(const CrewStop& stop, RoutineStep step, const ServeCrew& crew) {
  StepModel model;
  model.helpers = stop.helpers.size();
  std::vector<std::uint32_t> waiting;
  for (std::uint32_t i = 0; i < stop.tasks.size(); ++i) {
    if (stop.tasks[i].step == step) waiting.push_back(i);
  }
  // By id, as soon as the predecessors are there; check_stop has made sure that there is no cycle.
  std::array<int, most_tasks> place{};
  place.fill(-1);
  while (!waiting.empty()) {
    const auto next = std::find_if(waiting.begin(), waiting.end(), [&](std::uint32_t i) {
      return std::all_of(stop.tasks[i].after.begin(), stop.tasks[i].after.end(), [&](TaskId before) {
        return at(stop.tasks, before).step != step || place[before.value] >= 0;
      });
    });
    if (next == waiting.end()) return std::nullopt;
    const StopTask& task = stop.tasks[*next];
    StepTask made;
    made.id = TaskId{*next};
    for (const TaskId before : task.after) {
      if (at(stop.tasks, before).step == step) made.before |= 1U << place[before.value];
    }
    for (std::size_t m = 0; m < task.modes.size(); ++m) {
      const std::uint32_t sets = people_for(stop, task, task.modes[m], crew);
      for (std::size_t set = 0; set < people_sets; ++set) {
        if (!((sets >> set) & 1U)) continue;
        made.ways.push_back({static_cast<std::int32_t>(std::llround(task.modes[m].duration.count())),
                             static_cast<PeopleSet>(set), static_cast<std::uint8_t>(m)});
      }
    }
    std::vector<StepWay> kept;
    for (std::size_t a = 0; a < made.ways.size(); ++a) {
      const StepWay& way = made.ways[a];
      const bool is_beaten = std::any_of(made.ways.begin(), made.ways.end(), [&](const StepWay& other) {
        const bool needs_no_more = (other.people & ~way.people) == 0 && other.duration <= way.duration;
        const bool is_same = other.people == way.people && other.duration == way.duration;
        return needs_no_more && (!is_same || other.mode < way.mode);
      });
      if (!is_beaten) kept.push_back(way);
    }
    made.ways = std::move(kept);
    if (made.ways.empty()) return std::nullopt;
    add_needs(made);
    place[*next] = static_cast<int>(model.tasks.size());
    model.tasks.push_back(std::move(made));
    waiting.erase(next);
  }
  for (std::size_t a = 0; a < model.helpers; ++a) {
    for (std::size_t b = 0; b < model.helpers; ++b) model.differ[a][b] = tasks_that_differ(model, a, b);
  }
  std::int32_t unit = 0;
  for (const StepTask& task : model.tasks) {
    for (const StepWay& way : task.ways) unit = std::gcd(unit, way.duration);
  }
  model.unit = std::max(unit, 1);
  model.never = 16;
  for (const StepTask& task : model.tasks) {
    std::int32_t longest = 0;
    for (const StepWay& way : task.ways) longest = std::max(longest, way.duration);
    model.never += 2 * longest;
  }
  add_bounds(model);
  for (StepTask& task : model.tasks) {
    std::size_t hands = most_helpers;
    for (const StepWay& way : task.ways) hands = std::min(hands, static_cast<std::size_t>(count(way.people)));
    task.awkward = static_cast<std::int32_t>(static_cast<std::size_t>(task.need[people_sets - 1]) * hands /
                                             (20 * task.ways.size()));
  }
  return model;
}

}  // namespace outbye
