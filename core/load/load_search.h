// Loads of one space: things put in one after another, many orders tried, the failures first next time.
#pragma once

#include <vector>

#include "core/base/random.h"
#include "core/load/load_room.h"

namespace outbye {

// Counts the placements tried and asks the caller whether to go on.
struct LoadWork {
  const LoadSearch* search{};
  std::size_t evaluations{};
  bool is_over{false};
  bool spend();  // one placement; false when the work is used up
};

struct Stowage {
  LoadRoom room;
  std::vector<LoadItemId> out;  // what found no place
  double cost{};                // of `out`
};

// The best load of `items` found in at most `most_tries` orders: least cost of what is out, then mass low and forward.
// `cost` by item. Stops early at a load of everything once `polish` tries have bettered its balance.
Stowage stow_best(const LoadTask& task, LoadSpaceId space, const std::vector<LoadItemId>& items,
                  const std::vector<double>& cost, int most_tries, int polish, Rng& rng, LoadWork& work);

// Height of the middle of the mass counts double, its distance from the seat-back once; less is better.
double balance_cost(const LoadRoom& room);

// Places for one more thing, best first for the given weights; each obeys every rule.
struct StowWeights {
  double height{1.0};
  double depth{1.0};
  double gap{0.2};
};
bool stow_one(LoadRoom& room, LoadItemId item, const StowWeights& weights, LoadWork& work);

}  // namespace outbye
