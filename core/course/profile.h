// Heights along a loop, evenly sampled and smoothed; gradient and climb from them.
#pragma once

#include <vector>

#include "core/course/course.h"

namespace outbye {

// Samples at 0, step, 2 step ... and at the end of the loop (the last interval may be shorter; its gradient is rise
// over its true length). Between two points with heights the height runs straight; across points without, only when the
// hole is no longer than `smoothing`. Each sample is the mean height over `smoothing` around it (less near the ends of
// what is known, evenly on both sides, so that a steady slope stays what it is). `points` as in Loop: at least two,
// along ascending from 0. step > 0.
Profile make_profile(const std::vector<CoursePoint>& points, Metres step, Metres smoothing);

struct Climb {
  Metres up{};
  Metres down{};  // positive
};

// Sums the swings between highs and lows that are at least `threshold` apart in height; unknown samples split the
// profile. Swings below the threshold (noise of a few metres) count for nothing, wherever they lie.
Climb climb_of(const std::vector<std::optional<Metres>>& elevation, Metres threshold);

}  // namespace outbye
