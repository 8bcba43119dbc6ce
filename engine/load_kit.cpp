#include <algorithm>
#include <map>

#include "core/kit/kit_load.h"
#include "engine/load.h"

namespace outbye {
namespace {

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
  std::map<std::size_t, std::size_t> pieces;  // of each entry so far
  for (const KitPiece& piece : load_pieces(list)) {
    BootItem thing;
    thing.item = piece.item;
    for (const std::size_t e : piece.entries) add_needs(list.taken[e].item, thing);
    const KitItem& item = list.taken[piece.entries.front()].item;
    const std::size_t n = pieces[piece.entries.front()]++;
    // One for each car goes into each car.
    if (item.count.per_car > 0.0 && !cars.empty()) thing.car = cars[n % cars.size()].name;
    if (item.is_liquid && item.holds) {
      thing.water = Litres{std::clamp((thing.item.mass - item.empty).value, 0.0, item.holds->value)};
    }
    things.push_back(std::move(thing));
  }
  return things;
}

}  // namespace outbye
