// What to keep of a line that is drawn with fewer points (Douglas and Peucker 1973).
#pragma once

#include <cstddef>
#include <utility>
#include <vector>

namespace outbye {

// Marks in `kept` the points of [first, last] that stray more than `tolerance` from the straight line without them; the
// two ends are the caller's to mark. `off(i, from, to)`: how far point i is from the line between two others, in the
// unit of the tolerance. A stack of our own, because a line may have 100 000 points in the worst order.
template <class Off>
void keep_stray_points(std::size_t first, std::size_t last, double tolerance, const Off& off, std::vector<bool>& kept) {
  std::vector<std::pair<std::size_t, std::size_t>> open{{first, last}};
  while (!open.empty()) {
    const auto [from, to] = open.back();
    open.pop_back();
    double most = tolerance;
    std::size_t stray = from;
    for (std::size_t i = from + 1; i < to; ++i) {
      const double distance = off(i, from, to);
      if (distance > most) {
        most = distance;
        stray = i;
      }
    }
    if (stray == from) continue;
    kept[stray] = true;
    open.emplace_back(from, stray);
    open.emplace_back(stray, to);
  }
}

}  // namespace outbye
