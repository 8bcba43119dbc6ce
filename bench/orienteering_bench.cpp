// The orienteering solver on the 29 published instances: answer checked first, beside its processor time (it uses one
// core). Usage: orienteering_bench [FOLDER]. Exit code 1 when a route is invalid, a score differs from what the route
// collects, a proven score differs from the published one, or an instance is missing.
#include <cstdio>
#include <ctime>
#include <string>

#include "core/crewing/orienteering_check.h"
#include "tests/support/orienteering_instances.h"

int main(int argc, char** argv) {
  using namespace outbye;
  const std::string folder = argc > 1 ? argv[1] : std::string(OUTBYE_SHARED) + "/data/bench/optw";
  std::printf("instance   score  published  bound  proven  passes     labels  million steps        ms\n");
  int wrong = 0;
  int proven = 0;
  double total = 0;
  for (const KnownInstance& known : known_instances) {
    const auto problem = read_instance(folder, known.name);
    if (!problem) {
      std::printf("%-8s no %s.txt with 101 points in %s\n", known.name, known.name, folder.c_str());
      ++wrong;
      continue;
    }
    const std::clock_t before = std::clock();
    const auto answer = solve_orienteering(*problem);
    const double ms = 1000.0 * static_cast<double>(std::clock() - before) / CLOCKS_PER_SEC;
    total += ms;
    if (!answer) {
      std::printf("%-8s %s\n", known.name, answer.error().what.c_str());
      ++wrong;
      continue;
    }
    const auto checked = check_route(*problem, answer->route);
    const bool is_valid = checked && *checked == answer->score && answer->score <= answer->upper_bound;
    const bool is_as_published = answer->is_proven ? answer->score == known.score : answer->score <= known.score;
    std::printf("%-8s %7lld %10lld %6lld  %-6s %7d %10llu %14.1f %9.1f%s%s\n", known.name,
                static_cast<long long>(answer->score), static_cast<long long>(known.score),
                static_cast<long long>(answer->upper_bound), answer->is_proven ? "yes" : "NO", answer->passes,
                static_cast<unsigned long long>(answer->labels), 1e-6 * static_cast<double>(answer->steps), ms,
                is_valid ? "" : "  INVALID ROUTE", is_as_published ? "" : "  NOT AS PUBLISHED");
    wrong += is_valid && is_as_published ? 0 : 1;
    proven += answer->is_proven ? 1 : 0;
  }
  std::printf("proven %d of %zu, total %.0f ms (goal: all, 10000 ms)\n", proven, known_instances.size(), total);
  return wrong == 0 ? 0 : 1;
}
