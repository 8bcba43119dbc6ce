#include "core/jobs/check_stop_schedule.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "core/base/text.h"

namespace outbye {
namespace {

class Check {
 public:
  Check(const CrewStop& stop, const StopSchedule& schedule) : stop_(stop), schedule_(schedule) {}

  std::vector<std::string> run() {
    if (!are_ids_known()) return faults_;
    each_task_once();
    hands();
    nobody_twice_at_once();
    order();
    routine_times();
    horse();
    totals();
    return faults_;
  }

 private:
  void say(const std::string& fault) { faults_.push_back(fault); }
  const StopTask& task(const ScheduledTask& one) const { return stop_.tasks[one.task.value]; }
  static std::string seconds(Seconds s) { return fixed(s.count(), 0) + " s"; }

  bool are_ids_known() {
    for (const ScheduledTask& one : schedule_.tasks) {
      if (one.task.value >= stop_.tasks.size()) {
        say("a task that does not exist");
      } else if (one.mode >= task(one).modes.size()) {
        say(task(one).name + " is done in a way that does not exist");
      }
      for (const HelperId helper : one.hands) {
        if (helper.value >= stop_.helpers.size()) say("a helper who does not exist");
      }
    }
    for (const HelperId helper : schedule_.at_horse) {
      if (helper.value >= stop_.helpers.size()) say("a helper at the horse who does not exist");
    }
    if (schedule_.holder && schedule_.holder->value >= stop_.helpers.size()) say("a holder who does not exist");
    if (schedule_.work.size() != stop_.helpers.size()) say("work is not given for each helper");
    return faults_.empty();
  }

  void each_task_once() {
    std::vector<int> times(stop_.tasks.size());
    for (const ScheduledTask& one : schedule_.tasks) {
      ++times[one.task.value];
      const Seconds wanted = task(one).modes[one.mode].duration;
      if (one.start < Seconds{0}) say(task(one).name + " starts before the car has stopped");
      if (one.start.count() != std::floor(one.start.count())) say(task(one).name + " does not start on a whole second");
      if (one.end - one.start != wanted) {
        say(task(one).name + " takes " + seconds(one.end - one.start) + " instead of " + seconds(wanted));
      }
    }
    for (std::size_t i = 0; i < times.size(); ++i) {
      if (times[i] != 1) say(stop_.tasks[i].name + " is scheduled " + std::to_string(times[i]) + " times");
    }
    for (std::size_t i = 1; i < schedule_.tasks.size(); ++i) {
      const ScheduledTask &a = schedule_.tasks[i - 1], &b = schedule_.tasks[i];
      if (a.start > b.start || (a.start == b.start && a.task > b.task)) say("tasks are not listed by start");
    }
  }

  void hands() {
    for (const ScheduledTask& one : schedule_.tasks) {
      const auto& wanted = task(one).modes[one.mode].hands;
      if (one.hands.size() != wanted.size()) {
        say(task(one).name + " has " + std::to_string(one.hands.size()) + " people instead of " +
            std::to_string(wanted.size()));
        continue;
      }
      if (std::set<HelperId>(one.hands.begin(), one.hands.end()).size() != one.hands.size()) {
        say(task(one).name + " has the same helper in two places");
      }
      for (std::size_t k = 0; k < wanted.size(); ++k) {
        const Helper& helper = stop_.helpers[one.hands[k].value];
        for (const std::string& skill : wanted[k].skills) {
          if (std::count(helper.skills.begin(), helper.skills.end(), skill) == 0) {
            say(task(one).name + " needs \"" + skill + "\", which " + helper.name + " does not have");
          }
        }
      }
    }
  }

  // Tasks without a duration take nobody's time.
  void nobody_twice_at_once() {
    for (std::size_t i = 0; i < schedule_.tasks.size(); ++i) {
      for (std::size_t j = i + 1; j < schedule_.tasks.size(); ++j) {
        const ScheduledTask &a = schedule_.tasks[i], &b = schedule_.tasks[j];
        if (!(a.start < b.end && b.start < a.end)) continue;
        for (const HelperId helper : a.hands) {
          if (std::count(b.hands.begin(), b.hands.end(), helper) > 0) {
            say(stop_.helpers[helper.value].name + " does " + task(a).name + " and " + task(b).name + " at once");
          }
        }
      }
    }
  }

  void order() {
    for (const ScheduledTask& a : schedule_.tasks) {
      for (const ScheduledTask& b : schedule_.tasks) {
        const auto& after = task(b).after;
        const bool is_ordered = std::count(after.begin(), after.end(), a.task) > 0;
        if ((is_ordered || task(a).step < task(b).step) && a.end > b.start) {
          say(task(b).name + " starts before " + task(a).name + " is done");
        }
      }
    }
  }

  void routine_times() {
    Seconds ready{}, served = schedule_.serve_start, cleared = schedule_.serve_end;
    for (const ScheduledTask& one : schedule_.tasks) {
      if (task(one).step < RoutineStep::serve) ready = std::max(ready, one.end);
      if (task(one).step == RoutineStep::serve) {
        served = std::max(served, one.end);
        if (one.start < schedule_.serve_start) say(task(one).name + " starts before the horse is served");
      }
      if (task(one).step == RoutineStep::clear) {
        cleared = std::max(cleared, one.end);
        if (one.start < schedule_.serve_end) say(task(one).name + " starts before the horse may go");
      }
    }
    if (schedule_.ready != ready) say("everything is ready at " + seconds(ready) + ", not " + seconds(schedule_.ready));
    if (schedule_.serve_start != std::max(ready, stop_.horse_at))
      say("serving does not begin when horse and crew are there");
    if (schedule_.serve_end != served)
      say("the horse may go at " + seconds(served) + ", not " + seconds(schedule_.serve_end));
    if (schedule_.end != cleared) say("the stop ends at " + seconds(cleared) + ", not " + seconds(schedule_.end));
    if (schedule_.bound > schedule_.end) say("the bound is later than the end");
    if (schedule_.is_shortest_proven != (schedule_.bound == schedule_.end)) say("proven and bound do not go together");
  }

  void horse() {
    const auto is_near = [&](HelperId helper) {
      return std::count(schedule_.at_horse.begin(), schedule_.at_horse.end(), helper) > 0;
    };
    bool is_anybody_near = schedule_.holder.has_value();
    for (const ScheduledTask& one : schedule_.tasks) {
      if (!task(one).is_at_horse) continue;
      is_anybody_near = is_anybody_near || !one.hands.empty();
      for (const HelperId helper : one.hands) {
        if (!is_near(helper))
          say(stop_.helpers[helper.value].name + " is at the horse without being one of those who may");
      }
    }
    if (is_anybody_near && schedule_.at_horse.size() > stop_.most_at_horse) {
      say(std::to_string(schedule_.at_horse.size()) + " helpers at the horse; at most " +
          std::to_string(stop_.most_at_horse));
    }
    if (schedule_.holder.has_value() != (stop_.holder == Holder::helper)) say("who holds the horse is not as asked");
    if (!schedule_.holder) return;
    const Helper& holder = stop_.helpers[schedule_.holder->value];
    if (!is_near(*schedule_.holder)) say(holder.name + " holds the horse without being one of those who may be at it");
    if (std::count(holder.skills.begin(), holder.skills.end(), "holds horse") == 0) {
      say(holder.name + " holds the horse without \"holds horse\"");
    }
    for (const ScheduledTask& one : schedule_.tasks) {
      if (task(one).step != RoutineStep::serve ||
          std::count(one.hands.begin(), one.hands.end(), *schedule_.holder) == 0) {
        continue;
      }
      say(holder.name + " holds the horse and does " + task(one).name);
    }
  }

  void totals() {
    std::vector<Seconds> work(stop_.helpers.size());
    for (const ScheduledTask& one : schedule_.tasks) {
      for (const HelperId helper : one.hands) work[helper.value] += one.end - one.start;
    }
    if (schedule_.holder) work[schedule_.holder->value] += schedule_.serve_end - schedule_.serve_start;
    for (std::size_t h = 0; h < work.size(); ++h) {
      if (work[h] != schedule_.work[h]) {
        say(stop_.helpers[h].name + " works " + seconds(work[h]) + ", not " + seconds(schedule_.work[h]));
      }
    }
  }

  const CrewStop& stop_;
  const StopSchedule& schedule_;
  std::vector<std::string> faults_;
};

}  // namespace

std::vector<std::string> check_stop_schedule(const CrewStop& stop, const StopSchedule& schedule) {
  return Check(stop, schedule).run();
}

}  // namespace outbye
