// One space while it is being loaded: what stands where, what it bears, and what would have to be moved to take a thing
// out. Rules that only get harder as more is loaded are checked at each placement, so every partial load is a good one.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "core/load/load_plan.h"
#include "core/load/load_task.h"
#include "core/load/plateaus.h"

namespace outbye {

struct Carried {
  std::size_t under{};  // index in LoadRoom::things
  double share{};       // of what it passes on, 0..1
};

struct Stowed {
  LoadItemId item;
  LoadBox box;
  double mass{};   // kg
  double borne{};  // kg on top of it, passed on from above
  std::vector<Carried> on;
};

struct LoadRoom {
  const LoadTask* task{};
  LoadSpaceId space;
  std::vector<Stowed> things;  // in the order of loading
  std::vector<Plateau> plateaus;
  double mass{};         // kg
  double on_rear{};      // kg
  double height_work{};  // kg mm: mass times height of its middle, and below times distance from the seat-back
  double length_work{};
};

LoadRoom empty_room(const LoadTask& task, LoadSpaceId space);

// The sizes in which a thing may stand, each once.
std::vector<LoadSize> stances(const LoadItem& item);

// How high the top of this thing may reach here.
Millimetres height_limit(const LoadSpace& space, const LoadItem& item);

// Seen from above. Both are asked some millions of times a second, so they are inline.
inline bool overlap_flat(const LoadBox& a, const LoadBox& b) {
  return a.at.x < b.at.x + b.size.length && b.at.x < a.at.x + a.size.length && a.at.y < b.at.y + b.size.width &&
         b.at.y < a.at.y + a.size.width;
}
inline bool overlap(const LoadBox& a, const LoadBox& b) {
  return overlap_flat(a, b) && a.at.z < b.at.z + b.size.height && b.at.z < a.at.z + a.size.height;
}

// Can the thing stand here: inside, apart, supported, borne, within payload and rear axle, and be brought in past what
// is loaded already? Fills in what it would stand on. Does not look at the reach of the others.
bool can_stow(const LoadRoom& room, LoadItemId item, const LoadBox& box, std::vector<Carried>& on);
void stow(LoadRoom& room, LoadItemId item, const LoadBox& box, std::vector<Carried> on);

// Are all that must be reached still within their moves?
bool is_all_in_reach(const LoadRoom& room);

// What to take out, in order, to reach things[i]; false when more than `most` would be needed (as far as the search
// sees: it may miss a clever way, and never names one that does not work).
bool find_way(const LoadRoom& room, std::size_t i, std::size_t most, std::vector<std::size_t>& order);

// The most moves to reach it; nothing: no limit.
std::optional<std::size_t> moves_allowed(const LoadTask& task, const LoadItem& item);

// With `gone` taken out, can the box leave: nothing stands on it, it can be raised by so much and then pulled straight
// out of the tailgate? `self` is its index, or things.size() for one that is not loaded yet.
bool can_leave(const LoadRoom& room, std::size_t self, const LoadBox& box, const std::vector<char>& gone);

// An order of loading in which what is needed first goes in last.
void sort_for_need(LoadRoom& room);

bool is_front_axle_good(const LoadRoom& room);

}  // namespace outbye
