#include <algorithm>

#include "core/crewing/plan_crew.h"
#include "engine/day.h"
#include "engine/day_names.h"

namespace outbye {
namespace {

constexpr double gone_for_planning = 0.95;

std::vector<char> met_by(const CrewPlan& plan, std::size_t options) {
  std::vector<char> met(options, 0);
  for (const CarDay& day : plan.days) {
    for (const TimedStop& stop : day.stops) {
      if (stop.stop.option) met[stop.stop.option->value] = 1;
    }
  }
  return met;
}

}  // namespace

Result<RestOfDay> plan_rest(const RidePlan& plan, const DayAnswer& answer, std::size_t days) {
  RestOfDay rest;
  rest.task = plan.task;
  CrewingTask& task = rest.task;
  const Instant now = answer.state.now;
  for (std::size_t h = 0; h < task.horses.size(); ++h) {
    task.horses[h] = equal_days(answer.days[h], days, Seed{plan.ride.seed.value + 31 * (h + 1)});
  }
  std::vector<char> is_over(task.options.size(), 0);
  for (std::size_t o = 0; o < task.options.size(); ++o) {
    MeetOption& option = task.options[o];
    const LiveDays& live = answer.days[option.horse.value];
    const bool is_seen = live.anchor.event && option.event <= *live.anchor.event;
    if (!is_seen && pass_odds(live, option.event, now).gone < gone_for_planning) continue;
    is_over[o] = 1;
    option.demand = MeetOption::Demand::never;
  }
  for (const CarOnDay& car : answer.state.cars) {
    CrewCar& planned = at(task.cars, car.car);
    planned.start = car.place;
    if (car.is_driving) {
      planned.ready_from = *car.since;
      rest.notes.push_back(planned.name + " is on the road: its next drive counts from when it left " +
                           at(plan.places, car.place).name + ".");
      continue;
    }
    planned.ready_from = std::max(planned.ready_from, now);
    for (MeetOption& option : task.options) {
      if (option.place != car.place) continue;
      const HorseOnDay& horse = answer.state.horses[option.horse.value];
      // Set up already: only the rest of setting up counts.
      if (car.since) {
        option.setup = Seconds{std::max(option.setup.count() - std::max((now - *car.since).count(), 0.0), 0.0)};
      }
      // Serving her now: free when she has gone and the kit is packed.
      if (horse.seen.empty() || horse.seen.back().event != option.event || horse.seen.back().out) continue;
      const LiveDays& live = answer.days[option.horse.value];
      const auto from = live.days.stand.begin() + static_cast<std::ptrdiff_t>(option.event * live.days.days);
      const std::vector<double> stand(from, from + static_cast<std::ptrdiff_t>(live.days.days));
      const double median = weighted_quantile(stand, live.weight, 0.5).value_or(0.0);
      planned.ready_from = std::max(planned.ready_from, live.anchor.at + Seconds{median} + option.pack);
    }
  }
  rest.notes.push_back("Every car is taken to have full water and fuel and a rested driver.");
  auto planned = plan_crew(task);
  if (!planned && planned.error().kind == Problem::Kind::impossible) {
    const std::string why = planned.error().where + " " + planned.error().what;
    bool relaxed = false;
    for (MeetOption& option : task.options) {
      if (option.demand != MeetOption::Demand::must) continue;
      option.demand = MeetOption::Demand::free;
      relaxed = true;
    }
    for (CrewCar& car : task.cars) {
      relaxed = relaxed || car.back_by.has_value();
      car.back_by.reset();
    }
    if (relaxed) {
      planned = plan_crew(task);
      rest.notes.push_back("What must be met and by when cars must be back cannot all be kept any more (" + why +
                           "); both were set free.");
    }
  }
  if (!planned) return tl::unexpected(planned.error());
  rest.plan = std::move(*planned);
  const auto before = met_by(plan.plan, task.options.size());
  const auto after = met_by(rest.plan, task.options.size());
  for (std::size_t o = 0; o < task.options.size(); ++o) {
    if (is_over[o] != 0 || before[o] == after[o]) continue;
    rest.changes.push_back((after[o] != 0 ? "New: " : "Dropped: ") + task.options[o].label + ".");
  }
  return rest;
}

}  // namespace outbye
