// A ride in which no field has its default: what is lost on the way to the file and back shows.
#pragma once

#include "engine/ride.h"
#include "formats/time_zone/time_zone.h"

namespace outbye {

inline Ride full_ride() {
  Ride r;
  const Instant noon = std::chrono::sys_days{std::chrono::year{2026} / 6 / 13} + std::chrono::hours{12};
  r.name = "Hollin Dale \"Hundred\" — 2026";
  r.start = noon - Seconds{6 * 3600.0};
  r.clock = *clock_for_zone("Europe/London", r.start);
  r.country = "IE";
  r.venue = "Field";
  r.venue_position = Position{54.123456789, -2.1};
  r.default_pace.speed = {11.3};
  r.default_pace.is_average = false;
  r.default_pace.heat_factor = 0.95;
  r.default_pace.going = {{Metres{1000}, Metres{2500.5}, 0.8, "deep sand"}};
  r.default_pace.recovery = {Seconds{217}, 0.2};
  r.default_pace.hold = Seconds{1000.25};
  RideLoop red{"Red", {"t1", "t2"}, true, r.default_pace};
  red.pace.speed = {13};
  red.pace.is_average = true;
  red.pace.heat_factor = 1.0;
  red.pace.going.clear();
  red.pace.recovery = {minutes(7), 0.3};
  RideLoop blue{"Blue", {}, false, r.default_pace};
  r.loops = {red, blue};
  RideCrewPoint ford;
  ford.name = "Ford";
  ford.position = Position{54.1, -2.2};
  ford.parking = Position{54.11, -2.21};
  ford.note = "narrow";
  ford.is_closed = true;
  ford.open = {{noon, noon + Seconds{3600}}};
  ford.setup = Seconds{61};
  ford.pack = Seconds{62};
  ford.has_water = true;
  RideCrewPoint barn;
  barn.name = "Barn";
  r.crew_points = {ford, barn};
  PassWish wish;
  wish.crew_point = "Ford";
  wish.loop = 2;
  wish.nth = 3;
  wish.horse = "Juno";
  wish.demand = MeetOption::Demand::must;
  wish.worth = 2.5;
  wish.stop = Seconds{400};
  wish.water = Litres{12};
  wish.car = "Van";
  r.wishes = {wish};
  r.horses = {{"Juno", "A. Rider", "42", Seconds{120}, std::vector<KmPerHour>{{12}, {11.5}}}, {"Pip", "", "", {}, {}}};
  RideHorse& juno = r.horses.front();
  juno.mass = Kilograms{430};
  juno.rider_weight = Kilograms{76.5};
  juno.is_acclimatised = true;
  juno.is_novice = true;
  juno.sweat_factor = 1.1;
  juno.intakes = {{"Ford", 2, 3, Litres{9.5}, Grams{30}, Grams{10}}, {"Field", 1, 1, {}, Grams{15}, {}}};
  r.weather = {
      {noon, Celsius{21.5}, Percent{60}, MetresPerSecond{2.5}, WattsPerSquareMetre{640}, 0.25, Hectopascals{1005}, 0.4},
      {noon + Seconds{3600}, Celsius{23}, Percent{55}, {}, {}, {}, {}, {}}};
  r.heat.speed_factor = {1.0, 0.99, 0.9, 0.9, 0.8, 0.7};
  r.heat.weight_factor = {1.0, 1.2, 1.2, 1.4, 2.0, 3.0};
  r.heat.sum_counts_from = Celsius{18};
  r.heat.urban = true;
  r.heat_slows = false;
  r.worth_of_water = 0.5;
  r.sweat.rate = {{{3}, {5}, {7}, {9}, {11}}};
  r.sweat.range = 0.4;
  r.sweat.standing = 0.2;
  r.sweat.weather_unknown = Celsius{20};
  r.drinks.field_offer = Litres{12};
  r.drinks.gate_offer = Litres{20};
  r.cooling.at_pass = {{{3}, {5}, {7}, {9}, {12}, {15}}};
  r.cooling.at_gate = {{{9}, {19}, {39}, {59}, {79}, {99}}};
  r.cooling.cold_water = Celsius{8};
  r.carried_water = Celsius{15};
  RuleChoice& rules = r.rules.emplace();
  rules.book = "british";
  rules.level = "Open";
  rules.own.min_speed = Ruled<KmPerHour>{{10}, Mark::event, "briefing"};
  rules.own.gates[2].hold = Ruled<Seconds>{minutes(50), Mark::event, ""};
  r.waters = {{"Trough", 2, Metres{4250}}};
  r.crew = 3;
  r.helpers = {{"Ann", {"driver", "tack"}, {"plaits"}, 0.5, LiftFilter::men, "Van"}};
  RideCar van;
  van.name = "Van";
  van.start = "Ford";
  van.ready_from = noon - Seconds{7 * 3600.0};
  van.end = "Barn";
  van.back_by = noon + Seconds{9 * 3600.0};
  van.water_capacity = {80};
  van.fuel_range = kilometres(400);
  van.fuel_reserve = 0.3;
  van.longest_driving = minutes(100);
  van.break_length = minutes(20);
  RideBoot& boot = van.boot.emplace();
  boot.shape = "Estate";
  boot.floor_length = 1010;
  boot.floor_width = 1120;
  boot.height = 770;
  boot.cover_height = 430;
  boot.arches = RideWheelArch{100, 450, 90, 260};
  boot.lip = RideBootLip{40, 60};
  boot.blocked = {{{800, 0, 0}, {100, 200, 300}}};
  boot.lip_above_ground = 610;
  boot.floor_above_ground = 560;
  boot.seats_folded = true;
  boot.has_guard = true;
  boot.payload = Kilograms{487.5};
  boot.people = 3;
  boot.axles = LoadAxles{2650, 1850, Kilograms{210}, Kilograms{340.5}};
  boot.roof_box = RideRoofBox{{1400, 800, 380}, Kilograms{62}};
  r.cars = {van};
  r.refills = {{"Pump", {54.2, -2.3}, true, true, minutes(7), {{noon, noon + Seconds{60}}}}};
  r.errands = {{"Ice", {54.3, -2.4}, minutes(8), 0.75, {{noon, noon + Seconds{90}}}}};
  r.stop = {Seconds{200}, 0.4};
  r.start_delay = {Seconds{30}, 0.1};
  r.spread = {0.07, 0.03, 0.05, Metres{5000}};
  r.setup = Seconds{250};
  r.pack = Seconds{190};
  r.water_per_meet = {15};
  r.gate_worth = 4;
  r.finish_worth = 2.25;
  r.crewing = {0.5, 0.9, 0.2, minutes(80), Metres{9000}, 0.06, 1.2, 0.15};
  r.course = {Metres{140}, Metres{310}, Metres{900}, Metres{200}, Metres{1900}, Metres{6}, Metres{20}, Metres{90}};
  r.snap_limit = {300};
  r.ferries = true;
  r.days = 2048;
  r.seed = {18446744073709551615ULL};
  r.course_files = {"a.gpx", "b.gpx"};
  r.road_files = {"map.osm.pbf"};
  r.elevation_files = {"N54W003.hgt"};
  r.drive_times_file = "drives.csv";
  r.rule_files = {"club.json"};
  r.assumptions = {"The horse trots at 11.3 km/h on level, hard going.", "Tap at the ford."};
  return r;
}

}  // namespace outbye
