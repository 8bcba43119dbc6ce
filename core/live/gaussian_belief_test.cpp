#include "core/live/gaussian_belief.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <iostream>
#include <string>

#include "core/base/random.h"

namespace outbye {
namespace {

// Two parts of unit variance with correlation r; the first measured exactly as y: the second is N(r y, 1 - r^2).
TEST(GaussianBelief, AgreesWithTheClosedFormOfTwoParts) {
  GaussianBelief belief{{0, 0}, {1, 0.6, 0.6, 1}, {}};
  const double density = measure(belief, {{0}, {1.0}}, 1.5, 0.0);
  EXPECT_NEAR(belief.mean[1], 0.9, 1e-12);
  EXPECT_NEAR(belief.covariance[3], 0.64, 1e-12);
  EXPECT_NEAR(belief.covariance[0], 0.0, 1e-12);
  EXPECT_NEAR(density, -0.5 * (std::log(2.0 * std::acos(-1.0)) + 2.25), 1e-12);
}

// Conditioning on two sums at once by hand, against one after the other.
TEST(GaussianBelief, DoesNotMindTheOrderOfMeasurements) {
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    Rng rng(Seed{seed});
    const std::size_t n = 5;
    std::vector<double> root(n * n);
    standard_normals(rng, root);
    GaussianBelief a{std::vector<double>(n, 0.1), std::vector<double>(n * n, 0.0), {}};
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t j = 0; j < n; ++j) {
        for (std::size_t k = 0; k < n; ++k) a.covariance[i * n + j] += root[i * n + k] * root[j * n + k];
      }
    }
    GaussianBelief b = a;
    const WeightedSum first{{0, 2}, {0.5, 0.5}};
    const WeightedSum second{{1, 2, 4}, {0.2, 0.3, 0.5}};
    const double there = measure(a, first, 0.7, 0.01) + measure(a, second, -0.4, 0.02);
    const double back = measure(b, second, -0.4, 0.02) + measure(b, first, 0.7, 0.01);
    EXPECT_NEAR(there, back, 1e-8);
    for (std::size_t i = 0; i < n; ++i) EXPECT_NEAR(a.mean[i], b.mean[i], 1e-8);
    for (std::size_t i = 0; i < n * n; ++i) EXPECT_NEAR(a.covariance[i], b.covariance[i], 1e-8);
  }
}

TEST(GaussianBelief, NeverKnowsLessAfterAMeasurement) {
  GaussianBelief belief{{0, 0, 0}, {1, 0.5, 0.2, 0.5, 2, 0.3, 0.2, 0.3, 3}, {}};
  double before[3] = {1, 2, 3};
  for (int i = 0; i < 3; ++i) {
    measure(belief, {{0, 1, 2}, {0.3, 0.3 + 0.1 * i, 0.4}}, 0.5, 0.3);
    for (std::size_t k = 0; k < 3; ++k) {
      EXPECT_LE(belief.covariance[k * 3 + k], before[k]);
      before[k] = belief.covariance[k * 3 + k];
    }
  }
}

TEST(GaussianBelief, DrawsWhatItBelieves) {
  const GaussianBelief belief{{1, 2, 3}, {1, 0.5, 0.2, 0.5, 2, 0.3, 0.2, 0.3, 3}, {}};
  const GaussianDraws draws(belief, {2, 0});
  Rng rng(Seed{4});
  double sum[2]{}, square[2]{}, product{};
  const int count = 100'000;
  for (int i = 0; i < count; ++i) {
    double z[2], x[2];
    standard_normals(rng, z);
    draws.draw(z, x);
    for (int k = 0; k < 2; ++k) sum[k] += x[k];
    square[0] += (x[0] - 3) * (x[0] - 3);
    square[1] += (x[1] - 1) * (x[1] - 1);
    product += (x[0] - 3) * (x[1] - 1);
  }
  EXPECT_NEAR(sum[0] / count, 3, 5 * std::sqrt(3.0 / count));
  EXPECT_NEAR(sum[1] / count, 1, 5 * std::sqrt(1.0 / count));
  EXPECT_NEAR(square[0] / count, 3, 0.07);
  EXPECT_NEAR(square[1] / count, 1, 0.03);
  EXPECT_NEAR(product / count, 0.2, 0.03);
}

std::vector<double> nile_flow() {
  std::ifstream in(std::string(OUTBYE_SHARED) + "/data/reference/nile.csv");
  std::vector<double> flow;
  std::string line;
  std::getline(in, line);
  while (std::getline(in, line)) {
    const auto comma = line.find(',');
    if (comma != std::string::npos) flow.push_back(std::stod(line.substr(comma + 1)));
  }
  return flow;
}

constexpr double nile_noise = 15099.0;
constexpr double nile_step = 1469.1;

// Durbin and Koopman 2012, section 2: annual flow of the Nile, local level, variances 15099 and 1469.1. The
// log-likelihood with exact diffuse start is -632.5456 by R's package KFAS.
TEST(GaussianBelief, GivesThePublishedLikelihoodOfTheNile) {
  const auto flow = nile_flow();
  if (flow.empty()) GTEST_SKIP() << "no reference data beside the repository";
  ASSERT_EQ(flow.size(), 100u);
  const std::size_t n = flow.size();
  GaussianBelief levels{std::vector<double>(n, 0.0), std::vector<double>(n * n), std::vector<double>(n * n, 1.0)};
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) levels.covariance[i * n + j] = nile_step * static_cast<double>(std::min(i, j));
  }
  double likelihood = 0;
  for (std::size_t i = 0; i < n; ++i) likelihood += measure(levels, {{i}, {1.0}}, flow[i], nile_noise);
  std::cout << "Nile: log-likelihood " << likelihood << "\n";
  RecordProperty("log_likelihood", std::to_string(likelihood));
  EXPECT_NEAR(likelihood, -632.5456, 5e-5);
}

// The same by a filter over a grid of 100 levels and by 20,000 particles. Both begin after the first year's flow, from
// N(flow, noise), which is what the diffuse start comes to.
double by_grid(const std::vector<double>& flow, std::size_t cells) {
  const double low = 400, high = 1450, width = (high - low) / static_cast<double>(cells);
  const auto level = [&](std::size_t k) { return low + (static_cast<double>(k) + 0.5) * width; };
  const auto density = [](double x, double variance) {
    return std::exp(-0.5 * x * x / variance) / std::sqrt(2.0 * std::acos(-1.0) * variance);
  };
  std::vector<double> p(cells);
  for (std::size_t k = 0; k < cells; ++k) p[k] = width * density(level(k) - flow[0], nile_noise);
  double likelihood = 0;  // the first year adds -log(1)/2
  for (std::size_t t = 1; t < flow.size(); ++t) {
    std::vector<double> next(cells, 0.0);
    double total = 0;
    for (std::size_t k = 0; k < cells; ++k) {
      for (std::size_t j = 0; j < cells; ++j) next[k] += p[j] * width * density(level(k) - level(j), nile_step);
      next[k] *= density(flow[t] - level(k), nile_noise);
      total += next[k];
    }
    likelihood += std::log(total);
    for (std::size_t k = 0; k < cells; ++k) p[k] = next[k] / total;
  }
  return likelihood;
}

double by_particles(const std::vector<double>& flow, std::size_t count, Seed seed) {
  Rng rng(seed);
  std::vector<double> level(count), weight(count), next(count);
  for (double& x : level) x = flow[0] + std::sqrt(nile_noise) * standard_normal(rng);
  double likelihood = 0;  // the first year adds -log(1)/2
  for (std::size_t t = 1; t < flow.size(); ++t) {
    double total = 0;
    for (std::size_t k = 0; k < count; ++k) {
      level[k] += std::sqrt(nile_step) * standard_normal(rng);
      const double off = flow[t] - level[k];
      weight[k] = std::exp(-0.5 * off * off / nile_noise) / std::sqrt(2.0 * std::acos(-1.0) * nile_noise);
      total += weight[k];
    }
    likelihood += std::log(total / static_cast<double>(count));
    double reached = 0, mark = uniform(rng);
    std::size_t k = 0;
    for (std::size_t i = 0; i < count; ++i) {
      const double wanted = (static_cast<double>(i) + mark) / static_cast<double>(count) * total;
      while (reached + weight[k] < wanted && k + 1 < count) reached += weight[k++];
      next[i] = level[k];
    }
    level.swap(next);
  }
  return likelihood;
}

TEST(GaussianBelief, IsMatchedByAGridOfAHundredCellsAndLessWellByParticles) {
  const auto flow = nile_flow();
  if (flow.empty()) GTEST_SKIP() << "no reference data beside the repository";
  const double grid = by_grid(flow, 100);
  double mean = 0, square = 0;
  const int runs = 10;
  for (int i = 0; i < runs; ++i) {
    const double l = by_particles(flow, 20'000, Seed{static_cast<std::uint64_t>(i + 1)});
    mean += l / runs;
    square += (l + 632.5456) * (l + 632.5456) / runs;
  }
  std::cout << "Nile: grid of 100 " << grid + 632.5456 << ", particles off by " << std::sqrt(square) << " (rms of "
            << runs << ")\n";
  EXPECT_NEAR(grid, -632.5456, 1e-4);
  EXPECT_LT(std::abs(grid + 632.5456), std::sqrt(square));
}

}  // namespace
}  // namespace outbye
