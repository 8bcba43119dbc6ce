#include "core/pace/within_loop.h"

#include <gtest/gtest.h>

#include <cmath>

namespace outbye {
namespace {

// The gains are a triangular map from independent draws to the means of the pieces; its covariance must be the closed
// form for means of an Ornstein-Uhlenbeck process over neighbouring stretches.
TEST(WanderSteps, GiveTheExactCovarianceOfPieces) {
  for (const double length_km : {0.7, 6.0, 200.0}) {
    constexpr std::size_t pieces = 12;
    constexpr double sd = 0.06;
    const auto steps = wander_steps(kilometres(24), pieces, sd, kilometres(length_km));
    // mean[i][k]: how much draw k moves the mean of piece i
    double mean[pieces][pieces] = {};
    double state[pieces] = {};
    for (std::size_t i = 0; i < pieces; ++i) {
      for (std::size_t k = 0; k < pieces; ++k) {
        mean[i][k] = steps[i].from_state * state[k] + (k == i ? steps[i].from_draw : 0.0);
        state[k] = steps[i].keep * state[k] + (k == i ? steps[i].learn : 0.0);
      }
    }
    const double u = 2.0 / length_km;
    const double c = (1 - std::exp(-u)) / u;
    for (std::size_t i = 0; i < pieces; ++i) {
      for (std::size_t j = i; j < pieces; ++j) {
        double covariance = 0;
        for (std::size_t k = 0; k < pieces; ++k) covariance += mean[i][k] * mean[j][k];
        const double apart = static_cast<double>(j - i) - 1.0;
        const double closed =
            i == j ? sd * sd * 2 * (u - 1 + std::exp(-u)) / (u * u) : sd * sd * c * c * std::exp(-apart * u);
        EXPECT_NEAR(covariance, closed, 1e-13) << i << ' ' << j << " at " << length_km << " km";
      }
    }
  }
}

TEST(MeanVarianceShare, IsOneForAPointAndFallsWithTheStretch) {
  EXPECT_EQ(mean_variance_share(0), 1.0);
  EXPECT_NEAR(mean_variance_share(0.000999), mean_variance_share(0.001001), 1e-6);
  EXPECT_NEAR(mean_variance_share(1e-3), 2 * (1e-3 + std::expm1(-1e-3)) / 1e-6, 1e-9);
  double before = 1;
  for (double u = 0.1; u < 100; u *= 1.5) {
    EXPECT_LT(mean_variance_share(u), before);
    before = mean_variance_share(u);
  }
  EXPECT_NEAR(mean_variance_share(1e6), 2e-6, 1e-11);
}

TEST(WanderSteps, AreStillWithoutSpread) {
  for (const auto& step : wander_steps(kilometres(10), 5, 0, kilometres(6))) {
    EXPECT_EQ(step.from_draw, 0);
    EXPECT_EQ(step.learn, 0);
  }
}

}  // namespace
}  // namespace outbye
