// The optimum at fixed times, beside CBC on the same choice as a mixed-integer programme in the same run. Every answer
// is compared before anything is timed. Goals: 1 car, 40 passes in 0.1 ms; 3 cars, 4 horses, 160 passes in 5 ms (worth
// that adds up); two cars, 40 passes with gaps, breaks and water in 25 ms; the largest with gaps in 200 ms.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <string>
#include <vector>

#include "core/crewing/day_flow.h"
#include "core/crewing/meet_flow.h"
#include "core/crewing/meet_model.h"
#include "core/crewing/search.h"
#include "core/crewing/solve_orders.h"
#include "tests/search_milp.h"

namespace outbye {
namespace {

struct Timing {
  double median_ms{};
  double low_ms{};  // 10 % and 90 %
  double high_ms{};
};

Timing time_of(std::size_t repeats, const std::function<void()>& work) {
  std::vector<double> taken;
  for (std::size_t i = 0; i < repeats; ++i) {
    const auto begin = std::chrono::steady_clock::now();
    work();
    taken.push_back(std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count());
  }
  std::sort(taken.begin(), taken.end());
  return {taken[repeats / 2], taken[repeats / 10], taken[repeats * 9 / 10]};
}

void print(const std::string& what, const Timing& t) {
  std::printf("  %-58s %9.4f ms  (%.4f to %.4f)\n", what.c_str(), t.median_ms, t.low_ms, t.high_ms);
}

bool agree(double a, double b) { return std::abs(a - b) <= 1e-5; }

void compare(const char* title, const RideSize& size, double allowance, double gap_penalty, bool with_limits) {
  Rng rng(Seed{7});
  SearchRide ride = search_ride(rng, size);
  CrewingTask& task = ride.task;
  task.settings.drive_allowance = allowance;
  task.settings.gap_penalty = gap_penalty;
  task.settings.water_interval = kilometres(6);
  for (CrewCar& car : task.cars) {
    if (!with_limits) car.longest_driving = Seconds{0};
    if (with_limits) car.water_capacity = {80};
  }
  if (with_limits) {
    task.refills.push_back({"tap", {0}, true, false, minutes(10), {}});
    task.refills.push_back({"pump", {5}, false, true, minutes(10), {}});
    for (CrewCar& car : task.cars) car.fuel_range = kilometres(300);
  }
  std::printf("%s: %zu cars, %zu horses, %zu meets\n", title, size.cars, size.horses, task.options.size());
  const MeetTimes plain = meet_times(ride.times);
  const MeetModel model(task, ride.times, plain);
  const Solved solved = solve_orders(model, Effort{});
  const FixedValue value = evaluate_fixed(task, ride.times, solved.orders);
  if (!value.is_feasible || !agree(value.worth, solved.worth)) {
    std::printf("  WRONG: the orders are worth %.6f, not %.6f %s\n", value.worth, solved.worth, value.why_not.c_str());
    std::exit(1);
  }
  if (!with_limits) {
    const auto cbc = solve_milp(ride, "/tmp/outbye_fixed_time_bench");
    if (!cbc || (solved.is_exact && !agree(cbc->worth, solved.worth))) {
      std::printf("  WRONG: CBC finds %.6f, the search %.6f\n", cbc ? cbc->worth : 0.0, solved.worth);
      std::exit(1);
    }
    std::printf("  worth %.4f as CBC; bound %.4f, %s\n", solved.worth, solved.bound,
                solved.is_exact ? "proven" : "not proven");
    const Timing whole = time_of(3, [&] { solve_milp(ride, "/tmp/outbye_fixed_time_bench"); });
    print("CBC, whole process with writing the programme", whole);
    std::printf("  %-58s %9.1f ms\n", "CBC, CPU time by its own count", 1000 * cbc->own_seconds);
  } else {
    std::printf("  worth %.4f, bound %.4f, %s\n", solved.worth, solved.bound,
                solved.is_exact ? "proven" : "not proven");
  }
  if (gap_penalty == 0 && !with_limits) {
    PathFlow flow;
    const std::vector<char> can_end(model.size(), 1);
    const PathNetwork network{model.size(), model.cars(), model.arcs().data(), model.starts().data(), can_end.data()};
    DayFlow days(task, ride.times.origin);
    std::vector<double> ready(task.cars.size());
    for (std::size_t c = 0; c < ready.size(); ++c) ready[c] = (task.cars[c].ready_from - ride.times.origin).count();
    const DayTimes day{ride.times.arrival, ride.times.departure, ride.times.departure, ready, allowance};
    if (!agree(flow.solve(network), solved.worth) || !agree(days.best_worth(day), solved.worth)) {
      std::printf("  WRONG: the flows disagree\n");
      std::exit(1);
    }
    print("flow on the prepared network", time_of(201, [&] { flow.solve(network); }));
    print("one day after another: arcs and flow, nothing allocated", time_of(201, [&] { days.best_worth(day); }));
  }
  const auto all = [&] { solve_orders(MeetModel(task, ride.times, plain), Effort{}); };
  print("from the task to the proven orders", time_of(solved.labels > 20000 ? 5 : 51, all));
  print("search_orders, 16 candidates", time_of(5, [&] { (void)search_orders(task, ride.times, 16); }));
}

}  // namespace
}  // namespace outbye

int main() {
  using outbye::compare;
  if (!outbye::has_cbc()) std::printf("cbc is not installed: nothing to compare with\n");
  if (!outbye::has_cbc()) return 1;
  std::printf("median (10 %% to 90 %%)\n");
  compare("adds up", {1, 1, 4, 9, 40}, 1.5, 0.0, false);
  compare("adds up", {2, 1, 4, 9, 40}, 1.5, 0.0, false);
  compare("adds up", {3, 4, 4, 9, 40}, 1.5, 0.0, false);
  compare("with gaps", {2, 1, 4, 9, 40}, 2.0, 0.05, false);
  compare("with gaps", {3, 4, 4, 9, 40}, 2.0, 0.05, false);
  compare("with gaps, breaks, water and fuel", {2, 1, 4, 9, 40}, 2.0, 0.05, true);
  compare("with gaps, breaks, water and fuel", {3, 4, 4, 9, 40}, 2.0, 0.05, true);
  return 0;
}
