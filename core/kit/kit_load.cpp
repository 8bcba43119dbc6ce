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

std::vector<KitPiece> load_pieces(const KitList& list) {
  std::vector<KitPiece> pieces;
  for (std::size_t e = 0; e < list.taken.size(); ++e) {
    const KitEntry& entry = list.taken[e];
    for (std::size_t n = 0; n < entry.count; ++n) {
      LoadItem item = piece_of(entry);
      const auto into = std::find_if(pieces.begin(), pieces.end(), [&](const KitPiece& piece) {
        return piece.entries.size() < highest_stack && nest(list.taken[piece.entries.front()].item, entry.item);
      });
      if (into != pieces.end()) {
        put_into(into->item, item, entry.item);
        into->entries.push_back(e);
        continue;
      }
      if (entry.count > 1 && !entry.item.nests) item.name += " " + std::to_string(n + 1);
      pieces.push_back({std::move(item), {e}});
    }
  }
  for (auto& piece : pieces) {
    if (piece.entries.size() > 1) piece.item.name += ", nested " + std::to_string(piece.entries.size());
  }
  return pieces;
}

}  // namespace outbye
