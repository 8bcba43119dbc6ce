#include "core/crewing/orienteering_model.h"

#include <algorithm>
#include <limits>
#include <numeric>

namespace outbye::orienteering {
namespace {

// Shortest chain of arcs between all pairs: no route gets from one to the other sooner (waiting only adds).
std::vector<Time> shortest_chains(const Model& m) {
  const std::size_t n = m.size + 2;
  std::vector<Time> chain = m.arc;
  for (std::size_t i = 0; i < n; ++i) chain[i * n + i] = 0;
  for (std::size_t k = 0; k < n; ++k) {
    for (std::size_t i = 0; i < n; ++i) {
      if (chain[i * n + k] == never) continue;
      for (std::size_t j = 0; j < n; ++j) {
        if (chain[k * n + j] == never) continue;
        const Time sum = chain[i * n + k] + chain[k * n + j];  // two times of a model fit in a Time
        if (sum <= m.horizon) chain[i * n + j] = std::min(chain[i * n + j], sum);
      }
    }
  }
  return chain;
}

void cut(std::vector<Interval<Time>>& windows, Interval<Time> to) {
  std::vector<Interval<Time>> kept;
  for (const auto& w : windows) {
    const auto both = intersection(w, to);
    if (!both.is_empty()) kept.push_back(both);
  }
  windows = std::move(kept);
}

void drop_useless_arcs(Model& m) {
  const std::size_t n = m.size + 2;
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) {
      Time& a = m.arc[i * n + j];
      if (a == never) continue;
      const bool useful = i != j && j != m.source && i != m.sink && !m.windows[i].empty() && !m.windows[j].empty() &&
                          m.windows[i].front().from + a <= m.windows[j].back().to;
      if (!useful) a = never;
    }
  }
}

void tabulate(Model& m) {
  const std::size_t n = m.size + 2;
  const std::vector<Time> chain = shortest_chains(m);
  m.successors.assign(n, {});
  m.reach.assign(n, {});
  for (std::size_t i = 0; i < n; ++i) {
    std::vector<std::pair<Time, std::size_t>> lost;
    for (std::size_t j = 0; j < m.size; ++j) {
      if (m.arc_time(i, j) != never) m.successors[i].push_back(static_cast<std::uint8_t>(j));
      if (i == j) continue;
      const bool has_chain = chain[i * n + j] != never && !m.windows[j].empty();
      lost.emplace_back(has_chain ? m.windows[j].back().to - chain[i * n + j] + 1 : std::numeric_limits<Time>::min(),
                        j);
    }
    std::sort(lost.begin(), lost.end());
    PointSet gone;
    for (std::size_t k = 0; k < lost.size(); ++k) {
      gone = gone | point(lost[k].second);
      if (k + 1 < lost.size() && lost[k + 1].first == lost[k].first) continue;
      m.reach[i].from.push_back(lost[k].first);
      m.reach[i].gone.push_back(gone);
    }
  }
}

Model mirrored(const Model& m) {
  Model r = m;
  const std::size_t n = m.size + 2;
  const auto turned = [&](std::size_t i) { return i == m.source ? m.sink : i == m.sink ? m.source : i; };
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) r.arc[turned(j) * n + turned(i)] = m.arc[i * n + j];
    auto& w = r.windows[turned(i)];
    w.clear();
    for (auto it = m.windows[i].rbegin(); it != m.windows[i].rend(); ++it) {
      w.push_back({m.horizon - it->to, m.horizon - it->from});
    }
  }
  tabulate(r);
  return r;
}

std::vector<Interval<Ticks>> merged(std::vector<Interval<Ticks>> windows) {
  std::erase_if(windows, [](const auto& w) { return w.is_empty(); });
  std::sort(windows.begin(), windows.end(), [](const auto& a, const auto& b) { return a.from < b.from; });
  std::vector<Interval<Ticks>> out;
  for (const auto& w : windows) {
    if (!out.empty() && w.from <= out.back().to) {
      out.back().to = std::max(out.back().to, w.to);
    } else {
      out.push_back(w);
    }
  }
  return out;
}

}  // namespace

PointSet Model::unreachable(std::size_t i, Time t) const {
  const Reach& r = reach[i];
  const auto it = std::upper_bound(r.from.begin(), r.from.end(), t);
  return it == r.from.begin() ? PointSet{} : r.gone[static_cast<std::size_t>(it - r.from.begin()) - 1];
}

Prepared prepare(const OrienteeringProblem& problem) {
  Prepared out;
  const std::size_t all = problem.nodes.size();
  for (std::size_t i = 0; i < all; ++i) {
    if (i != problem.start && i != problem.end) out.original.push_back(i);
  }
  const auto travel = [&](std::size_t i, std::size_t j) { return problem.travel[i * all + j]; };

  // Labels are settled in order of time, so every arc must take time. If one takes none, times are stretched by more
  // than the longest route has arcs and one is added to each arc: what was late stays late, what was in time stays so.
  const bool has_free_arc = [&] {
    for (std::size_t i : out.original) {
      for (std::size_t j : out.original) {
        if (i != j && travel(i, j) == 0 && problem.nodes[i].service == 0) return true;
      }
    }
    return false;
  }();
  // Arcs out of the start and into the end may take no time: nothing comes before the one or after the other.
  const Ticks stretch = has_free_arc ? static_cast<Ticks>(out.original.size()) + 2 : 1;
  const Ticks length = problem.back_by - problem.leave_from;
  const auto from_tick = [&](Ticks t) { return static_cast<Time>(std::clamp<Ticks>(t, 0, length) * stretch); };
  const auto to_tick = [&](Ticks t) {
    return static_cast<Time>(std::clamp<Ticks>(t, 0, length) * stretch + stretch - 1);
  };

  Model m;
  const auto build = [&] {
    m.size = out.original.size();
    m.source = m.size;
    m.sink = m.size + 1;
    m.horizon = to_tick(length);
    const std::size_t n = m.size + 2;
    m.windows.assign(n, {});
    m.score.assign(n, 0);
    m.mandatory = {};
    for (std::size_t p = 0; p < m.size; ++p) {
      const OrienteeringNode& node = problem.nodes[out.original[p]];
      m.score[p] = node.score;
      if (node.is_mandatory) m.mandatory = m.mandatory | point(p);
      for (const auto& w : merged(node.windows)) {
        const Interval<Ticks> shifted{w.from - problem.leave_from, w.to - problem.leave_from};
        if (shifted.to < 0 || shifted.from > length) continue;
        m.windows[p].push_back({from_tick(shifted.from), to_tick(shifted.to)});
      }
    }
    m.windows[m.source] = {{0, 0}};  // leaving later than possible never helps
    m.windows[m.sink] = {{0, m.horizon}};
    m.arc.assign(n * n, never);
    const auto node_of = [&](std::size_t p) {
      return p == m.source ? problem.start : p == m.sink ? problem.end : out.original[p];
    };
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t j = 0; j < n; ++j) {
        if (i == j || i == m.sink || j == m.source) continue;
        const bool stays = i == m.source && j == m.sink && problem.start == problem.end;
        const Ticks way = stays ? 0 : travel(node_of(i), node_of(j));
        if (way == OrienteeringProblem::no_way) continue;
        const Ticks service = i == m.source ? 0 : problem.nodes[node_of(i)].service;
        if (service > length || way > length || service + way > length) continue;
        m.arc[i * n + j] = static_cast<Time>((service + way) * stretch + (has_free_arc ? 1 : 0));
      }
    }
  };
  build();

  // Tighten the windows by the way from the source and to the sink, then leave out what cannot be visited.
  const auto tighten = [&] {
    const std::size_t n = m.size + 2;
    for (int round = 0; round < 2; ++round) {
      drop_useless_arcs(m);
      const std::vector<Time> chain = shortest_chains(m);
      for (std::size_t p = 0; p < m.size; ++p) {
        const Time there = chain[m.source * n + p];
        const Time back = chain[p * n + m.sink];
        if (there == never || back == never) {
          m.windows[p].clear();
        } else {
          cut(m.windows[p], {there, m.horizon - back});
        }
      }
    }
  };
  tighten();
  std::vector<std::size_t> visitable;
  for (std::size_t p = 0; p < m.size; ++p) {
    if (!m.windows[p].empty() || m.mandatory.contains(p)) visitable.push_back(out.original[p]);
  }
  if (visitable.size() != out.original.size()) {
    out.original = std::move(visitable);  // `stretch` stays: it was enough for more points
    build();
    tighten();
  }
  drop_useless_arcs(m);
  tabulate(m);

  out.grain = 0;
  std::int64_t sum = 0;
  for (std::int64_t s : m.score) {
    out.grain = std::gcd(out.grain, s);
    sum += s;
  }
  if (out.grain == 0) out.grain = 1;
  out.bonus = sum + out.grain;
  for (std::size_t p = 0; p < m.size; ++p) {
    if (m.mandatory.contains(p)) m.score[p] += out.bonus;
  }
  out.forward = m;
  out.backward = mirrored(m);
  return out;
}

}  // namespace outbye::orienteering
