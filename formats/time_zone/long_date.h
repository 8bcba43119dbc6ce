// A day as people say it.
#pragma once

#include <string>

#include "core/base/clock.h"

namespace outbye {

// "Saturday 13 June 2026", by the clock.
std::string long_date(Instant at, const Clock& clock);

}  // namespace outbye
