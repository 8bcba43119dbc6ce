// The zones of the tz database alone, so that a build without one (WebAssembly) can do without this file's source.
#pragma once

#include <string_view>

#include "core/base/clock.h"

namespace outbye {

// clock_for_zone() for a name that is neither UTC nor a plain offset.
Result<Clock> clock_of_named_zone(std::string_view zone, Instant around);

}  // namespace outbye
