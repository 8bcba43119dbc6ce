#include "core/crewing/orienteering.h"

#include <algorithm>
#include <limits>
#include <string>
#include <utility>

#include "core/crewing/orienteering_labels.h"
#include "core/crewing/orienteering_model.h"

namespace outbye {
namespace {

using namespace orienteering;

constexpr std::size_t most_points = 128;
constexpr Ticks longest = Ticks{1} << 22;
constexpr std::int64_t largest_score = std::int64_t{1} << 40;  // 128 bonuses of 129 such scores stay below 2^55
constexpr std::size_t beam_width = 100;

Result<void> check(const OrienteeringProblem& p) {
  const std::size_t n = p.nodes.size();
  if (p.start >= n || p.end >= n) return bad_input("orienteering", "start and end must be nodes of the problem");
  if (p.travel.size() != n * n) {
    return bad_input("orienteering", "the travel times must be a square of " + std::to_string(n) + " nodes");
  }
  if (n - (p.start == p.end ? 1 : 2) > most_points) {
    return bad_input("orienteering", std::to_string(n) + " nodes are more than the 128 besides start and end");
  }
  if (p.back_by < p.leave_from) return impossible("orienteering", "the route must be back before it may leave");
  if (p.back_by - p.leave_from > longest) return bad_input("orienteering", "lasts more than 4194304 ticks");
  for (std::size_t i = 0; i < n; ++i) {
    const std::string where = "orienteering node " + std::to_string(i);
    if (p.nodes[i].service < 0) return bad_input(where, "has a negative service time");
    if (p.nodes[i].score < 0) return bad_input(where, "has a negative score");
    if (p.nodes[i].score > largest_score) return bad_input(where, "has a score above 2^40");
    for (std::size_t j = 0; j < n; ++j) {
      const Ticks t = p.travel[i * n + j];
      if (i != j && t < 0 && t != OrienteeringProblem::no_way) {
        return bad_input(where, "has a negative travel time to node " + std::to_string(j));
      }
    }
  }
  return {};
}

// The points nearest by the detour there and back, so that short cycles are remembered from the start.
std::vector<PointSet> nearest_memory(const Model& m, std::size_t count) {
  std::vector<PointSet> memory(m.size);
  for (std::size_t i = 0; i < m.size; ++i) {
    std::vector<std::pair<Ticks, std::size_t>> near;
    for (std::size_t j = 0; j < m.size; ++j) {
      if (j == i || m.arc_time(i, j) == never || m.arc_time(j, i) == never) continue;
      near.emplace_back(Ticks{m.arc_time(i, j)} + m.arc_time(j, i), j);
    }
    std::sort(near.begin(), near.end());
    if (near.size() > count) near.resize(count);
    memory[i] = point(i) | m.mandatory;
    for (const auto& [t, j] : near) memory[i] = memory[i] | point(j);
  }
  return memory;
}

// Makes every point between two visits of the same point remember it. The best route always adds something new.
void remember_cycles(const std::vector<RelaxedRoute>& routes, std::vector<PointSet>& memory) {
  for (const RelaxedRoute& route : routes) {
    // A route whose cycle has been broken on behalf of a better one is left for the next pass.
    const auto& r = route.points;
    std::vector<std::pair<std::size_t, std::size_t>> cycles;
    bool is_broken = false;
    for (std::size_t b = 0; b < r.size(); ++b) {
      for (std::size_t a = b; a-- > 0;) {
        if (r[a] != r[b]) continue;
        bool all = true;
        for (std::size_t k = a + 1; k < b; ++k) all = all && memory[r[k]].contains(r[a]);
        if (all) is_broken = true;
        cycles.emplace_back(a, b);
        break;
      }
    }
    if (is_broken) continue;
    for (const auto& [a, b] : cycles) {
      for (std::size_t k = a + 1; k < b; ++k) {
        memory[r[k]] = memory[r[k]] | point(r[a]);
      }
    }
  }
}

// Which mandatory node cannot be visited even alone, if there is one: the commonest reason for no route.
Problem why_no_route(const OrienteeringProblem& problem, const Prepared& prepared, bool is_spent) {
  const Model& m = prepared.forward;
  if (is_spent) {
    return {Problem::Kind::impossible, "orienteering",
            "no route with every mandatory node was found before the effort limit; there may be one"};
  }
  for (std::size_t p = 0; p < m.size; ++p) {
    if (m.mandatory.contains(p) && m.windows[p].empty()) {
      return {Problem::Kind::impossible, "orienteering node " + std::to_string(prepared.original[p]),
              "is mandatory but cannot be visited between leaving and being back, even alone"};
    }
  }
  if (m.mandatory.is_empty()) {
    return {Problem::Kind::impossible, "orienteering",
            "the end cannot be reached from the start by " + std::to_string(problem.back_by)};
  }
  return {Problem::Kind::impossible, "orienteering", "no route visits every mandatory node in its window"};
}

// As early as can be, from the problem itself.
std::vector<Ticks> earliest_starts(const OrienteeringProblem& problem, const std::vector<std::size_t>& route) {
  std::vector<Ticks> starts{problem.leave_from};
  for (std::size_t k = 1; k < route.size(); ++k) {
    const std::size_t from = route[k - 1];
    const std::size_t to = route[k];
    const Ticks service = k == 1 ? 0 : problem.nodes[from].service;
    const Ticks way = from == to ? 0 : problem.travel[from * problem.nodes.size() + to];
    const Ticks arrival = starts.back() + service + way;
    Ticks start = arrival;
    if (k + 1 < route.size()) {
      start = std::numeric_limits<Ticks>::max();
      for (const auto& w : problem.nodes[to].windows) {
        if (!w.is_empty() && arrival <= w.to) start = std::min(start, std::max(arrival, w.from));
      }
    }
    starts.push_back(start);
  }
  return starts;
}

}  // namespace

Result<OrienteeringAnswer> solve_orienteering(const OrienteeringProblem& problem, const OrienteeringLimits& limits) {
  if (auto ok = check(problem); !ok) return tl::unexpected(ok.error());
  const Prepared prepared = prepare(problem);
  const Model& m = prepared.forward;
  std::int64_t floor = 0;
  std::int64_t bound = 0;
  for (std::size_t i = 0; i < m.size; ++i) {
    bound += m.score[i];
    if (m.mandatory.contains(i)) floor += prepared.bonus;
  }

  Effort effort;
  effort.most_steps = limits.steps;
  Incumbent incumbent;
  std::vector<PointSet> memory = nearest_memory(m, 0);
  Completions ahead;
  bool is_forward = false;
  bool is_spent = false;
  int passes = 0;
  while (true) {
    PassTask task;
    task.model = is_forward ? &prepared.forward : &prepared.backward;
    task.is_forward = is_forward;
    task.memory = &memory;
    task.ahead = passes == 0 ? nullptr : &ahead;
    task.grain = prepared.grain;
    task.floor = floor;
    task.most_labels = limits.labels;
    PassResult pass = run_pass(task, incumbent, effort);
    ++passes;
    if (!pass.is_complete) {
      is_spent = true;
      break;
    }
    bound = std::min(bound, pass.bound);
    if (pass.routes.empty()) break;
    ahead = std::move(pass.completions);
    is_forward = !is_forward;
    run_beam(is_forward ? prepared.forward : prepared.backward, is_forward, ahead, beam_width, floor, incumbent,
             effort);
    if (passes == 1) {
      memory = nearest_memory(m, limits.first_memory);
    } else {
      remember_cycles(pass.routes, memory);
    }
  }

  if (incumbent.score < 0) return tl::unexpected(why_no_route(problem, prepared, is_spent));
  OrienteeringAnswer answer;
  answer.score = incumbent.score - floor;
  answer.upper_bound = std::max(bound, incumbent.score) - floor;
  answer.is_proven = answer.score == answer.upper_bound;
  answer.labels = effort.labels;
  answer.steps = effort.steps;
  answer.passes = passes;
  answer.route.push_back(problem.start);
  for (std::size_t p : incumbent.points) answer.route.push_back(prepared.original[p]);
  answer.route.push_back(problem.end);
  answer.service_start = earliest_starts(problem, answer.route);
  return answer;
}

}  // namespace outbye
