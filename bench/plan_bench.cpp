// A whole plan: 160 km in four loops, ten crew points passed in each, two cars, 4,096 simulated days. The answer is
// checked before anything is timed, and the plan is set beside two simpler ways of making one.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <string>
#include <vector>

#include "core/crewing/check.h"
#include "core/crewing/plan_crew.h"
#include "core/crewing/plan_crew_times.h"
#include "core/crewing/search.h"
#include "core/crewing/value.h"
#include "core/crewing/value_bound.h"
#include "core/crewing/value_run.h"
#include "core/crewing/value_test_reference.h"
#include "core/pace/pace.h"

using namespace outbye;

namespace {

constexpr double pi = 3.14159265358979323846;

struct Size {
  const char* name;
  std::size_t loops, points, cars, days;
};

Course ring_course(const Size& size) {
  Course course;
  for (std::size_t k = 0; k < size.points; ++k)
    course.crew_points.push_back({"CP" + std::to_string(k + 1), Position{55.0, -2.0}, ""});
  for (std::size_t l = 0; l < size.loops; ++l) {
    Loop loop;
    loop.name = "loop " + std::to_string(l + 1);
    loop.length = kilometres(40);
    loop.points = {{{55, -2}, {}, {}}, {{55, -2}, loop.length, {}}};
    for (std::size_t k = 0; k < size.points; ++k) {
      Pass pass;
      pass.loop = LoopId{static_cast<std::uint32_t>(l)};
      pass.crew_point = CrewPointId{static_cast<std::uint32_t>(k)};
      pass.along = loop.length * (static_cast<double>(k + 1) / static_cast<double>(size.points + 1));
      pass.ride_along = course.length + pass.along;
      course.passes.push_back(pass);
    }
    course.length += loop.length;
    course.loops.push_back(std::move(loop));
  }
  return course;
}

HorsePace pace_for(const Course& course) {
  HorsePace pace;
  pace.start = Instant{Seconds{1781330400.0}};
  pace.loops.resize(course.loops.size());
  for (std::size_t l = 0; l < pace.loops.size(); ++l)
    pace.loops[l].speed = KmPerHour{14.0 - 0.7 * static_cast<double>(l)};
  pace.stops.assign(course.passes.size(), UncertainTime{minutes(3), 0.35});
  return pace;
}

// Crew points on a ring of 40 km around the venue at its edge; roads 1.5 times the straight line at 40 km/h.
CrewingTask task_for(const Size& size, const Course& course, HorseDays days) {
  CrewingTask task;
  std::vector<std::string> names{"venue"};
  for (const CrewPoint& point : course.crew_points) names.push_back(point.name);
  task.drives = DriveTable(names);
  const double radius = 40000.0 / (2.0 * pi);
  for (std::uint32_t i = 0; i < names.size(); ++i) {
    for (std::uint32_t j = 0; j < names.size(); ++j) {
      if (i == j) continue;
      const double angle =
          2.0 * pi * (static_cast<double>(i) - static_cast<double>(j)) / static_cast<double>(names.size());
      const Metres length{1.5 * 2.0 * radius * std::fabs(std::sin(0.5 * angle))};
      task.drives.set({i}, {j}, Drive{length / KmPerHour{40.0}, length});
    }
  }
  for (std::size_t e = 0; e < days.events.size(); ++e) {
    const RideEvent& event = days.events[e];
    MeetOption option;
    option.event = e;
    option.kind = event.kind;
    option.ride_along = event.ride_along;
    const std::uint32_t point = event.pass ? at(course.passes, *event.pass).crew_point.value + 1 : 0;
    option.place = PlaceId{point};
    option.label = names[point] + " loop " + std::to_string(event.loop.value + 1);
    option.worth = event.kind == RideEvent::Kind::pass ? 1.0 : event.kind == RideEvent::Kind::gate ? 3.0 : 2.0;
    task.options.push_back(option);
  }
  for (std::size_t c = 0; c < size.cars; ++c) {
    CrewCar car;
    car.name = "car " + std::to_string(c + 1);
    car.start = PlaceId{0};
    car.ready_from = days.origin - minutes(60);
    task.cars.push_back(car);
  }
  task.horses.push_back(std::move(days));
  return task;
}

// Processor time, sorted: the program has one thread, so on a machine of its own it is the time on the clock.
template <class F>
std::vector<double> times_of(std::size_t runs, F&& f) {
  std::vector<double> ms;
  for (std::size_t i = 0; i < runs; ++i) {
    const std::clock_t begin = std::clock();
    f();
    ms.push_back(1e3 * static_cast<double>(std::clock() - begin) / static_cast<double>(CLOCKS_PER_SEC));
  }
  std::sort(ms.begin(), ms.end());
  return ms;
}

void row(const char* what, const std::vector<double>& ms, const std::string& note = "") {
  std::printf("  %-46s %9.3f %9.3f %9.3f  %s\n", what, ms.front(), ms[ms.size() / 2], ms.back(), note.c_str());
}

// As crews do it with a pencil: each car in turn takes the next pass it can be ready for if the horse keeps to time.
CrewOrders greedy_orders(const CrewingTask& task, const FixedTimes& times) {
  CrewOrders orders;
  std::vector<bool> taken(task.options.size(), false);
  for (std::uint32_t c = 0; c < task.cars.size(); ++c) {
    CarOrders day{{c}, {}};
    for (std::uint32_t o = 0; o < task.options.size(); ++o) {
      if (taken[o]) continue;
      CrewOrders tried = orders;
      tried.push_back(day);
      tried.back().stops.push_back({PlannedStop::Kind::meet, MeetOptionId{o}, std::nullopt});
      const FixedValue value = evaluate_fixed(task, times, tried);
      if (!value.is_feasible || value.cars.back().back().readiness < 1.0) continue;
      day = tried.back();
      taken[o] = true;
    }
    orders.push_back(day);
  }
  return orders;
}

CrewOrders orders_of(const CrewPlan& plan) {
  CrewOrders orders;
  for (const CarDay& day : plan.days) {
    CarOrders car{day.car, {}};
    for (const TimedStop& t : day.stops) car.stops.push_back(t.stop);
    orders.push_back(car);
  }
  return orders;
}

std::string fixed_gain(const Difference& d) {
  char text[64];
  std::snprintf(text, sizeof text, "%+.3f, s.e. %.3f", d.mean, d.standard_error);
  return text;
}

bool fails(bool ok, const char* what) {
  if (!ok) std::printf("  WRONG: %s\n", what);
  return !ok;
}

int bench(const Size& size) {
  const Course course = ring_course(size);
  const HorsePace pace = pace_for(course);
  const auto simulated = simulate_days(course, pace, size.days, Seed{1});
  if (!simulated) return fails(false, simulated.error().what.c_str());
  const CrewingTask task = task_for(size, course, *simulated);
  const auto plan = plan_crew(task);
  if (!plan) return fails(false, plan.error().what.c_str());

  // The answer first.
  const CrewOrders chosen = orders_of(*plan);
  auto days = ValuationDays::make(task);
  const auto value = value_orders(*days, chosen);
  double sum = 0;
  for (std::size_t d = 0; d < size.days; ++d) sum += reference_worth(value->policy, task, days->all(), d);
  const double reference = sum / static_cast<double>(size.days);
  bool wrong = fails(check_plan(task, *plan).empty(), "the checker refuses the plan");
  wrong |=
      fails(std::fabs(reference - plan->value.worth) < 1e-3, "the plain valuation, day by day, gives another worth");
  wrong |= fails(plan->value.upper_bound >= plan->value.worth, "the bound is below the worth");
  if (wrong) return 1;

  const FixedTimes times = typical_times(*days, std::vector<bool>(task.options.size(), true));
  const auto at_median = search_orders(task, times, 1);
  const auto median_value = value_orders(*days, at_median->candidates.front());
  const auto greedy = value_orders(*days, greedy_orders(task, times));

  std::printf("\n%s: %zu passes, %zu cars, %zu days\n", size.name, course.passes.size(), size.cars, size.days);
  std::printf("  worth over the days %.3f (s.e. %.3f), bound %.3f (s.e. %.3f), gap %.2f; day by day in doubles %.4f\n",
              plan->value.worth, plan->value.standard_error, plan->value.upper_bound, plan->value.upper_bound_error,
              plan->value.gap, reference);
  const auto gain = [&](const Valuation& other) {
    const Difference d = paired_difference(value->by_day, other.by_day);
    return fixed_gain(d);
  };
  std::printf("  best orders at median times, same days          %.3f  (ours %s)\n", median_value->worth,
              gain(*median_value).c_str());
  std::printf("  with a pencil: next pass that can be made       %.3f  (ours %s)\n", greedy->worth,
              gain(*greedy).c_str());
  std::printf("  %-46s %9s %9s %9s  ms of processor\n", "", "least", "median", "most");
  const std::size_t runs = 7;
  row("simulate the days", times_of(runs, [&] { (void)simulate_days(course, pace, size.days, Seed{1}); }));
  row("plan (search, value, improve, bound, check)", times_of(runs, [&] { (void)plan_crew(task); }));
  row("simulate and plan", times_of(runs, [&] {
        CrewingTask whole = task;
        whole.horses.front() = *simulate_days(course, pace, size.days, Seed{1});
        (void)plan_crew(whole);
      }));
  row("of it: lay the days out", times_of(runs, [&] { (void)ValuationDays::make(task); }));
  row("of it: search once", times_of(runs, [&] { (void)search_orders(task, times, 12); }));
  row("of it: bound on 512 days", times_of(runs, [&] { (void)bound_with_hindsight(*days, 512); }));
  const std::vector<double> ours = times_of(31, [&] { (void)value_orders(*days, chosen); });
  row("value one plan on all days", ours);
  const std::vector<double> plain = times_of(3, [&] {
    double total = 0;
    for (std::size_t d = 0; d < size.days; ++d) total += reference_worth(value->policy, task, days->all(), d);
    if (total < -1e9) std::printf("?");
  });
  char note[64];
  std::snprintf(note, sizeof note, "%.1f times slower", plain[1] / ours[15]);
  row("the same day by day in doubles", plain, note);
  return 0;
}

}  // namespace

int main() {
  int wrong = 0;
  for (const Size& size : {Size{"small", 2, 5, 1, 1024}, Size{"usual", 4, 10, 2, 4096}, Size{"large", 4, 20, 3, 4096}})
    wrong |= bench(size);
  return wrong;
}
