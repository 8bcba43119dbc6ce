// A plan made by hand: one horse, one loop with two passes, a gate, a short second loop; a car that meets the first
// pass, fills up, and meets the finish. For tests of what is written from a plan.
#pragma once

#include "engine/use_cases.h"

namespace outbye {

inline RidePlan small_plan() {
  const Instant seven = std::chrono::sys_days{std::chrono::year{2026} / 6 / 13} + std::chrono::hours{6};
  const auto at_min = [seven](double min) { return seven + minutes(min); };
  const auto window = [&](double p10, double p50, double p90) { return Window{at_min(p10), at_min(p50), at_min(p90)}; };
  RidePlan plan;
  plan.ride.name = "Hollin Dale";
  plan.ride.start = seven;
  plan.ride.clock = {"Europe/London", {{Instant{}, std::chrono::minutes{60}}}};
  plan.ride.horses = {{"Juno", "", "", {}, {}}};
  plan.ride.cars.emplace_back().name = "Van";
  Course& course = plan.survey.course;
  const auto loop = [](const std::string& name, double km, double climb) {
    Loop made;
    made.name = name;
    made.length = kilometres(km);
    made.climb = {climb};
    made.descent = {climb};
    made.points = {{{54.5, -2.5}, {}, Metres{200}}, {{54.6, -2.5}, kilometres(km), Metres{210}}};
    return made;
  };
  course.loops = {loop("Red", 20, 310), loop("Blue", 10, 40)};
  course.length = kilometres(30);
  course.crew_points = {{"Ford", {54.52, -2.5}, "narrow lane"}, {"Tor", {54.53, -2.45}, ""}};
  course.passes = {{LoopId{0}, CrewPointId{0}, kilometres(6), kilometres(6), Metres{10}, {54.52, -2.5}, 1},
                   {LoopId{0}, CrewPointId{1}, kilometres(13), kilometres(13), Metres{20}, {54.53, -2.45}, 1}};
  plan.places.resize(3);
  plan.places[0].name = "Venue";
  plan.places[0].position = {54.5, -2.5};
  plan.places[1].name = "Ford";
  plan.places[1].position = {54.52, -2.5};
  plan.places[1].snap_distance = Metres{12};
  plan.places[1].road = "Mill Lane";
  plan.places[2].name = "Tor";
  plan.places[2].position = {54.53, -2.45};
  plan.places[2].unreachable = "is 900 m from the nearest road";
  HorseDays days;
  days.origin = seven;
  days.events = {{RideEvent::Kind::pass, LoopId{0}, PassId{0}, kilometres(6)},
                 {RideEvent::Kind::pass, LoopId{0}, PassId{1}, kilometres(13)},
                 {RideEvent::Kind::gate, LoopId{0}, {}, kilometres(20)},
                 {RideEvent::Kind::finish, LoopId{1}, {}, kilometres(30)}};
  plan.task.horses = {days};
  const char* labels[] = {"Ford loop 1", "Tor loop 1", "gate loop 1", "finish"};
  const Window due[] = {window(28, 30, 33), window(61, 65, 71), window(94, 100, 109), window(184, 195, 210)};
  const Window out[] = {window(31, 33, 36), window(61, 65, 71), window(140, 146, 155), window(184, 195, 210)};
  for (std::uint32_t e = 0; e < 4; ++e) {
    MeetOption option;
    option.label = labels[e];
    option.event = e;
    option.kind = days.events[e].kind;
    option.place = PlaceId{e < 2 ? e + 1 : 0};
    option.ride_along = days.events[e].ride_along;
    plan.task.options.push_back(option);
    const std::string name = e == 0 ? "Ford" : e == 1 ? "Tor" : "Venue";
    const Metres along = e == 0 ? kilometres(6) : e == 1 ? kilometres(13) : course.loops[e - 2].length;
    plan.passes.push_back({HorseId{0}, days.events[e], name, along, due[e], out[e], e == 0 || e == 3});
  }
  CrewCar car;
  car.name = "Van";
  plan.task.cars = {car};
  plan.task.refills = {{"Tap Green", PlaceId{0}, true, false, minutes(10), {}}};
  TimedStop ford;
  ford.stop = {PlannedStop::Kind::meet, MeetOptionId{0}, {}};
  ford.place = PlaceId{1};
  ford.drive = {minutes(5), kilometres(4.2)};
  ford.drive_planned = minutes(5.5);
  ford.depart = at_min(0);
  ford.arrive = at_min(5.5);
  ford.ready = at_min(9.5);
  ford.leave = at_min(36);
  ford.due = due[0];
  ford.slack = minutes(20.5);
  ford.chance_ready = 0.995;
  ford.chance_there = 1.0;
  ford.worth = 1.02;
  TimedStop tap;
  tap.stop = {PlannedStop::Kind::refill, {}, std::size_t{0}};
  tap.place = PlaceId{0};
  tap.drive = ford.drive;
  tap.drive_planned = ford.drive_planned;
  tap.depart = at_min(36);
  tap.arrive = at_min(41.5);
  tap.ready = at_min(51.5);
  tap.leave = at_min(51.5);
  TimedStop finish = ford;
  finish.stop = {PlannedStop::Kind::meet, MeetOptionId{3}, {}};
  finish.place = PlaceId{0};
  finish.drive = {};
  finish.drive_planned = {};
  finish.depart = at_min(51.5);
  finish.arrive = at_min(51.5);
  finish.ready = at_min(55.5);
  finish.leave = at_min(198);
  finish.due = due[3];
  finish.slack = minutes(139.5);
  finish.chance_ready = 0.45;
  finish.chance_there = 0.7;
  finish.worth = 1.9;
  ford.leave_by = at_min(170);
  ford.next_meet = MeetOptionId{3};
  ford.fallback = MeetOptionId{2};
  CarDay day;
  day.stops = {ford, tap, finish};
  day.driven = kilometres(8.4);
  day.driving = minutes(11);
  plan.plan.days = {day};
  plan.plan.value.worth = 2.95;
  plan.plan.value.standard_error = 0.01;
  plan.plan.value.upper_bound = 3.2;
  plan.plan.value.gap = 0.25;
  plan.plan.value.what_is_exact = "Which passes to meet is proven best for the median times.";
  plan.plan.value.is_fixed_exact = true;
  plan.plan.weakest = MeetOptionId{3};
  LoopEffects red;
  red.loop = LoopId{0};
  red.riding = minutes(97);
  red.hills = minutes(11);
  red.stops = minutes(3);
  red.gate = minutes(46);
  plan.effects = {{red}};
  Route route;
  route.drive = ford.drive;
  route.geometry = {{54.5, -2.5}, {54.51, -2.5}, {54.52, -2.5}};
  plan.routes = {{route, std::nullopt, std::nullopt}};
  plan.warnings = {{"'Tor'", "is 900 m from the nearest road; no meet is planned there"}};
  plan.assumptions = {"The horse averages 12.0 km/h."};
  return plan;
}

}  // namespace outbye
