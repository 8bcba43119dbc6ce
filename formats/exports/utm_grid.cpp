#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/text.h"
#include "formats/exports/place_codes.h"

namespace outbye {
namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double radians(double degrees) { return degrees * pi / 180.0; }

// Zones are 6 degrees wide, but for the south-west of Norway and for Svalbard.
int zone_of(Position place) {
  const double lat = place.latitude, lon = place.longitude;
  if (lat >= 56 && lat < 64 && lon >= 3 && lon < 12) return 32;
  if (lat >= 72 && lon >= 0 && lon < 42) return lon < 9 ? 31 : lon < 21 ? 33 : lon < 33 ? 35 : 37;
  const double around = lon >= 180 ? lon - 360 : lon;
  return std::min(60, static_cast<int>(std::floor((around + 180) / 6)) + 1);
}

constexpr std::string_view letters = "ABCDEFGHJKLMNPQRSTUVWXYZ";  // none that looks like a figure

std::string degrees_and_minutes(double angle, char positive, char negative) {
  const long thousandths = std::lround(std::abs(angle) * 60000);  // of a minute
  const long whole = thousandths / 60000;
  std::string minutes = fixed(static_cast<double>(thousandths % 60000) / 1000.0, 3);
  if (minutes.size() < 6) minutes.insert(minutes.begin(), '0');
  return std::to_string(whole) + "\u00b0 " + minutes + "' " + (angle < 0 && thousandths > 0 ? negative : positive);
}

}  // namespace

std::optional<UtmPlace> utm(Position place) {
  if (!(place.latitude >= -80 && place.latitude < 84 && place.longitude >= -180 && place.longitude <= 180)) {
    return std::nullopt;
  }
  // Kruger's series to the fourth order in n (C. F. F. Karney, "Transverse Mercator with an accuracy of a few
  // nanometers", Journal of Geodesy 85, 2011, eqs. 9 to 12 and 35): good to about a micrometre within a zone.
  constexpr double a = 6378137.0, f = 1.0 / 298.257223563, n = f / (2.0 - f), n2 = n * n, n3 = n2 * n, n4 = n3 * n;
  constexpr double radius = a / (1.0 + n) * (1.0 + n2 / 4.0 + n4 / 64.0), k0 = 0.9996;
  constexpr std::array<double, 4> alpha{n / 2 - 2 * n2 / 3 + 5 * n3 / 16 + 41 * n4 / 180,
                                        13 * n2 / 48 - 3 * n3 / 5 + 557 * n4 / 1440, 61 * n3 / 240 - 103 * n4 / 140,
                                        49561 * n4 / 161280};
  const int zone = zone_of(place);
  const double d = radians(place.longitude - (6.0 * zone - 183.0)), s = std::sin(radians(place.latitude));
  const double e = 2.0 * std::sqrt(n) / (1.0 + n);
  const double t = std::sinh(std::atanh(s) - e * std::atanh(e * s));
  const double xi = std::atan2(t, std::cos(d)), eta = std::asinh(std::sin(d) / std::hypot(t, std::cos(d)));
  double north = xi, east = eta;
  for (std::size_t j = 0; j < alpha.size(); ++j) {
    const double m = 2.0 * static_cast<double>(j + 1);
    north += alpha[j] * std::sin(m * xi) * std::cosh(m * eta);
    east += alpha[j] * std::cos(m * xi) * std::sinh(m * eta);
  }
  const auto band = static_cast<std::size_t>(std::min(19.0, std::floor((place.latitude + 80.0) / 8.0)));
  return UtmPlace{zone, letters[band + 2], Metres{500000.0 + k0 * radius * east},
                  Metres{(place.latitude < 0 ? 1e7 : 0.0) + k0 * radius * north}};
}

std::string mgrs_reference(const UtmPlace& place) {
  const auto tens_east = static_cast<int>(std::floor(place.easting.value / 10)),
             tens_north = static_cast<int>(std::floor(place.northing.value / 10));
  const int column = tens_east / 10000, row = tens_north / 10000 + (place.zone % 2 == 0 ? 5 : 0);
  const auto four = [](int value) {
    const std::string text = std::to_string(value % 10000);
    return std::string(4 - text.size(), '0') + text;
  };
  const auto letter = [](int index) { return letters[static_cast<std::size_t>(index)]; };
  return std::to_string(place.zone) + place.band + " " + letter((place.zone - 1) % 3 * 8 + column - 1) +
         letter(row % 20) + " " + four(tens_east) + " " + four(tens_north);
}

std::string degrees_minutes(Position place) {
  return degrees_and_minutes(place.latitude, 'N', 'S') + ", " + degrees_and_minutes(place.longitude, 'E', 'W');
}

}  // namespace outbye
