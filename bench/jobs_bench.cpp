// 200 random stops of up to 20 tasks and 4 helpers, and the usual stops: answers checked first, then the processor time
// (one core) to the shortest and to the fairest. Exit code 1 when a schedule does not pass the checker or a proven
// answer differs from one of a search with three times the nodes.
#include <algorithm>
#include <cstdio>
#include <ctime>

#include "core/jobs/check_stop_schedule.h"
#include "core/jobs/usual_stops.h"
#include "tests/support/random_stops.h"

namespace {

using namespace outbye;

int wrong = 0;

double timed(const CrewStop& stop, const StopSearchLimits& limits, StopSchedule& schedule) {
  const std::clock_t before = std::clock();
  auto answer = schedule_stop(stop, limits);
  const double ms = 1000.0 * static_cast<double>(std::clock() - before) / CLOCKS_PER_SEC;
  if (!answer || !check_stop_schedule(stop, *answer).empty()) {
    ++wrong;
  } else {
    schedule = std::move(*answer);
  }
  return ms;
}

void bench_random(const char* what, const StopShape& shape) {
  std::vector<double> times;
  int proven = 0, in_time = 0, fairest = 0;
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    Rng rng(Seed{seed});
    const CrewStop stop = random_stop(rng, shape);
    StopSchedule shortest, fair, thorough;
    times.push_back(timed(stop, {200000, 0}, shortest));
    timed(stop, {}, fair);
    timed(stop, {600000, 0}, thorough);
    if (shortest.is_shortest_proven && shortest.end != thorough.end) ++wrong;
    if (shortest.is_shortest_proven) ++proven;
    if (shortest.is_shortest_proven && times.back() <= 5.0) ++in_time;
    if (fair.is_fairest_proven) ++fairest;
  }
  std::sort(times.begin(), times.end());
  std::printf("%-34s %3d %9d %12d   %8.3f %8.2f %8.1f\n", what, proven, in_time, fairest, times[100], times[189],
              times[199]);
}

}  // namespace

int main() {
  std::printf("200 random stops                proven  in 5 ms  fairest too  median ms     95 %%      most\n");
  bench_random("1 to 20 tasks, 1 to 4 helpers", {});
  StopShape ten;
  ten.tasks_to = 10;
  bench_random("1 to 10 tasks, 1 to 4 helpers", ten);
  StopShape hard;
  hard.tasks_from = 20;
  hard.helpers_from = 3;
  hard.is_one_step = true;
  bench_random("20 tasks, one step, 3 or 4 helpers", hard);
  std::printf("usual stops, shortest and fairest     ms  proven  fairest\n");
  for (const StopKind kind :
       {StopKind::flying_bottle, StopKind::short_stop, StopKind::drink_stop, StopKind::vet_gate, StopKind::finish}) {
    for (std::size_t n = 1; n <= 4; ++n) {
      std::vector<Helper> helpers;
      for (const char* name : {"Ann", "Bob", "Cat", "Dan"}) {
        if (helpers.size() < n) helpers.push_back(helper_of_all_work(name));
      }
      const auto stop = usual_stop({kind, true, false, 4, minutes(15)}, helpers);
      StopSchedule schedule;
      const double ms = stop ? timed(*stop, {}, schedule) : 0.0;
      std::printf("%-15s %zu helpers %16.2f  %-6s  %s\n", stop_kind_name(kind), n, ms,
                  schedule.is_shortest_proven ? "yes" : "NO", schedule.is_fairest_proven ? "yes" : "no");
    }
  }
  return wrong == 0 ? 0 : 1;
}
