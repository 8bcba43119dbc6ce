#include "core/crewing/value_run.h"

#include <algorithm>
#include <cstdint>

#include "core/crewing/value_lanes.h"

namespace outbye {
namespace {

using lanes::all;
using lanes::at_most;
using lanes::Four;
using lanes::larger;
using lanes::load;
using lanes::pick;
using lanes::smaller;
using lanes::store;

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

// The days [from, to) in steps of F's width.
template <class F>
void serve_days(const PolicyStop& p, const Policy& policy, bool keeps_kit, const MeetColumns& c, std::size_t from,
                std::size_t to, Counted& counted) {
  const float kit_pack = keeps_kit ? 0.0F : p.pack;
  const float kit_setup = keeps_kit ? p.setup : 0.0F;
  const F part = all<F>(policy.part * p.worth);
  const F rest = all<F>(p.worth - policy.part * p.worth);  // for being set up in time
  const F none = all<F>(0.0F);
  auto ready_days = lanes::ones(at_most(all<F>(1.0F), none));
  auto there_days = ready_days;
  for (std::size_t d = from; d < to; d += lanes::width<F>) {
    const F in = larger(load<F>(c.arrive + d), all<F>(p.open_from));
    const F seen = load<F>(c.seen + d);
    const F shift = load<F>(c.shift + d);
    const F help = load<F>(c.help + d);
    const F stand = load<F>(c.stand + d);
    const F due = load<F>(c.base + d) + shift;
    const F gone = due + stand;
    // A car that was there early has missed nothing and waits long; one that came late may wait for a horse that has
    // gone, and waits less. One second of rounding.
    const F longest = pick(at_most(in, seen + p.wait.early), all<F>(p.wait.latest), all<F>(p.wait.late)) + seen + 1.0F;
    const F until = smaller(larger(in, smaller(longest, all<F>(p.leave_by))), all<F>(p.open_to - p.pack));
    const auto there = at_most(in, gone) & at_most(due, until) & at_most(gone + p.pack, all<F>(p.open_to));
    const auto ready = there & at_most(in + p.setup, due);
    const F gap = policy.slope * larger(none, p.along - help - policy.interval);
    store(c.worth + d, load<F>(c.worth + d) + pick(there, part - gap, none) + pick(ready, rest, none));
    store(c.help + d, pick(there, all<F>(p.along), help));
    store(c.shift + d, shift + pick(there, (p.is_held ? 1.0F : 0.0F) * stand, none));
    const F last_seen = pick(there, due, seen + p.wait.middle);
    store(c.seen + d, last_seen);
    store(c.known + d, last_seen);
    const F gave_up = pick(at_most(until, in), in, larger(until, in + kit_setup) + kit_pack);
    store(c.left + d, pick(there, gone + kit_pack, gave_up));
    ready_days += lanes::ones(ready);
    there_days += lanes::ones(there);
  }
  counted.ready += lanes::total(ready_days);
  counted.there += lanes::total(there_days);
}

template <class F>
void choose_days(const PolicyStop& p, const float* left, const float* known, const float* slow,
                 const float* slow_instead, float* to, float* instead, std::size_t from, std::size_t n) {
  const float relative = p.is_relative ? 1.0F : 0.0F;
  const F nowhere = all<F>(never);
  for (std::size_t d = from; d < n; d += lanes::width<F>) {
    const F off = load<F>(left + d);
    const F last_met = relative * load<F>(known + d);
    const auto goes = at_most(off - last_met, all<F>(p.limit));
    const F next = larger(off, last_met + p.hold) + load<F>(slow + d) * p.drive_next;
    const F other = off + load<F>(slow_instead + d) * p.drive_fallback + p.fallback_setup;
    store(to + d, smaller(load<F>(to + d), pick(goes, next, nowhere)));
    store(instead + d, smaller(load<F>(instead + d), pick(goes, nowhere, other)));
  }
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
  Counted counted;
  const std::size_t fours = n - n % lanes::width<Four>;
  serve_days<Four>(p, policy, keeps_kit, columns, 0, fours, counted);
  serve_days<float>(p, policy, keeps_kit, columns, fours, n, counted);
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
  float* instead = arrive_.data() + *p.fallback * block;
  const float* slow_instead = factor(policy.stops[*p.fallback], days, from);
  const std::size_t fours = n - n % lanes::width<Four>;
  choose_days<Four>(p, left, known, slow, slow_instead, to, instead, 0, fours);
  choose_days<float>(p, left, known, slow, slow_instead, to, instead, fours, n);
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
