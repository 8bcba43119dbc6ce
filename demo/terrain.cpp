#include "demo/terrain.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace outbye::demo {
namespace {

constexpr double steps_per_degree = 600.0;  // 6 arc seconds
constexpr int tile_size = 1201;             // 3 arc seconds, both edges included

struct Scale {
  double north;  // metres a degree of latitude
  double east;   // metres a degree of longitude
};

Scale scale_at_middle() {
  constexpr double a = 6378137.0;          // WGS84
  constexpr double e2 = 6.69437999014e-3;  // WGS84, first eccentricity squared
  const double phi = country_middle.latitude * std::numbers::pi / 180.0;
  const double w = 1.0 - e2 * std::sin(phi) * std::sin(phi);
  return {a * (1.0 - e2) / std::pow(w, 1.5) * std::numbers::pi / 180.0,
          a / std::sqrt(w) * std::cos(phi) * std::numbers::pi / 180.0};
}
const Scale scale = scale_at_middle();

std::uint64_t mixed(std::uint64_t z) {  // the output function of SplitMix64 (Steele, Lea, Flood 2014)
  z += 0x9E3779B97F4A7C15ULL;
  z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
  z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
  return z ^ (z >> 31);
}

double eased(double t) { return t * t * t * (t * (t * 6.0 - 15.0) + 10.0); }

// Value noise in -1..1 with continuous slope, lattice of side 1.
double noise(std::uint64_t key, double x, double y) {
  const double fx = std::floor(x);
  const double fy = std::floor(y);
  const auto ix = static_cast<std::uint64_t>(static_cast<std::int64_t>(fx));
  const auto iy = static_cast<std::uint64_t>(static_cast<std::int64_t>(fy));
  const auto corner = [&](std::uint64_t dx, std::uint64_t dy) {
    const std::uint64_t bits = mixed(key + (ix + dx) * 0xD6E8FEB86659FD93ULL + (iy + dy) * 0xA0761D6478BD642FULL);
    return static_cast<double>(bits >> 11) * 0x1p-52 - 1.0;
  };
  const double u = eased(x - fx);
  const double v = eased(y - fy);
  const double low = std::lerp(corner(0, 0), corner(1, 0), u);
  const double high = std::lerp(corner(0, 1), corner(1, 1), u);
  return std::lerp(low, high, v);
}

// Sum of octaves, each of half the wavelength; about -1..1.
double hills(Seed seed, Spot s, double wavelength, int octaves, double gain) {
  double sum = 0;
  double weight = 1;
  double total = 0;
  for (int i = 0; i < octaves; ++i) {
    sum += weight * noise(mixed(seed.value + static_cast<std::uint64_t>(i)), s.x / wavelength, s.y / wavelength);
    total += weight;
    weight *= gain;
    wavelength *= 0.5;
  }
  return sum / total;
}

}  // namespace

double distance(Spot a, Spot b) {
  const double dx = a.x - b.x;
  const double dy = a.y - b.y;
  return std::sqrt(dx * dx + dy * dy);
}

Position position_of(Spot s) {
  // Whole units of 1e-7 degree, as OpenStreetMap stores them: what is written is what was computed with.
  const auto rounded = [](double degrees) { return std::round(degrees * 1e7) / 1e7; };
  return {rounded(country_middle.latitude + s.y / scale.north), rounded(country_middle.longitude + s.x / scale.east)};
}

Spot spot_of(Position p) {
  return {(p.longitude - country_middle.longitude) * scale.east, (p.latitude - country_middle.latitude) * scale.north};
}

double chance(Seed seed, std::uint64_t a, std::uint64_t b, std::uint64_t use) {
  const std::uint64_t bits = mixed(mixed(mixed(mixed(seed.value) ^ use) + a) ^ (b * 0xD6E8FEB86659FD93ULL));
  return (static_cast<double>(bits >> 11) + 0.5) * 0x1p-53;
}

namespace {
constexpr double table_step = 10.0;  // metres of northing
}

River::River(Seed seed, std::uint32_t number, double middle_x, double side) : half_(0.6 * side + 2000.0) {
  struct Meander {
    double amplitude, wavelength, phase;
  };
  const double wavelengths[] = {21000, 7300, 3100, 1300, 610};
  const double amplitudes[] = {1900, 700, 330, 110, 42};
  std::vector<Meander> meanders;
  for (std::uint64_t i = 0; i < 5; ++i)
    meanders.push_back({amplitudes[i] * (0.7 + 0.6 * chance(seed, number, i, 11)),
                        wavelengths[i] * (0.85 + 0.3 * chance(seed, number, i, 10)),
                        2.0 * std::numbers::pi * chance(seed, number, i, 12)});
  const auto computed = [&](double y) {
    double x = 0;
    for (const Meander& m : meanders) x += m.amplitude * std::sin(2.0 * std::numbers::pi * y / m.wavelength + m.phase);
    return x;
  };
  const double shift = middle_x - computed(0);  // so that a small island does not lose its river
  const auto count = static_cast<std::size_t>(2.0 * half_ / table_step) + 2;
  for (std::size_t i = 0; i < count; ++i) x_.push_back(shift + computed(table_step * static_cast<double>(i) - half_));
  west_ = *std::min_element(x_.begin(), x_.end());
  east_ = *std::max_element(x_.begin(), x_.end());
}

double River::x_at(double y) const {
  const double place = std::clamp((y + half_) / table_step, 0.0, static_cast<double>(x_.size()) - 1.001);
  const auto i = static_cast<std::size_t>(place);
  return std::lerp(x_[i], x_[i + 1], place - static_cast<double>(i));
}

double River::distance(Spot s) const {
  const double slope = (x_at(s.y + 20.0) - x_at(s.y - 20.0)) / 40.0;
  return std::abs(s.x - x_at(s.y)) / std::sqrt(1.0 + slope * slope);
}

double River::dale_distance(Spot s) const {
  // Far from the river its bends no longer count: with their slope the hills would be striped.
  const double slope = (x_at(s.y + 1800.0) - x_at(s.y - 1800.0)) / 3600.0;
  const double x = (x_at(s.y - 500.0) + x_at(s.y) + x_at(s.y + 500.0)) / 3.0;
  return std::abs(s.x - x) / std::sqrt(1.0 + slope * slope);
}

Terrain::Terrain(Seed seed, double side) : seed_(seed), side_(side) {
  // One river each 12 km, and one a short ride east of the middle, where the venue is: the course has to cross it.
  const double east = std::min(2600.0, 0.13 * side);
  std::uint32_t number = 0;
  for (double x = east - 12000.0 * std::floor((east + 0.5 * side) / 12000.0); x < 0.5 * side; x += 12000.0)
    if (std::abs(x) < 0.44 * side) rivers_.emplace_back(seed, number++, x, side);
  const Position south_west = position_of({-0.52 * side, -0.52 * side});
  const Position north_east = position_of({0.52 * side, 0.52 * side});
  south_ = static_cast<int>(std::floor(south_west.latitude * steps_per_degree)) - 1;
  west_ = static_cast<int>(std::floor(south_west.longitude * steps_per_degree)) - 1;
  rows_ = static_cast<int>(std::ceil(north_east.latitude * steps_per_degree)) + 2 - south_;
  columns_ = static_cast<int>(std::ceil(north_east.longitude * steps_per_degree)) + 2 - west_;
  samples_.reserve(static_cast<std::size_t>(rows_) * static_cast<std::size_t>(columns_));
  for (int row = 0; row < rows_; ++row)
    for (int column = 0; column < columns_; ++column) {
      const Position p{(south_ + row) / steps_per_degree, (west_ + column) / steps_per_degree};
      samples_.push_back(static_cast<float>(computed_height(spot_of(p))));
    }
}

double Terrain::computed_height(Spot s) const {
  const double half = 0.48 * side_;
  const double e = std::pow(s.x / half, 4) + std::pow(s.y / half, 4);  // 1 on a rounded square
  if (e > 1.46) return 0.0;
  double coast = 1.0;  // inland, whatever the noise says
  if (e > 0.21)
    coast = std::clamp((1.0 - e + 0.45 * hills(seed_, s + Spot{3e5, 0}, 0.22 * side_, 4, 0.6)) * 3.0, 0.0, 1.0);
  if (coast == 0.0) return 0.0;
  double valley = 1.0;
  for (const River& river : rivers_) {
    if (river.is_beyond(s, 7000.0)) continue;  // 1 - 3e-10 there
    const double d = river.dale_distance(s) / 1500.0;
    valley = std::min(valley, 1.0 - 0.85 * std::exp(-d * d));
  }
  const double land = 22.0 + 30.0 * (0.5 + s.y / side_);  // the rivers fall towards the south
  const double up = 0.5 + 0.5 * hills(seed_, s, 6500.0, 5, 0.42);
  return eased(coast) * (land + valley * 330.0 * std::pow(up, 1.6));
}

double Terrain::height(Spot spot) const {
  const Position p{country_middle.latitude + spot.y / scale.north, country_middle.longitude + spot.x / scale.east};
  const double row = p.latitude * steps_per_degree - south_;
  const double column = p.longitude * steps_per_degree - west_;
  if (row < 0 || column < 0 || row >= rows_ - 1 || column >= columns_ - 1) return 0.0;
  const auto r = static_cast<std::size_t>(row);
  const auto c = static_cast<std::size_t>(column);
  const auto width = static_cast<std::size_t>(columns_);
  const float* at = &samples_[r * width + c];
  const double u = column - std::floor(column);
  const double v = row - std::floor(row);
  const double low = std::lerp(static_cast<double>(at[0]), static_cast<double>(at[1]), u);
  const double high = std::lerp(static_cast<double>(at[width]), static_cast<double>(at[width + 1]), u);
  return std::lerp(low, high, v);
}

bool Terrain::is_land(Spot spot) const { return height(spot) > 9.0; }

std::uint32_t Terrain::bank(Spot spot) const {
  std::uint32_t west = 0;
  for (const River& river : rivers_)
    if (!river.is_beyond(spot, 0) ? river.x_at(spot.y) < spot.x : river.is_west_of(spot)) ++west;
  return west;
}

std::vector<std::int16_t> Terrain::tile(int south, int west) const {
  std::vector<std::int16_t> heights;
  heights.reserve(static_cast<std::size_t>(tile_size) * tile_size);
  for (int i = 0; i < tile_size; ++i)
    for (int j = 0; j < tile_size; ++j) {
      const Position p{south + (1200 - i) / 1200.0, west + j / 1200.0};
      heights.push_back(static_cast<std::int16_t>(std::lround(height(spot_of(p)))));
    }
  return heights;
}

}  // namespace outbye::demo
