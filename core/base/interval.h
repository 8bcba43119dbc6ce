// A closed interval [from, to] of anything ordered. Empty when to < from.
#pragma once

#include <algorithm>

namespace outbye {

template <class T>
struct Interval {
  T from{};
  T to{};
  friend constexpr bool operator==(const Interval&, const Interval&) = default;
  constexpr bool is_empty() const { return to < from; }
  constexpr bool contains(const T& x) const { return !(x < from) && !(to < x); }
};

template <class T>
constexpr Interval<T> intersection(const Interval<T>& a, const Interval<T>& b) {
  return {std::max(a.from, b.from), std::min(a.to, b.to)};
}

}  // namespace outbye
