#include <algorithm>

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

// A nest of buckets must go under the cover, by car. A boot that is wrong is told when the load is planned.
std::vector<Millimetres> heights_of(const std::vector<RideCar>& cars) {
  std::vector<Millimetres> heights;
  for (const RideCar& car : cars) {
    std::vector<std::string> told_elsewhere;
    const auto spaces = boot_spaces(car, told_elsewhere);
    if (!spaces) return {};
    const LoadSpace& boot = spaces->front();
    const bool is_covered = boot.cover_height && !boot.has_guard;
    heights.push_back(is_covered ? std::min(*boot.cover_height, boot.size.height) : boot.size.height);
  }
  return heights;
}

}  // namespace

std::vector<BootItem> boot_items(const KitList& list, const std::vector<RideCar>& cars) {
  std::vector<BootItem> things;
  for (KitPiece& piece : load_pieces(list, cars.size(), heights_of(cars))) {
    BootItem thing;
    thing.item = std::move(piece.item);
    for (const std::size_t e : piece.entries) add_needs(list.taken[e].item, thing);
    if (piece.car < cars.size()) thing.car = cars[piece.car].name;
    thing.water = piece.water;
    thing.contents = std::move(piece.contents);
    thing.is_place = piece.is_place;
    things.push_back(std::move(thing));
  }
  return things;
}

}  // namespace outbye
