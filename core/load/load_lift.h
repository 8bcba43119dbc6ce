// Who may lift what, by the filter of the Health and Safety Executive (a filter, not a limit in law).
#pragma once

#include <string>

#include "core/load/load_task.h"

namespace outbye {

// By the height of the hands above the ground. The bands are the filter's; where they lie on a person is from memory:
// low leg below 500 mm, knuckle below 850, elbow below 1200, shoulder below 1500, overhead from there.
Kilograms lift_filter(LiftFilter filter, Millimetres hands_above_ground);

struct LiftAdvice {
  enum class Way { one, two, nobody, no_helpers } way{Way::no_helpers};
  std::string words;  // "Ann", "Ann and Bob together", "nobody here within the filter"
};

// Lifting a thing over the lip to where it stands: the stricter of the two heights counts. Hands halfway up the thing.
LiftAdvice advise_lift(const LoadTask& task, const LoadSpace& space, const LoadItem& item, const LoadBox& box);

}  // namespace outbye
