// Quantiles of samples.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

namespace outbye {

// The `p` quantile (0..1) of a column of at least one value, linear between neighbours. Reorders the column, in linear
// time.
inline double quantile(std::vector<double>& column, double p) {
  const double rank = p * static_cast<double>(column.size() - 1);
  const auto below = static_cast<std::ptrdiff_t>(rank);
  std::nth_element(column.begin(), column.begin() + below, column.end());
  const double low = column[static_cast<std::size_t>(below)];
  const double share = rank - static_cast<double>(below);
  if (share <= 0) return low;
  return low + share * (*std::min_element(column.begin() + below + 1, column.end()) - low);
}

}  // namespace outbye
