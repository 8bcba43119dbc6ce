// The classes of road a car may use, and the position of a road in whole units of 1e-7 degrees (about 1 cm).
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "core/geo/position.h"

namespace outbye {

enum class RoadClass : std::uint8_t {
  motorway,
  trunk,
  primary,
  secondary,
  tertiary,
  unclassified,
  residential,
  living_street,
  service,
  track,
  ferry,
};
inline constexpr std::size_t road_class_count = 11;

// "secondary road", "track": for messages about roads without a name.
std::string_view words_for(RoadClass road_class);

// Latitude and longitude in 1e-7 degrees: what OpenStreetMap stores, half the memory of two doubles.
struct FixedPosition {
  std::int32_t latitude{};
  std::int32_t longitude{};
  friend bool operator==(const FixedPosition&, const FixedPosition&) = default;
};
inline Position position_of(FixedPosition p) { return {p.latitude * 1e-7, p.longitude * 1e-7}; }
// `p` within -90..90 and -180..180 degrees.
inline FixedPosition fixed_position(Position p) {
  return {static_cast<std::int32_t>(std::lround(p.latitude * 1e7)),
          static_cast<std::int32_t>(std::lround(p.longitude * 1e7))};
}

}  // namespace outbye
