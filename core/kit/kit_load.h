// The list as things for a boot: each piece by itself, "Jerrycan 10 L 2".
#pragma once

#include <vector>

#include "core/kit/choose_kit.h"
#include "core/load/load_task.h"

namespace outbye {

// Pieces of the taken things, in the order of the list. `first_needed` counts the stops of KitFacts::stops in their
// order; things for emergencies are reached in no moves.
std::vector<LoadItem> load_items(const KitList& list);

}  // namespace outbye
