#include "core/crewing/errands.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "core/base/text.h"
#include "core/crewing/errands_day.h"

namespace outbye {
namespace {

using namespace errand_day;

constexpr double largest_worth = 1e6;

double worth_of(std::int64_t score) { return 1e-6 * static_cast<double>(score); }

Result<void> check_errands(const CrewingTask& task, const std::vector<Errand>& errands) {
  for (const Errand& errand : errands) {
    const std::string where = "errand " + errand.label;
    if (errand.place.value >= task.drives.size()) return bad_input(where, "has a place without drives");
    if (!(errand.duration.count() >= 0 && errand.duration.count() <= 1e6)) {
      return bad_input(where, "must take from 0 to 1000000 s, not " + fixed(errand.duration.count(), 0));
    }
    if (!(errand.worth >= 0 && errand.worth <= largest_worth)) {
      return bad_input(where, "must be worth from 0 to 1000000, not " + fixed(errand.worth, 3));
    }
  }
  return {};
}

Result<void> check_days(const CrewingTask& task, const std::vector<CarDay>& days) {
  std::vector<bool> is_given(task.cars.size(), false);
  for (const CarDay& day : days) {
    const std::string number = std::to_string(day.car.value);
    if (day.car.value >= task.cars.size()) return bad_input("day of car " + number, "there is no such car");
    if (is_given[day.car.value]) return bad_input("day of car " + number, "is given twice");
    is_given[day.car.value] = true;
    const CrewCar& car = at(task.cars, day.car);
    if (car.start.value >= task.drives.size() || (car.end && car.end->value >= task.drives.size())) {
      return bad_input("car " + car.name, "starts or ends at a place without drives");
    }
    for (std::size_t k = 0; k < day.stops.size(); ++k) {
      const TimedStop& stop = day.stops[k];
      const std::string where = "car " + car.name + ", stop " + std::to_string(k + 1);
      if (stop.place.value >= task.drives.size()) return bad_input(where, "is at a place without drives");
      const PlannedStop& planned = stop.stop;
      if (planned.kind == PlannedStop::Kind::meet &&
          (!planned.option || planned.option->value >= task.options.size())) {
        return bad_input(where, "is a meet that is not there");
      }
      if (planned.kind == PlannedStop::Kind::refill && (!planned.refill || *planned.refill >= task.refills.size())) {
        return bad_input(where, "is a refill that is not there");
      }
    }
  }
  return {};
}

std::string name_of(const CrewingTask& task, const TimedStop& stop) {
  switch (stop.stop.kind) {
    case PlannedStop::Kind::meet:
      return at(task.options, *stop.stop.option).label;
    case PlannedStop::Kind::refill:
      return task.refills[*stop.stop.refill].label;
    case PlannedStop::Kind::rest:
      return "the rest";
  }
  return "";
}

std::string name_of(const CrewingTask& task, const CarDay& day, const Gap& gap) {
  const std::string car = " (" + at(task.cars, day.car).name + ")";
  const std::size_t next = gap.after ? *gap.after + 1 : 0;
  if (next >= day.stops.size()) {
    return gap.after ? "after " + name_of(task, day.stops[*gap.after]) + car : "all day" + car;
  }
  const std::string to = name_of(task, day.stops[next]);
  return gap.after ? "between " + name_of(task, day.stops[*gap.after]) + " and " + to + car : "before " + to + car;
}

// What each gap of each day would allow if the errand were the only one.
struct Alone {
  bool has_way{};
  bool may_fit{};          // by the shortest times through any places; if not, no other errand on the way helps
  bool fits{};             // in time and open
  bool fits_with_range{};  // and within fuel range and the driver's break
  struct Shortage {
    Ticks seconds{};
    std::string where;
  };
  std::optional<Shortage> in_time;  // least, if the place were always open
  std::optional<Shortage> open;     // least, as it is open
};

void keep_least(std::optional<Alone::Shortage>& least, Ticks seconds, const std::string& where) {
  if (!least || seconds < least->seconds) least = Alone::Shortage{seconds, where};
}

// Shortest planned drives through any places, row: from. A typed-in table need not obey the triangle inequality.
std::vector<Ticks> shortest_drives(const CrewingTask& task) {
  const std::size_t n = task.drives.size();
  const auto place = [](std::size_t i) { return PlaceId{static_cast<std::uint32_t>(i)}; };
  std::vector<Ticks> ways;
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) ways.push_back(planned_drive(task, place(i), place(j)));
  }
  for (std::size_t k = 0; k < n; ++k) {
    for (std::size_t i = 0; i < n; ++i) {
      if (ways[i * n + k] < 0) continue;
      for (std::size_t j = 0; j < n; ++j) {
        if (ways[k * n + j] < 0) continue;
        Ticks& way = ways[i * n + j];
        const Ticks via = ways[i * n + k] + ways[k * n + j];
        if (way < 0 || via < way) way = via;
      }
    }
  }
  return ways;
}

Alone alone(const CrewingTask& task, const std::vector<CarDay>& days, const std::vector<Day>& fixed_days,
            const std::vector<Ticks>& shortest, const std::vector<Errand>& errands, std::size_t e) {
  Alone out;
  const Errand& errand = errands[e];
  for (std::size_t d = 0; d < days.size(); ++d) {
    const Day& day = fixed_days[d];
    if (!day.is_usable) continue;
    for (const Gap& gap : gaps(day)) {
      const std::size_t n = task.drives.size();
      const Ticks least_there = shortest[gap.from.value * n + errand.place.value];
      const Ticks least_on = gap.to ? shortest[errand.place.value * n + gap.to->value] : 0;
      if (least_there >= 0 && least_on >= 0) {
        const Interval<Ticks> span{gap.begins + least_there, gap.ends - least_on - whole_duration(errand)};
        for (const auto& window : start_windows(errand, day.origin, span)) {
          out.may_fit = out.may_fit || !intersection(window, span).is_empty();
        }
      }
      const Ticks there = planned_drive(task, gap.from, errand.place);
      const Ticks onward = gap.to ? planned_drive(task, errand.place, *gap.to) : 0;
      if (there < 0 || onward < 0) continue;
      out.has_way = true;
      const std::string where = name_of(task, days[d], gap);
      const Ticks soonest = gap.begins + there;
      const Ticks last = gap.ends - onward - whole_duration(errand);
      keep_least(out.in_time, soonest - last, where);
      for (const auto& window : start_windows(errand, day.origin, {soonest, std::max(soonest, last)})) {
        const Ticks start = std::max(soonest, window.from);
        keep_least(out.open, std::max({start - last, soonest - window.to}), where);
        if (start > std::min(last, window.to)) continue;
        out.fits = true;
        out.fits_with_range = out.fits_with_range || alone_keeps_range(task, day, errands, e, gap, start);
      }
    }
  }
  return out;
}

LeftOutErrand left_out(std::size_t e, const Errand& errand, const Alone& alone) {
  using Reason = LeftOutErrand::Reason;
  LeftOutErrand out;
  out.errand = e;
  const auto short_of = [&](const Alone::Shortage& s) {
    out.short_by = Seconds{static_cast<double>(s.seconds)};
    return fixed(std::ceil(static_cast<double>(s.seconds) / 60.0), 0) + " min short " + s.where;
  };
  if (in_millionths(errand.worth) == 0) {
    out.reason = Reason::worthless;
    out.why = "worth nothing";
  } else if (!alone.has_way) {
    out.reason = Reason::no_way;
    out.why = "no drive there and on in any car's free time";
  } else if (alone.in_time->seconds > 0) {
    out.reason = Reason::too_far;
    out.why = "too far: " + short_of(*alone.in_time);
  } else if (!alone.fits) {
    out.reason = Reason::closed;
    out.why = alone.open ? "closed: " + short_of(*alone.open) : "closed: never open long enough";
  } else if (!alone.fits_with_range) {
    out.reason = Reason::out_of_range;
    out.why = "would break the fuel range or the driver's break";
  } else {
    out.reason = Reason::crowded_out;
    out.why = "would fit alone, but takes the time of errands worth more";
  }
  return out;
}

}  // namespace

Result<ErrandPlan> plan_errands(const CrewingTask& task, const std::vector<CarDay>& days,
                                const std::vector<Errand>& errands, const ErrandSettings& settings) {
  if (auto ok = check_errands(task, errands); !ok) return tl::unexpected(ok.error());
  if (auto ok = check_days(task, days); !ok) return tl::unexpected(ok.error());
  if (!(settings.margin.count() >= 0)) return bad_input("errands", "the margin must not be negative");

  ErrandPlan plan;
  std::vector<Day> fixed_days;
  for (const CarDay& day : days) {
    fixed_days.push_back(day_of(task, day, settings));
    plan.cars.push_back({day.car, {}, {}, 0, 0, true});
  }
  std::vector<Alone> singly;
  std::vector<bool> offered;
  const std::vector<Ticks> shortest = shortest_drives(task);
  std::int64_t all_possible = 0;  // millionths, as all bounds here
  for (std::size_t e = 0; e < errands.size(); ++e) {
    singly.push_back(alone(task, days, fixed_days, shortest, errands, e));
    offered.push_back(singly.back().may_fit && in_millionths(errands[e].worth) > 0);
    if (offered.back()) all_possible += in_millionths(errands[e].worth);
  }

  // The car that can do most goes first, then the next with what is left.
  std::vector<std::size_t> waiting;
  for (std::size_t d = 0; d < days.size(); ++d) {
    if (fixed_days[d].is_usable) waiting.push_back(d);
  }
  std::int64_t first_bounds = 0;
  std::int64_t score = 0;
  bool is_first = true;
  while (!waiting.empty() && std::find(offered.begin(), offered.end(), true) != offered.end()) {
    std::optional<std::pair<std::size_t, Choice>> best;
    for (const std::size_t d : waiting) {
      auto choice = choose(task, fixed_days[d], errands, offered, settings);
      if (!choice)
        return problem(choice.error().kind, "errands of car " + fixed_days[d].car->name, choice.error().what);
      if (is_first) first_bounds += choice->bound;
      if (!best || choice->score > best->second.score) best.emplace(d, std::move(*choice));
    }
    is_first = false;
    const std::size_t d = best->first;
    const Choice choice = with_less_driving(task, fixed_days[d], errands, std::move(best->second));
    CarErrands& car = plan.cars[d];
    car = timed(task, days[d].car, fixed_days[d], errands, choice);
    car.is_proven = choice.score == choice.bound;
    car.upper_bound = car.is_proven ? car.worth : worth_of(choice.bound);
    for (const ErrandStop& stop : car.stops) offered[stop.errand] = false;
    plan.worth += car.worth;
    score += choice.score;
    waiting.erase(std::find(waiting.begin(), waiting.end(), d));
  }

  const std::int64_t bound = std::max(score, std::min(first_bounds, all_possible));
  plan.is_proven = score == bound;
  plan.upper_bound = plan.is_proven ? plan.worth : worth_of(bound);
  std::vector<bool> is_taken(errands.size(), false);
  for (const CarErrands& car : plan.cars) {
    for (const ErrandStop& stop : car.stops) is_taken[stop.errand] = true;
  }
  for (std::size_t e = 0; e < errands.size(); ++e) {
    if (!is_taken[e]) plan.left_out.push_back(left_out(e, errands[e], singly[e]));
  }
  const bool each_is_proven =
      std::all_of(plan.cars.begin(), plan.cars.end(), [](const CarErrands& c) { return c.is_proven; });
  if (plan.is_proven) {
    plan.what_is_exact = "No choice of errands at the planned times is worth more.";
  } else if (each_is_proven) {
    plan.what_is_exact =
        "Each car's errands are the best of those left to it; the split between cars is not proven optimal.";
  } else {
    plan.what_is_exact = "Not proven: at most " + fixed(plan.upper_bound, 2) + " would be possible.";
  }
  return plan;
}

}  // namespace outbye
