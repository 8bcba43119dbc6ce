#include <algorithm>
#include <bit>

#include "core/jobs/step_model.h"

namespace outbye {

std::int32_t earliest(const StepModel& model, const StepState& state, std::size_t task, PeopleSet people) {
  std::int32_t start = state.now;
  for (std::uint32_t before = model.tasks[task].before; before != 0; before &= before - 1) {
    start = std::max(start, state.finish[static_cast<std::size_t>(std::countr_zero(before))]);
  }
  for (std::size_t h = 0; h < model.helpers; ++h) {
    if ((people >> h) & 1U) start = std::max(start, state.free[h]);
  }
  return start;
}

StepState started(const StepModel& model, const StepState& state, std::size_t task, const StepWay& way) {
  StepState next = state;
  next.now = earliest(model, state, task, way.people);
  const std::int32_t end = next.now + way.duration;
  next.done |= 1U << task;
  next.finish[task] = end;
  next.latest = std::max(next.latest, end);
  for (std::size_t h = 0; h < model.helpers; ++h) {
    next.free[h] = (way.people >> h) & 1U ? end : std::max(next.free[h], next.now);
  }
  for (std::uint32_t done = next.done; done != 0; done &= done - 1) {
    std::int32_t& finish = next.finish[static_cast<std::size_t>(std::countr_zero(done))];
    finish = std::max(finish, next.now);
  }
  return next;
}

FreeOrder by_free(std::size_t helpers, const FreeTimes& free) {
  FreeOrder order{};
  for (std::size_t h = 0; h < helpers; ++h) {
    std::size_t k = h;
    for (; k > 0 && free[order[k - 1]] > free[h]; --k) order[k] = order[k - 1];
    order[k] = h;
  }
  return order;
}

std::int32_t filled(const StepModel& model, const Limit& limit, const FreeTimes& free, const FreeOrder& order,
                    std::int64_t work) {
  std::size_t people = 0;
  for (std::size_t k = 0; k < model.helpers; ++k) {
    people |= std::size_t{1} << order[k];
    const std::int64_t room = limit.room[people];
    if (room == 0) continue;
    const std::int32_t from = free[order[k]];
    const std::int32_t end = from + static_cast<std::int32_t>((work + room - 1) / room);
    if (k + 1 == model.helpers || end <= free[order[k + 1]]) return end;
    work -= room * (free[order[k + 1]] - from);
  }
  return 0;
}

std::int32_t end_bound(const StepModel& model, StepState& state, std::int32_t enough) {
  const std::size_t n = model.tasks.size();
  std::array<std::int32_t, people_sets> last_free{};  // of the set
  std::int32_t bound = state.latest;
  for (std::size_t set = 1; set < (std::size_t{1} << model.helpers); ++set) {
    last_free[set] = std::max(last_free[set & (set - 1)], state.free[static_cast<std::size_t>(std::countr_zero(set))]);
  }
  // Along the order of tasks.
  std::array<std::int32_t, most_tasks> end{};
  std::array<std::int32_t, most_tasks> needed{};  // when the end of a task done is first waited for
  needed.fill(model.never);
  std::array<std::int32_t, most_helpers> wanted{};  // when a helper is first needed
  wanted.fill(model.never);
  std::int32_t first = model.never;
  for (std::size_t i = 0; i < n; ++i) {
    const StepTask& task = model.tasks[i];
    if ((state.done >> i) & 1U) {
      end[i] = state.finish[i];
      continue;
    }
    std::int32_t ready = state.now;
    for (std::uint32_t before = task.before; before != 0; before &= before - 1) {
      ready = std::max(ready, end[static_cast<std::size_t>(std::countr_zero(before))]);
    }
    end[i] = INT32_MAX;
    std::int32_t start = INT32_MAX;
    for (const StepWay& way : task.ways) {
      const std::int32_t from = std::max(ready, last_free[way.people]);
      start = std::min(start, from);
      end[i] = std::min(end[i], from + way.duration);
      for (unsigned people = way.people; people != 0; people &= people - 1) {
        std::int32_t& when = wanted[static_cast<std::size_t>(std::countr_zero(people))];
        when = std::min(when, from);
      }
    }
    first = std::min(first, start);
    for (std::uint32_t before = task.before & state.done; before != 0; before &= before - 1) {
      std::int32_t& when = needed[static_cast<std::size_t>(std::countr_zero(before))];
      when = std::min(when, start);
    }
    bound = std::max(bound, end[i] + task.tail);
    if (bound >= enough) return bound;
  }
  // What is not needed yet is as good as not there yet.
  state.now = std::max(state.now, first);
  for (std::size_t h = 0; h < model.helpers; ++h) state.free[h] = std::max(state.free[h], wanted[h]);
  for (std::uint32_t done = state.done; done != 0; done &= done - 1) {
    const auto i = static_cast<std::size_t>(std::countr_zero(done));
    if (needed[i] < model.never) state.finish[i] = std::max(state.finish[i], needed[i]);
  }
  // By what is left of each limit, with the tails of those tasks.
  const auto order = by_free(model.helpers, state.free);
  const std::int32_t all_free = state.free[order[model.helpers - 1]];
  std::array<std::uint8_t, most_tasks> left{};
  std::size_t left_count = 0;
  for (const std::uint8_t i : model.by_tail) {
    if (!((state.done >> i) & 1U)) left[left_count++] = i;
  }
  for (const Limit& limit : model.limits) {
    // Room lost before people are free, if all are free before the work is done.
    std::int64_t lost = 0, room = 0;
    std::size_t people = 0;
    for (std::size_t k = 0; k < model.helpers; ++k) {
      people |= std::size_t{1} << order[k];
      lost += (limit.room[people] - room) * state.free[order[k]];
      room = limit.room[people];
    }
    if (bound > enough - model.unit) break;  // it will be rounded up to a unit
    std::int64_t work = 0;
    for (std::size_t k = 0; k < left_count; ++k) {
      const std::uint8_t i = left[k];
      work += limit.need[i];
      const std::int32_t tail = model.tasks[i].tail;
      if (work == 0 || work + lost <= (bound - tail) * room) continue;
      const auto done = static_cast<std::int32_t>((work + lost + room - 1) / room);
      bound = std::max(bound, tail + (done >= all_free ? done : filled(model, limit, state.free, order, work)));
    }
  }
  return (bound + model.unit - 1) / model.unit * model.unit;
}

bool is_no_later(const StepModel& model, const StepState& a, const StepState& b, std::uint32_t open) {
  if (a.now > b.now) return false;
  for (std::size_t h = 0; h < model.helpers; ++h) {
    if (a.free[h] > b.free[h]) return false;
  }
  for (; open != 0; open &= open - 1) {
    const auto i = static_cast<std::size_t>(std::countr_zero(open));
    if (a.finish[i] > b.finish[i]) return false;
  }
  return true;
}

std::uint32_t open_tasks(const StepModel& model, std::uint32_t done) {
  std::uint32_t open = 0;
  for (std::size_t i = 0; i < model.tasks.size(); ++i) {
    if (!((done >> i) & 1U)) open |= model.tasks[i].before & done;
  }
  return open;
}

}  // namespace outbye
