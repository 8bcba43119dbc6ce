// Runs a policy over simulated days, a block of days at a time: every step is a plain loop over floats.
#pragma once

#include <cstddef>
#include <vector>

#include "core/crewing/value_days.h"
#include "core/crewing/value_policy.h"

namespace outbye {

struct RunCounts {
  std::vector<std::size_t> ready;  // days, by stop of Policy::stops
  std::vector<std::size_t> there;
};

class DayRunner {
 public:
  static constexpr std::size_t block = 256;

  // worth[d - from] for the days [from, from + n), n <= block. Adds to `counts`.
  void run(const Policy& policy, const DaySet& days, std::size_t from, std::size_t n, float* worth, RunCounts& counts);

  // Of the last run, by stop of the policy: when the car left, and when the next horse was last met as it knew.
  float left(std::size_t stop, std::size_t d) const { return left_[stop * block + d]; }
  float known(std::size_t stop, std::size_t d) const { return known_[stop * block + d]; }

 private:
  void serve(const Policy& policy, std::size_t s, const DaySet& days, std::size_t from, std::size_t n, float* worth,
             RunCounts& counts);
  void drive_on(const Policy& policy, std::size_t s, const DaySet& days, std::size_t from, std::size_t n);
  static const float* factor(const PolicyStop& to, const DaySet& days, std::size_t from);

  std::vector<float> arrive_;  // by stop: never on days when the car does not go there
  std::vector<float> left_;
  std::vector<float> known_;
  std::vector<float> seen_;   // by horse: when it was last met, or would have been if all had gone as expected
  std::vector<float> shift_;  // by horse: what it has stood at meets
  std::vector<float> help_;   // by horse: km of its last help
};

}  // namespace outbye
