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

  // Waiting until each of these times, ascending. On one day the choice changes its outcome at three moments at most
  // (when she comes; the last departures that are set up at the next, and there at all), so the days are run through
  // once and their weights summed up between those moments.
  std::vector<WayOn> waits(const std::vector<Instant>& until) const {
    Sums sums(until.size());
    std::vector<double> ends;
    for (const Instant at : until) ends.push_back(seconds(at));
    for (std::size_t d = 0; d < live_.days.days; ++d) {
      if (live_.weight[d] > 0) sums.add(waiting_on(d, ends), live_.weight[d]);
    }
    std::vector<WayOn> ways;
    for (std::size_t k = 0; k < until.size(); ++k) {
      WayOn way;
      way.kind = WayOn::Kind::wait;
      way.until = until[k];
      sums.next(k, way);
      way.worth = task_.here->worth * (sums.ready_here + task_.part_worth * (way.here - sums.ready_here));
      if (task_.next) way.worth += task_.next->worth * (way.ready + task_.part_worth * (way.there - way.ready));
      ways.push_back(way);
    }
    return ways;
  }
  Instant leave_by(const MeetThere& to) const {
    const std::size_t days = live_.days.days;
    std::vector<double> latest(days);
    for (std::size_t d = 0; d < days; ++d) {
      latest[d] = live_.days.base[to.event * days + d] - to.setup.count() - factor_[d] * to.drive.count();
    }
    return live_.days.origin +
           Seconds{weighted_quantile(latest, live_.weight, 1.0 - task_.confidence).value_or(latest.front())};
  }
  // Going now, whether she has come by here or not.
  WayOn go(WayOn::Kind kind, const MeetThere& to) const {
    const std::size_t days = live_.days.days;
    const double leaves = now_ + (task_.here ? task_.here->pack : task_.pack_now).count();
    WayOn way;
    way.kind = kind;
    way.until = task_.now;
    for (std::size_t d = 0; d < days; ++d) {
      const double comes = live_.days.base[to.event * days + d];
      const double in = leaves + factor_[d] * to.drive.count();
      if (in + to.setup.count() <= comes) way.ready += live_.weight[d];
      if (in <= comes + live_.days.stand[to.event * days + d]) way.there += live_.weight[d];
    }
    way.meets = way.there;
    way.worth = to.worth * (way.ready + task_.part_worth * (way.there - way.ready));
    return way;
  }

 private:
  double seconds(Instant at) const { return (at - live_.days.origin).count(); }

  // One day: steps from `met` on she is met here; before that the car is set up at the next after steps below `ready`,
  // and there after steps below `there`.
  struct WaitingDay {
    std::size_t met{}, ready{}, there{};
    bool is_set_up_here{}, ready_after{}, there_after{};
  };

  // How many of the steps are not later than `last`.
  static std::size_t steps_until(const std::vector<double>& ends, double last) {
    return static_cast<std::size_t>(std::upper_bound(ends.begin(), ends.end(), last) - ends.begin());
  }

  WaitingDay waiting_on(std::size_t d, const std::vector<double>& ends) const {
    const std::size_t days = live_.days.days;
    const std::size_t column = task_.here->event * days + d;
    const double comes = live_.days.base[column];
    const double pack = task_.here->pack.count();
    WaitingDay day;
    day.met = ends.size();
    if (comes > now_ && unseen_[d] >= task_.here->overlook) {
      day.met = static_cast<std::size_t>(std::lower_bound(ends.begin(), ends.end(), comes) - ends.begin());
      day.is_set_up_here = seconds(task_.here->ready) <= comes;
    }
    if (!task_.next) return day;
    const MeetThere& to = *task_.next;
    const double drive = factor_[d] * to.drive.count();
    const double at_next = live_.days.base[to.event * days + d];
    const double leaves_next = at_next + live_.days.stand[to.event * days + d];
    day.ready = std::min(steps_until(ends, at_next - to.setup.count() - drive - pack), day.met);
    day.there = std::min(steps_until(ends, leaves_next - drive - pack), day.met);
    const bool is_pass = live_.days.events[task_.here->event].kind == RideEvent::Kind::pass;
    const double later = is_pass && to.event > task_.here->event ? live_.days.stand[column] : 0.0;
    const double in = comes + live_.days.stand[column] + pack + drive;
    day.ready_after = in + to.setup.count() <= at_next + later;
    day.there_after = in <= leaves_next + later;
    return day;
  }

  // Weights by the step from which they count.
  class Sums {
   public:
    explicit Sums(std::size_t steps)
        : here_(steps + 1), set_up_(steps + 1), ready_(steps + 1), there_(steps + 1), there_alone_(steps + 1) {}
    double ready_here{};

    void add(const WaitingDay& day, double weight) {
      here_[day.met] += weight;
      if (day.is_set_up_here) set_up_[day.met] += weight;
      ready_[0] += weight;
      ready_[day.ready] -= weight;
      there_alone_[0] += weight;
      there_alone_[day.there] -= weight;
      there_[day.met] += day.there_after ? weight : 0.0;
      ready_[day.met] += day.ready_after ? weight : 0.0;
    }
    // Call for each step in turn.
    void next(std::size_t k, WayOn& way) {
      here_so_far_ += here_[k];
      ready_here += set_up_[k];
      ready_so_far_ += ready_[k];
      there_so_far_ += there_[k];
      there_alone_so_far_ += there_alone_[k];
      // Sums that rise and fall may end a rounding below 0.
      way.here = here_so_far_;
      way.ready = std::max(ready_so_far_, 0.0);
      way.there = std::max(there_so_far_ + there_alone_so_far_, 0.0);
      way.meets = std::max(here_so_far_ + there_alone_so_far_, 0.0);
    }

   private:
    std::vector<double> here_, set_up_, ready_, there_, there_alone_;
    double here_so_far_{}, ready_so_far_{}, there_so_far_{}, there_alone_so_far_{};
  };

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
    go = play.go(WayOn::Kind::next, *task.next);
    advice.leave_by = play.leave_by(*task.next);
  }
  if (task.here) {
    const auto steps = static_cast<std::size_t>(std::max(task.longest / task.step, 1.0));
    // Minutes on the clock, so that an answer a little later names the same ones.
    const double step = task.step.count();
    const double first = std::ceil(task.now.time_since_epoch().count() / step) * step;
    std::optional<WayOn> best;
    if (go) advice.by_waiting.push_back(*go);
    std::vector<Instant> until;
    for (std::size_t k = 0; k < steps; ++k) {
      const Instant end{Seconds{first + step * static_cast<double>(k)}};
      if (end > task.now) until.push_back(end);
    }
    for (const WayOn& way : play.waits(until)) {
      if (!best || way.worth > best->worth + 1e-9) best = way;
      advice.by_waiting.push_back(way);
    }
    if (best) advice.ways.push_back(*best);
  }
  if (go) advice.ways.push_back(*go);
  if (task.fallback) advice.ways.push_back(play.go(WayOn::Kind::fallback, *task.fallback));
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
