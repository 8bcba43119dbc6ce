// The list as things for a boot: each piece by itself, "Jerrycan 10 L 2".
#pragma once

#include <cstddef>
#include <vector>

#include "core/kit/choose_kit.h"
#include "core/load/load_task.h"

namespace outbye {

// A thing to load, and the entries of KitList::taken that it is made of, the outermost first: more than one where
// buckets stand in one another.
struct KitPiece {
  LoadItem item;
  std::vector<std::size_t> entries;
};

// Pieces of the taken things, in the order of the list. `first_needed` counts the stops of KitFacts::stops in their
// order; things for emergencies are reached in no moves.
std::vector<KitPiece> load_pieces(const KitList& list);

}  // namespace outbye
