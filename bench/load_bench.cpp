// The box packer on the published container-loading sets BR1 to BR7, and the load planner on boots of 12 to 40 things:
// every answer passes the checker before its time counts. One core, processor time.
// Usage: load_bench [FIRST [COUNT [FOLDER]]]: problems FIRST.. of each set (default the first 5). Exit code 1 when an
// answer breaks a rule.
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <string>
#include <vector>

#include "core/load/box_packing.h"
#include "core/load/load_plan.h"
#include "core/load/load_test_tasks.h"
#include "tests/support/box_sets.h"

namespace {

using namespace outbye;

double processor_seconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

int bench_sets(const std::string& folder, std::size_t first, std::size_t count) {
  struct Goal {
    double seconds;
    double fill;
  };
  const std::vector<Goal> goals{{0.025, 88.0}, {1.0, 93.5}, {10.0, 94.5}};
  int wrong = 0;
  std::printf("mean fill in %% with full support; problems %zu to %zu of each set\n", first, first + count - 1);
  std::printf("%-6s %10s %8s %8s %8s %14s %8s\n", "set", "time", "mean", "least", "most", "completions", "beam");
  for (const Goal& goal : goals) {
    double all = 0.0;
    int sets = 0;
    for (int s = 1; s <= 7; ++s) {
      const std::string name = "BR" + std::to_string(s);
      const auto tasks = read_box_set(folder + "/" + name + ".txt");
      if (tasks.size() < first) {
        std::printf("%-6s no %s.txt with %zu problems in %s\n", name.c_str(), name.c_str(), first, folder.c_str());
        continue;
      }
      double sum = 0.0;
      double least = 100.0;
      double most = 0.0;
      double completions = 0.0;
      double beam = 0.0;
      std::size_t done = 0;
      for (std::size_t p = first - 1; p < tasks.size() && p < first - 1 + count; ++p, ++done) {
        const BoxPackingTask& task = tasks[p];
        const double start = processor_seconds();
        const auto packing = pack_boxes(task, [&] { return processor_seconds() - start < goal.seconds; });
        if (!packing || !check_packing(task, *packing).empty()) {
          std::printf("%s problem %zu: WRONG ANSWER\n", name.c_str(), p + 1);
          ++wrong;
          continue;
        }
        const double fill = 100.0 * static_cast<double>(packing->volume) /
                            (1.0 * task.container[0] * task.container[1] * task.container[2]);
        sum += fill;
        least = std::min(least, fill);
        most = std::max(most, fill);
        completions += static_cast<double>(packing->completions);
        beam += packing->beam;
      }
      const double n = static_cast<double>(done);
      std::printf("%-6s %8.3f s %8.2f %8.2f %8.2f %14.0f %8.1f\n", name.c_str(), goal.seconds, sum / n, least, most,
                  completions / n, beam / n);
      std::fflush(stdout);
      all += sum / n;
      ++sets;
    }
    if (sets > 0) {
      std::printf("mean   %8.3f s %8.2f   goal %.1f: %s\n", goal.seconds, all / sets, goal.fill,
                  all / sets >= goal.fill ? "met" : "missed");
    }
  }
  return wrong;
}

int bench_boots() {
  int wrong = 0;
  std::printf("\nboots, 40 seeds each: %10s %10s %8s %8s %8s\n", "median ms", "worst ms", "all fit", "cannot", "open");
  for (const int things : {12, 24, 40}) {
    std::vector<double> times;
    int fit = 0;
    int cannot = 0;
    int open = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
      Rng rng(Seed{seed});
      const LoadTask task = testing::any_load(rng, things);
      const double start = processor_seconds();
      const auto load = plan_load(task, {[&] { return processor_seconds() - start < 1.0; }, 2'000'000'000});
      times.push_back(1000.0 * (processor_seconds() - start));
      if (!load || !check_load(task, *load).empty()) {
        std::printf("seed %d: WRONG ANSWER\n", static_cast<int>(seed));
        ++wrong;
        continue;
      }
      ++(load->proof == LoadProof::all_fit ? fit : load->proof == LoadProof::cannot_fit ? cannot : open);
    }
    std::sort(times.begin(), times.end());
    std::printf("up to %2d things        %10.1f %10.1f %8d %8d %8d\n", things, times[times.size() / 2], times.back(),
                fit, cannot, open);
  }
  return wrong;
}

}  // namespace

int main(int argc, char** argv) {
  const auto number = [&](int i, std::size_t otherwise) {
    return argc > i ? static_cast<std::size_t>(std::max(1L, std::atol(argv[i]))) : otherwise;
  };
  const std::string folder = argc > 3 ? argv[3] : std::string(OUTBYE_SHARED) + "/data/bench/container";
  const int wrong = bench_sets(folder, number(1, 1), number(2, 5)) + bench_boots();
  return wrong == 0 ? 0 : 1;
}
