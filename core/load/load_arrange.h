// Exact: is there any way at all to put a few boxes into a space so that they do not overlap?
#pragma once

#include <cstddef>
#include <vector>

#include "core/load/load_search.h"

namespace outbye {

enum class Arrangement { none, exists, unknown };

// Branches on pairs: two boxes that would overlap at their least coordinates must be apart along one of three axes, one
// way round or the other. Nothing may be over what bears nothing: with full support it would press on it.
Arrangement arrange(const LoadTask& task, LoadSpaceId space, const std::vector<LoadItemId>& items,
                    std::size_t most_nodes, LoadWork& work);

}  // namespace outbye
