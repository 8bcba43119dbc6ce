#include "core/live/wait_or_drive.h"

#include <algorithm>
#include <cmath>

namespace outbye {
namespace {

// Another 1 in 1,000 is noise; so small a gain is not worth a change of mind.
constexpr double worth_a_wait = 0.005;

class Play {
 public:
  Play(const LiveDays& live, const WaitOrDrive& task, Seed seed) : live_(live), task_(task) {
    Rng rng(seed);
    const std::size_t days = live.days.days;
    factor_.resize(days);
    unseen_.resize(days);
    for (std::size_t d = 0; d < days; ++d) {
      factor_[d] = std::max(1.0, task.drive_allowance * std::exp(task.drive_log_sd * standard_normal(rng)));
      unseen_[d] = uniform(rng);
    }
    now_ = seconds(task.now);
  }

  WayOn wait(Instant until) const { return play(WayOn::Kind::wait, seconds(until), task_.next); }
  Instant leave_by(const MeetThere& to) const {
    const std::size_t days = live_.days.days;
    std::vector<double> latest(days);
    for (std::size_t d = 0; d < days; ++d) {
      latest[d] = live_.days.base[to.event * days + d] - to.setup.count() - factor_[d] * to.drive.count();
    }
    return live_.days.origin +
           Seconds{weighted_quantile(latest, live_.weight, 1.0 - task_.confidence).value_or(latest.front())};
  }
  WayOn go(WayOn::Kind kind, const std::optional<MeetThere>& to) const { return play(kind, now_, to); }

 private:
  double seconds(Instant at) const { return (at - live_.days.origin).count(); }

  WayOn play(WayOn::Kind kind, double until, const std::optional<MeetThere>& to) const {
    const std::size_t days = live_.days.days;
    WayOn way;
    way.kind = kind;
    way.until = live_.days.origin + Seconds{until};
    double part = 0;  // of the days: there, not set up; and the same here
    for (std::size_t d = 0; d < days; ++d) {
      const double weight = live_.weight[d];
      if (weight <= 0) continue;
      double leaves = until;
      double stood = 0;  // what her stand here makes her later
      bool meets_here = false;
      double readiness_here = 0;
      if (task_.here) {
        const std::size_t column = task_.here->event * days + d;
        const double comes = live_.days.base[column];
        if (kind == WayOn::Kind::wait && comes > now_ && comes <= until && unseen_[d] >= task_.here->overlook) {
          meets_here = true;
          readiness_here = seconds(task_.here->ready) <= comes ? 1.0 : task_.part_worth;
          stood = live_.days.events[task_.here->event].kind == RideEvent::Kind::pass ? live_.days.stand[column] : 0.0;
          leaves = comes + live_.days.stand[column];
        }
        leaves += task_.here->pack.count();
      } else {
        leaves += task_.pack_now.count();
      }
      bool is_there = false, is_ready = false;
      if (to) {
        const std::size_t column = to->event * days + d;
        const double comes = live_.days.base[column] + (task_.here && to->event > task_.here->event ? stood : 0.0);
        const double goes = comes + live_.days.stand[column];
        const double in = leaves + factor_[d] * to->drive.count();
        is_ready = in + to->setup.count() <= comes;
        is_there = in <= goes;
      }
      if (meets_here) way.here += weight;
      if (is_ready) way.ready += weight;
      if (is_there) way.there += weight;
      if (meets_here || is_there) way.meets += weight;
      way.worth += weight * (meets_here ? task_.here->worth * readiness_here : 0.0);
      if (is_there && !is_ready) part += weight;
    }
    if (to) way.worth += to->worth * (way.ready + task_.part_worth * part);
    return way;
  }

  const LiveDays& live_;
  const WaitOrDrive& task_;
  std::vector<double> factor_, unseen_;
  double now_{};
};

}  // namespace

WaitingAdvice wait_or_drive(const LiveDays& live, const WaitOrDrive& task, Seed seed) {
  WaitingAdvice advice;
  const Play play(live, task, seed);
  std::optional<WayOn> go;
  if (task.next) {
    go = play.go(WayOn::Kind::next, task.next);
    advice.leave_by = play.leave_by(*task.next);
  }
  if (task.here) {
    const auto steps = static_cast<std::size_t>(std::max(task.longest / task.step, 1.0));
    // Minutes on the clock, so that an answer a little later names the same ones.
    const double step = task.step.count();
    const double first = std::ceil(task.now.time_since_epoch().count() / step) * step;
    std::optional<WayOn> best;
    if (go) advice.by_waiting.push_back(*go);
    for (std::size_t k = 0; k < steps; ++k) {
      const Instant until{Seconds{first + step * static_cast<double>(k)}};
      if (until <= task.now) continue;
      const WayOn way = play.wait(until);
      if (!best || way.worth > best->worth + 1e-9) best = way;
      advice.by_waiting.push_back(way);
    }
    if (best) advice.ways.push_back(*best);
  }
  if (go) advice.ways.push_back(*go);
  if (task.fallback) advice.ways.push_back(play.go(WayOn::Kind::fallback, task.fallback));
  // The first is waiting, if there is any: it has to be worth more than going. The fallback is no match for a next meet
  // that can be had, because it can be had after that as well.
  const bool next_is_lost = !go || go->ready < task.give_up;
  for (std::size_t i = 1; i < advice.ways.size(); ++i) {
    if (advice.ways[i].kind == WayOn::Kind::fallback && !next_is_lost) continue;
    const double ahead = advice.ways[i].worth - advice.ways[advice.best].worth;
    const bool from_waiting = advice.ways[advice.best].kind == WayOn::Kind::wait;
    if (ahead > (from_waiting ? -worth_a_wait : 1e-9)) advice.best = i;
  }
  if (!advice.ways.empty() && advice.ways[advice.best].kind == WayOn::Kind::wait) {
    advice.ask_again = advice.ways[advice.best].until;
  }
  return advice;
}

}  // namespace outbye
