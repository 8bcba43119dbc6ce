// Expected riding time along a loop, without stops or chance: length / (speed x slope x going x heat), summed over
// pieces in which all of them are constant.
#pragma once

#include <vector>

#include "core/base/units.h"
#include "core/course/course.h"
#include "core/pace/pace.h"

namespace outbye {

// Which causes count: pace_effects leaves them out one after another.
struct Causes {
  bool hills{true};
  bool going{true};
  bool heat{true};
};

class LoopClock {
 public:
  // The pace must have passed check_pace().
  LoopClock(const Loop& loop, const LoopPace& pace, Causes causes = {});

  // Riding time from the start of the loop to `along`, clamped to the loop. Ascends strictly.
  Seconds at(Metres along) const;
  Seconds total() const { return Seconds{elapsed_.back()}; }

 private:
  std::vector<double> along_;    // metres, from 0 to the length of the loop
  std::vector<double> elapsed_;  // seconds there, linear in between
};

}  // namespace outbye
