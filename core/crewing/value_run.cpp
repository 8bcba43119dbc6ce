#include "core/crewing/value_run.h"

#include <algorithm>
#include <cstdint>

namespace outbye {
namespace {

inline float larger(float a, float b) { return a > b ? a : b; }
inline float smaller(float a, float b) { return a < b ? a : b; }

struct MeetColumns {
  const float* base;
  const float* stand;
  const float* arrive;
  float* left;
  float* known;
  float* seen;
  float* shift;
  float* help;
  float* worth;
};

struct Counted {
  std::int32_t ready{};
  std::int32_t there{};
};

// The one loop that matters. Comparisons give 0 or 1 and are joined with & so that nothing branches.
Counted serve_block(const PolicyStop& p, const Policy& policy, bool keeps_kit, const MeetColumns& c, std::size_t n) {
  const float* __restrict base = c.base;
  const float* __restrict stand = c.stand;
  const float* __restrict arrive = c.arrive;
  float* __restrict left = c.left;
  float* __restrict known = c.known;
  float* __restrict seen = c.seen;
  float* __restrict shift = c.shift;
  float* __restrict help = c.help;
  float* __restrict worth = c.worth;
  const float part = policy.part * p.worth;
  const float full = p.worth;
  const float held = p.is_held ? 1.0F : 0.0F;
  const float interval = policy.interval;
  const float slope = policy.slope;
  const float along = p.along;
  const float open_from = p.open_from;
  const float open_to = p.open_to;
  const float pack_by = p.open_to - p.pack;
  const float pack = p.pack;
  const float kit_pack = keeps_kit ? 0.0F : p.pack;
  const float kit_setup = keeps_kit ? p.setup : 0.0F;
  const float setup = p.setup;
  const float leave_by = p.leave_by;
  const Expectation wait = p.wait;
  std::int32_t ready_days = 0;
  std::int32_t there_days = 0;
  for (std::size_t d = 0; d < n; ++d) {
    const float in = larger(arrive[d], open_from);
    const float due = base[d] + shift[d];
    const float gone = due + stand[d];
    // A car that was there early has missed nothing and waits long; one that came late may wait for a horse that has
    // gone, and waits less. One second of rounding.
    const float longest = seen[d] + (in <= seen[d] + wait.early ? wait.latest : wait.late) + 1.0F;
    const float until = smaller(larger(in, smaller(longest, leave_by)), pack_by);
    const std::int32_t there = static_cast<std::int32_t>(in <= gone) & static_cast<std::int32_t>(due <= until) &
                               static_cast<std::int32_t>(gone + pack <= open_to);
    const std::int32_t ready = there & static_cast<std::int32_t>(in + setup <= due);
    const float helped = there != 0 ? 1.0F : 0.0F;
    const float gap = slope * larger(0.0F, along - help[d] - interval);
    worth[d] += (ready != 0 ? full : helped * part) - helped * gap;
    help[d] = there != 0 ? along : help[d];
    shift[d] += helped * held * stand[d];
    seen[d] = there != 0 ? due : seen[d] + wait.middle;
    known[d] = seen[d];
    const float gave_up = until > in ? larger(until, in + kit_setup) + kit_pack : in;
    left[d] = there != 0 ? gone + kit_pack : gave_up;
    ready_days += ready;
    there_days += there;
  }
  return {ready_days, there_days};
}

void pass_gates(float first_gate, float last_gate, float penalty, const Policy& policy, float* help, float* worth,
                std::size_t n) {
  const float slope = policy.slope;
  const float interval = policy.interval;
  for (std::size_t d = 0; d < n; ++d) {
    worth[d] -= penalty + slope * larger(0.0F, first_gate - help[d] - interval);
    help[d] = last_gate;
  }
}

}  // namespace

const float* DayRunner::factor(const PolicyStop& to, const DaySet& days, std::size_t from) {
  if (to.stop.kind == PlannedStop::Kind::meet) {
    return days.option_factor.data() + to.stop.option->value * days.days + from;
  }
  if (to.stop.kind == PlannedStop::Kind::refill) return days.refill_factor.data() + *to.stop.refill * days.days + from;
  return nullptr;  // a rest: nothing is driven
}

void DayRunner::serve(const Policy& policy, std::size_t s, const DaySet& days, std::size_t from, std::size_t n,
                      float* worth, RunCounts& counts) {
  const PolicyStop& p = policy.stops[s];
  const float* arrive = arrive_.data() + s * block;
  float* left = left_.data() + s * block;
  if (p.stop.kind != PlannedStop::Kind::meet) {
    for (std::size_t d = 0; d < n; ++d) left[d] = larger(arrive[d], p.open_from) + p.duration;
    float* known = known_.data() + s * block;
    if (p.before) {
      std::copy_n(known_.data() + *p.before * block, n, known);
    } else {
      std::fill_n(known, n, 0.0F);
    }
    return;
  }
  const std::size_t h = p.horse.value;
  if (p.passes_gate) pass_gates(p.first_gate, p.last_gate, p.gates_penalty, policy, help_.data() + h * block, worth, n);
  const std::size_t column = p.event * days.days + from;
  const bool keeps_kit = p.next && policy.stops[*p.next].stays;
  const MeetColumns columns{days.horses[h].base.data() + column,
                            days.horses[h].stand.data() + column,
                            arrive,
                            left,
                            known_.data() + s * block,
                            seen_.data() + h * block,
                            shift_.data() + h * block,
                            help_.data() + h * block,
                            worth};
  const Counted counted = serve_block(p, policy, keeps_kit, columns, n);
  counts.ready[s] += static_cast<std::size_t>(counted.ready);
  counts.there[s] += static_cast<std::size_t>(counted.there);
}

void DayRunner::drive_on(const Policy& policy, std::size_t s, const DaySet& days, std::size_t from, std::size_t n) {
  const PolicyStop& p = policy.stops[s];
  if (!p.next) return;
  const float* __restrict left = left_.data() + s * block;
  const float* __restrict known = known_.data() + s * block;
  float* __restrict to = arrive_.data() + *p.next * block;
  const float* __restrict slow = factor(policy.stops[*p.next], days, from);
  if (slow == nullptr) {
    for (std::size_t d = 0; d < n; ++d) to[d] = smaller(to[d], left[d]);
    return;
  }
  const float drive = p.drive_next;
  const float relative = p.is_relative ? 1.0F : 0.0F;
  const float hold = p.hold;
  if (!p.fallback) {
    for (std::size_t d = 0; d < n; ++d) {
      to[d] = smaller(to[d], larger(left[d], relative * known[d] + hold) + slow[d] * drive);
    }
    return;
  }
  float* __restrict instead = arrive_.data() + *p.fallback * block;
  const float* __restrict slow_instead = factor(policy.stops[*p.fallback], days, from);
  const float drive_instead = p.drive_fallback;
  const float setup_instead = p.fallback_setup;
  const float limit = p.limit;
  for (std::size_t d = 0; d < n; ++d) {
    const bool goes = left[d] - relative * known[d] <= limit;
    const float there = larger(left[d], relative * known[d] + hold) + slow[d] * drive;
    const float other = left[d] + slow_instead[d] * drive_instead + setup_instead;
    to[d] = smaller(to[d], goes ? there : never);
    instead[d] = smaller(instead[d], goes ? never : other);
  }
}

void DayRunner::run(const Policy& policy, const DaySet& days, std::size_t from, std::size_t n, float* worth,
                    RunCounts& counts) {
  const std::size_t stops = policy.stops.size();
  counts.ready.resize(stops);
  counts.there.resize(stops);
  arrive_.assign(stops * block, never);
  left_.resize(stops * block);
  known_.resize(stops * block);
  seen_.assign(days.horses.size() * block, 0.0F);
  shift_.assign(days.horses.size() * block, 0.0F);
  help_.assign(days.horses.size() * block, 0.0F);
  std::fill(worth, worth + n, 0.0F);
  for (std::size_t c = 0; c < policy.first_stop.size(); ++c) {
    if (!policy.first_stop[c]) continue;
    const std::size_t s = *policy.first_stop[c];
    const float* slow = factor(policy.stops[s], days, from);
    float* to = arrive_.data() + s * block;
    for (std::size_t d = 0; d < n; ++d) to[d] = policy.start[c] + policy.first_drive[c] * slow[d];
  }
  for (std::size_t s = 0; s < stops; ++s) {
    serve(policy, s, days, from, n, worth, counts);
    drive_on(policy, s, days, from, n);
  }
  for (std::size_t h = 0; h < days.horses.size(); ++h) {
    const Policy::LastGap& gap = policy.last_gaps[h];
    if (gap.passes_gate)
      pass_gates(gap.first_gate, gap.first_gate, gap.gates_penalty, policy, help_.data() + h * block, worth, n);
  }
}

}  // namespace outbye
