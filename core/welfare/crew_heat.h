// Heat for the people of the crew: the reference limits of WBGT in ISO 7243:2017 by how hard they work. A screening
// method for adults fit for the work, over up to 8 hours, not for very short exposures (abstract of the standard). The
// figures are from memory. Not for horses.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/physical_units.h"

namespace outbye {

enum class WorkRate { rest, low, moderate, high, very_high };
std::string_view work_rate_name(WorkRate rate);     // "moderate work"
std::string_view work_rate_example(WorkRate rate);  // "carrying buckets, walking the horse"

// The WBGT above which that work asks for rest, shade or other hands.
Celsius crew_limit(WorkRate rate, bool acclimatised);

struct CrewHeat {
  std::vector<WorkRate> above_limit;   // work rates over their limit, lightest first
  std::vector<std::string> sentences;  // what to tell the crew; empty when nothing is over its limit
  std::string source;                  // with its scope and mark
};
CrewHeat crew_heat(Celsius wbgt, bool acclimatised);

}  // namespace outbye
