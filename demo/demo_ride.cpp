#include "demo/demo_ride.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "formats/time_zone/time_zone.h"

namespace outbye::demo {
namespace {

constexpr std::array<double, 3> speeds{13.0, 12.5, 11.5};  // km/h, by loop
constexpr double hold_minutes = 40;
constexpr double recovery_minutes = 6;

// When the horse is about due at a pass: enough to choose opening hours that matter.
Instant about(const Ride& ride, const Country& country, IntendedPass pass) {
  Seconds t{0};
  for (std::uint32_t l = 0; l < pass.loop; ++l)
    t += Metres{country.loops[l].length} / KmPerHour{speeds[l % 3]} + minutes(hold_minutes + recovery_minutes);
  return ride.start + t + Metres{pass.along} / KmPerHour{speeds[pass.loop % 3]};
}

Instant to_quarter(Instant at) {
  const double quarters = std::round(at.time_since_epoch().count() / 900.0);
  return Instant(Seconds{900.0 * quarters});
}

// The nth point of a kind, in order of the ride.
const CountryCrewPoint* nth_of(const Country& country, CrewPointKind kind, int n) {
  for (const CountryCrewPoint& point : country.crew_points)
    if (point.kind == kind && n-- == 0) return &point;
  return nullptr;
}

const Place* nearest_place(const Country& country, Position to, bool large) {
  const Place* best = nullptr;
  for (const Place& place : country.places) {
    if (large && place.kind > PlaceKind::large_village) continue;
    if (!best || distance(place.centre, spot_of(to)) < distance(best->centre, spot_of(to))) best = &place;
  }
  return best;
}

std::vector<RideCrewPoint> crew_points(const Ride& ride, const Country& country) {
  const CountryCrewPoint* const closed = nth_of(country, CrewPointKind::plain, 1);
  const CountryCrewPoint* const timed = nth_of(country, CrewPointKind::plain, 3);
  std::vector<RideCrewPoint> points;
  for (const CountryCrewPoint& made : country.crew_points) {
    RideCrewPoint point;
    point.name = made.name;
    point.note = made.note;
    if (&made == closed) {
      point.is_closed = true;
      point.note = "Closed to crews: lambs in the lane.";
    }
    if (&made == timed) {
      const Instant due = about(ride, country, made.passes.front());
      point.open = {{to_quarter(due - minutes(25)), to_quarter(due + minutes(75))}};
      point.note = "The farmer opens the yard for us at the times given.";
    }
    if (&made == nth_of(country, CrewPointKind::twice_in_a_loop, 0)) {
      point.has_water = true;
      point.setup = minutes(6);
    }
    points.push_back(std::move(point));
  }
  return points;
}

std::vector<PassWish> wishes(const Country& country) {
  std::vector<PassWish> all;
  if (const CountryCrewPoint* turn = nth_of(country, CrewPointKind::out_and_back, 0)) {
    PassWish wish;
    wish.crew_point = turn->name;
    wish.worth = 1.5;  // far from home and late in the day
    wish.stop = minutes(5);
    all.push_back(wish);
  }
  if (const CountryCrewPoint* twice = nth_of(country, CrewPointKind::twice_in_a_loop, 0)) {
    PassWish wish;
    wish.crew_point = twice->name;
    wish.loop = twice->passes.front().loop + 1;
    wish.nth = 2;
    wish.worth = 1.25;
    all.push_back(wish);
  }
  return all;
}

}  // namespace

Ride demo_ride(const Country& country, const CountryFiles& files) {
  Ride ride;
  ride.name = country.ride_name;
  const Instant seven = std::chrono::sys_days{std::chrono::year{2026} / 6 / 13} + std::chrono::hours{6};  // 07:00 there
  ride.start = seven;
  if (const Result<Clock> clock = clock_for_zone("Europe/London", seven)) ride.clock = *clock;
  ride.country = "GB";
  ride.venue = country.venue_name;
  for (std::size_t l = 0; l < country.loops.size(); ++l) {
    RideLoop loop;
    loop.name = country.loops[l].name;
    loop.tracks = {country.loops[l].name};
    loop.pace.speed = KmPerHour{speeds[l % 3]};
    loop.pace.hold = minutes(hold_minutes);
    loop.pace.recovery = {minutes(recovery_minutes), 0.35};
    ride.loops.push_back(std::move(loop));
  }
  if (!ride.loops.empty()) {  // the afternoon is warm
    ride.loops.back().pace.heat_factor = 0.97;
    const double tenth = std::round(0.001 * country.loops.back().length) * 100.0;  // whole hundreds of metres
    ride.loops.back().pace.going = {{Metres{4.5 * tenth}, Metres{5.5 * tenth}, 0.85, "soft moor"}};
  }
  ride.crew_points = crew_points(ride, country);
  ride.wishes = wishes(country);
  ride.horses = {{"Zummelkin", "Wrenna Thrapplecombe", "41", Seconds{0}, std::nullopt}};

  RideCar car;
  car.name = "Green van";
  car.water_capacity = Litres{90};
  car.fuel_range = kilometres(420);
  ride.cars = {car};
  ride.water_per_meet = Litres{15};

  const Position home = country.nodes[country.venue];
  if (const Place* place = nearest_place(country, home, false)) {
    RideRefill pump;
    pump.name = "Pump at " + place->name;
    pump.position = position_of(place->centre);
    pump.water = true;
    ride.refills.push_back(pump);
  }
  if (const Place* place = nearest_place(country, home, true)) {
    RideErrand ice;
    ice.name = "Ice from " + place->name;
    ice.position = position_of(place->centre);
    ice.duration = minutes(8);
    ice.worth = 0.6;
    ice.open = {{seven + std::chrono::hours{2}, seven + std::chrono::hours{10}}};
    ride.errands.push_back(ice);
  }
  ride.road_files = {files.roads};
  ride.course_files = {files.course};
  ride.elevation_files = files.heights;
  ride.assumptions = {"Everything here is invented: the country, the ride, the people, the horse and the car."};
  return ride;
}

}  // namespace outbye::demo
