// Is a route of the orienteering problem valid, and what does it score? Written from the problem alone, by plain
// simulation: shares no code with the solver.
#pragma once

#include <vector>

#include "core/crewing/orienteering.h"

namespace outbye {

// The score of the route, or the first rule it breaks and where.
Result<std::int64_t> check_route(const OrienteeringProblem& problem, const std::vector<std::size_t>& route);

}  // namespace outbye
