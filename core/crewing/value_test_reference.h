// The rules of value_policy.h once more, a day at a time in plain doubles with branches: slow, easy to read, and
// written to be compared with value_run.cpp. For tests and benchmarks only.
#pragma once

#include <algorithm>
#include <limits>
#include <optional>
#include <vector>

#include "core/crewing/value_days.h"
#include "core/crewing/value_policy.h"

namespace outbye {

inline double reference_worth(const Policy& policy, const CrewingTask& task, const DaySet& days, std::size_t day) {
  struct Horse {
    double seen{}, stood{}, help{};
  };
  std::vector<Horse> horses(days.horses.size());
  std::vector<std::optional<double>> arrives(policy.stops.size());
  std::vector<double> known(policy.stops.size(), 0.0);
  const auto d64 = [](float x) { return static_cast<double>(x); };
  const auto gap = [&](Horse& horse, double to) {
    const double beyond = to - horse.help - d64(policy.interval);
    horse.help = to;
    return beyond > 0 ? d64(policy.slope) * beyond : 0.0;
  };
  const auto drive = [&](const PolicyStop& to, float limits) {
    if (to.stop.kind == PlannedStop::Kind::rest) return 0.0;
    const bool is_meet = to.stop.kind == PlannedStop::Kind::meet;
    const std::vector<float>& factor = is_meet ? days.option_factor : days.refill_factor;
    const std::size_t row = is_meet ? to.stop.option->value : *to.stop.refill;
    return d64(limits) * d64(factor[row * days.days + day]);
  };
  const auto goes_to = [&](std::size_t s, double when) {
    arrives[s] = arrives[s] ? std::min(*arrives[s], when) : when;
  };
  for (std::size_t c = 0; c < policy.first_stop.size(); ++c) {
    if (!policy.first_stop[c]) continue;
    const std::size_t s = *policy.first_stop[c];
    goes_to(s, d64(policy.start[c]) + drive(policy.stops[s], policy.first_drive[c]));
  }
  double worth = 0;
  for (std::size_t s = 0; s < policy.stops.size(); ++s) {
    const PolicyStop& p = policy.stops[s];
    std::optional<double> left;
    if (p.stop.kind != PlannedStop::Kind::meet) {
      if (p.before) known[s] = known[*p.before];
      if (arrives[s]) left = std::max(*arrives[s], d64(p.open_from)) + d64(p.duration);
    } else {
      Horse& horse = horses[p.horse.value];
      const std::vector<RideEvent>& events = at(task.horses, p.horse).events;
      if (p.passes_gate) {
        worth -= d64(p.gates_penalty) + gap(horse, d64(p.first_gate));
        horse.help = d64(p.last_gate);
      }
      const std::size_t cell = p.event * days.days + day;
      const double due = d64(days.horses[p.horse.value].base[cell]) + horse.stood;
      const double gone = due + d64(days.horses[p.horse.value].stand[cell]);
      const bool keeps_kit = p.next && policy.stops[*p.next].stays;
      const double pack = keeps_kit ? 0.0 : d64(p.pack);
      bool met = false;
      if (arrives[s]) {
        const double in = std::max(*arrives[s], d64(p.open_from));
        const bool was_early = in <= horse.seen + d64(p.wait.early);
        double until = horse.seen + d64(was_early ? p.wait.latest : p.wait.late) + 1.0;
        until = std::max(in, std::min(until, d64(p.leave_by)));
        until = std::min(until, d64(p.open_to) - d64(p.pack));
        met = in <= gone && due <= until && gone + d64(p.pack) <= d64(p.open_to);
        if (met) {
          const bool ready = in + d64(p.setup) <= due;
          worth += d64(p.worth) * (ready ? 1.0 : d64(policy.part));
          left = gone + pack;
        } else if (until > in) {
          left = (keeps_kit ? std::max(until, in + d64(p.setup)) : until) + pack;
        } else {
          left = in;
        }
      }
      if (met) {
        worth -= gap(horse, d64(p.along));
        horse.seen = due;
        if (events[p.event].kind == RideEvent::Kind::pass) horse.stood += gone - due;
      } else {
        horse.seen += d64(p.wait.middle);
      }
      known[s] = horse.seen;
    }
    if (!p.next || !left) continue;
    const double lateness = *left - (p.is_relative ? known[s] : 0.0);
    if (p.fallback && lateness > d64(p.limit)) {
      const PolicyStop& instead = policy.stops[*p.fallback];
      goes_to(*p.fallback, *left + drive(instead, p.drive_fallback) + d64(p.fallback_setup));
    } else {
      const double off = std::max(*left, (p.is_relative ? known[s] : 0.0) + d64(p.hold));
      goes_to(*p.next, off + drive(policy.stops[*p.next], p.drive_next));
    }
  }
  for (std::size_t h = 0; h < horses.size(); ++h) {
    const Policy::LastGap& last = policy.last_gaps[h];
    if (last.passes_gate) worth -= d64(last.gates_penalty) + gap(horses[h], d64(last.first_gate));
  }
  return worth;
}

}  // namespace outbye
