#include "demo/demo_ride.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/text.h"
#include "core/jobs/stop_task.h"
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

// Numbers of the range that Ofcom keeps free for drama (from memory): nobody is rung up by accident.
RideEmergency emergency(const Country& country) {
  RideEmergency help;
  help.number = "999 / 112";
  help.meeting_point = "The gate of " + country.venue_name;
  help.note = "In the dales there is no signal: go up to the road.";
  help.contacts = {{"Ride control", "07700 900111", "06:00 to 20:00"},
                   {"Ride vet", "07700 900112", ""},
                   {"Farrier", "07700 900113", "at the venue"}};
  const Position home = country.nodes[country.venue];
  if (const Place* place = nearest_place(country, home, true)) {
    help.places.push_back({place->name + " Hospital", RideHelpPlace::Kind::hospital, "01632 960111", "Mill Road",
                           position_of(place->centre), "accidents, day and night"});
  }
  if (const Place* place = nearest_place(country, home, false)) {
    help.places.push_back({place->name + " Horse Clinic", RideHelpPlace::Kind::vet, "01632 960112", "",
                           position_of(place->centre), "ring before you come"});
  }
  return help;
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

// A small van with three seats in front, a guard behind them, and the cans and cool boxes of a crew that has done this
// before. Invented, of sizes that are usual (common practice).
RideBoot van_boot() {
  RideBoot boot;
  boot.floor_length = 1650;
  boot.floor_width = 1300;
  boot.height = 1150;
  boot.arches = RideWheelArch{560, 620, 130, 260};
  boot.lip_above_ground = 580;
  boot.floor_above_ground = 560;
  boot.has_guard = true;
  boot.payload = Kilograms{820};
  boot.people = 3;
  return boot;
}

std::vector<OwnContainer> own_containers() {
  return {{OwnContainer::Kind::can, "Blue can", Litres{20}, 4, true, LoadSize{345, 165, 470}},
          {OwnContainer::Kind::can, "Small can", Litres{10}, 1, true, LoadSize{230, 190, 310}},
          {OwnContainer::Kind::cool_box, "Cool box", Litres{32}, 2, true, LoadSize{470, 320, 410}}};
}

std::vector<RideHelper> helpers() {
  const std::vector<std::string> all{skill_holds_horse, skill_first_aid, skill_driver,
                                     skill_lifts,       skill_pulse,     skill_tack};
  const std::vector<std::string> no_first_aid{skill_holds_horse, skill_driver, skill_lifts, skill_pulse, skill_tack};
  const std::vector<std::string> hands{skill_lifts, skill_tack};
  return {{"Ozrin", all, {}, 1.0, LiftFilter::women, std::nullopt},
          {"Tavvick", no_first_aid, {}, 1.0, LiftFilter::men, std::nullopt},
          {"Yelk", hands, {}, 0.7, LiftFilter::women, std::nullopt}};
}

}  // namespace

// A warm June day in a light wind, as a forecast might have it.
std::string demo_weather() {
  return "# An invented forecast: a warm day, a little cloud in the afternoon.\n"
         "time,temperature_c,humidity_pct,wind_kmh,cloud_pct\n"
         "06:00,14,92,4,30\n08:00,18,80,6,20\n10:00,23,66,8,15\n12:00,28,57,9,15\n14:00,31,52,9,15\n"
         "16:00,32,49,10,30\n18:00,29,56,8,40\n20:00,24,70,6,40\n22:00,18,85,4,30\n";
}

std::string demo_gate_log(const Ride& ride, const Country& country) {
  const auto km = [&country](std::size_t l) { return fixed(std::round(country.loops[l].length / 100.0) / 10.0, 1); };
  std::string text =
      "{\n  \"format\": \"gate log\",\n  \"version\": 1,\n  \"name\": \"" + ride.name +
      ", Zummelkin\",\n  \"date\": \"2026-06-13\",\n  \"time_zone\": \"Europe/London\",\n"
      "  \"rules\": {\"book\": \"british\", \"level\": \"Open graded\", \"gate\": {\"pulse_limit_bpm\": 64, "
      "\"present_within_min\": 30, \"hold_min\": 40, \"hold_from\": \"in-time\"}},\n"
      "  \"rider_weight_kg\": 74,\n  \"now\": \"12:35\",\n  \"loops\": [\n";
  const char* gates[] = {
      "\"out\": \"07:00\", \"arrival\": \"09:16:20\", \"pulses\": [{\"at\": \"09:18\", \"bpm\": 76}, {\"at\": "
      "\"09:21:30\", \"bpm\": 60, \"presented\": true, \"accepted\": true}]",
      "\"out\": \"10:01:30\", \"arrival\": \"12:29:10\", \"pulses\": [{\"at\": \"12:31\", \"bpm\": 92}, {\"at\": "
      "\"12:32:30\", \"bpm\": 84}, {\"at\": \"12:34\", \"bpm\": 78}]",
  };
  for (std::size_t l = 0; l < country.loops.size(); ++l) {
    text += "    {\"name\": \"" + country.loops[l].name + "\", \"length_km\": " + km(l);
    if (l < 2) text += std::string(", ") + gates[l];
    text += l + 1 < country.loops.size() ? "},\n" : "}\n";
  }
  return text + "  ]\n}\n";
}

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
  if (!ride.loops.empty()) {
    const double tenth = std::round(0.001 * country.loops.back().length) * 100.0;  // whole hundreds of metres
    ride.loops.back().pace.going = {{Metres{4.5 * tenth}, Metres{5.5 * tenth}, 0.85, "soft moor"}};
  }
  ride.crew_points = crew_points(ride, country);
  ride.wishes = wishes(country);
  RideHorse horse{"Zummelkin", "Wrenna Thrapplecombe", "41", Seconds{0}, std::nullopt};
  horse.mass = Kilograms{435};
  horse.rider_weight = Kilograms{74};
  horse.rider_phone = "07700 900101";
  ride.horses = {horse};
  ride.emergency = emergency(country);
  ride.crew = 3;
  RuleChoice& rules = ride.rules.emplace();
  rules.book = "british";
  rules.level = "Open graded";
  const auto briefing = [](auto value) { return Ruled<decltype(value)>{value, Mark::event, "the briefing"}; };
  rules.own.gate.pulse_limit = briefing(BeatsPerMinute{64});
  rules.own.gate.present_within = briefing(minutes(30));
  rules.own.gate.hold = briefing(minutes(hold_minutes));
  rules.own.gate.hold_from = briefing(HoldFrom::in_time);
  if (!country.loops.empty()) {
    const double third = std::round(country.loops.back().length / 3000.0) * 1000.0;  // whole kilometres
    ride.waters = {{"Ford", static_cast<std::uint32_t>(country.loops.size()), Metres{third}}};
  }
  ride.weather_file = files.weather;

  RideCar car;
  car.name = "Green van";
  car.water_capacity = Litres{90};
  car.fuel_range = kilometres(420);
  car.boot = van_boot();
  ride.cars = {car};
  ride.helpers = helpers();
  ride.kit.containers = own_containers();
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
