#include <algorithm>
#include <bit>

#include "core/jobs/best_first.h"

namespace outbye {
namespace {

// As by_free, in line: it is asked twice for every state.
inline FreeOrder sorted_by(std::size_t helpers, const FreeTimes& free) {
  FreeOrder order{};
  for (std::size_t h = 0; h < helpers; ++h) {
    std::size_t k = h;
    for (; k > 0 && free[order[k - 1]] > free[h]; --k) order[k] = order[k - 1];
    order[k] = h;
  }
  return order;
}

}  // namespace

void BestFirst::meet(std::int32_t parent) {
  Family& family = family_;
  const StepState& state = nodes_[static_cast<std::size_t>(parent)].state;
  family.parent = parent;
  family.left_count = 0;
  for (std::size_t i = 0; i < model_.tasks.size(); ++i) {
    if ((state.done >> i) & 1U) continue;
    family.left[family.left_count++] = static_cast<std::uint8_t>(i);
    std::int32_t ready = state.now;
    for (std::uint32_t before = model_.tasks[i].before & state.done; before != 0; before &= before - 1) {
      ready = std::max(ready, state.finish[static_cast<std::size_t>(std::countr_zero(before))]);
    }
    family.ready[i] = ready;
  }
  family.group_count = 0;
  for (const std::uint8_t i : model_.by_tail) {
    if ((state.done >> i) & 1U) continue;
    const std::int32_t tail = model_.tasks[i].tail;
    if (family.group_count == 0 || family.tail[family.group_count - 1] != tail)
      family.tail[family.group_count++] = tail;
    family.group[i] = static_cast<std::uint8_t>(family.group_count - 1);
  }
  for (std::size_t l = 0; l < model_.limits.size(); ++l) {
    std::int32_t* work = &family.work[l * most_tasks];
    std::fill_n(work, family.group_count, 0);
    for (std::size_t k = 0; k < family.left_count; ++k) {
      const std::uint8_t i = family.left[k];
      work[family.group[i]] += static_cast<std::int32_t>(model_.limits[l].need[i]);
    }
    for (std::size_t g = 1; g < family.group_count; ++g) work[g] += work[g - 1];
  }
}

// The state after the start of a task, if it can be completed before `end`. `open`: its tasks done whose ends matter.
bool BestFirst::begin(std::size_t task, std::size_t way_index, std::int32_t start, std::int32_t end, Node& child,
                      std::uint32_t& open) {
  const Family& family = family_;
  const StepWay& way = model_.tasks[task].ways[way_index];
  const std::size_t helpers = model_.helpers;
  const Node& from = nodes_[static_cast<std::size_t>(family.parent)];
  const std::int32_t finish = start + way.duration;
  FreeTimes free{};
  for (std::size_t h = 0; h < helpers; ++h) {
    free[h] = (way.people >> h) & 1U ? finish : std::max(from.state.free[h], start);
  }
  std::array<std::int32_t, people_sets> last_free{}, reach;
  for (std::size_t set = 1; set < (std::size_t{1} << helpers); ++set) {
    last_free[set] = std::max(last_free[set & (set - 1)], free[static_cast<std::size_t>(std::countr_zero(set))]);
  }
  reach.fill(model_.never);
  const std::int32_t latest = std::max(from.state.latest, finish);
  std::int32_t bound = std::max(from.bound, latest);
  const std::uint32_t done = from.state.done | (1U << task);
  FreeOrder order{};
  const auto limit_bound = [&](std::size_t l, std::int32_t best) {
    const Limit& limit = model_.limits[l];
    std::int32_t lost = 0, room = 0;
    std::size_t people = 0;
    for (std::size_t k = 0; k < helpers; ++k) {
      people |= std::size_t{1} << order[k];
      const auto wider = static_cast<std::int32_t>(limit.room[people]);
      lost += (wider - room) * free[order[k]];
      room = wider;
    }
    const std::int32_t all_free = free[order[helpers - 1]];
    const std::int32_t* works = &family.work[l * most_tasks];
    const auto mine = static_cast<std::int32_t>(limit.need[task]);
    for (std::size_t g = 0; g < family.group_count; ++g) {
      const std::int32_t work = works[g] - (g >= family.group[task] ? mine : 0);
      const std::int32_t tail = family.tail[g];
      if (work == 0 || work + lost <= (best - tail) * room) continue;
      const std::int32_t full = (work + lost + room - 1) / room;
      best = std::max(best, tail + (full >= all_free ? full : filled(model_, limit, free, order, work)));
    }
    return best;
  };
  // The limit that was too tight for another one often is for this one too.
  if (killer_ < model_.limits.size()) {
    order = sorted_by(helpers, free);
    if (limit_bound(killer_, bound) > end - model_.unit) return false;
  }
  // Along the order of tasks.
  std::array<std::int32_t, most_tasks> starts, ends;
  std::int32_t now = model_.never;
  for (std::size_t k = 0; k < family.left_count; ++k) {
    const std::size_t i = family.left[k];
    if (i == task) continue;
    const StepTask& what = model_.tasks[i];
    std::int32_t ready = std::max(start, family.ready[i]);
    if ((what.before >> task) & 1U) ready = std::max(ready, finish);
    for (std::uint32_t before = what.before & ~done; before != 0; before &= before - 1) {
      ready = std::max(ready, ends[static_cast<std::size_t>(std::countr_zero(before))]);
    }
    std::int32_t first = INT32_MAX, first_end = INT32_MAX;
    for (const StepWay& w : what.ways) {
      const std::int32_t at = std::max(ready, last_free[w.people]);
      first = std::min(first, at);
      first_end = std::min(first_end, at + w.duration);
      reach[w.people] = std::min(reach[w.people], at);
    }
    starts[i] = first;
    ends[i] = first_end;
    now = std::min(now, first);
    bound = std::max(bound, first_end + what.tail);
  }
  if (bound >= end) return false;
  // Whoever is not needed yet is as good as not there yet.
  std::array<std::int32_t, most_helpers> wanted;
  wanted.fill(model_.never);
  for (const PeopleSet set : sets_) {
    for (unsigned people = set; people != 0; people &= people - 1) {
      std::int32_t& when = wanted[static_cast<std::size_t>(std::countr_zero(people))];
      when = std::min(when, reach[set]);
    }
  }
  for (std::size_t h = 0; h < helpers; ++h) free[h] = std::max(free[h], wanted[h]);
  order = sorted_by(helpers, free);
  for (std::size_t l = 0; l < model_.limits.size(); ++l) {
    bound = limit_bound(l, bound);
    if (bound > end - model_.unit) {
      killer_ = l;
      return false;
    }
  }
  bound = (bound + model_.unit - 1) / model_.unit * model_.unit;
  if (bound >= end) return false;
  child.state.done = done;
  child.state.now = std::max(start, now);
  child.state.free = free;
  child.state.latest = latest;
  open = 0;
  std::array<std::int32_t, most_tasks> needed;  // when the end of a task done is first waited for
  for (std::size_t k = 0; k < family.left_count; ++k) {
    const std::size_t i = family.left[k];
    if (i == task) continue;
    for (std::uint32_t before = model_.tasks[i].before & done; before != 0; before &= before - 1) {
      const auto j = static_cast<std::size_t>(std::countr_zero(before));
      needed[j] = (open >> j) & 1U ? std::min(needed[j], starts[i]) : starts[i];
      open |= 1U << j;
    }
  }
  for (std::uint32_t rest = open; rest != 0; rest &= rest - 1) {
    const auto i = static_cast<std::size_t>(std::countr_zero(rest));
    child.state.finish[i] = std::max(i == task ? finish : from.state.finish[i], needed[i]);
  }
  child.bound = bound;
  child.parent = family.parent;
  child.task = static_cast<std::uint8_t>(task);
  child.way = static_cast<std::uint8_t>(way_index);
  return true;
}

}  // namespace outbye
