// Random numbers that are the same natively and as WebAssembly: a standard engine, our own distributions.
// The standard library's distributions and shuffle give other numbers in other libraries, so they are not used.
#pragma once

#include <cstddef>
#include <cstdint>
#include <random>
#include <span>
#include <utility>
#include <vector>

namespace outbye {

struct Seed {
  std::uint64_t value{};
};

class Rng {
 public:
  explicit Rng(Seed seed) : engine_(seed.value) {}
  std::uint64_t next() { return engine_(); }

 private:
  std::mt19937_64 engine_;  // its output is fixed by the C++ standard (26.6.6)
};

// Uniform in the open interval (0, 1), on a grid of 2^-53 shifted by half a step. One draw.
inline double uniform(Rng& rng) { return (static_cast<double>(rng.next() >> 11) + 0.5) * 0x1p-53; }

// Uniform in [0, n), n >= 1. Unbiased by rejection.
std::uint64_t uniform_below(Rng& rng, std::uint64_t n);

// Quantile of the standard normal, 0 < p < 1; relative error below 1e-15.
// Wichura, Algorithm AS 241, Applied Statistics 37 (1988) 477-484.
double standard_normal_quantile(double p);
// Distribution function of the standard normal.
double standard_normal_cdf(double z);

// Standard normal by inversion. One draw.
double standard_normal(Rng& rng);

// Fills with standard normals: the same values as that many calls of standard_normal(), in half the time.
void standard_normals(Rng& rng, std::span<double> values);

// Lognormal with the given median (> 0) and standard deviation of its logarithm (>= 0). One draw.
double lognormal(Rng& rng, double median, double log_sd);

// Fisher and Yates' shuffle.
template <class T>
void shuffle(std::vector<T>& items, Rng& rng) {
  for (std::size_t i = items.size(); i > 1; --i) {
    const auto j = static_cast<std::size_t>(uniform_below(rng, i));
    std::swap(items[i - 1], items[j]);
  }
}

}  // namespace outbye
