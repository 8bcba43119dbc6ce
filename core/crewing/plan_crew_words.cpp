#include "core/crewing/plan_crew_words.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "core/base/text.h"

namespace outbye {
namespace {

using Kind = PlannedStop::Kind;

std::string percent(double share) { return fixed(100.0 * share, 0) + " %"; }

void warn_of_odds(const CrewingTask& task, const CarDay& day, CrewPlan& plan) {
  for (std::size_t i = 0; i < day.stops.size(); ++i) {
    const TimedStop& t = day.stops[i];
    if (t.stop.kind != Kind::meet) continue;
    const std::string& label = at(task.options, *t.stop.option).label;
    if (t.chance_ready < 0.5) {
      plan.warnings.push_back(
          {label, "the crew is set up in time on only " + percent(t.chance_ready) + " of the days"});
    }
    if (t.leave_by && *t.leave_by < t.leave && t.next_meet) {
      plan.warnings.push_back({label, "on a median day the car leaves " +
                                          fixed(std::ceil(in_minutes(t.leave - *t.leave_by)), 0) +
                                          " min after the time that would make " +
                                          at(task.options, *t.next_meet).label + " with the wanted confidence"});
    }
  }
}

// Longest way of each horse without help, if over the interval.
void warn_of_gaps(const CrewingTask& task, CrewPlan& plan) {
  for (std::size_t h = 0; h < task.horses.size(); ++h) {
    const std::vector<RideEvent>& events = task.horses[h].events;
    std::vector<bool> helps(events.size(), false);
    for (const CarDay& day : plan.days) {
      for (const TimedStop& t : day.stops) {
        if (t.stop.kind != Kind::meet) continue;
        const MeetOption& option = at(task.options, *t.stop.option);
        if (option.horse.value == h) helps[option.event] = true;
      }
    }
    Metres last{0.0};
    for (std::size_t e = 0; e < events.size(); ++e) {
      if (!helps[e] && events[e].kind == RideEvent::Kind::pass && e + 1 < events.size()) continue;
      const Metres gap = events[e].ride_along - last;
      if (gap > task.settings.water_interval) {
        const std::string who = task.horses.size() == 1 ? "the horse" : "horse " + std::to_string(h + 1);
        plan.warnings.push_back(
            {"km " + fixed(in_kilometres(last), 1) + " to " + fixed(in_kilometres(events[e].ride_along), 1),
             who + " goes " + fixed(in_kilometres(gap), 1) + " km without help, more than the " +
                 fixed(in_kilometres(task.settings.water_interval), 1) + " km wanted"});
      }
      last = events[e].ride_along;
    }
  }
}

void warn_of_driving(const CrewingTask& task, const CarDay& day, CrewPlan& plan) {
  const CrewCar& car = at(task.cars, day.car);
  if (car.longest_driving.count() > 0 && day.driving > 3.0 * car.longest_driving) {
    plan.warnings.push_back(
        {car.name, "drives " + fixed(in_minutes(day.driving) / 60.0, 1) + " hours in all; plan a second driver"});
  }
}

}  // namespace

void explain_plan(const CrewingTask& task, CrewPlan& plan) {
  double least = 2;
  for (const CarDay& day : plan.days) {
    for (const TimedStop& t : day.stops) {
      if (t.stop.kind != Kind::meet) continue;
      const bool is_weaker = t.chance_ready < least || (t.chance_ready == least && *t.stop.option < *plan.weakest);
      if (!is_weaker) continue;
      least = t.chance_ready;
      plan.weakest = t.stop.option;
    }
    warn_of_odds(task, day, plan);
  }
  warn_of_gaps(task, plan);
  for (const CarDay& day : plan.days) warn_of_driving(task, day, plan);
}

std::string sentence_on_exactness(const SearchResult& found, const PlanValue& value) {
  if (value.is_fixed_exact) return found.what_is_exact;
  const double behind = found.fixed_worth - value.fixed_worth;
  if (behind <= 1e-6) return found.what_is_exact;
  return "At median times another plan is worth " + fixed(behind, 2) +
         " more; over the simulated days this one is better. Of that other plan: " + found.what_is_exact;
}

}  // namespace outbye
