#include "core/load/load_task.h"

namespace outbye {
namespace {

LoadSpace boot(Millimetres length, Millimetres width, Millimetres cover, Millimetres roof, double payload,
               Millimetres lip) {
  LoadSpace space;
  space.name = "boot";
  space.size = {length, width, roof};
  space.cover_height = cover;
  space.payload = Kilograms{payload};
  space.lip_above_ground = lip;
  space.floor_above_ground = lip - 50;
  return space;
}

}  // namespace

// Floors are as wide as between the arches, so the arches need no boxes. Payload is beyond a driver of 75 kg: take 75
// kg off for each further person. Figures from memory and common practice; the litres that makers print include nooks.
std::vector<GenericBoot> generic_boots() {
  std::vector<GenericBoot> boots;
  boots.push_back({"small hatch", boot(680, 980, 480, 480, 450.0, 700)});
  boots.push_back({"estate", boot(1050, 1050, 440, 780, 550.0, 620)});
  LoadSpace folded = boot(1800, 1050, 440, 780, 550.0, 620);
  folded.seats_folded = true;
  boots.push_back({"estate, seats folded", folded});
  boots.push_back({"large 4x4", boot(1000, 1150, 500, 850, 700.0, 775)});
  return boots;
}

}  // namespace outbye
