// The lie of the invented land: heights, coast and rivers, all a function of a seed.
// A Spot is a place on a plane tangent to the country's middle, in metres east and north of it.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "core/base/random.h"
#include "core/base/units.h"
#include "core/geo/position.h"

namespace outbye::demo {

struct Spot {
  double x{};  // metres east
  double y{};  // metres north
  friend Spot operator+(Spot a, Spot b) { return {a.x + b.x, a.y + b.y}; }
  friend Spot operator-(Spot a, Spot b) { return {a.x - b.x, a.y - b.y}; }
  friend Spot operator*(double k, Spot a) { return {k * a.x, k * a.y}; }
};
double distance(Spot a, Spot b);

// The middle of the country: open sea, so that nothing invented lies on anything real.
constexpr Position country_middle{54.5, -15.5};

// Local equirectangular projection; scale is exact at the middle's latitude (WGS84 radii of curvature) and east-west
// lengths are 0.02 % off per km north or south. Lengths that matter are recomputed as geodesics by core/course.
Position position_of(Spot spot);
Spot spot_of(Position position);

// Uniform in (0, 1), a function of its arguments: for what must not depend on the order of work.
double chance(Seed seed, std::uint64_t a, std::uint64_t b, std::uint64_t use);

// A river that runs from the north coast to the south coast.
class River {
 public:
  // `middle_x`: metres east half-way down; `side`: metres, of the country.
  River(Seed seed, std::uint32_t number, double middle_x, double side);
  double x_at(double y) const;                           // metres east where it crosses that northing
  double distance(Spot s) const;                         // metres, approximate, good near the river
  double dale_distance(Spot s) const;                    // metres from the river's general course
  bool is_west_of(Spot s) const { return east_ < s.x; }  // all of it
  bool is_beyond(Spot s, double metres) const { return s.x < west_ - metres || s.x > east_ + metres; }

 private:
  double half_;             // metres: the table runs from -half_ to half_
  std::vector<double> x_;   // each 10 m of northing
  double west_{}, east_{};  // the least and the greatest of x_
};

class Terrain {
 public:
  // `side`: metres, of the square that holds the island.
  Terrain(Seed seed, double side);

  double height(Spot spot) const;  // metres above sea level, continuous; 0 at sea
  Metres height(Position position) const { return {height(spot_of(position))}; }
  bool is_land(Spot spot) const;  // dry and above the beach
  // How many rivers lie to the west: two spots of different banks have a river between them.
  std::uint32_t bank(Spot spot) const;
  const std::vector<River>& rivers() const { return rivers_; }
  double side() const { return side_; }

  // Heights of one degree in the grid of an SRTM tile: 1201 rows from north to south, whole metres.
  std::vector<std::int16_t> tile(int south, int west) const;

 private:
  double computed_height(Spot spot) const;

  Seed seed_;
  double side_;
  std::vector<River> rivers_;
  // Samples each 6 arc seconds, rows from south to north; row 0 is `south_` steps from the equator.
  int south_{}, west_{}, rows_{}, columns_{};
  std::vector<float> samples_;
};

}  // namespace outbye::demo
