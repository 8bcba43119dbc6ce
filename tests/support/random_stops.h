// Random stops for the tests and the bench: up to 20 tasks and 4 helpers with mixed skills, more than one way to do a
// task, tasks for two or three at once, and an order that leaves choices. Every task can be done by somebody.
#pragma once

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "core/base/random.h"
#include "core/jobs/schedule_stop.h"

namespace outbye {

struct StopShape {
  std::size_t tasks_from{1}, tasks_to{20};
  std::size_t helpers_from{1}, helpers_to{4};
  bool is_one_step{};      // all tasks at the horse's step: the hardest for a search
  std::int32_t grid{5};    // durations are multiples of it
  std::int32_t most{300};  // longest duration, seconds
};

inline std::size_t between(Rng& rng, std::size_t from, std::size_t to) {
  return from + static_cast<std::size_t>(uniform_below(rng, to - from + 1));
}

inline CrewStop random_stop_once(Rng& rng, const StopShape& shape) {
  static const char* const skills[] = {skill_holds_horse, skill_first_aid, skill_driver, skill_tack, skill_pulse};
  static const char* const names[] = {"Ann", "Bob", "Cat", "Dan"};
  CrewStop stop;
  stop.name = "random";
  const std::size_t helpers = between(rng, shape.helpers_from, shape.helpers_to);
  for (std::size_t h = 0; h < helpers; ++h) {
    Helper helper;
    helper.name = names[h];
    for (const char* skill : skills) {
      if (uniform(rng) < 0.6) helper.skills.emplace_back(skill);
    }
    helper.carried = Seconds{static_cast<double>(10 * between(rng, 0, 30))};
    stop.helpers.push_back(std::move(helper));
  }
  const auto hand = [&] {
    Hand one;
    if (uniform(rng) < 0.5) one.skills.emplace_back(skills[between(rng, 0, 4)]);
    return one;
  };
  const auto duration = [&] {
    const auto steps = static_cast<std::size_t>(shape.most / shape.grid);
    return Seconds{static_cast<double>(shape.grid) * static_cast<double>(between(rng, 1, steps))};
  };
  const std::size_t tasks = between(rng, shape.tasks_from, shape.tasks_to);
  const double density = 0.25 * uniform(rng);
  const bool is_one_step = shape.is_one_step || uniform(rng) < 0.5;
  for (std::size_t i = 0; i < tasks; ++i) {
    StopTask task;
    task.name = "t" + std::to_string(i);
    task.step = is_one_step ? RoutineStep::serve : routine[between(rng, 0, 4)];
    const std::size_t modes = uniform(rng) < 0.3 ? 2 : 1;
    for (std::size_t m = 0; m < modes; ++m) {
      TaskMode mode;
      mode.duration = duration();
      const double many = uniform(rng);
      const std::size_t hands = many < 0.05 ? 0 : many < 0.7 ? 1 : many < 0.93 ? 2 : 3;
      for (std::size_t k = 0; k < std::min(hands, helpers); ++k) mode.hands.push_back(hand());
      task.modes.push_back(std::move(mode));
    }
    for (std::uint32_t j = 0; j < i; ++j) {
      if (stop.tasks[j].step <= task.step && uniform(rng) < density) task.after.push_back(TaskId{j});
    }
    task.is_at_horse = task.step == RoutineStep::serve && uniform(rng) < 0.6;
    stop.tasks.push_back(std::move(task));
  }
  stop.horse_at = Seconds{static_cast<double>(10 * between(rng, 0, 60))};
  stop.holder = helpers > 1 && uniform(rng) < 0.4 ? Holder::helper : Holder::mounted_rider;
  stop.most_at_horse = static_cast<std::uint32_t>(between(rng, std::min<std::size_t>(2, helpers), 4));
  return stop;
}

// Whoever lacks a needed skill makes a stop impossible; such draws are thrown away.
inline CrewStop random_stop(Rng& rng, const StopShape& shape = {}) {
  for (;;) {
    CrewStop stop = random_stop_once(rng, shape);
    if (schedule_stop(stop, {1, 1})) return stop;
  }
}

}  // namespace outbye
