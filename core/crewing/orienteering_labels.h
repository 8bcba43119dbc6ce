// Inside of the orienteering solver: one pass of label setting over relaxed routes, in one direction.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "core/crewing/orienteering_model.h"

namespace outbye::orienteering {

// What is left of the effort, shared by all passes.
struct Effort {
  std::uint64_t steps{};
  std::uint64_t most_steps{};
  std::uint64_t labels{};
  bool is_spent() const { return steps > most_steps; }
};

// The way on from a point, found by a pass in the other direction: its score without the point itself.
struct Completion {
  std::int64_t score{};
  PointSet seen;  // remembered visits, without the point itself
  Time time{};    // in the clock of the pass that found it
};

// For each point, all undominated ways on, best score first; with them an upper bound on what a label can still become.
class Completions {
 public:
  Completions() = default;
  Completions(std::vector<std::vector<Completion>> at, Time horizon);
  // Could there be a way on from point i at time t (in the clock of the asking pass) worth >= need? Quick: takes no
  // account of the visits made.
  bool may_reach(std::size_t i, Time t, std::int64_t need) const;
  // Is there one that does not meet `seen`?
  bool reaches(std::size_t i, Time t, PointSet seen, std::int64_t need, Effort& effort) const;
  // The best way on, or nothing. After `patience` failures the next candidate is taken as the bound without a check.
  std::optional<std::int64_t> best(std::size_t i, Time t, PointSet seen, std::size_t patience, Effort& effort) const;

 private:
  struct Stair {
    Time time{};
    std::int64_t score{};  // best with a time up to `time`
  };
  std::vector<std::vector<Completion>> at_;
  std::vector<std::vector<Stair>> stairs_;  // ascending in both
  Time horizon_{};
};

struct Incumbent {
  std::vector<std::size_t> points;  // in forward order
  std::int64_t score{-1};           // with bonuses; -1: none yet
};

struct RelaxedRoute {
  std::vector<std::size_t> points;  // in the pass's own order
  std::int64_t score{};
};

struct PassResult {
  bool is_complete{};                // false: stopped by effort or by the number of labels; then nothing below is valid
  std::int64_t bound{};              // no route collects more than this or the incumbent
  std::vector<RelaxedRoute> routes;  // better than the incumbent, best first: they repeat points
  Completions completions;           // for the pass in the other direction
  std::size_t kept{};                // undominated labels
};

struct PassTask {
  const Model* model{};
  bool is_forward{};
  const std::vector<PointSet>* memory{};  // by point: the visits it does not forget (itself included)
  const Completions* ahead{};             // from a pass the other way, or null
  std::int64_t grain{1};
  std::int64_t floor{};  // routes worth less are of no use (all mandatory points are in at this score)
  std::uint64_t most_labels{};
  std::size_t most_routes{300};
};

// Improves the incumbent when it meets a better real route on its way.
PassResult run_pass(const PassTask& task, Incumbent& incumbent, Effort& effort);

// A real route that is good (if better than the incumbent), by keeping the `width` most promising partial routes of
// each length.
void run_beam(const Model& model, bool is_forward, const Completions& ahead, std::size_t width, std::int64_t floor,
              Incumbent& incumbent, Effort& effort);

}  // namespace outbye::orienteering
