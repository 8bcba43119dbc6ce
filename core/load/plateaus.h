// Where something may stand. With each base wholly supported and loading from below, nothing hangs over an empty place:
// what lies there is a height at each spot of the floor, and every empty space reaches up to the ceiling. So the
// maximal empty spaces are the maximal rectangles of the plateaus, which are few and cheap to keep.
#pragma once

#include <cstdint>
#include <vector>

namespace outbye {

struct Plateau {
  std::int16_t x1{};
  std::int16_t y1{};
  std::int16_t x2{};
  std::int16_t y2{};
  std::int16_t z{};
  bool is_dead{false};  // nothing left fits; kept because a neighbour's top may still make it larger
};

// Takes the rectangle `base` (at its height) out of the plateaus: something stands there now.
void cut_plateaus(std::vector<Plateau>& plateaus, const Plateau& base);

// Adds a top and every larger rectangle that it makes with the tops of the same height beside it.
void merge_plateau(std::vector<Plateau>& plateaus, const Plateau& top);

}  // namespace outbye
