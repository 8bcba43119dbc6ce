#include <algorithm>
#include <cmath>

#include "core/base/text.h"
#include "engine/tasks.h"

namespace outbye {
namespace {

constexpr const char* known_forms = "write 'stop CP3 +5min', 'start +30min', 'without CP5' or 'extra car'";

// "+5min", "-5 min", "+5": minutes. Cuts them off the end of `words`.
std::optional<Seconds> take_minutes(std::string_view& words) {
  std::string_view rest = trimmed(words);
  for (const std::string_view unit : {"minutes", "mins", "min"}) {
    if (rest.size() > unit.size() && same_name(rest.substr(rest.size() - unit.size()), unit)) {
      rest = trimmed(rest.substr(0, rest.size() - unit.size()));
      break;
    }
  }
  const std::size_t cut = rest.find_last_of(" \t");
  const std::string_view number = cut == std::string_view::npos ? rest : rest.substr(cut + 1);
  const auto value = parse_decimal(number);
  if (!value) return std::nullopt;
  words = cut == std::string_view::npos ? std::string_view{} : trimmed(rest.substr(0, cut));
  return minutes(*value);
}

// Cuts a leading word off `words` if it is `word`.
bool take_word(std::string_view& words, std::string_view word) {
  const std::string_view rest = trimmed(words);
  if (rest.size() < word.size() || !same_name(rest.substr(0, word.size()), word)) return false;
  if (rest.size() > word.size() && rest[word.size()] != ' ' && rest[word.size()] != '\t') return false;
  words = trimmed(rest.substr(word.size()));
  return true;
}

std::string signed_minutes(Seconds by) {
  return std::string(by.count() < 0 ? "-" : "+") + fixed(std::fabs(in_minutes(by)), 0) + " min";
}

std::string question_of(const WhatIf& change) {
  switch (change.kind) {
    case WhatIf::Kind::longer_stop:
      return "stops at " + change.crew_point + " " + signed_minutes(change.by);
    case WhatIf::Kind::later_start:
      return "start " + signed_minutes(change.by);
    case WhatIf::Kind::without_point:
      return "without " + change.crew_point;
    case WhatIf::Kind::extra_car:
      return "a further car";
  }
  return {};
}

Result<void> lengthen_stop(Ride& ride, const RidePlan& plan, const WhatIf& change) {
  auto place = place_named(plan.ride, plan.survey.course, change.crew_point, "what if");
  if (!place) return tl::unexpected(place.error());
  if (*place == venue_place()) {
    return bad_input("what if", "a stop at the venue is a gate: change the hold in the ride file instead");
  }
  Seconds longest = ride.stop.median + change.by;
  for (auto& wish : ride.wishes) {
    if (!wish.stop || !same_name(wish.crew_point, change.crew_point)) continue;
    *wish.stop += change.by;
    longest = std::min(longest, *wish.stop);
  }
  if (longest <= Seconds{0}) {
    return bad_input("what if", "would leave no time at '" + change.crew_point + "'; take off less");
  }
  PassWish general;
  general.crew_point = change.crew_point;
  general.stop = ride.stop.median + change.by;
  ride.wishes.insert(ride.wishes.begin(), general);  // first: any more particular or later wish wins
  return {};
}

void start_later(Ride& ride, Seconds by) {
  ride.start += by;
  // Cars keep their own clock: `ready_from` typed in stays; the default follows the start.
}

Result<void> close_point(Ride& ride, const RidePlan& plan, const WhatIf& change) {
  auto place = place_named(plan.ride, plan.survey.course, change.crew_point, "what if");
  if (!place) return tl::unexpected(place.error());
  if (*place == venue_place()) return bad_input("what if", "the venue cannot be left out");
  PassWish never;
  never.crew_point = change.crew_point;
  never.demand = MeetOption::Demand::never;
  for (auto& wish : ride.wishes) {
    if (same_name(wish.crew_point, change.crew_point)) wish.demand.reset();
  }
  ride.wishes.push_back(never);
  return {};
}

void add_car(Ride& ride, const RidePlan& plan) {
  if (ride.cars.empty()) ride.cars = plan.ride.cars;
  RideCar car = ride.cars.front();
  const auto is_taken = [&ride](const std::string& name) {
    return std::any_of(ride.cars.begin(), ride.cars.end(), [&name](const RideCar& c) { return c.name == name; });
  };
  std::size_t number = ride.cars.size() + 1;
  while (is_taken("Car " + std::to_string(number))) ++number;
  car.name = "Car " + std::to_string(number);
  ride.cars.push_back(std::move(car));
}

Result<Ride> changed_ride(const Ride& ride, const RidePlan& plan, const WhatIf& change) {
  Ride changed = ride;
  Result<void> ok;
  switch (change.kind) {
    case WhatIf::Kind::longer_stop:
      ok = lengthen_stop(changed, plan, change);
      break;
    case WhatIf::Kind::later_start:
      start_later(changed, change.by);
      break;
    case WhatIf::Kind::without_point:
      ok = close_point(changed, plan, change);
      break;
    case WhatIf::Kind::extra_car:
      add_car(changed, plan);
      break;
  }
  if (!ok) return tl::unexpected(ok.error());
  return changed;
}

}  // namespace

Result<WhatIf> parse_what_if(std::string_view words) {
  const std::string quoted = "'" + std::string(words) + "'";
  std::string_view rest = words;
  WhatIf change;
  if (take_word(rest, "stop")) {
    const auto by = take_minutes(rest);
    if (!by || rest.empty()) return bad_input(quoted, std::string("needs a crew point and minutes; ") + known_forms);
    change = {WhatIf::Kind::longer_stop, std::string(rest), *by};
  } else if (take_word(rest, "start")) {
    const auto by = take_minutes(rest);
    if (!by || !rest.empty()) return bad_input(quoted, std::string("needs minutes; ") + known_forms);
    change = {WhatIf::Kind::later_start, "", *by};
  } else if (take_word(rest, "without")) {
    if (rest.empty()) return bad_input(quoted, std::string("needs a crew point; ") + known_forms);
    change = {WhatIf::Kind::without_point, std::string(rest), Seconds{0}};
  } else if (take_word(rest, "extra") && same_name(rest, "car")) {
    change = {WhatIf::Kind::extra_car, "", Seconds{0}};
  } else {
    return bad_input(quoted, std::string("is no question that can be asked; ") + known_forms);
  }
  if (std::fabs(in_minutes(change.by)) > 24 * 60) return bad_input(quoted, "is more than a day; give minutes");
  return change;
}

WhatIfAnswer answer_what_if(const RideInputs& inputs, const RidePlan& plan, const WhatIf& change) {
  WhatIfAnswer answer;
  answer.question = question_of(change);
  auto ride = changed_ride(inputs.ride, plan, change);
  if (!ride) {
    answer.plan = tl::unexpected(ride.error());
    return answer;
  }
  RideInputs changed{std::move(*ride), {}, {}, inputs.roads, std::nullopt, inputs.rule_books};
  Places places;
  places.reports = plan.places;
  places.drives = plan.task.drives;
  answer.plan = plan_surveyed(changed, plan.survey, std::move(places), {});
  if (answer.plan) {
    const PlanChanges changes = changes_between(plan, *answer.plan);
    answer.worth_change = changes.worth;
    answer.changes = changes.sentences;
  }
  return answer;
}

}  // namespace outbye
