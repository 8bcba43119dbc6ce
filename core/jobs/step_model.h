// One step of a stop as the search sees it: whole numbers of a common unit, people as bits, and what each task needs at
// least. For the length of a stop it does not matter who fills which hand, only which people are busy: a task's ways
// are sets of people with a duration.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "core/jobs/stop_task.h"

namespace outbye {

inline constexpr std::size_t most_helpers = 4;
inline constexpr std::size_t most_tasks = 30;
inline constexpr std::size_t people_sets = 16;

using PeopleSet = std::uint8_t;  // bit h: helper h

struct StepWay {
  std::int32_t duration{};
  PeopleSet people{};
  std::uint8_t mode{};
};

struct StepTask {
  TaskId id;
  std::vector<StepWay> ways;                     // none of them needs at least the people and the time of another
  std::uint32_t before{};                        // bit i: task i of the step comes first
  std::int32_t shortest{};                       // of the ways
  std::int32_t awkward{};                        // better done early: much work, many hands, few ways; no bound
  std::int32_t head{}, tail{};                   // least time of the step before it starts, and after it ends
  std::array<std::int32_t, people_sets> need{};  // least work of a set of people
  std::array<std::int32_t, people_sets> most{};  // most work of a set of people
};

// Something of which only so much can be used at a time. For a set S of people: the work of S, at most |S| at once. For
// a family of sets of people of which any two meet (two of three; a certain one with any other, or the other three):
// one such set at a time. And of four people: three or more count 2, two count 1, at most 2 at once.
struct Limit {
  std::array<std::int64_t, people_sets> use{};   // while these people are busy with one task
  std::array<std::int64_t, people_sets> room{};  // the most that tasks can use at once when these people are free
  std::array<std::int64_t, most_tasks> need{};   // least use times duration of each task
};

struct StepModel {
  std::int32_t unit{1};         // every duration, so every end that can be needed, is a multiple of it
  std::vector<StepTask> tasks;  // each after its predecessors
  std::size_t helpers{};
  std::vector<std::uint8_t> by_tail;  // tasks, longest tail first
  std::vector<Limit> limits;          // those worth a look
  // Tasks for which two helpers cannot stand in for each other.
  std::array<std::array<std::uint32_t, most_helpers>, most_helpers> differ{};
  std::int32_t bound{};  // no schedule of the step is shorter
  std::int32_t never{};  // so much later than any end that an average with it is later as well
};

// Who may do what in the step "serve"; elsewhere everybody.
struct ServeCrew {
  PeopleSet at_horse{0xf};
  std::optional<HelperId> holder;
};

// The sets of people that fill all hands of a mode: bit s of the result for set s.
std::uint32_t people_for(const CrewStop& stop, const StopTask& task, const TaskMode& mode, const ServeCrew& crew);

// Nothing when some task has no way for this crew. The stop must have passed check_stop.
std::optional<StepModel> step_model(const CrewStop& stop, RoutineStep step, const ServeCrew& crew);

using FreeTimes = std::array<std::int32_t, most_helpers>;  // when each helper is free
using FreeOrder = std::array<std::size_t, most_helpers>;   // the helpers, earliest free first

FreeOrder by_free(std::size_t helpers, const FreeTimes& free);
// When the work can be done at the earliest if nothing else is: the room grows as people become free.
std::int32_t filled(const StepModel& model, const Limit& limit, const FreeTimes& free, const FreeOrder& order,
                    std::int64_t work);

// A part of a schedule: the tasks `done` have their times, and none of the others starts before `now`.
struct StepState {
  std::uint32_t done{};
  std::int32_t now{};
  FreeTimes free{};                               // >= now
  std::array<std::int32_t, most_tasks> finish{};  // of the tasks done, >= now; 0 for the others
  std::int32_t latest{};                          // end of the tasks done
};

// When the task could start with these people.
std::int32_t earliest(const StepModel& model, const StepState& state, std::size_t task, PeopleSet people);
StepState started(const StepModel& model, const StepState& state, std::size_t task, const StepWay& way);

// No completion of the state ends earlier. From `enough` on it is not sharpened any more. Puts off in the state, as far
// as that changes no completion, when people are free, when tasks done end and the time before which nothing starts.
std::int32_t end_bound(const StepModel& model, StepState& state, std::int32_t enough);

// Whatever completes `b` completes `a`, and no task starts later; what is done already may still end later in `a` (see
// `latest`). Both must have the same tasks done; `open`: tasks done whose ends still matter to their successors.
bool is_no_later(const StepModel& model, const StepState& a, const StepState& b, std::uint32_t open);
std::uint32_t open_tasks(const StepModel& model, std::uint32_t done);

}  // namespace outbye
