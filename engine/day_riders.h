// Start numbers that are not ours: slips of the finger said, and the time of each rider from place to place. Internal
// to engine.
#pragma once

#include "engine/day_fold.h"

namespace outbye {

// From `riders` of the state, by time: fills in `stretches`.
void settle_riders(const DayFold& fold, DayState& state);

}  // namespace outbye
