// Lengths in messages: "340 m", "1.8 km".
#pragma once

#include <string>

#include "core/base/text.h"
#include "core/base/units.h"

namespace outbye {

inline std::string in_words(Metres d) {
  return d < Metres{999.5} ? fixed(d.value, 0) + " m" : fixed(in_kilometres(d), 1) + " km";
}

}  // namespace outbye
