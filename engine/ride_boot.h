// A car's boot as a person measures it, with the people who ride along. Lengths in millimetres, as on a tape.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/units.h"
#include "core/load/load_task.h"

namespace outbye {

// One of a pair: the same left and right.
struct RideWheelArch {
  Millimetres from_seat_back{};  // where it begins
  Millimetres length{};
  Millimetres width{};  // how far it comes in from the side wall
  Millimetres height{};
  friend bool operator==(const RideWheelArch&, const RideWheelArch&) = default;
};

// The edge that a deep floor leaves at the tailgate.
struct RideBootLip {
  Millimetres length{};  // along the car
  Millimetres height{};  // above the floor
  friend bool operator==(const RideBootLip&, const RideBootLip&) = default;
};

struct RideRoofBox {
  LoadSize size;
  Kilograms payload{50};  // the least of what box, bars and roof bear (from memory: many roofs bear 50 to 100 kg)
  friend bool operator==(const RideRoofBox&, const RideRoofBox&) = default;
};

// What is measured wins over the generic shape; without a shape floor, height and payload must be there.
struct RideBoot {
  std::optional<std::string> shape;         // of generic_boots(): "estate"
  std::optional<Millimetres> floor_length;  // seat-back to tailgate
  std::optional<Millimetres> floor_width;   // between the side walls; arches come in from there
  std::optional<Millimetres> height;        // to the roof
  std::optional<Millimetres> cover_height;  // to the cover or the top of the seat-back
  std::optional<RideWheelArch> arches;
  std::optional<RideBootLip> lip;
  std::vector<LoadBox> blocked;  // anything else in the way
  std::optional<Millimetres> lip_above_ground;
  std::optional<Millimetres> floor_above_ground;
  std::optional<bool> seats_folded;
  bool has_guard{};
  std::optional<Kilograms> payload;  // of the car, on top of a driver of 75 kg
  std::uint32_t people{1};           // riding in it, the driver among them
  std::optional<LoadAxles> axles;
  std::optional<RideRoofBox> roof_box;
};

// The mass that a person counts for: that of the driver in a car's mass in running order.
constexpr Kilograms mass_of_a_person{75};

// What people leave of a car's payload; the driver is not part of it.
constexpr Kilograms payload_for_load(Kilograms payload, std::uint32_t people) {
  return payload - (people > 1 ? people - 1.0 : 0.0) * mass_of_a_person;
}

}  // namespace outbye
