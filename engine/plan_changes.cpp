#include <algorithm>
#include <cmath>

#include "core/base/text.h"
#include "engine/use_cases.h"

namespace outbye {
namespace {

constexpr double chance_worth_saying = 0.05;
constexpr Seconds time_worth_saying{30};  // what is said is in whole minutes

struct Met {
  double chance{};
  std::string car;
};

std::optional<Met> met_in(const RidePlan& plan, const std::string& label) {
  for (const auto& day : plan.plan.days) {
    for (const auto& stop : day.stops) {
      if (stop.stop.option && at(plan.task.options, *stop.stop.option).label == label) {
        return Met{stop.chance_ready, at(plan.task.cars, day.car).name};
      }
    }
  }
  return std::nullopt;
}

// Every label of both plans, in order of the ride: those that only one of them has go where that one has them.
std::vector<std::string> labels_of(const RidePlan& before, const RidePlan& after) {
  std::vector<std::string> labels;
  for (const auto& option : after.task.options) labels.push_back(option.label);
  auto next = labels.begin();
  for (const auto& option : before.task.options) {
    const auto found = std::find(labels.begin(), labels.end(), option.label);
    next = found == labels.end() ? labels.insert(next, option.label) + 1 : found + 1;
  }
  return labels;
}

std::string percent(double share) { return fixed(100.0 * share, 0) + " %"; }

// Empty when it is not worth saying.
std::string in_words(const std::string& label, const std::optional<Met>& was, const std::optional<Met>& is) {
  if (!was && !is) return "";
  if (!is) return label + " is no longer met (was " + percent(was->chance) + " ready)";
  if (!was) return label + " is met, " + percent(is->chance) + " ready";
  const bool has_moved = std::fabs(was->chance - is->chance) >= chance_worth_saying;
  const std::string odds = percent(is->chance) + " ready" + (has_moved ? " instead of " + percent(was->chance) : "");
  if (was->car != is->car) return label + " is met by " + is->car + " instead of " + was->car + ", " + odds;
  return has_moved ? label + ": " + odds : "";
}

std::string shift_in_words(Seconds by) {
  return fixed(std::fabs(in_minutes(by)), 0) + " min " + (by < Seconds{0} ? "earlier" : "later");
}

// When each car sets off for the first time, and from where.
void say_departures(const RidePlan& before, const RidePlan& after, std::vector<std::string>& sentences) {
  for (const auto& day : after.plan.days) {
    const std::string& name = at(after.task.cars, day.car).name;
    const auto old_day = std::find_if(before.plan.days.begin(), before.plan.days.end(), [&](const CarDay& other) {
      return at(before.task.cars, other.car).name == name;
    });
    if (old_day == before.plan.days.end() || day.stops.empty() || old_day->stops.empty()) continue;
    const Seconds shift = day.stops.front().depart - old_day->stops.front().depart;
    if (shift > -time_worth_saying && shift < time_worth_saying) continue;
    sentences.push_back(name + " leaves " + at(after.places, at(after.task.cars, day.car).start).name + " " +
                        shift_in_words(shift));
  }
}

void say_finishes(const RidePlan& before, const RidePlan& after, std::vector<std::string>& sentences) {
  const auto finish = [](const RidePlan& plan, HorseId horse) -> std::optional<Instant> {
    for (const auto& pass : plan.passes) {
      if (pass.horse == horse && pass.event.kind == RideEvent::Kind::finish) return pass.due.p50;
    }
    return std::nullopt;
  };
  for (std::uint32_t h = 0; h < std::min(before.ride.horses.size(), after.ride.horses.size()); ++h) {
    const auto was = finish(before, HorseId{h}), is = finish(after, HorseId{h});
    if (!was || !is) continue;
    const Seconds shift = *is - *was;
    if (shift > -time_worth_saying && shift < time_worth_saying) continue;
    sentences.push_back(after.ride.horses[h].name + " is due at the finish " + shift_in_words(shift));
  }
}

}  // namespace

PlanChanges changes_between(const RidePlan& before, const RidePlan& after) {
  PlanChanges changes;
  changes.worth = after.plan.value.worth - before.plan.value.worth;
  for (const auto& day : after.plan.days) changes.driven += day.driven;
  for (const auto& day : before.plan.days) changes.driven -= day.driven;
  for (const auto& label : labels_of(before, after)) {
    const auto was = met_in(before, label), is = met_in(after, label);
    std::string words = in_words(label, was, is);
    if (words.empty()) continue;
    MeetChange change{label, std::nullopt, std::nullopt};
    if (was) change.before = was->chance;
    if (is) change.after = is->chance;
    changes.meets.push_back(std::move(change));
    changes.sentences.push_back(std::move(words));
  }
  if (changes.meets.empty()) changes.sentences.push_back("the same meets, no chance moves by 5 % or more");
  say_departures(before, after, changes.sentences);
  say_finishes(before, after, changes.sentences);
  return changes;
}

}  // namespace outbye
