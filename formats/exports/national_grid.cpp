#include <cmath>

#include "formats/exports/place_codes.h"

namespace outbye {
namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double radians(double degrees) { return degrees * pi / 180.0; }

struct Ellipsoid {
  double a{}, b{};
  double e2() const { return 1.0 - b * b / (a * a); }
};
constexpr Ellipsoid wgs84{6378137.0, 6356752.314245};
constexpr Ellipsoid airy{6377563.396, 6356256.909};

struct Xyz {
  double x{}, y{}, z{};
};

Xyz earth_centred(Position place, const Ellipsoid& on) {
  const double phi = radians(place.latitude), lambda = radians(place.longitude);
  const double nu = on.a / std::sqrt(1.0 - on.e2() * std::sin(phi) * std::sin(phi));
  return {nu * std::cos(phi) * std::cos(lambda), nu * std::cos(phi) * std::sin(lambda),
          nu * (1.0 - on.e2()) * std::sin(phi)};
}

Position on_ellipsoid(const Xyz& at, const Ellipsoid& on) {
  const double p = std::hypot(at.x, at.y);
  double phi = std::atan2(at.z, p * (1.0 - on.e2()));
  for (int i = 0; i < 8; ++i) {  // converges by a factor of 300 a round
    const double nu = on.a / std::sqrt(1.0 - on.e2() * std::sin(phi) * std::sin(phi));
    phi = std::atan2(at.z + on.e2() * nu * std::sin(phi), p);
  }
  return {phi * 180.0 / pi, std::atan2(at.y, at.x) * 180.0 / pi};
}

// WGS84 to OSGB36, section 6.6 of the guide: metres, parts per million, seconds of arc.
Xyz helmert(const Xyz& w) {
  constexpr double tx = -446.448, ty = 125.157, tz = -542.060;
  constexpr double scale = 1.0 + 20.4894e-6;
  constexpr double rx = radians(-0.1502 / 3600), ry = radians(-0.2470 / 3600), rz = radians(-0.8421 / 3600);
  return {tx + scale * w.x - rz * w.y + ry * w.z, ty + rz * w.x + scale * w.y - rx * w.z,
          tz - ry * w.x + rx * w.y + scale * w.z};
}

// The squares of the grid reach over Ireland and a corner of France, where nobody would know them.
bool is_in_use(Position at) {
  const bool ireland = (at.latitude > 51.3 && at.latitude < 55.25 && at.longitude < -5.36) ||
                       (at.latitude > 51.3 && at.latitude < 55.45 && at.longitude < -5.95);
  const bool france = (at.latitude < 51.05 && at.longitude > 1.45) || (at.latitude < 50.3 && at.longitude > 0.6);
  return !ireland && !france;
}

std::string four_digits(int value) {
  std::string text = std::to_string(value);
  return std::string(text.size() < 4 ? 4 - text.size() : 0, '0') + text;
}

}  // namespace

NationalGrid transverse_mercator_osgb36(Position on_airy) {
  constexpr double f0 = 0.9996012717, phi0 = radians(49), lambda0 = radians(-2), e0 = 400000, n0 = -100000;
  constexpr double af = airy.a * f0, bf = airy.b * f0;
  const double e2 = airy.e2();
  constexpr double n = (airy.a - airy.b) / (airy.a + airy.b), n2 = n * n, n3 = n2 * n;
  const double phi = radians(on_airy.latitude), d = radians(on_airy.longitude) - lambda0;
  const double s = std::sin(phi), c = std::cos(phi), t2 = std::tan(phi) * std::tan(phi), t4 = t2 * t2;
  const double nu = af / std::sqrt(1 - e2 * s * s);
  const double rho = af * (1 - e2) / std::pow(1 - e2 * s * s, 1.5);
  const double eta2 = nu / rho - 1;
  const double less = phi - phi0, sum = phi + phi0;
  const double m =
      bf * ((1 + n + 1.25 * n2 + 1.25 * n3) * less - (3 * n + 3 * n2 + 2.625 * n3) * std::sin(less) * std::cos(sum) +
            (1.875 * n2 + 1.875 * n3) * std::sin(2 * less) * std::cos(2 * sum) -
            35.0 / 24 * n3 * std::sin(3 * less) * std::cos(3 * sum));
  const double c3 = c * c * c, c5 = c3 * c * c;
  const double ii = nu / 2 * s * c;
  const double iii = nu / 24 * s * c3 * (5 - t2 + 9 * eta2);
  const double iiia = nu / 720 * s * c5 * (61 - 58 * t2 + t4);
  const double iv = nu * c;
  const double v = nu / 6 * c3 * (nu / rho - t2);
  const double vi = nu / 120 * c5 * (5 - 18 * t2 + t4 + 14 * eta2 - 58 * t2 * eta2);
  const double d2 = d * d;
  return {Metres{e0 + d * (iv + d2 * (v + d2 * vi))}, Metres{n0 + m + d2 * (ii + d2 * (iii + d2 * iiia))}};
}

std::optional<NationalGrid> national_grid(Position place) {
  // Far off, the series means nothing.
  if (!(place.latitude > 49 && place.latitude < 62 && place.longitude > -9 && place.longitude < 3)) return std::nullopt;
  if (!is_in_use(place)) return std::nullopt;
  const auto grid = transverse_mercator_osgb36(on_ellipsoid(helmert(earth_centred(place, wgs84)), airy));
  if (grid.easting.value < 0 || grid.easting.value >= 700000 || grid.northing.value < 0 ||
      grid.northing.value >= 1300000) {
    return std::nullopt;
  }
  return grid;
}

std::string grid_reference(NationalGrid place) {
  const int east = static_cast<int>(std::floor(place.easting.value / 10)),
            north = static_cast<int>(std::floor(place.northing.value / 10));
  const int column = east / 10000, row = north / 10000;  // squares of 100 km
  // Letters A to Z without I, in fives, from the north-west of a square of 2500 km whose false origin is SV.
  const auto letter = [](int index) { return static_cast<char>('A' + index + (index >= 8 ? 1 : 0)); };
  const int first = (19 - row) - (19 - row) % 5 + (column + 10) / 5;
  const int second = (19 - row) * 5 % 25 + column % 5;
  return std::string{letter(first), letter(second)} + " " + four_digits(east % 10000) + " " +
         four_digits(north % 10000);
}

}  // namespace outbye
