// From filled spaces to the answer: the order of loading, the way to each thing, balance and cautions.
#pragma once

#include <vector>

#include "core/load/load_room.h"

namespace outbye {

// One room a space, in the task's order; `left` what stays at home.
void finish_load(const LoadTask& task, std::vector<LoadRoom> rooms, std::vector<LoadItemId> left, Load& load);

}  // namespace outbye
