// Passes over a finished network that later searches lean on. Used by the builder.
#pragma once

#include "core/roads/road_graph.h"

namespace outbye {

// Marks the edges whose two ends lie in one large strongly connected component: at least a tenth of the largest
// (Tarjan, SIAM J. Computing 1 (1972) 146-160).
void mark_joined(RoadGraphParts& parts);

// Marks the nodes in dead-end branches: a drive enters one only to stop in it. Nodes at and next to turn restrictions
// are never marked, since turning round in a dead end may be the only legal way on there.
void mark_dead_ends(RoadGraphParts& parts);

// Cells of at least 150 m, about two for each edge.
void make_grid(RoadGraphParts& parts);

}  // namespace outbye
