// What a crew does at one stop: tasks, the people who can do them, and the horse that comes and goes. Times are whole
// seconds after the crew's car has stopped. A stop follows the crew's fixed routine, step by step: refill, set up,
// stand, serve, clear; a step begins when everything of the step before is done. "Serve" is the step with the horse.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/index.h"
#include "core/base/result.h"
#include "core/base/units.h"

namespace outbye {

using TaskId = Index<struct StopTaskTag>;  // a task of CrewStop::tasks
using HelperId = Index<struct HelperTag>;  // a helper of CrewStop::helpers

enum class RoutineStep { refill, set_up, stand, serve, clear };
inline constexpr RoutineStep routine[] = {RoutineStep::refill, RoutineStep::set_up, RoutineStep::stand,
                                          RoutineStep::serve, RoutineStep::clear};
const char* step_name(RoutineStep step);  // "refill", "set up", "stand", "serve", "clear"

// The skills that the usual stops ask for. A stop may use any other name: a skill is what helpers and hands call alike.
inline constexpr const char* skill_holds_horse = "holds horse";
inline constexpr const char* skill_first_aid = "first aid";
inline constexpr const char* skill_driver = "driver";
inline constexpr const char* skill_lifts = "lifts with a second person";
inline constexpr const char* skill_pulse = "takes a pulse";
inline constexpr const char* skill_tack = "tack";

// Of whatever is done at the horse and has no caution of its own.
inline constexpr const char* caution_at_horse =
    "work at the shoulder, never alone behind the horse; tell the rider before you touch it; hard hat";

// One person's place in a task, from its start to its end. One helper fills one hand and needs all its skills.
struct Hand {
  std::vector<std::string> skills;
  std::string part;  // "left side"; may be empty
};

// One way to do a task: by these hands together, in this time. No hands: it only takes time (feed soaks).
struct TaskMode {
  Seconds duration{};  // whole seconds, 0..12 h
  std::vector<Hand> hands;
};

struct StopTask {
  std::string name;
  RoutineStep step{RoutineStep::serve};
  std::vector<TaskMode> modes;  // 1..6: alone in 90 s, or by two in 45 s
  std::vector<TaskId> after;    // tasks that must be done before; of the same step or an earlier one
  bool is_at_horse{};           // within reach of the horse: counts against CrewStop::most_at_horse; step serve only
  std::uint32_t necessity{};    // 0 is never left out; the highest number is left out first
  std::string for_rider;        // what the rider is given or told: "two slosh bottles"; may be empty
  std::string caution;          // shown wherever the task is
};

struct Helper {
  std::string name;
  std::vector<std::string> skills;
  double share{1.0};  // of the work wanted, against the others'; > 0, at most 10
  Seconds carried{};  // work already done at earlier stops of the day
};

enum class Holder { mounted_rider, rider_on_foot, helper };

// Up to 30 tasks and 4 helpers.
struct CrewStop {
  std::string name;
  std::vector<Helper> helpers;  // 1..4
  std::vector<StopTask> tasks;
  Seconds horse_at{};  // when the horse comes, >= 0; serving begins then, or later when not all is set up
  // Holder::helper: one helper with skill_holds_horse holds the horse through the whole step "serve" and does nothing
  // else in it.
  Holder holder{Holder::mounted_rider};
  // The rules' limit for helpers at the horse (whoever holds it included). The same helpers make up that number through
  // the whole step.
  std::uint32_t most_at_horse{4};
};

// Refuses what cannot be scheduled and says what to change: sizes, durations, unknown tasks, a cycle (named task by
// task), an order against the routine, a task that nobody here can do (with the skill that is missing).
// The lowest time per task and the helpers at hand are checked one task at a time; schedule_stop checks the whole.
Result<void> check_stop(const CrewStop& stop);

}  // namespace outbye
