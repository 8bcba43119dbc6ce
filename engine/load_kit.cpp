#include <algorithm>
#include <map>

#include "core/kit/kit_load.h"
#include "engine/load.h"

namespace outbye {
namespace {

// load_items() names a piece after its entry: "Jerrycan 10 L 2", "Bucket, nested 3". The longest name wins.
const KitEntry* entry_of(const KitList& list, const std::string& piece) {
  const KitEntry* found = nullptr;
  for (const KitEntry& entry : list.taken) {
    const std::string& name = entry.item.name;
    if (piece.compare(0, name.size(), name) != 0) continue;
    if (piece.size() > name.size() && piece[name.size()] != ' ' && piece[name.size()] != ',') continue;
    if (found == nullptr || name.size() > found->item.name.size()) found = &entry;
  }
  return found;
}

bool stand_in_one_another(const KitItem& a, const KitItem& b) {
  return a.nests && b.nests && *a.nests == *b.nests && a.size == b.size;
}

void add_needs(const KitItem& item, BootItem& thing) {
  for (const KitNeed need : item.needed) {
    thing.at_passes = thing.at_passes || need == KitNeed::pass;
    thing.at_gates = thing.at_gates || need == KitNeed::gate;
    thing.at_finish = thing.at_finish || need == KitNeed::finish;
  }
}

}  // namespace

std::vector<BootItem> boot_items(const KitList& list, const std::vector<RideCar>& cars) {
  std::vector<BootItem> things;
  std::map<std::string, std::size_t> pieces;  // of each entry so far
  for (const LoadItem& piece : load_items(list)) {
    BootItem thing;
    thing.item = piece;
    if (const KitEntry* entry = entry_of(list, piece.name)) {
      const KitItem& item = entry->item;
      add_needs(item, thing);
      for (const KitEntry& other : list.taken) {
        if (stand_in_one_another(item, other.item)) add_needs(other.item, thing);
      }
      const std::size_t n = pieces[item.id]++;
      // One for each car goes into each car.
      if (item.count.per_car > 0.0 && !cars.empty()) thing.car = cars[n % cars.size()].name;
      if (item.is_liquid && item.holds) {
        thing.water = Litres{std::clamp((piece.mass - item.empty).value, 0.0, item.holds->value)};
      }
    }
    things.push_back(std::move(thing));
  }
  return things;
}

}  // namespace outbye
