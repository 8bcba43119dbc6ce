#include "core/crewing/orienteering_check.h"

#include <string>

namespace outbye {

Result<std::int64_t> check_route(const OrienteeringProblem& problem, const std::vector<std::size_t>& route) {
  const std::size_t n = problem.nodes.size();
  const auto wrong = [](std::size_t stop, const std::string& what) {
    return impossible("route stop " + std::to_string(stop), what);
  };
  if (route.size() < 2 || route.front() != problem.start || route.back() != problem.end) {
    return wrong(0, "the route must lead from start to end");
  }
  Ticks now = problem.leave_from;
  std::int64_t score = 0;
  std::vector<int> visits(n, 0);
  for (std::size_t stop = 1; stop < route.size(); ++stop) {
    const std::size_t from = route[stop - 1];
    const std::size_t to = route[stop];
    const bool is_end = stop + 1 == route.size();
    if (to >= n) return wrong(stop, "no such node");
    if (from != to || !is_end) {
      const Ticks way = problem.travel[from * n + to];
      if (from == to || way < 0) return wrong(stop, "there is no way");
      now += way;
    }
    if (is_end) break;
    if (to == problem.start || to == problem.end) return wrong(stop, "start and end are not visited on the way");
    if (++visits[to] > 1) return wrong(stop, "node " + std::to_string(to) + " is visited twice");
    // Serve in the first window that is still open or opens later.
    bool is_served = false;
    Ticks best{};
    for (const auto& window : problem.nodes[to].windows) {
      if (window.to < window.from || now > window.to) continue;
      const Ticks begin = now > window.from ? now : window.from;
      if (!is_served || begin < best) best = begin;
      is_served = true;
    }
    if (!is_served) return wrong(stop, "node " + std::to_string(to) + " is closed from " + std::to_string(now) + " on");
    now = best + problem.nodes[to].service;
    score += problem.nodes[to].score;
  }
  if (now > problem.back_by) return wrong(route.size() - 1, "is back at " + std::to_string(now) + ", too late");
  for (std::size_t i = 0; i < n; ++i) {
    if (i == problem.start || i == problem.end) continue;
    if (problem.nodes[i].is_mandatory && visits[i] == 0) {
      return wrong(route.size() - 1, "mandatory node " + std::to_string(i) + " is left out");
    }
  }
  return score;
}

}  // namespace outbye
