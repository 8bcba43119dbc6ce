#include "core/kit/kit_load.h"

#include <algorithm>
#include <string>

namespace outbye {
namespace {

constexpr std::size_t highest_stack = 6;

LoadItem piece_of(const KitEntry& entry) {
  const KitItem& from = entry.item;
  LoadItem item;
  item.name = from.name;
  item.size = from.size;
  item.mass = from.full;
  item.vertical = from.is_liquid ? std::array<bool, 3>{false, false, true} : from.vertical;
  item.is_liquid = from.is_liquid;
  item.bears = from.bears;
  item.is_fragile = from.is_fragile;
  item.is_soft = from.is_soft;
  item.lifted_by = from.lifted_by;
  if (entry.first_stop) item.first_needed = static_cast<int>(std::min<std::size_t>(*entry.first_stop, 999));
  item.times_needed = static_cast<int>(std::min<std::size_t>(entry.times_needed, 999));
  item.is_emergency = std::find(from.needed.begin(), from.needed.end(), KitNeed::emergency) != from.needed.end();
  if (!from.must_come) item.pain_if_left = from.pain;
  return item;
}

bool nest(const KitItem& a, const KitItem& b) { return a.nests && b.nests && *a.nests == *b.nests && a.size == b.size; }

// One more in the stack.
void put_into(LoadItem& stack, const LoadItem& piece, const KitItem& from) {
  stack.size.height += *from.nests;
  stack.mass += piece.mass;
  if (piece.first_needed && (!stack.first_needed || *piece.first_needed < *stack.first_needed)) {
    stack.first_needed = piece.first_needed;
  }
  stack.times_needed = std::max(stack.times_needed, piece.times_needed);
  stack.is_emergency = stack.is_emergency || piece.is_emergency;
  if (!piece.pain_if_left) stack.pain_if_left.reset();
  if (stack.pain_if_left) stack.pain_if_left = std::min(1000.0, *stack.pain_if_left + *piece.pain_if_left);
  stack.vertical = {false, false, true};
}

}  // namespace

std::vector<LoadItem> load_items(const KitList& list) {
  struct Stack {
    LoadItem item;
    KitItem from;
    std::size_t pieces{1};
  };
  std::vector<Stack> stacks;
  for (const auto& entry : list.taken) {
    for (std::size_t n = 0; n < entry.count; ++n) {
      LoadItem piece = piece_of(entry);
      const auto into = std::find_if(stacks.begin(), stacks.end(), [&](const Stack& stack) {
        return nest(stack.from, entry.item) && stack.pieces < highest_stack;
      });
      if (into != stacks.end()) {
        put_into(into->item, piece, entry.item);
        ++into->pieces;
        continue;
      }
      if (entry.count > 1 && !entry.item.nests) piece.name += " " + std::to_string(n + 1);
      stacks.push_back({std::move(piece), entry.item});
    }
  }
  std::vector<LoadItem> items;
  for (auto& stack : stacks) {
    if (stack.pieces > 1) stack.item.name += ", nested " + std::to_string(stack.pieces);
    items.push_back(std::move(stack.item));
  }
  return items;
}

}  // namespace outbye
