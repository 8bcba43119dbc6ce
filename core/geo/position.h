// A position on the WGS84 ellipsoid. Latitude comes before longitude.
#pragma once

#include "core/base/units.h"

namespace outbye {

// Azimuths: clockwise from north.
using Degrees = Quantity<struct DegreesTag>;

struct Position {
  double latitude{};   // degrees north, -90..90
  double longitude{};  // degrees east, -180..180
  friend bool operator==(const Position&, const Position&) = default;
};

}  // namespace outbye
