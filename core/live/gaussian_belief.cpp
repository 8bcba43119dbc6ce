#include "core/live/gaussian_belief.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace outbye {
namespace {

constexpr double log_two_pi = 1.8378770664093454836;

// covariance x weights
std::vector<double> times(const std::vector<double>& matrix, const WeightedSum& sum, std::size_t size) {
  std::vector<double> product(size, 0.0);
  for (std::size_t k = 0; k < sum.parts.size(); ++k) {
    const double* const row = matrix.data() + sum.parts[k] * size;  // symmetric: a row is a column
    for (std::size_t i = 0; i < size; ++i) product[i] += sum.weights[k] * row[i];
  }
  return product;
}

double dot(const WeightedSum& sum, const std::vector<double>& vector) {
  double total = 0;
  for (std::size_t k = 0; k < sum.parts.size(); ++k) total += sum.weights[k] * vector[sum.parts[k]];
  return total;
}

// matrix += a b^T + b a^T, halved where both are one: kept symmetric to the last bit.
void add_product(std::vector<double>& matrix, const std::vector<double>& a, const std::vector<double>& b,
                 double factor) {
  const std::size_t size = a.size();
  for (std::size_t i = 0; i < size; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      matrix[i * size + j] += factor * 0.5 * (a[i] * b[j] + a[j] * b[i]);
      matrix[j * size + i] = matrix[i * size + j];
    }
  }
}

}  // namespace

double measure(GaussianBelief& belief, const WeightedSum& sum, double value, double noise_variance) {
  const std::size_t size = belief.mean.size();
  assert(belief.covariance.size() == size * size && noise_variance >= 0);
  const double error = value - dot(sum, belief.mean);
  const std::vector<double> gain = times(belief.covariance, sum, size);
  const double known = dot(sum, gain) + noise_variance;
  if (!belief.diffuse.empty()) {
    const std::vector<double> wide = times(belief.diffuse, sum, size);
    const double infinite = dot(sum, wide);
    if (infinite > 1e-9) {
      for (std::size_t i = 0; i < size; ++i) belief.mean[i] += wide[i] / infinite * error;
      add_product(belief.covariance, wide, wide, known / (infinite * infinite));
      add_product(belief.covariance, wide, gain, -2.0 / infinite);
      add_product(belief.diffuse, wide, wide, -1.0 / infinite);
      return -0.5 * std::log(infinite);
    }
  }
  if (known <= 1e-18) return 0;
  for (std::size_t i = 0; i < size; ++i) belief.mean[i] += gain[i] / known * error;
  add_product(belief.covariance, gain, gain, -1.0 / known);
  return -0.5 * (log_two_pi + std::log(known) + error * error / known);
}

double mean_of(const GaussianBelief& belief, const WeightedSum& sum) { return dot(sum, belief.mean); }

double variance_of(const GaussianBelief& belief, const WeightedSum& sum) {
  return std::max(dot(sum, times(belief.covariance, sum, belief.mean.size())), 0.0);
}

GaussianDraws::GaussianDraws(const GaussianBelief& belief, const std::vector<std::size_t>& parts)
    : mean_(parts.size()), factor_(parts.size() * parts.size(), 0.0) {
  const std::size_t n = parts.size();
  const std::size_t size = belief.mean.size();
  for (std::size_t i = 0; i < n; ++i) mean_[i] = belief.mean[parts[i]];
  // Cholesky's factor of a matrix that may have lost rank: what is known exactly gets a row of zeros.
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double rest = belief.covariance[parts[i] * size + parts[j]];
      for (std::size_t k = 0; k < j; ++k) rest -= factor_[i * n + k] * factor_[j * n + k];
      if (i == j) {
        factor_[i * n + i] = rest > 1e-14 ? std::sqrt(rest) : 0.0;
      } else {
        const double pivot = factor_[j * n + j];
        factor_[i * n + j] = pivot > 0 ? rest / pivot : 0.0;
      }
    }
  }
}

void GaussianDraws::draw(const double* normals, double* values) const {
  const std::size_t n = mean_.size();
  for (std::size_t i = 0; i < n; ++i) {
    double value = mean_[i];
    for (std::size_t k = 0; k <= i; ++k) value += factor_[i * n + k] * normals[k];
    values[i] = value;
  }
}

void GaussianDraws::draw_column(std::size_t part, std::span<const double> normals, std::size_t days,
                                std::span<double> values) const {
  const std::size_t n = mean_.size();
  for (std::size_t d = 0; d < days; ++d) values[d] = mean_[part];
  for (std::size_t k = 0; k <= part; ++k) {
    const double factor = factor_[part * n + k];
    if (factor == 0.0) continue;
    const double* const normal = normals.data() + k * days;
    for (std::size_t d = 0; d < days; ++d) values[d] += factor * normal[d];
  }
}

}  // namespace outbye
