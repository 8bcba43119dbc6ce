// One route with time windows that collects the most score: the orienteering problem with time windows. Exact.
// Times are whole ticks of any unit (tenths, seconds), scores whole points of any unit, so nothing is rounded inside.
// Travel times may differ by direction and need not obey the triangle inequality: a route drives only the arcs it
// names.
//
// Method: label setting on routes that forget visits outside a neighbourhood of each point ("ng-routes"; Baldacci,
// Mingozzi and Roberti, Operations Research 59(5), 2011), forwards and backwards in turn. Each pass discards what
// cannot beat the best route known even with the best completion that the pass before found in the other direction; the
// neighbourhoods grow by the cycles of the best relaxed routes (decremental state space relaxation; Righini and Salani,
// Networks 51(3), 2008) until no relaxed route is better than a real one. That proves the optimum.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "core/base/interval.h"
#include "core/base/result.h"

namespace outbye {

using Ticks = std::int64_t;

struct OrienteeringNode {
  std::vector<Interval<Ticks>> windows;  // for the start of service; empty windows are ignored, none: never
  Ticks service{};                       // >= 0
  std::int64_t score{};                  // 0 .. 2^40
  bool is_mandatory{};                   // a route without it is no route
};

struct OrienteeringProblem {
  static constexpr Ticks no_way = -1;

  std::vector<OrienteeringNode> nodes;  // at most 128 besides start and end
  std::size_t start{};        // index of the node where the route starts; its windows, service and score are unused
  std::size_t end{};          // likewise; may be the same node
  Ticks leave_from{};         // not before
  Ticks back_by{};            // at `end`; at most 2^22 ticks after leave_from
  std::vector<Ticks> travel;  // nodes x nodes, row: from; >= 0 or no_way; the diagonal is not used
};

// A step is a label made or a comparison of two. Core has no clock: effort is what can be limited and replayed.
// 10^9 steps take very roughly three seconds.
struct OrienteeringLimits {
  std::uint64_t steps{5'000'000'000};
  std::uint64_t labels{4'000'000};  // alive at once in one pass, about 64 bytes each
  std::size_t first_memory{12};     // near points that the second pass does not forget; moves effort, never the score
};

struct OrienteeringAnswer {
  std::vector<std::size_t> route;    // from start to end, both included
  std::vector<Ticks> service_start;  // one a stop of the route, as early as can be; for the end: the arrival
  std::int64_t score{};
  std::int64_t upper_bound{};  // no route collects more; equal to score when proven
  bool is_proven{};
  std::uint64_t labels{};  // made in all
  std::uint64_t steps{};
  int passes{};
};

// Errors: sizes, ranges and indices (bad_input, naming the node); no route at all, or none with every mandatory node
// (impossible: proven, unless the message says that the effort limit came first).
Result<OrienteeringAnswer> solve_orienteering(const OrienteeringProblem& problem,
                                              const OrienteeringLimits& limits = {});

}  // namespace outbye
