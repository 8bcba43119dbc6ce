#include "engine/fuel_on_the_way.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>

#include "core/base/text.h"
#include "core/geo/bounding_box.h"
#include "core/geo/ellipsoid.h"
#include "core/geo/nearest.h"

namespace outbye {
namespace {

constexpr Metres beside{500.0};
constexpr Metres farthest{5000.0};
constexpr std::size_t most_a_car = 4;

struct Pump {
  std::string name;
  Position position;
  bool is_marked{};
};

// One drive of a car as a line in space, with the way driven up to each of its points.
struct Line {
  std::vector<EarthVector> points;
  std::vector<double> metres;
};

Line line_of(std::span<const Position> geometry) {
  Line line;
  for (const Position& position : geometry) {
    line.points.push_back(earth_vector(position));
    const std::size_t n = line.points.size();
    double way = 0.0;
    if (n > 1) {
      const EarthVector piece = line.points[n - 1] - line.points[n - 2];
      way = line.metres.back() + std::sqrt(dot(piece, piece));
    }
    line.metres.push_back(way);
  }
  return line;
}

// How far a place is from a line, and how far along the line that is.
struct Passing {
  Metres off{};
  Metres along{};
};

Passing passing(EarthVector place, const Line& line) {
  double least = 1e300;
  Passing best;
  for (std::size_t i = 0; i + 1 < line.points.size(); ++i) {
    const double squared = squared_distance(place, line.points[i], line.points[i + 1]);
    if (squared >= least) continue;
    least = squared;
    const double share = nearest_fraction(place, line.points[i], line.points[i + 1]);
    best = {Metres{std::sqrt(squared)}, Metres{line.metres[i] + share * (line.metres[i + 1] - line.metres[i])}};
  }
  return best;
}

// The marked ones, and those of the map in a box that holds all that may be told.
std::vector<Pump> pumps_near(const RidePlan& plan, const RoadGraph* roads) {
  std::vector<Pump> pumps;
  for (const RideRefill& refill : plan.ride.refills) {
    if (refill.fuel) pumps.push_back({refill.name, refill.position, true});
  }
  std::vector<Position> driven;
  for (const auto& of_car : plan.routes) {
    for (const auto& route : of_car) {
      if (route) driven.insert(driven.end(), route->geometry.begin(), route->geometry.end());
    }
  }
  const auto box = bounding_box(driven);
  if (roads == nullptr || !box) return pumps;
  const BoundingBox around = grown(*box, farthest);
  const std::size_t marked = pumps.size();
  for (const RoadPump& mapped : roads->pumps()) {
    const Position position = position_of(mapped.position);
    if (!contains(around, position)) continue;
    const bool is_known =
        std::any_of(pumps.begin(), pumps.begin() + static_cast<std::ptrdiff_t>(marked), [&](const Pump& pump) {
          const EarthVector gap = earth_vector(pump.position) - earth_vector(position);
          return dot(gap, gap) < 100.0 * 100.0;
        });
    if (is_known) continue;
    const std::string_view name = roads->name_of(mapped);
    pumps.push_back({name.empty() ? "A pump without a name" : std::string(name), position, false});
  }
  return pumps;
}

// Where a car comes nearest to a pump; nothing when it drives nowhere by road.
std::optional<KitPump> beside_car(const RidePlan& plan, std::size_t car, const std::vector<std::optional<Line>>& lines,
                                  const Pump& pump) {
  const CarDay& day = plan.plan.days[car];
  const EarthVector place = earth_vector(pump.position);
  std::optional<KitPump> best;
  Metres before{};
  for (std::size_t s = 0; s < lines.size(); ++s) {
    const TimedStop& stop = day.stops[s];
    if (lines[s]) {
      const Passing near = passing(place, *lines[s]);
      // Twice past the same pump, forth and back: the first time, if the way is the same but for the width of a road.
      if (!best || near.off.value < best->off.value - 20.0) {
        const double whole = std::max(1.0, lines[s]->metres.back());
        const double share = near.along.value / whole;
        best = KitPump{pump.name,
                       pump.is_marked,
                       car,
                       near.off,
                       before + Metres{share * stop.drive.length.value},
                       stop.depart + share * stop.drive_planned,
                       at(plan.places, stop.place).name};
      }
    }
    before = before + stop.drive.length;
  }
  return best;
}

}  // namespace

std::vector<KitPump> pumps_on_the_way(const RidePlan& plan, const RoadGraph* roads) {
  const std::vector<Pump> pumps = pumps_near(plan, roads);
  std::vector<KitPump> all;
  std::vector<bool> is_told(pumps.size());
  for (std::size_t car = 0; car < plan.plan.days.size() && car < plan.routes.size(); ++car) {
    std::vector<std::optional<Line>> lines;
    for (const auto& route : plan.routes[car]) {
      lines.push_back(route && route->geometry.size() > 1 ? std::optional(line_of(route->geometry)) : std::nullopt);
    }
    std::vector<std::pair<KitPump, std::size_t>> found;
    for (std::size_t p = 0; p < pumps.size(); ++p) {
      if (auto pump = beside_car(plan, car, lines, pumps[p])) found.emplace_back(std::move(*pump), p);
    }
    std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) {
      return std::pair(!a.first.is_marked, a.first.off.value) < std::pair(!b.first.is_marked, b.first.off.value);
    });
    const bool has_beside =
        std::any_of(found.begin(), found.end(), [](const auto& pump) { return pump.first.off <= beside; });
    std::vector<KitPump> told;
    for (auto& [pump, p] : found) {
      const bool is_near = pump.off <= beside || (pump.is_marked && pump.off <= farthest) ||
                           (!has_beside && told.empty() && pump.off <= farthest);
      if (!is_near || told.size() >= most_a_car) continue;
      is_told[p] = true;
      told.push_back(std::move(pump));
    }
    std::stable_sort(told.begin(), told.end(), [](const KitPump& a, const KitPump& b) { return a.at < b.at; });
    all.insert(all.end(), told.begin(), told.end());
  }
  for (std::size_t p = 0; p < pumps.size(); ++p) {
    if (pumps[p].is_marked && !is_told[p]) all.push_back({pumps[p].name, true, std::nullopt, {}, {}, {}, ""});
  }
  return all;
}

}  // namespace outbye
