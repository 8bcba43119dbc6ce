// The answer of core/live against brute force on random situations: days drawn finely and kept only when they agree
// with everything noted. Nothing is shared with the code under test but the random numbers.
#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

#include "core/live/live_days.h"
#include "core/pace/test_course.h"

namespace outbye {
namespace {

// One loop of 30 km, level, at 12 km/h; our horse was seen at CP1, rider 17 at CP1 and CP2, CP2 is watched in vain, and
// word came from CP3 or not. Question: gone by CP2 at `now`, and when is she due at CP3?
struct Situation {
  double cp[3];  // m
  double seen1;  // s
  double rider1, rider2;
  bool has_rider, has_word;
  double watch_from, now, overlook;
  double word_at, doubt, trust;
};

constexpr double speed = 12.0 / 3.6;
constexpr std::size_t fine = 60;    // cells of 500 m
constexpr double tolerance = 30.0;  // s: an exact sighting is taken as met within this

// Ornstein-Uhlenbeck on a grid of cells, stationary.
void wander(Rng& rng, double sd, double* x) {
  const double keep = std::exp(-500.0 / 6000.0);
  x[0] = sd * standard_normal(rng);
  for (std::size_t i = 1; i < fine; ++i)
    x[i] = keep * x[i - 1] + sd * std::sqrt(1 - keep * keep) * standard_normal(rng);
}

double ride_to(const double* x, double level, double metres) {
  double seconds = 0;
  for (std::size_t i = 0; i < fine && 500.0 * static_cast<double>(i) < metres; ++i) {
    const double part = std::min(metres - 500.0 * static_cast<double>(i), 500.0);
    seconds += part / speed * std::exp(level + x[i]);
  }
  return seconds;
}

struct Brute {
  double gone{}, weight{}, squares{}, due{}, due_square{};
  double effective() const { return squares > 0 ? weight * weight / squares : 0; }
};

// The sum of what all share and what is one's own has the variances of PaceSpread; half of each is shared.
Brute brute(const Situation& s, std::size_t days, Rng& rng) {
  const double half = std::sqrt(0.5);
  Brute b;
  double shared[fine], own[fine], x[fine], other[fine];
  for (std::size_t d = 0; d < days; ++d) {
    const double shared_level = half * std::hypot(0.08, 0.041) * standard_normal(rng);
    const double level = shared_level + half * std::hypot(0.08, 0.041) * standard_normal(rng);
    wander(rng, half * 0.06, shared);
    wander(rng, half * 0.06, own);
    for (std::size_t i = 0; i < fine; ++i) x[i] = shared[i] + own[i];
    const double t1 = ride_to(x, level, s.cp[0]);
    if (std::fabs(t1 - s.seen1) > tolerance) continue;
    double weight = 1;
    if (s.has_rider) {
      // Given all else the rider's own level is Gaussian: weigh by a tolerance again.
      const double rider = shared_level + std::hypot(half * std::hypot(0.08, 0.041), 0.15) * standard_normal(rng);
      wander(rng, half * 0.06, own);
      for (std::size_t i = 0; i < fine; ++i) other[i] = shared[i] + own[i];
      const double took = ride_to(other, rider, s.cp[1]) - ride_to(other, rider, s.cp[0]);
      const double off = (took - (s.rider2 - s.rider1)) / tolerance;
      weight = std::exp(-0.5 * off * off);
      if (weight < 1e-6) continue;
    }
    // From where she was really seen.
    const double t2 = s.seen1 + ride_to(x, level, s.cp[1]) - t1;
    const double t3 = s.seen1 + ride_to(x, level, s.cp[2]) - t1;
    if (t2 >= s.watch_from && t2 <= s.now) weight *= s.overlook;
    if (s.has_word) {
      const double off = (s.word_at - t3) / s.doubt;
      weight *=
          s.trust * std::exp(-0.5 * off * off) / (s.doubt * std::sqrt(2 * std::acos(-1.0))) + (1 - s.trust) / 7200.0;
    }
    b.weight += weight;
    b.squares += weight * weight;
    b.gone += t2 <= s.now ? weight : 0;
    b.due += weight * t3;
    b.due_square += weight * t3 * t3;
  }
  if (b.weight > 0) {
    b.gone /= b.weight;
    b.due /= b.weight;
    b.due_square = b.due_square / b.weight - b.due * b.due;
  }
  return b;
}

TEST(LiveAgainstBruteForce, AgreesWithinSamplingErrorOn200Situations) {
  std::size_t situations = 0;
  double square_gone = 0, square_due = 0, worst = 0;
  for (std::uint64_t seed = 1; situations < 200 && seed <= 400; ++seed) {
    Rng rng(Seed{seed});
    Situation s{};
    s.cp[0] = 6000 + 4000 * uniform(rng);
    s.cp[1] = s.cp[0] + 5000 + 5000 * uniform(rng);
    s.cp[2] = s.cp[1] + 4000 + 5000 * uniform(rng);
    // A day that may be: its own draw of every part.
    const double level = 0.09 * standard_normal(rng);
    s.seen1 = s.cp[0] / speed * std::exp(level);
    const double t2 = s.seen1 + (s.cp[1] - s.cp[0]) / speed * std::exp(level + 0.05 * standard_normal(rng));
    s.has_rider = uniform(rng) < 0.5;
    s.rider1 = s.seen1 + 600 * (uniform(rng) - 0.5);
    s.rider2 = s.rider1 + (s.cp[1] - s.cp[0]) / speed * std::exp(0.12 * standard_normal(rng));
    s.now = t2 + 300 * standard_normal(rng);
    s.watch_from = s.now - 1200 * uniform(rng);
    s.overlook = 0.02 + 0.3 * uniform(rng);
    s.has_word = uniform(rng) < 0.3;
    s.word_at = s.seen1 + (s.cp[2] - s.cp[0]) / speed * std::exp(level + 0.05 * standard_normal(rng));
    s.doubt = 60 + 240 * uniform(rng);
    s.trust = 0.5 + 0.45 * uniform(rng);
    const Brute b = brute(s, s.has_rider ? 60'000 : 20'000, rng);
    if (b.effective() < 200) continue;
    ++situations;

    Course course = draw_course({{Metres{30000}, {Metres{s.cp[0]}, Metres{s.cp[1]}, Metres{s.cp[2]}}}});
    const HorsePace pace = usual_pace(course);
    LiveSettings settings;
    settings.held_up = 0;
    settings.days = 4096;
    const auto live_of = *live_pace(course, pace, settings);
    const auto at = [&](double seconds) { return pace.start + Seconds{seconds}; };
    DayEvidence evidence;
    evidence.own.push_back({0, at(s.seen1), std::nullopt, std::nullopt, false});
    if (s.has_rider) {
      evidence.riders.push_back({"17", LoopId{0}, Metres{s.cp[0]}, Metres{s.cp[1]}, Seconds{s.rider2 - s.rider1}, 0});
    }
    evidence.watches.push_back({1, at(s.watch_from), at(s.now), s.overlook});
    if (s.has_word) evidence.words.push_back({2, at(s.word_at), at(s.word_at), Seconds{s.doubt}, s.trust});
    const LiveDays live = live_days(live_of, evidence, Seed{seed});
    double gone = 0, due = 0;
    const std::size_t days = live.days.days;
    for (std::size_t d = 0; d < days; ++d) {
      gone += live.days.base[days + d] <= s.now ? live.weight[d] : 0;
      due += live.days.base[2 * days + d] * live.weight[d];
    }
    const double both = 1 / b.effective() + 1 / live.effective;
    const double p = std::clamp(0.5 * (gone + b.gone), 0.02, 0.98);
    const double z_gone = (gone - b.gone) / std::sqrt(p * (1 - p) * both);
    const double z_due = (due - b.due) / std::sqrt(b.due_square * both);
    square_gone += z_gone * z_gone;
    square_due += z_due * z_due;
    worst = std::max({worst, std::fabs(z_gone), std::fabs(z_due)});
    // 5 standard errors, and 5 s for the tolerance of the brute force and the second order of log-time.
    // The error is that of equal days; where few heavy days speak against many light ones (overlooked), it is larger.
    EXPECT_LT(std::fabs(z_gone), 6) << "seed " << seed << ": " << gone << " against " << b.gone;
    EXPECT_LT(std::fabs(due - b.due), 5 * std::sqrt(b.due_square * both) + 5) << "seed " << seed;
  }
  ASSERT_EQ(situations, 200u);
  const double rms_gone = std::sqrt(square_gone / 200), rms_due = std::sqrt(square_due / 200);
  std::cout << "rms of z: gone " << rms_gone << ", due " << rms_due << "; worst " << worst << "\n";
  EXPECT_LT(rms_gone, 1.25);
  EXPECT_LT(rms_due, 1.35);
}

}  // namespace
}  // namespace outbye
