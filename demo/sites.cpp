#include <algorithm>
#include <cmath>
#include <numbers>

#include "demo/names.h"
#include "demo/net.h"

namespace outbye::demo {
namespace {

double river_distance(const Terrain& terrain, Spot s) {
  double nearest = 1e9;
  for (const River& river : terrain.rivers()) nearest = std::min(nearest, river.distance(s));
  return nearest;
}

struct Settlement {
  double radius;  // metres
  std::uint64_t fewest;
  std::uint64_t range;
};
Settlement settlement(PlaceKind kind) {
  switch (kind) {
    case PlaceKind::town:
      return {750, 55, 25};
    case PlaceKind::large_village:
      return {420, 18, 12};
    case PlaceKind::village:
      return {270, 8, 6};
    case PlaceKind::hamlet:
      break;
  }
  return {150, 3, 3};
}

// Refuses spots too near to those already taken.
class Spacing {
 public:
  Spacing(double side, double cell)
      : cell_(cell), width_(static_cast<std::size_t>(side / cell) + 3), half_(0.5 * side), cells_(width_ * width_) {}
  bool take(Spot s, double apart) {
    const auto reach = static_cast<std::ptrdiff_t>(std::ceil(apart / cell_));
    const std::ptrdiff_t cx = column(s.x);
    const std::ptrdiff_t cy = column(s.y);
    const auto last = static_cast<std::ptrdiff_t>(width_) - 1;
    for (std::ptrdiff_t y = std::max<std::ptrdiff_t>(0, cy - reach); y <= std::min(last, cy + reach); ++y)
      for (std::ptrdiff_t x = std::max<std::ptrdiff_t>(0, cx - reach); x <= std::min(last, cx + reach); ++x)
        for (const Spot& taken : cells_[static_cast<std::size_t>(y) * width_ + static_cast<std::size_t>(x)])
          if (distance(taken, s) < apart) return false;
    cells_[static_cast<std::size_t>(cy) * width_ + static_cast<std::size_t>(cx)].push_back(s);
    return true;
  }

 private:
  std::ptrdiff_t column(double v) const {
    return std::clamp(static_cast<std::ptrdiff_t>((v + half_) / cell_) + 1, std::ptrdiff_t{0},
                      static_cast<std::ptrdiff_t>(width_) - 1);
  }
  double cell_;
  std::size_t width_;
  double half_;
  std::vector<std::vector<Spot>> cells_;
};

}  // namespace

std::vector<Place> make_places(const Terrain& terrain, Seed seed) {
  Names names(Seed{seed.value ^ 0x706C616365ULL});
  Rng rng(Seed{seed.value + 17});
  std::vector<Place> places;
  constexpr double cell = 2700;
  const auto count = static_cast<int>(std::ceil(terrain.side() / cell));
  for (int j = 0; j < count; ++j)
    for (int i = 0; i < count; ++i) {
      const double jx = uniform(rng);
      const double jy = uniform(rng);
      const double rank = uniform(rng);
      const double kept = uniform(rng);
      const Spot s{(i + 0.12 + 0.76 * jx) * cell - 0.5 * terrain.side(),
                   (j + 0.12 + 0.76 * jy) * cell - 0.5 * terrain.side()};
      // People live in the dales, seldom on the tops, and not in the river.
      if (!terrain.is_land(s) || terrain.height(s) > 260 || river_distance(terrain, s) < 180 || kept > 0.9) continue;
      Place place;
      place.kind = rank < 0.03   ? PlaceKind::town
                   : rank < 0.22 ? PlaceKind::large_village
                   : rank < 0.60 ? PlaceKind::village
                                 : PlaceKind::hamlet;
      place.centre = s;
      places.push_back(place);
    }
  if (!places.empty() &&
      std::none_of(places.begin(), places.end(), [](const Place& p) { return p.kind == PlaceKind::town; })) {
    // Even a small country has a market town, near its coast road rather than amid it.
    const auto farther = [](const Place& a, const Place& b) {
      return std::hypot(a.centre.x, a.centre.y) < std::hypot(b.centre.x, b.centre.y);
    };
    std::max_element(places.begin(), places.end(), farther)->kind = PlaceKind::town;
  }
  for (Place& place : places) {
    place.name = names.place();
    place.radius = settlement(place.kind).radius;
  }
  return places;
}

std::vector<Site> make_sites(const Terrain& terrain, std::vector<Place>& places, Seed seed, double spacing) {
  Rng rng(Seed{seed.value + 29});
  std::vector<Site> sites;
  Spacing taken(terrain.side(), 0.5 * spacing);
  const auto usable = [&](Spot s) { return terrain.is_land(s) && river_distance(terrain, s) > 70; };
  for (std::size_t p = 0; p < places.size(); ++p) {
    Place& place = places[p];
    place.site = static_cast<std::uint32_t>(sites.size());
    taken.take(place.centre, 0);
    sites.push_back({place.centre, static_cast<std::uint32_t>(p)});
    const Settlement wanted = settlement(place.kind);
    const std::uint64_t count = wanted.fewest + uniform_below(rng, wanted.range);
    for (std::uint64_t k = 0, tries = 0; k < count && tries < 12 * count; ++tries) {
      const double angle = 2.0 * std::numbers::pi * uniform(rng);
      const double radius = place.radius * std::pow(uniform(rng), 0.7);
      const Spot s = place.centre + Spot{radius * std::cos(angle), radius * std::sin(angle)};
      if (!usable(s) || !taken.take(s, 78)) continue;
      sites.push_back({s, static_cast<std::uint32_t>(p)});
      ++k;
    }
  }
  const auto count = static_cast<int>(std::ceil(terrain.side() / spacing));
  for (int j = 0; j < count; ++j)
    for (int i = 0; i < count; ++i) {
      const double jx = uniform(rng);
      const double jy = uniform(rng);
      const double kept = uniform(rng);
      const Spot s{(i + jx) * spacing - 0.5 * terrain.side(), (j + jy) * spacing - 0.5 * terrain.side()};
      const double lonely = std::clamp((terrain.height(s) - 120.0) / 220.0, 0.0, 0.6);  // fewer roads on the tops
      if (kept < 0.08 + lonely || !usable(s) || !taken.take(s, 0.42 * spacing)) continue;
      sites.push_back({s, nowhere});
    }
  return sites;
}

}  // namespace outbye::demo
