#include <algorithm>
#include <utility>

#include "core/base/text.h"
#include "engine/load.h"

namespace outbye {
namespace {

Result<LoadSpace> generic_space(const std::string& shape) {
  std::vector<GenericBoot> boots = generic_boots();
  std::vector<std::string_view> names;
  for (const GenericBoot& boot : boots) {
    if (same_name(boot.name, shape)) return boot.space;
    names.push_back(boot.name);
  }
  const auto nearest = nearest_name(shape, names);
  return not_found("boot", "'" + shape + "' is no shape of a boot" +
                               (nearest ? "; did you mean '" + std::string(*nearest) + "'?" : "; measure it"));
}

// Arches first, so that a lip that meets them ends between them.
void block(const RideBoot& boot, LoadSpace& space) {
  const LoadSize& size = space.size;
  if (boot.arches) {
    const RideWheelArch& arch = *boot.arches;
    const LoadSize each{arch.length, arch.width, arch.height};
    space.blocked.push_back({{arch.from_seat_back, 0, 0}, each});
    space.blocked.push_back({{arch.from_seat_back, size.width - arch.width, 0}, each});
  }
  if (boot.lip) {
    const Millimetres from = size.length - boot.lip->length;
    const bool meets_arches = boot.arches && boot.arches->from_seat_back + boot.arches->length > from;
    const Millimetres side = meets_arches ? boot.arches->width : 0;
    space.blocked.push_back({{from, side, 0}, {boot.lip->length, size.width - 2 * side, boot.lip->height}});
  }
  space.blocked.insert(space.blocked.end(), boot.blocked.begin(), boot.blocked.end());
}

}  // namespace

Result<std::vector<LoadSpace>> boot_spaces(const RideCar& car, std::vector<std::string>& assumptions) {
  RideBoot boot;
  if (car.boot) {
    boot = *car.boot;
  } else {
    boot.shape = "estate";
    assumptions.push_back("The boot of " + car.name + " is not measured: a common estate is assumed. Measure it and " +
                          "write it into the ride file (cars[].boot).");
  }
  LoadSpace space;
  if (boot.shape) {
    auto generic = generic_space(*boot.shape);
    if (!generic) return tl::make_unexpected(generic.error());
    space = std::move(*generic);
    const bool is_measured = boot.floor_length && boot.floor_width && boot.height && boot.payload;
    if (car.boot && !is_measured) {
      assumptions.push_back("What is not measured of the boot of " + car.name + " is that of a common '" + *boot.shape +
                            "'.");
    }
  }
  space.name = "boot of " + car.name;
  space.size.length = boot.floor_length.value_or(space.size.length);
  space.size.width = boot.floor_width.value_or(space.size.width);
  space.size.height = boot.height.value_or(space.size.height);
  if (boot.cover_height) space.cover_height = boot.cover_height;
  if (space.cover_height) space.cover_height = std::min(*space.cover_height, space.size.height);
  space.has_guard = boot.has_guard;
  space.seats_folded = boot.seats_folded.value_or(space.seats_folded);
  space.lip_above_ground = boot.lip_above_ground.value_or(space.lip_above_ground);
  space.floor_above_ground = boot.floor_above_ground.value_or(space.floor_above_ground);
  if (boot.axles) space.axles = boot.axles;
  block(boot, space);
  const Kilograms payload = boot.payload.value_or(space.payload);
  space.payload = payload_for_load(payload, boot.people);
  if (space.payload <= Kilograms{0}) {
    return bad_input(space.name, std::to_string(boot.people) + " people use up the payload of " +
                                     fixed(payload.value, 0) + " kg; let one ride in another car");
  }
  std::vector<LoadSpace> spaces{std::move(space)};
  if (boot.roof_box) {
    LoadSpace roof;
    roof.kind = LoadSpace::Kind::roof_box;
    roof.name = "roof box of " + car.name;
    roof.size = boot.roof_box->size;
    roof.payload = boot.roof_box->payload;
    roof.has_guard = true;         // it is closed: nothing flies into people from here
    roof.lip_above_ground = 1500;  // of a car's roof (from memory)
    roof.floor_above_ground = 1500;
    roof.inconvenience = 0.3;  // common practice, no source
    spaces.push_back(std::move(roof));
  }
  return spaces;
}

}  // namespace outbye
