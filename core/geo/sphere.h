// Distance and direction on a sphere: for ranking and drawing. Lengths that people see come from geodesic.h.
#pragma once

#include "core/base/units.h"
#include "core/geo/position.h"

namespace outbye {

// Distance over the ground on a sphere of GRS80 mean radius, 6 371 008.8 m, by the haversine formula (the arccosine
// form is half a centimetre out at one metre). Up to 0.56 % off the WGS84 ellipsoid (worst along a meridian at the
// equator).
Metres sphere_distance(Position a, Position b);

// Direction of the great circle at its start, clockwise from north, 0..360. Within 0.2 degrees of the geodesic's
// (that much only between 30 and 60 degrees of latitude, where the two verticals differ most). Equal points: 0.
Degrees initial_azimuth(Position from, Position to);

// The turn from one azimuth to another, -180..180, clockwise positive.
Degrees turn(Degrees from, Degrees to);

}  // namespace outbye
