#include "core/base/random.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>

namespace outbye {
namespace {

// The 10000th number of a default-seeded mt19937_64 is fixed by the C++ standard, [rand.predef].
TEST(Rng, IsTheStandardEngine) {
  Rng rng{Seed{std::mt19937_64::default_seed}};
  std::uint64_t last = 0;
  for (int i = 0; i < 10000; ++i) last = rng.next();
  EXPECT_EQ(last, 9981545732273789042ULL);
}

// Wichura (1988) gives these three check values with AS 241.
TEST(NormalQuantile, GivesThePublishedCheckValues) {
  EXPECT_NEAR(standard_normal_quantile(0.25), -0.6744897501960817, 1e-15);
  EXPECT_NEAR(standard_normal_quantile(0.001), -3.090232306167814, 1e-14);
  EXPECT_NEAR(standard_normal_quantile(1e-20), -9.262340089798408, 1e-13);
}

TEST(NormalQuantile, IsTheInverseOfTheDistributionFunction) {
  for (double z = -6.0; z <= 5.0; z += 0.37) {
    const double p = standard_normal_cdf(z);
    EXPECT_NEAR(standard_normal_quantile(p), z, 1e-9) << z;
  }
}

TEST(StandardNormal, HasMeanZeroAndVarianceOne) {
  Rng rng{Seed{7}};
  const int n = 200000;
  double sum = 0;
  double squares = 0;
  for (int i = 0; i < n; ++i) {
    const double z = standard_normal(rng);
    sum += z;
    squares += z * z;
  }
  EXPECT_NEAR(sum / n, 0.0, 4.0 / std::sqrt(n));
  EXPECT_NEAR(squares / n, 1.0, 4.0 * std::sqrt(2.0 / n));
}

TEST(Shuffle, IsAPermutationAndTheSameForTheSameSeed) {
  std::vector<int> first(100);
  std::iota(first.begin(), first.end(), 0);
  auto second = first;
  Rng rng_a{Seed{3}};
  Rng rng_b{Seed{3}};
  shuffle(first, rng_a);
  shuffle(second, rng_b);
  EXPECT_EQ(first, second);
  EXPECT_FALSE(std::is_sorted(first.begin(), first.end()));
  std::sort(first.begin(), first.end());
  for (int i = 0; i < 100; ++i) EXPECT_EQ(first[static_cast<std::size_t>(i)], i);
}

TEST(StandardNormals, AreTheSameValuesAsOneByOne) {
  for (const std::size_t n : {1u, 63u, 64u, 65u, 1000u}) {
    Rng one_by_one{Seed{n}}, at_once{Seed{n}};
    std::vector<double> values(n);
    standard_normals(at_once, values);
    for (const double value : values) EXPECT_EQ(value, standard_normal(one_by_one));
    EXPECT_EQ(at_once.next(), one_by_one.next());
  }
}

}  // namespace
}  // namespace outbye
