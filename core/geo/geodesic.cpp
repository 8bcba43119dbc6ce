#include "core/geo/geodesic.h"

// On short lines Boost swaps a geodesic scale that it never set; it is not read afterwards.
#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC diagnostic ignored "-Wmaybe-uninitialized"
#endif

#include <boost/geometry/formulas/karney_direct.hpp>
#include <boost/geometry/formulas/karney_inverse.hpp>
#include <boost/geometry/srs/spheroid.hpp>

#include "core/geo/ellipsoid.h"

namespace outbye {
namespace {

namespace formula = boost::geometry::formula;
using Spheroid = boost::geometry::srs::spheroid<double>;

const Spheroid& wgs84() {
  static const Spheroid spheroid{wgs84_equatorial_radius, wgs84_polar_radius};
  return spheroid;
}

// Everything is asked for, because Newton's method inside takes its slope from the reduced length: with that switched
// off (Boost 1.74) it runs on unset memory and is hundreds of metres out on long lines. Short lines skip Newton anyway.
// Unlike Boost's other formulas this one speaks degrees.
using Inverse = formula::karney_inverse<double, true, true, true, true, true>;

}  // namespace

Geodesic geodesic_inverse(Position from, Position to) {
  const auto line = Inverse::apply(from.longitude, from.latitude, to.longitude, to.latitude, wgs84());
  return {{line.distance}, {line.azimuth}, {line.reverse_azimuth}};
}

Metres geodesic_distance(Position from, Position to) { return geodesic_inverse(from, to).distance; }

GeodesicEnd geodesic_direct(Position from, Degrees azimuth, Metres distance) {
  const auto end = formula::karney_direct<double, true, true>::apply(from.longitude, from.latitude, distance.value,
                                                                     azimuth.value, wgs84());
  return {{end.lat2, end.lon2}, {end.reverse_azimuth}};
}

}  // namespace outbye
