#include "core/welfare/sun.h"

#include <array>
#include <cmath>
#include <numbers>
#include <vector>

namespace outbye {

namespace {

constexpr double degree = std::numbers::pi / 180.0;
constexpr Seconds day{86400.0};

double sine(double degrees) { return std::sin(degrees * degree); }
double cosine(double degrees) { return std::cos(degrees * degree); }
double within_turn(double degrees) { return degrees - 360.0 * std::floor(degrees / 360.0); }

struct Equatorial {
  double right_ascension;  // degrees, apparent
  double declination;
  double distance_au;
  double sidereal_time;  // at Greenwich, degrees, apparent
};

Equatorial equatorial_sun(Instant at) {
  // Days from noon of 1 January 2000 (JD 2451545.0). The sun's clock is ahead of UTC by 64 s then and 69 s in 2025; a
  // minute and a bit for all years is wrong by less than 0.001 degree of longitude for centuries.
  constexpr Instant epoch = std::chrono::sys_days{std::chrono::January / 1 / 2000} + std::chrono::hours{12};
  const double days = (at - epoch) / day;
  const double t = (days + 69.0 / 86400.0) / 36525.0;
  const double mean_longitude = 280.46646 + t * (36000.76983 + t * 0.0003032);
  const double anomaly = 357.52911 + t * (35999.05029 - t * 0.0001537);
  const double eccentricity = 0.016708634 - t * (0.000042037 + t * 0.0000001267);
  const double centre = (1.914602 - t * (0.004817 + t * 0.000014)) * sine(anomaly) +
                        (0.019993 - 0.000101 * t) * sine(2 * anomaly) + 0.000289 * sine(3 * anomaly);
  const double distance =
      1.000001018 * (1 - eccentricity * eccentricity) / (1 + eccentricity * cosine(anomaly + centre));
  const double moon_node = 125.04 - 1934.136 * t;
  const double nutation = -0.00478 * sine(moon_node);
  const double longitude = mean_longitude + centre - 0.00569 + nutation;  // aberration and nutation: apparent
  const double obliquity = 23.4392911 - 0.0130042 * t + 0.00256 * cosine(moon_node);
  return {std::atan2(cosine(obliquity) * sine(longitude), cosine(longitude)) / degree,
          std::asin(sine(obliquity) * sine(longitude)) / degree, distance,
          280.46061837 + 360.98564736629 * days + 0.000387933 * t * t + nutation * cosine(obliquity)};
}

// Of the sun's centre over the horizon, degrees.
double height(Position place, Instant at) { return 90.0 - sun_position(place, at).zenith.value; }

// Where f is greatest (sign 1) or least (sign -1) in a bracket that holds one such place: golden section to a second.
Instant extreme_height(Position place, Instant from, Instant to, double sign) {
  constexpr double share = 0.6180339887498949;
  while (to - from > Seconds{1.0}) {
    const Instant a = to - share * (to - from);
    const Instant b = from + share * (to - from);
    if (sign * height(place, a) < sign * height(place, b)) {
      from = a;
    } else {
      to = b;
    }
  }
  return from + 0.5 * (to - from);
}

// The instants between which the height only rises or only falls. A day has one noon and one midnight, but at the poles
// the season alone moves the sun, so nothing is assumed: ten-minute steps find the turns.
std::vector<Instant> turns_of_height(Position place, Instant from) {
  constexpr int steps = 144;
  const Seconds step = day / steps;
  std::vector<Instant> turns{from};
  double before = height(place, from);
  double here = height(place, from + step);
  for (int i = 1; i < steps; ++i) {
    const double after = height(place, from + (i + 1) * step);
    if ((here > before && here >= after) || (here < before && here <= after)) {
      turns.push_back(extreme_height(place, from + (i - 1) * step, from + (i + 1) * step, here > before ? 1.0 : -1.0));
    }
    before = here;
    here = after;
  }
  turns.push_back(from + day);
  return turns;
}

// The first crossing of a level, upwards or downwards, by bisection to a tenth of a second.
std::optional<Instant> crossing(Position place, const std::vector<Instant>& turns, double level, bool upwards) {
  const auto is_after = [&](Instant at) { return (height(place, at) >= level) == upwards; };
  for (std::size_t i = 0; i + 1 < turns.size(); ++i) {
    Instant from = turns[i];
    Instant to = turns[i + 1];
    if (is_after(from) || !is_after(to)) continue;
    while (to - from > Seconds{0.1}) {
      const Instant middle = from + 0.5 * (to - from);
      (is_after(middle) ? to : from) = middle;
    }
    return to;  // where the new light has just begun
  }
  return std::nullopt;
}

}  // namespace

SunPosition sun_position(Position place, Instant at) {
  const Equatorial sun = equatorial_sun(at);
  const double hour_angle = sun.sidereal_time + place.longitude - sun.right_ascension;
  const double up = sine(place.latitude) * sine(sun.declination) +
                    cosine(place.latitude) * cosine(sun.declination) * cosine(hour_angle);
  const double east = -cosine(sun.declination) * sine(hour_angle);
  const double north = cosine(place.latitude) * sine(sun.declination) -
                       sine(place.latitude) * cosine(sun.declination) * cosine(hour_angle);
  const double across = std::hypot(east, north);
  // The arctangent keeps its precision overhead and at the horizon alike. Seen from the ground and not from the middle
  // of the earth, the sun stands 8.794 seconds of arc lower at the horizon.
  const double parallax = 8.794 / 3600.0 * across / sun.distance_au;
  return {
      {std::atan2(across, up) / degree + parallax}, {within_turn(std::atan2(east, north) / degree)}, sun.distance_au};
}

SunTimes sun_times(Position place, Instant from) {
  const std::vector<Instant> turns = turns_of_height(place, from);
  SunTimes times;
  times.civil_dawn = crossing(place, turns, civil_dusk_height.value, true);
  times.sunrise = crossing(place, turns, sunrise_height.value, true);
  times.sunset = crossing(place, turns, sunrise_height.value, false);
  times.civil_dusk = crossing(place, turns, civil_dusk_height.value, false);
  double lowest = 90.0;
  double highest = -90.0;
  for (const Instant turn : turns) {
    lowest = std::min(lowest, height(place, turn));
    highest = std::max(highest, height(place, turn));
  }
  times.sun_stays_up = lowest >= sunrise_height.value;
  times.sun_stays_down = highest < sunrise_height.value;
  times.twilight_all_night = !times.sun_stays_up && lowest >= civil_dusk_height.value;
  return times;
}

Light light_at(Position place, Instant at) {
  const double h = height(place, at);
  if (h >= sunrise_height.value) return Light::day;
  return h >= civil_dusk_height.value ? Light::civil_twilight : Light::dark;
}

}  // namespace outbye
