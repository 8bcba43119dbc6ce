#include "core/crewing/orienteering.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <optional>
#include <string>

#include "core/base/random.h"
#include "core/crewing/orienteering_check.h"

namespace outbye {
namespace {

using Windows = std::vector<Interval<Ticks>>;

std::size_t below(Rng& rng, std::size_t n) { return static_cast<std::size_t>(uniform_below(rng, n)); }
Ticks ticks(Rng& rng, Ticks from, Ticks to) {
  return from + static_cast<Ticks>(uniform_below(rng, static_cast<std::uint64_t>(to - from + 1)));
}

// Points on a line at the given tick marks, the first being start and end; all windows open all the time.
OrienteeringProblem on_a_line(const std::vector<Ticks>& at, Ticks back_by) {
  OrienteeringProblem p;
  p.back_by = back_by;
  for (Ticks x : at) {
    p.nodes.push_back({{{0, back_by}}, 0, 1, false});
    for (Ticks y : at) p.travel.push_back(x < y ? y - x : x - y);
  }
  return p;
}

// Up to eight points: travel without any geometry, some ways missing, several windows, services of nothing, and some
// points that must be visited.
OrienteeringProblem any_problem(Rng& rng) {
  OrienteeringProblem p;
  const std::size_t n = 2 + below(rng, 8);
  p.leave_from = ticks(rng, -50, 50);
  p.back_by = p.leave_from + ticks(rng, 20, 150);
  p.start = below(rng, n);
  p.end = below(rng, 3) == 0 ? below(rng, n) : p.start;
  const bool is_fast = below(rng, 4) == 0;  // many ways that take no time at all
  for (std::size_t i = 0; i < n; ++i) {
    OrienteeringNode node;
    const std::size_t count = below(rng, 10) == 0 ? 0 : 1 + below(rng, 2);
    for (std::size_t k = 0; k < count; ++k) {
      const Ticks from = ticks(rng, p.leave_from - 30, p.back_by);
      const Ticks length = ticks(rng, -3, 90);
      node.windows.push_back({from, from + length});
    }
    node.service = below(rng, 3) == 0 ? 0 : ticks(rng, 0, 15);
    node.score = below(rng, 8) == 0 ? 0 : ticks(rng, 1, 40);
    node.is_mandatory = below(rng, 7) == 0;
    p.nodes.push_back(node);
    for (std::size_t j = 0; j < n; ++j) {
      Ticks way = ticks(rng, 0, is_fast ? 3 : 45);
      if (below(rng, 12) == 0) way = OrienteeringProblem::no_way;
      p.travel.push_back(way);
    }
  }
  return p;
}

// Every order of every subset, one by one; too late stays too late. The best score, or nothing.
void try_all(const OrienteeringProblem& p, std::size_t at, Ticks leave, std::int64_t score, std::vector<bool>& used,
             std::optional<std::int64_t>& best) {
  const std::size_t n = p.nodes.size();
  const Ticks home = at == p.end ? 0 : p.travel[at * n + p.end];
  bool is_route = home >= 0 && leave + home <= p.back_by;
  for (std::size_t i = 0; i < n; ++i) {
    is_route = is_route && (used[i] || i == p.start || i == p.end || !p.nodes[i].is_mandatory);
  }
  if (is_route) best = std::max(best.value_or(0), score);
  for (std::size_t i = 0; i < n; ++i) {
    if (used[i] || i == p.start || i == p.end || p.travel[at * n + i] < 0) continue;
    const Ticks arrive = leave + p.travel[at * n + i];
    std::optional<Ticks> begin;
    for (const auto& w : p.nodes[i].windows) {
      if (w.from <= w.to && arrive <= w.to) begin = std::min(begin.value_or(w.to), std::max(arrive, w.from));
    }
    if (!begin) continue;
    used[i] = true;
    try_all(p, i, *begin + p.nodes[i].service, score + p.nodes[i].score, used, best);
    used[i] = false;
  }
}
std::optional<std::int64_t> best_by_trying_all(const OrienteeringProblem& p) {
  std::optional<std::int64_t> best;
  std::vector<bool> used(p.nodes.size());
  try_all(p, p.start, p.leave_from, 0, used, best);
  return best;
}

std::optional<std::int64_t> solved_score(const OrienteeringProblem& p) {
  const auto answer = solve_orienteering(p);
  if (!answer) return std::nullopt;
  EXPECT_TRUE(answer->is_proven);
  return answer->score;
}

TEST(Orienteering, FindsWhatTryingAllOrdersFinds) {
  int possible = 0;
  int with_mandatory = 0;
  for (std::uint64_t seed = 1; seed <= 1500; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Rng rng(Seed{seed});
    const OrienteeringProblem p = any_problem(rng);
    const auto expected = best_by_trying_all(p);
    const auto answer = solve_orienteering(p);
    ASSERT_EQ(answer.has_value(), expected.has_value()) << (answer ? "" : answer.error().what);
    if (!answer) {
      EXPECT_EQ(answer.error().kind, Problem::Kind::impossible);
      continue;
    }
    ++possible;
    with_mandatory += std::any_of(p.nodes.begin(), p.nodes.end(), [](const auto& n) { return n.is_mandatory; }) ? 1 : 0;
    EXPECT_EQ(answer->score, *expected);
    EXPECT_TRUE(answer->is_proven);
    EXPECT_EQ(answer->upper_bound, answer->score);
    const auto checked = check_route(p, answer->route);
    ASSERT_TRUE(checked) << checked.error().where << ": " << checked.error().what;
    EXPECT_EQ(*checked, answer->score);
  }
  EXPECT_GE(possible, 500);
  EXPECT_GE(with_mandatory, 100);
}

TEST(Orienteering, NeverLosesByWiderWindows) {
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Rng rng(Seed{seed});
    const OrienteeringProblem p = any_problem(rng);
    OrienteeringProblem wider = p;
    for (auto& node : wider.nodes) {
      for (auto& w : node.windows) {
        if (w.is_empty()) continue;
        w.from -= ticks(rng, 0, 20);
        w.to += ticks(rng, 0, 20);
      }
    }
    wider.back_by += ticks(rng, 0, 10);
    const auto before = solved_score(p);
    const auto after = solved_score(wider);
    if (before) {
      ASSERT_TRUE(after);
      EXPECT_GE(*after, *before);
    }
  }
}

TEST(Orienteering, DoesNotDependOnTheOrderOfNodes) {
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Rng rng(Seed{seed});
    const OrienteeringProblem p = any_problem(rng);
    const std::size_t n = p.nodes.size();
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < n; ++i) order.push_back(i);
    shuffle(order, rng);
    OrienteeringProblem turned = p;
    for (std::size_t i = 0; i < n; ++i) {
      turned.nodes[i] = p.nodes[order[i]];
      if (order[i] == p.start) turned.start = i;
      if (order[i] == p.end) turned.end = i;
      for (std::size_t j = 0; j < n; ++j) turned.travel[i * n + j] = p.travel[order[i] * n + order[j]];
    }
    EXPECT_EQ(solved_score(p), solved_score(turned));
  }
}

// The same day run backwards is the same problem: an error in one direction of labelling would show.
TEST(Orienteering, ScoresTheSameWhenTimeRunsBackwards) {
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Rng rng(Seed{seed});
    const OrienteeringProblem p = any_problem(rng);
    const std::size_t n = p.nodes.size();
    OrienteeringProblem back = p;
    std::swap(back.start, back.end);
    back.leave_from = -p.back_by;
    back.back_by = -p.leave_from;
    for (std::size_t i = 0; i < n; ++i) {
      for (auto& w : back.nodes[i].windows) w = {-w.to - p.nodes[i].service, -w.from - p.nodes[i].service};
      for (std::size_t j = 0; j < n; ++j) back.travel[j * n + i] = p.travel[i * n + j];
    }
    EXPECT_EQ(solved_score(p), solved_score(back));
  }
}

TEST(Orienteering, ScoresTheSameHoweverLittleItRemembersAtFirst) {
  int longer = 0;
  for (std::uint64_t seed = 1; seed <= 500; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Rng rng(Seed{seed});
    const OrienteeringProblem p = any_problem(rng);
    OrienteeringLimits forgetful;
    forgetful.first_memory = 0;
    const auto usual = solve_orienteering(p);
    const auto other = solve_orienteering(p, forgetful);
    ASSERT_EQ(usual.has_value(), other.has_value());
    if (!usual) continue;
    EXPECT_EQ(usual->score, other->score);
    EXPECT_TRUE(other->is_proven);
    longer += other->passes > 2 ? 1 : 0;
  }
  EXPECT_GE(longer, 30);
}

// Twelve points in a square, a day long enough for about half of them, windows of a third of the day. On a coarse grid
// (all times multiples of it) routes are just in time again and again.
OrienteeringProblem twelve_points(Rng& rng, Ticks grid) {
  const auto coarse = [&](Ticks from, Ticks to) { return ticks(rng, from / grid, to / grid) * grid; };
  OrienteeringProblem p;
  p.back_by = 300;
  std::vector<std::pair<Ticks, Ticks>> at;
  for (std::size_t i = 0; i < 13; ++i) {
    const Ticks x = coarse(0, 60);
    const Ticks y = coarse(0, 60);
    at.emplace_back(x, y);
    const Ticks opens = coarse(-50, 250);
    p.nodes.push_back({{{opens, opens + coarse(50, 200)}}, coarse(0, 20), ticks(rng, 1, 50), false});
  }
  for (const auto& a : at) {
    for (const auto& b : at) p.travel.push_back(std::abs(a.first - b.first) + std::abs(a.second - b.second));
  }
  return p;
}

// Earliest end of service for every set of points visited and last point: exact, and nothing like the solver.
std::int64_t best_of_all_sets(const OrienteeringProblem& p) {
  const std::size_t n = p.nodes.size();
  const std::size_t sets = std::size_t{1} << (n - 1);  // bit i - 1: point i; point 0 is start and end
  constexpr Ticks unknown = 1'000'000;
  std::vector<Ticks> free(sets * n, unknown);
  free[0] = p.leave_from;
  std::int64_t best = 0;
  for (std::size_t set = 0; set < sets; ++set) {
    std::int64_t score = 0;
    for (std::size_t i = 1; i < n; ++i) score += ((set >> (i - 1)) & 1U) != 0 ? p.nodes[i].score : 0;
    for (std::size_t last = 0; last < n; ++last) {
      const Ticks now = free[set * n + last];
      if (now == unknown) continue;
      if (now + p.travel[last * n] <= p.back_by) best = std::max(best, score);
      for (std::size_t i = 1; i < n; ++i) {
        const std::size_t with = set | (std::size_t{1} << (i - 1));
        if (with == set) continue;
        const Ticks start = std::max(now + p.travel[last * n + i], p.nodes[i].windows[0].from);
        if (start > p.nodes[i].windows[0].to) continue;
        free[with * n + i] = std::min(free[with * n + i], start + p.nodes[i].service);
      }
    }
  }
  return best;
}

TEST(Orienteering, FindsTheBestOfAllSetsOfTwelvePoints) {
  int longer = 0;
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Rng rng(Seed{seed});
    const OrienteeringProblem p = twelve_points(rng, seed % 2 == 0 ? 10 : 1);
    const std::int64_t best = best_of_all_sets(p);
    for (const std::size_t memory : {std::size_t{0}, std::size_t{3}, std::size_t{12}}) {
      OrienteeringLimits limits;
      limits.first_memory = memory;
      const auto answer = solve_orienteering(p, limits);
      ASSERT_TRUE(answer);
      EXPECT_EQ(answer->score, best);
      EXPECT_TRUE(answer->is_proven);
      const auto checked = check_route(p, answer->route);
      ASSERT_TRUE(checked) << checked.error().what;
      EXPECT_EQ(*checked, best);
      longer += answer->passes > 2 ? 1 : 0;
    }
  }
  EXPECT_GE(longer, 50);
}

TEST(Orienteering, StretchedTimesChangeNothing) {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Rng rng(Seed{seed});
    const OrienteeringProblem p = any_problem(rng);
    OrienteeringProblem slow = p;
    slow.leave_from *= 7;
    slow.back_by *= 7;
    for (auto& node : slow.nodes) {
      node.service *= 7;
      for (auto& w : node.windows) w = {w.from * 7, w.to * 7};
    }
    for (auto& t : slow.travel) t = t < 0 ? t : t * 7;
    EXPECT_EQ(solved_score(p), solved_score(slow));
  }
}

TEST(Orienteering, SaysWhenServiceStarts) {
  OrienteeringProblem p = on_a_line({0, 10, 20}, 50);
  p.nodes[1].service = 5;
  p.nodes[1].windows = {{0, 4}, {30, 40}};
  const auto answer = solve_orienteering(p);
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->score, 2);
  EXPECT_EQ(answer->route, (std::vector<std::size_t>{0, 2, 1, 0}));
  EXPECT_EQ(answer->service_start, (std::vector<Ticks>{0, 20, 30, 45}));
}

TEST(Orienteering, GoesHomeAtOnceWhenNothingIsInReach) {
  const auto answer = solve_orienteering(on_a_line({0, 60, 70}, 100));
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->score, 0);
  EXPECT_TRUE(answer->is_proven);
  EXPECT_EQ(answer->route, (std::vector<std::size_t>{0, 0}));
}

TEST(Orienteering, GivesUpScoreForAMandatoryNode) {
  OrienteeringProblem p = on_a_line({50, 0, 100}, 100);
  p.nodes[1].score = 1;
  p.nodes[1].is_mandatory = true;
  p.nodes[2].score = 50;
  const auto answer = solve_orienteering(p);
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->score, 1);
  EXPECT_EQ(answer->route, (std::vector<std::size_t>{0, 1, 0}));
}

TEST(Orienteering, SaysWhichMandatoryNodeIsOutOfReach) {
  OrienteeringProblem p = on_a_line({0, 10, 80}, 100);
  p.nodes[2].is_mandatory = true;
  const auto answer = solve_orienteering(p);
  ASSERT_FALSE(answer);
  EXPECT_EQ(answer.error().kind, Problem::Kind::impossible);
  EXPECT_EQ(answer.error().where, "orienteering node 2");
}

TEST(Orienteering, TakesTheFullNumberOf128Points) {
  std::vector<Ticks> at{0};
  for (Ticks i = 1; i <= 128; ++i) at.push_back(i);
  OrienteeringProblem p = on_a_line(at, 256);
  for (std::size_t i = 1; i <= 128; ++i) p.nodes[i].windows = {{at[i], at[i] + 8}};
  const auto answer = solve_orienteering(p);
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->score, 128);
  EXPECT_TRUE(answer->is_proven);
  const auto checked = check_route(p, answer->route);
  ASSERT_TRUE(checked) << checked.error().what;
}

TEST(Orienteering, KeepsItsBoundWhenEffortRunsOut) {
  int unproven = 0;
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Rng rng(Seed{seed});
    const OrienteeringProblem p = any_problem(rng);
    const auto best = solved_score(p);
    OrienteeringLimits limits;
    limits.steps = 5 + below(rng, 300);
    const auto answer = solve_orienteering(p, limits);
    if (!answer) continue;
    ASSERT_TRUE(best);
    EXPECT_LE(answer->score, *best);
    EXPECT_GE(answer->upper_bound, *best);
    EXPECT_EQ(answer->is_proven, answer->score == answer->upper_bound);
    EXPECT_TRUE(check_route(p, answer->route));
    unproven += answer->is_proven ? 0 : 1;
  }
  EXPECT_GE(unproven, 10);
}

TEST(Orienteering, RefusesWhatIsNotAProblem) {
  const auto kind = [](const OrienteeringProblem& p) { return solve_orienteering(p).error().kind; };
  const OrienteeringProblem good = on_a_line({0, 10}, 100);
  ASSERT_TRUE(solve_orienteering(good));
  OrienteeringProblem p = good;
  p.start = 2;
  EXPECT_EQ(kind(p), Problem::Kind::bad_input);
  p = good;
  p.travel.pop_back();
  EXPECT_EQ(kind(p), Problem::Kind::bad_input);
  p = good;
  p.travel[1] = -7;
  EXPECT_EQ(kind(p), Problem::Kind::bad_input);
  p = good;
  p.nodes[1].service = -1;
  EXPECT_EQ(kind(p), Problem::Kind::bad_input);
  p = good;
  p.nodes[1].score = -1;
  EXPECT_EQ(kind(p), Problem::Kind::bad_input);
  p = good;
  p.back_by = -1;
  EXPECT_EQ(kind(p), Problem::Kind::impossible);
  p = good;
  p.back_by = Ticks{1} << 23;
  EXPECT_EQ(kind(p), Problem::Kind::bad_input);
  p = on_a_line(std::vector<Ticks>(130, 0), 10);
  EXPECT_EQ(kind(p), Problem::Kind::bad_input);
}

TEST(RouteCheck, RefusesEachBrokenRule) {
  OrienteeringProblem p = on_a_line({0, 10, 20}, 40);
  p.nodes[2].windows = {{0, 25}};
  const auto refusal = [&](std::vector<std::size_t> route) {
    const auto checked = check_route(p, route);
    return checked ? std::string("accepted") : checked.error().what;
  };
  EXPECT_EQ(refusal({0, 1, 2, 0}), "accepted");
  EXPECT_EQ(refusal({1, 0}), "the route must lead from start to end");
  EXPECT_EQ(refusal({0, 1, 2, 1, 0}), "node 1 is visited twice");
  p.nodes[1].service = 6;
  EXPECT_EQ(refusal({0, 1, 2, 0}), "node 2 is closed from 26 on");
  p.nodes[1].service = 5;
  EXPECT_EQ(refusal({0, 1, 2, 0}), "is back at 45, too late");
  p.nodes[1].is_mandatory = true;
  EXPECT_EQ(refusal({0, 2, 0}), "mandatory node 1 is left out");
  p.travel[2] = OrienteeringProblem::no_way;
  EXPECT_EQ(refusal({0, 2, 0}), "there is no way");
}

}  // namespace
}  // namespace outbye
