#include "core/pace/within_loop.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace outbye {

double mean_variance_share(double u) {
  assert(u >= 0);
  // The closed form loses digits below 1e-3, where the series is good to 1e-13.
  if (u < 1e-3) return 1.0 - u / 3.0 + u * u / 12.0 - u * u * u / 60.0;
  return 2.0 * (u + std::expm1(-u)) / (u * u);
}

std::vector<WanderStep> wander_steps(Metres course, std::size_t pieces, double sd, Metres length) {
  assert(course.value > 0 && pieces >= 1 && sd >= 0 && length.value > 0);
  const double u = course.value / static_cast<double>(pieces) / length.value;
  const double f = std::exp(-u);
  const double c = u > 0 ? -std::expm1(-u) / u : 1.0;
  const double mean_noise = std::max(mean_variance_share(u) - c * c, 0.0);
  const double state_noise = -std::expm1(-2.0 * u);
  const double shared_noise = c * -std::expm1(-u);
  std::vector<WanderStep> steps;
  steps.reserve(pieces);
  double p = 1.0;  // variance of X at the start of the piece given the means before it, as a share of sd^2
  for (std::size_t i = 0; i < pieces; ++i) {
    const double seen = std::sqrt(c * c * p + mean_noise);
    const double learn = (c * f * p + shared_noise) / seen;
    steps.push_back({c, sd * seen, f, sd * learn});
    p = std::max(f * f * p + state_noise - learn * learn, 0.0);
  }
  return steps;
}

}  // namespace outbye
