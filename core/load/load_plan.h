// Where each thing goes, in which order it is loaded, what must be moved to reach it, and what stays at home.
//
// Every load obeys: inside and apart; each base wholly on the floor, on a blocked box or on other things; what stands
// on a thing, passed on from above in proportion to the area shared, within what it bears; liquids upright; payload and
// axles; without a guard nothing hard above the cover; loadable step by step, each thing pushed in from the tailgate
// and let down (raised again to take it out); what a stop needs reached in at most k moves, the emergency kit in none.
// Of such loads a better one leaves less behind, then carries its mass lower and further forward.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/load/load_task.h"

namespace outbye {

struct LoadPlacement {
  LoadItemId item;
  LoadSpaceId space;
  LoadBox box;                          // as it stands, turned
  std::vector<LoadItemId> moved_first;  // in this order, to reach it with everything loaded
};

struct LoadLeft {
  LoadItemId item;
  double pain{};
  std::string why;
};

enum class LoadProof {
  all_fit,     // everything is in the boot: the load itself is the proof
  cannot_fit,  // proven that no load of the boot holds everything
  not_proven   // something is left or elsewhere, and perhaps need not be
};

struct LoadBalance {
  Kilograms mass{};
  LoadPoint centre;                   // of mass, rounded to whole millimetres
  std::optional<Kilograms> on_front;  // axle, negative when the load lifts it
  std::optional<Kilograms> on_rear;
};

struct Load {
  std::vector<LoadPlacement> placements;  // in the order of loading: step n is the n-th within its space
  std::vector<LoadLeft> left;             // least painful first
  LoadProof proof{LoadProof::not_proven};
  std::string proof_words;           // "proven: ..." or what is not known
  std::vector<LoadBalance> balance;  // one a space
  Warnings cautions;                 // lifting, straps, sides out of balance, refits
  std::size_t evaluations{};         // placements tried
};

// The core has no clock: the search asks this every few hundred placements and ends at the first false.
using KeepGoing = std::function<bool()>;

struct LoadSearch {
  KeepGoing keep_going;                    // empty: only the count below ends it
  std::size_t max_evaluations{2'000'000};  // placements tried; the same count gives the same load on every machine
};

// Errors: bad_input for sizes, masses and payloads out of range; impossible when a thing that must come along fits
// in no space, or payload is used up: says what to change.
Result<Load> plan_load(const LoadTask& task, const LoadSearch& search = {});

// Every rule that a load breaks, in words; empty when it is good. Shares no code with the search.
std::vector<Problem> check_load(const LoadTask& task, const Load& load);

// One line a placement, as data for drawings and lists.
struct LoadStep {
  int step{};  // 1-based within its space
  LoadItemId item;
  LoadSpaceId space;
  std::string side;    // "left", "middle", "right", "full width"
  std::string depth;   // "against the seat-back", "in the middle", "by the tailgate", "full length"
  std::string on;      // "on the floor", "on jerrycan 1"
  std::string turned;  // "", "turned across", "on its side"
  std::string lift;    // "Ann", "Ann and Bob together", "nobody here within the filter"
  std::string words;   // "step 4: jerrycan 2, left, against the seat-back, on the floor"
};
std::vector<LoadStep> describe(const LoadTask& task, const Load& load);

// Things that are lighter or heavier now: cans emptied on the way, cans refilled.
struct MassChange {
  LoadItemId item;
  Kilograms mass{};
};
struct LoadMove {
  LoadItemId item;
  LoadBox from;
  LoadBox to;
  std::string words;
};
struct Repack {
  std::vector<LoadMove> moves;  // in order: take all out first, then put them back in this order; empty: leave it
  Load load;                    // afterwards
  LoadTask task;                // with the masses of now
  std::string why;
};
// The fewest moves (swaps and single moves) that mend what the changed masses broke, or that bring the mass at least
// 20 mm lower or 50 mm further forward. Errors: not_found for an item that is not loaded; as plan_load.
Result<Repack> repack(const LoadTask& task, const Load& load, const std::vector<MassChange>& changes,
                      const LoadSearch& search = {});

}  // namespace outbye
