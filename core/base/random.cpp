#include "core/base/random.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>

namespace outbye {
namespace {

double polynomial(const double (&c)[8], double x) {  // written out, so that a loop over many x becomes vector code
  return ((((((c[7] * x + c[6]) * x + c[5]) * x + c[4]) * x + c[3]) * x + c[2]) * x + c[1]) * x + c[0];
}

// Algorithm AS 241, split at its own border so that standard_normals() can do the middle for many at once.
constexpr double middle = 0.425;

double middle_quantile(double q) {  // q = p - 0.5, |q| <= middle
  static constexpr double a[] = {3.3871328727963666080e0, 1.3314166789178437745e2, 1.9715909503065514427e3,
                                 1.3731693765509461125e4, 4.5921953931549871457e4, 6.7265770927008700853e4,
                                 3.3430575583588128105e4, 2.5090809287301226727e3};
  static constexpr double b[] = {1.0,
                                 4.2313330701600911252e1,
                                 6.8718700749205790830e2,
                                 5.3941960214247511077e3,
                                 2.1213794301586595867e4,
                                 3.9307895800092710610e4,
                                 2.8729085735721942674e4,
                                 5.2264952788528545610e3};
  const double r = 0.180625 - q * q;
  return q * polynomial(a, r) / polynomial(b, r);
}

double tail_quantile(double p, double q) {
  static constexpr double c[] = {1.42343711074968357734e0,  4.63033784615654529590e0, 5.76949722146069140550e0,
                                 3.64784832476320460504e0,  1.27045825245236838258e0, 2.41780725177450611770e-1,
                                 2.27238449892691845833e-2, 7.74545014278341407640e-4};
  static constexpr double d[] = {1.0,
                                 2.05319162663775882187e0,
                                 1.67638483018380384940e0,
                                 6.89767334985100004550e-1,
                                 1.48103976427480074590e-1,
                                 1.51986665636164571966e-2,
                                 5.47593808499534494600e-4,
                                 1.05075007164441684324e-9};
  static constexpr double e[] = {6.65790464350110377720e0,  5.46378491116411436990e0,  1.78482653991729133580e0,
                                 2.96560571828504891230e-1, 2.65321895265761230930e-2, 1.24266094738807843860e-3,
                                 2.71155556874348757815e-5, 2.01033439929228813265e-7};
  static constexpr double f[] = {1.0,
                                 5.99832206555887937690e-1,
                                 1.36929880922735805310e-1,
                                 1.48753612908506148525e-2,
                                 7.86869131145613259100e-4,
                                 1.84631831751005468180e-5,
                                 1.42151175831644588870e-7,
                                 2.04426310338993978564e-15};
  double r = std::sqrt(-std::log(q < 0 ? p : 1.0 - p));
  double z = 0;
  if (r <= 5.0) {
    r -= 1.6;
    z = polynomial(c, r) / polynomial(d, r);
  } else {
    r -= 5.0;
    z = polynomial(e, r) / polynomial(f, r);
  }
  return q < 0 ? -z : z;
}

}  // namespace

std::uint64_t uniform_below(Rng& rng, std::uint64_t n) {
  assert(n >= 1);
  const std::uint64_t limit = UINT64_MAX - UINT64_MAX % n;
  std::uint64_t x = rng.next();
  while (x >= limit) x = rng.next();
  return x % n;
}

double standard_normal_quantile(double p) {
  assert(p > 0.0 && p < 1.0);
  const double q = p - 0.5;
  return std::fabs(q) <= middle ? middle_quantile(q) : tail_quantile(p, q);
}

double standard_normal_cdf(double z) { return 0.5 * std::erfc(-z * 0.70710678118654752440); }

double standard_normal(Rng& rng) { return standard_normal_quantile(uniform(rng)); }

void standard_normals(Rng& rng, std::span<double> values) {
  constexpr std::size_t batch = 64;
  double p[batch];
  std::size_t tails[batch];
  while (!values.empty()) {
    const std::size_t n = std::min(batch, values.size());
    for (std::size_t i = 0; i < n; ++i) p[i] = uniform(rng);
    double* const z = values.data();
    if (n == batch) {
      for (std::size_t i = 0; i < batch; ++i) z[i] = middle_quantile(p[i] - 0.5);
    } else {
      for (std::size_t i = 0; i < n; ++i) z[i] = middle_quantile(p[i] - 0.5);
    }
    std::size_t count = 0;
    for (std::size_t i = 0; i < n; ++i) {
      tails[count] = i;  // without a branch: one in seven is a tail, and no processor guesses which
      count += std::fabs(p[i] - 0.5) <= middle ? 0u : 1u;
    }
    for (std::size_t i = 0; i < count; ++i) z[tails[i]] = tail_quantile(p[tails[i]], p[tails[i]] - 0.5);
    values = values.subspan(n);
  }
}

double lognormal(Rng& rng, double median, double log_sd) {
  assert(median > 0 && log_sd >= 0);
  return median * std::exp(log_sd * standard_normal(rng));
}

}  // namespace outbye
