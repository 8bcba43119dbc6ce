// What can be wrong between the fields of a ride, each sound by itself: names used twice or unknown, times that
// contradict each other, numbers of speeds that do not match the loops.
#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "engine/ride.h"

namespace outbye {

void check_ride(const Ride& ride, const std::string& file, std::vector<Problem>& problems);

}  // namespace outbye
