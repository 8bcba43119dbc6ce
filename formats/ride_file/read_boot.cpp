#include <algorithm>
#include <cmath>
#include <string>

#include "core/base/text.h"
#include "formats/ride_file/boot_fields.h"

namespace outbye {
namespace {

constexpr std::uint64_t longest = 10'000;

template <class Into>
void length(JsonFields& in, std::string_view name, Into& into, std::uint64_t from = 1, std::uint64_t to = longest) {
  in.whole(name, from, to, [&](std::uint64_t mm) { into = static_cast<Millimetres>(mm); });
}

template <class Into>
void mass(JsonFields& in, std::string_view name, Into& into, Range range) {
  in.number(name, range, [&](double kg) { into = Kilograms{kg}; });
}

LoadSize size(JsonFields& in) {
  LoadSize read;
  for (const char* name : {"length_mm", "width_mm", "height_mm"}) in.require(name, "millimetres");
  length(in, "length_mm", read.length);
  length(in, "width_mm", read.width);
  length(in, "height_mm", read.height);
  return read;
}

const GenericBoot* shape_named(const std::vector<GenericBoot>& shapes, const std::string& name) {
  const auto found =
      std::find_if(shapes.begin(), shapes.end(), [&](const GenericBoot& boot) { return same_name(boot.name, name); });
  return found == shapes.end() ? nullptr : &*found;
}

void read_shape(JsonFields& in, RideBoot& boot, const std::vector<GenericBoot>& shapes) {
  in.text("shape", boot.shape);
  if (!boot.shape || shape_named(shapes, *boot.shape) != nullptr) return;
  std::vector<std::string_view> names;
  std::string all;
  for (const auto& shape : shapes) {
    names.push_back(shape.name);
    all += (all.empty() ? "'" : ", '") + shape.name + "'";
  }
  const auto nearest = nearest_name(*boot.shape, names);
  in.report("shape", "'" + *boot.shape + "' is no shape of a boot; " +
                         (nearest ? "did you mean '" + std::string(*nearest) + "'? There are: " + all
                                  : "there are: " + all + "; or measure it"));
}

void read_parts(JsonFields& in, RideBoot& boot) {
  const auto part = [&](std::string_view name, const auto& read) {
    const Json* field = in.find(name);
    if (field == nullptr) return;
    JsonFields at(*field, in.file(), in.path_of(name), in.problems());
    read(at);
    at.finish();
  };
  part("arches", [&](JsonFields& at) {
    RideWheelArch arch;
    length(at, "from_seat_back_mm", arch.from_seat_back, 0);
    const LoadSize read = size(at);
    boot.arches = RideWheelArch{arch.from_seat_back, read.length, read.width, read.height};
  });
  part("lip", [&](JsonFields& at) {
    RideBootLip lip;
    at.require("length_mm", "along the car");
    at.require("height_mm", "above the floor");
    length(at, "length_mm", lip.length);
    length(at, "height_mm", lip.height);
    boot.lip = lip;
  });
  in.items("blocked", [&](const Json& item, const std::string& path) {
    JsonFields at(item, in.file(), path, in.problems());
    LoadBox box;
    length(at, "x_mm", box.at.x, 0);
    length(at, "y_mm", box.at.y, 0);
    length(at, "z_mm", box.at.z, 0);
    box.size = size(at);
    at.finish();
    boot.blocked.push_back(box);
  });
  part("axles", [&](JsonFields& at) {
    LoadAxles axles;
    length(at, "wheelbase_mm", axles.wheelbase, 1000, 6000);
    length(at, "seat_back_mm", axles.seat_back, 0);
    mass(at, "front_left_over_kg", axles.front_left_over, {0.0, 5000.0});
    mass(at, "rear_left_over_kg", axles.rear_left_over, {0.0, 5000.0});
    boot.axles = axles;
  });
  part("roof_box", [&](JsonFields& at) {
    RideRoofBox box;
    box.size = size(at);
    at.require("payload_kg", "the least of what box, bars and roof bear");
    mass(at, "payload_kg", box.payload, {0.0, 500.0, true});
    boot.roof_box = box;
  });
}

// What follows from several fields at once; only asked when each is sound.
void check(JsonFields& in, const RideBoot& boot, const GenericBoot* shape) {
  if (shape == nullptr) {
    const auto needed = [&](std::string_view name, bool is_there) {
      if (!is_there) in.report(name, "is missing; measure it, or name a \"shape\" that has it (\"estate\")");
    };
    needed("floor_length_mm", boot.floor_length.has_value());
    needed("floor_width_mm", boot.floor_width.has_value());
    needed("height_mm", boot.height.has_value());
    needed("payload_kg", boot.payload.has_value());
    if (!boot.floor_length || !boot.floor_width || !boot.height || !boot.payload) return;
  }
  const Millimetres along = boot.floor_length ? *boot.floor_length : shape->space.size.length;
  const Millimetres across = boot.floor_width ? *boot.floor_width : shape->space.size.width;
  const Millimetres up = boot.height ? *boot.height : shape->space.size.height;
  const Kilograms payload = boot.payload ? *boot.payload : shape->space.payload;
  if (payload_for_load(payload, boot.people) <= Kilograms{0}) {
    in.report("people", "are " + std::to_string(boot.people) + ": besides the driver they weigh " +
                            fixed(75.0 * (boot.people - 1.0), 0) + " kg and use up the payload of " +
                            fixed(payload.value, 0) + " kg; let one ride in another car, or give the right payload");
  }
  if (boot.cover_height && *boot.cover_height > up) {
    in.report("cover_height_mm",
              "is above the roof (height_mm " + std::to_string(up) + "); measure both from the floor");
  }
  if (boot.arches) {
    const RideWheelArch& arch = *boot.arches;
    if (2 * arch.width >= across) in.report("arches", "leave no floor between them; width_mm is of one arch");
    if (arch.from_seat_back + arch.length > along || arch.height > up) {
      in.report("arches", "stick out of the boot; measure from the seat-back and the floor");
    }
  }
  if (boot.lip && (boot.lip->length >= along || boot.lip->height >= up)) {
    in.report("lip", "is as large as the boot; length_mm is along the car, height_mm above the floor");
  }
  for (std::size_t i = 0; i < boot.blocked.size(); ++i) {
    const LoadBox& box = boot.blocked[i];
    if (box.at.x + box.size.length > along || box.at.y + box.size.width > across || box.at.z + box.size.height > up) {
      in.report("blocked", "box " + std::to_string(i + 1) +
                               " sticks out of the boot; x is from the seat-back, y from the left, z from the floor");
    }
  }
}

}  // namespace

void read_boot(JsonFields& car, std::optional<RideBoot>& boot) {
  const Json* field = car.find("boot");
  if (field == nullptr) return;
  const std::size_t before = car.problems().size();
  JsonFields in(*field, car.file(), car.path_of("boot"), car.problems());
  RideBoot& read = boot.emplace();
  const auto shapes = generic_boots();
  read_shape(in, read, shapes);
  length(in, "floor_length_mm", read.floor_length);
  length(in, "floor_width_mm", read.floor_width);
  length(in, "height_mm", read.height);
  length(in, "cover_height_mm", read.cover_height);
  length(in, "lip_above_ground_mm", read.lip_above_ground, 0, 3000);
  length(in, "floor_above_ground_mm", read.floor_above_ground, 0, 3000);
  if (in.find("seats_folded") != nullptr) in.flag("seats_folded", read.seats_folded.emplace());
  in.flag("guard", read.has_guard);
  mass(in, "payload_kg", read.payload, {0.0, 5000.0, true});
  in.whole("people", 1, 9, [&](std::uint64_t n) { read.people = static_cast<std::uint32_t>(n); });
  read_parts(in, read);
  in.finish();
  if (car.problems().size() == before) check(in, read, read.shape ? shape_named(shapes, *read.shape) : nullptr);
}

}  // namespace outbye
