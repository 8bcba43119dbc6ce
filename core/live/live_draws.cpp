#include "core/live/live_draws.h"

#include <algorithm>
#include <cmath>

#include "core/pace/within_loop.h"

namespace outbye {
namespace {

Seed stream(Seed seed, std::uint64_t number) {
  // splitmix64 (Steele, Lea, Flood 2014), as in simulate_days
  std::uint64_t z = seed.value + 0x9e3779b97f4a7c15u * (number + 1);
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
  return {z ^ (z >> 31)};
}

constexpr std::size_t own_rows = 3;

// One loop at the ride's expected pace: L, W, stands, recovery, and what holds her up.
void draw_loop(const LivePace& pace, std::size_t l, LiveDraws& draws) {
  const auto& loop = pace.loops[l];
  const std::size_t cells = loop.ends.size() - 1;
  const auto steps = wander_steps(Metres{loop.length * static_cast<double>(cells)}, cells, pace.spread.within,
                                  pace.spread.within_length);
  std::size_t first = 0;
  while (first < pace.at.size() && pace.at[first].loop < l) ++first;
  std::size_t last = first;  // the gate or the finish
  while (pace.events[last].pass) ++last;
  Rng rng(stream(draws.seed, l));
  std::vector<double> z(1 + cells + (last - first) + 3);
  for (std::size_t d = 0; d < draws.days; ++d) {
    standard_normals(rng, z);
    const double of_loop = pace.spread.loop * z[0];
    double now = 0, state = 0;
    std::size_t e = first;
    for (std::size_t i = 0; i < cells; ++i) {
      const double log_pace = of_loop + steps[i].from_state * state + steps[i].from_draw * z[1 + i];
      state = steps[i].keep * state + steps[i].learn * z[1 + i];
      const double factor = std::exp(log_pace);
      for (; e <= last && (i + 1 == cells || pace.at[e].seconds < loop.ends[i + 1]); ++e) {
        draws.riding[e * draws.days + d] = now + factor * std::max(pace.at[e].seconds - loop.ends[i], 0.0);
      }
      now += factor * (loop.ends[i + 1] - loop.ends[i]);
    }
    const double* own = z.data() + 1 + cells;
    for (e = first; e < last; ++e) draws.stand[e * draws.days + d] = drawn(pace.at[e].stand, *own++);
    draws.stand[last * draws.days + d] = drawn(loop.recovery, *own++);
    const double share = uniform(rng);
    const double chance = uniform(rng);
    draws.held_at[l * draws.days + d] = share * loop.ends.back();
    draws.held_for[l * draws.days + d] = chance < pace.settings.held_up ? drawn(pace.settings.hold_up, *own) : 0.0;
  }
}

std::vector<double> draw_normals(const LiveDraws& draws, std::size_t batch) {
  // Apart from the streams of the loops, of which there are fewer.
  Rng rng(stream(draws.seed, 1'000'000 + batch));
  std::vector<double> normals(draws.rows * draws.days);
  standard_normals(rng, normals);
  return normals;
}

}  // namespace

double drawn(const UncertainTime& time, double normal) { return time.median.count() * std::exp(time.log_sd * normal); }

LiveRows live_rows(const LiveDraws& draws) { return {draws.rows - 3, draws.rows - 2, draws.rows - 1}; }

LiveDraws live_draws(const LivePace& pace, Seed seed, std::size_t batches) {
  LiveDraws draws;
  draws.days = std::max<std::size_t>(pace.settings.days, 64);
  draws.seed = seed;
  for (auto* column : {&draws.riding, &draws.stand}) column->assign(pace.events.size() * draws.days, 0.0);
  for (auto* column : {&draws.held_at, &draws.held_for}) column->assign(pace.loops.size() * draws.days, 0.0);
  std::size_t cells = 0;
  for (std::size_t l = 0; l < pace.loops.size(); ++l) {
    cells = std::max(cells, pace.loops[l].ends.size() - 1);
    draw_loop(pace, l, draws);
  }
  draws.rows = 1 + cells + own_rows;
  for (std::size_t k = 0; k < batches; ++k) draws.normals.push_back(draw_normals(draws, k));
  return draws;
}

std::span<const double> normals_of(const LiveDraws& draws, std::size_t batch, std::vector<double>& store) {
  if (batch < draws.normals.size()) return draws.normals[batch];
  store = draw_normals(draws, batch);
  return store;
}

}  // namespace outbye
