#include "formats/day_calls/day_names_json.h"

#include "formats/plan_json/plan_json.h"

namespace outbye {
namespace {

Json clock_of(const Clock& clock) {
  Json changes = Json::array();
  for (const OffsetChange& change : clock.changes) {
    changes.push_back({{"from", iso8601(change.from, Clock{})}, {"offset_min", change.offset.count()}});
  }
  return changes;
}

Json horses_of(const Ride& ride) {
  Json horses = Json::array();
  for (const RideHorse& horse : ride.horses) {
    Json json{{"name", horse.name}};
    if (!horse.rider.empty()) json["rider"] = horse.rider;
    if (!horse.number.empty()) json["number"] = horse.number;
    horses.push_back(std::move(json));
  }
  return horses;
}

Json cars_of(const RidePlan& plan) {
  Json cars = Json::array();
  for (const CrewCar& car : plan.task.cars) {
    cars.push_back({{"name", car.name}, {"start", at(plan.places, car.start).name}});
  }
  return cars;
}

// In the order of the rows: the venue, crew points, refills, errands.
Json places_of(const RidePlan& plan) {
  const std::size_t points = plan.survey.course.crew_points.size();
  const std::size_t refills = plan.ride.refills.size();
  Json places = Json::array();
  for (std::size_t p = 0; p < plan.places.size(); ++p) {
    const char* kind = p == 0                     ? "venue"
                       : p < 1 + points           ? "crew point"
                       : p < 1 + points + refills ? "refill"
                                                  : "errand";
    Json json{{"name", plan.places[p].name}, {"kind", kind}, {"position", json_of(plan.places[p].position)}};
    const bool is_typed = p > 0 && p <= points && p <= plan.ride.crew_points.size();
    if (is_typed && plan.ride.crew_points[p - 1].is_closed) json["is_closed"] = true;
    places.push_back(std::move(json));
  }
  return places;
}

std::optional<CarId> met_by(const RidePlan& plan, std::size_t option) {
  for (const CarDay& day : plan.plan.days) {
    for (const TimedStop& stop : day.stops) {
      if (stop.stop.option && stop.stop.option->value == option) return day.car;
    }
  }
  return std::nullopt;
}

// There is one option for each event of each horse.
Json passes_of(const RidePlan& plan) {
  Json passes = Json::array();
  for (std::size_t o = 0; o < plan.task.options.size(); ++o) {
    const MeetOption& option = plan.task.options[o];
    const RideEvent& event = at(plan.task.horses, option.horse).events[option.event];
    const char* kind = event.kind == RideEvent::Kind::pass   ? "pass"
                       : event.kind == RideEvent::Kind::gate ? "gate"
                                                             : "finish";
    Json json{{"horse", at(plan.ride.horses, option.horse).name},
              {"label", option.label},
              {"kind", kind},
              {"place", at(plan.places, option.place).name},
              {"loop", event.loop.value + 1}};
    if (event.pass) json["nth_in_loop"] = at(plan.survey.course.passes, *event.pass).nth_in_loop;
    json["ride_km"] = rounded(in_kilometres(event.ride_along), 3);
    if (const auto car = met_by(plan, o)) json["met_by"] = at(plan.task.cars, *car).name;
    passes.push_back(std::move(json));
  }
  return passes;
}

}  // namespace

Json day_names_json(const RidePlan& plan) {
  Json helpers = Json::array();
  for (const RideHelper& helper : plan.ride.helpers) helpers.push_back(helper.name);
  return {{"ride", plan.ride.name},
          {"start", iso8601(plan.ride.start, plan.ride.clock)},
          {"time_zone", plan.ride.clock.zone},
          {"clock", clock_of(plan.ride.clock)},
          {"venue", plan.ride.venue},
          {"horses", horses_of(plan.ride)},
          {"cars", cars_of(plan)},
          {"places", places_of(plan)},
          {"passes", passes_of(plan)},
          {"helpers", std::move(helpers)}};
}

}  // namespace outbye
