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

// What a load of the same things is ranked by in mm, less is better: balance_cost(); the middle of what is heavy, with
// treble weight; 8 m for the share of it by the tailgate; and 15 mm for each thing moved at each stop, the early stops
// counting up to double. That what is heavy goes forward thus outweighs a move the fewer.
double quality(const LoadRoom& room);

// Height of the middle of the mass counts double, its distance from the seat-back once; less is better.
double balance_cost(const LoadRoom& room);

struct StowWeights {
  double height{1.0};
  double depth{1.0};
  double gap{0.2};
};

// An order to put things in, and what to look for with each; `attempt` says by which rule: by need, by stop, heavy
// first, dear first, with more or less chance. `push` (by item) moves a thing to the front, what it costs to leave it
// (`cost`, by item) now and then.
struct StowOrder {
  std::vector<LoadItemId> items;
  StowWeights weights;
};
StowOrder draw_order(const LoadTask& task, const std::vector<LoadItemId>& items, const std::vector<double>& push,
                     const std::vector<double>& cost, int attempt, Rng& rng);

// Puts one more thing into its best place for the given weights that obeys every rule.
bool stow_one(LoadRoom& room, LoadItemId item, const StowWeights& weights, LoadWork& work);

}  // namespace outbye
