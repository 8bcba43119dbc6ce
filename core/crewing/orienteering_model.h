// Inside of the orienteering solver: the problem with its times shifted, tightened and made strictly increasing, and
// its mirror image, so that one piece of code labels forwards and backwards.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "core/base/interval.h"
#include "core/crewing/orienteering.h"

namespace outbye::orienteering {

// A set of points 0..127.
struct PointSet {
  std::uint64_t low{};
  std::uint64_t high{};
  friend constexpr auto operator<=>(const PointSet&, const PointSet&) = default;
  friend constexpr PointSet operator&(PointSet a, PointSet b) { return {a.low & b.low, a.high & b.high}; }
  friend constexpr PointSet operator|(PointSet a, PointSet b) { return {a.low | b.low, a.high | b.high}; }
  constexpr PointSet without(PointSet b) const { return {low & ~b.low, high & ~b.high}; }
  constexpr bool is_empty() const { return (low | high) == 0; }
  constexpr bool contains(std::size_t i) const { return (((i < 64 ? low : high) >> (i & 63)) & 1U) != 0; }
};
constexpr PointSet point(std::size_t i) {
  return i < 64 ? PointSet{std::uint64_t{1} << i, 0} : PointSet{0, std::uint64_t{1} << (i - 64)};
}

using Time = std::int32_t;
constexpr Time never = 2'000'000'000;  // later than any time in a model

// Points 0..size-1 can be visited; `source` and `sink` stand for the ends. Times are counted from 0 to `horizon`.
struct Model {
  std::size_t size{};
  std::size_t source{};  // == size
  std::size_t sink{};    // == size + 1
  Time horizon{};
  std::vector<Time> arc;  // (size + 2)^2: service at the first plus travel, >= 1; `never` when it cannot be used
  std::vector<std::vector<Interval<Time>>> windows;  // one a point: disjoint, ascending, tightened; source and sink too
  std::vector<std::int64_t> score;                   // mandatory points have `bonus` added; 0 at source and sink
  PointSet mandatory;
  std::vector<std::vector<std::uint8_t>> successors;  // points only, ascending
  // Points that can no longer be visited after starting service at i at a time >= from[k]: gone[k]. Steps ascending.
  struct Reach {
    std::vector<Time> from;
    std::vector<PointSet> gone;
  };
  std::vector<Reach> reach;

  Time arc_time(std::size_t i, std::size_t j) const { return arc[i * (size + 2) + j]; }
  // Earliest start of service at j not before t, or `never`.
  Time next_open(std::size_t j, Time t) const {
    for (const Interval<Time>& w : windows[j]) {
      if (t <= w.to) return t < w.from ? w.from : t;
    }
    return never;
  }
  PointSet unreachable(std::size_t i, Time t) const;
};

struct Prepared {
  Model forward;
  Model backward;                     // mirrored in time: t -> horizon - t, arcs turned round, source and sink swapped
  std::vector<std::size_t> original;  // node of the problem, by point
  std::int64_t bonus{};               // of each mandatory point; more than all other scores together
  std::int64_t grain{1};              // every score is a multiple of it
};

// The problem is known to be well formed. Points that no route can visit are left out.
Prepared prepare(const OrienteeringProblem& problem);

}  // namespace outbye::orienteering
