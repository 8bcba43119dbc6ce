// What is known of a Gaussian vector, sharpened exactly by measurements of sums of its parts: the measurement step of
// the Kalman filter (R. E. Kalman, 1960). Parts of which nothing is known beforehand are diffuse, treated by exact
// limits rather than large variances (J. Durbin and S. J. Koopman, Time Series Analysis by State Space Methods, 2nd
// ed. 2012, sections 5.2 and 7.2: from memory, and checked against their example of the Nile). Units are the caller's.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "core/base/random.h"

namespace outbye {

struct GaussianBelief {
  std::vector<double> mean;
  std::vector<double> covariance;  // row by row
  std::vector<double> diffuse;     // likewise: times an infinite factor; empty: nothing is diffuse
};

// A sum of parts: what a measurement is of. Indices below the size of the vector, each once.
struct WeightedSum {
  std::vector<std::size_t> parts;
  std::vector<double> weights;
};

// The sum is measured as `value`, with independent noise of that variance (>= 0). Returns the logarithm of the density
// of the value beforehand; for a sum that was diffuse, its exact diffuse limit without the constant -log(2 pi)/2 (so
// R's package KFAS counts). A measurement of what is known without error already changes nothing and returns 0.
double measure(GaussianBelief& belief, const WeightedSum& sum, double value, double noise_variance);

double mean_of(const GaussianBelief& belief, const WeightedSum& sum);
double variance_of(const GaussianBelief& belief, const WeightedSum& sum);  // without the diffuse part

// Draws of some of the parts, all at once: mean + factor x standard normals. The factor is lower triangular.
class GaussianDraws {
 public:
  GaussianDraws(const GaussianBelief& belief, const std::vector<std::size_t>& parts);
  std::size_t size() const { return mean_.size(); }
  // `normals` and `values` have size() elements.
  void draw(const double* normals, double* values) const;
  // One part on many days: normals are by part, then by day; values one a day.
  void draw_column(std::size_t part, std::span<const double> normals, std::size_t days, std::span<double> values) const;

 private:
  std::vector<double> mean_;
  std::vector<double> factor_;
};

}  // namespace outbye
