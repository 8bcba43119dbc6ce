#include "formats/paper/climbs.h"

#include <algorithm>

namespace outbye {

std::vector<Climb> climbs_of(const Loop& loop, Metres least) {
  constexpr double ends_at = 10.0;
  std::vector<Climb> climbs;
  const auto& heights = loop.profile.elevation;
  std::optional<double> height;
  std::size_t low_at = 0, high_at = 0;
  double low = 0, high = 0;
  const auto along = [&](std::size_t i) { return std::min(static_cast<double>(i) * loop.profile.step, loop.length); };
  const auto close = [&] {
    if (height && high - low >= least.value) climbs.push_back({along(low_at), along(high_at), Metres{high - low}});
  };
  for (std::size_t i = 0; i < heights.size(); ++i) {
    const double now = heights[i] ? heights[i]->value : height.value_or(0);
    if (!heights[i] && !height) continue;
    if (!height) {
      low = high = now;
      low_at = high_at = i;
    }
    height = now;
    if (now > high) {
      high = now;
      high_at = i;
    }
    const bool is_over = now < high - ends_at;
    if (now < low || is_over) {
      if (is_over) close();
      low = high = now;
      low_at = high_at = i;
    } else if (high == low) {
      low_at = high_at = i;  // a climb begins where the level ground ends
    }
  }
  close();
  return climbs;
}

}  // namespace outbye
