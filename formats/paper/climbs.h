// The climbs of a loop worth naming to its rider.
#pragma once

#include <vector>

#include "core/course/course.h"

namespace outbye {

struct Climb {
  Metres from{};  // along the loop
  Metres to{};
  Metres rise{};
};

// Stretches that rise by `least` or more; a fall of 10 m ends one. Where heights are unknown it counts as level.
std::vector<Climb> climbs_of(const Loop& loop, Metres least = Metres{40});

}  // namespace outbye
