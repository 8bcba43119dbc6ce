#include "engine/welfare.h"

#include <algorithm>

#include "core/base/text.h"
#include "engine/horse_water.h"

namespace outbye {
namespace {

constexpr Seconds quarter{900.0};

struct Worst {
  std::optional<HeatLoad> heat;
  Instant at{};
  Light light{Light::day};
};

// Each quarter of an hour and both ends.
Worst worst_between(const Ride& ride, Position place, Instant from, Instant to) {
  Worst worst;
  const auto look = [&](Instant when) {
    worst.light = std::max(worst.light, light_at(place, when));
    const auto weather = weather_at(ride.weather, when);
    if (!weather) return;
    HeatLoad load = heat_load(*weather, place, when, ride.heat);
    if (worst.heat && !is_worse(load, *worst.heat)) return;
    worst.heat = std::move(load);
    worst.at = when;
  };
  for (Instant when = from; when < to; when += quarter) look(when);
  look(to);
  return worst;
}

// The warmest quarter of an hour that the crew is out: from the first car's leaving to the last horse's finish.
void add_crew_heat(const RidePlan& plan, RideWelfare& welfare) {
  Instant from = plan.ride.start;
  Instant to = plan.ride.start;
  for (const auto& pass : plan.passes) to = std::max(to, pass.out.p50);
  for (const auto& day : plan.plan.days) {
    if (!day.stops.empty()) from = std::min(from, day.stops.front().depart);
  }
  const Worst worst = worst_between(plan.ride, plan.survey.venue, from, to);
  if (!worst.heat) return;
  welfare.crew_wbgt = worst.heat->wbgt;
  welfare.crew_heat_at = worst.at;
  welfare.crew_heat = crew_heat(worst.heat->wbgt, false);
}

PassWelfare at_pass(const RidePlan& plan, const DayHeat& heat, const PassForecast& pass, std::size_t event) {
  const Ride& ride = plan.ride;
  PassWelfare here;
  const Position place = event_position(plan.survey.course, pass.event);
  const auto weather = weather_at(ride.weather, pass.due.p50);
  if (weather) here.heat = heat_load(*weather, place, pass.due.p50, ride.heat);
  here.light = light_at(place, pass.due.p50);
  const Worst worst = worst_between(ride, place, pass.due.p10, pass.out.p90);
  here.worst_heat = worst.heat;
  here.darkest = worst.light;
  here.since_water = heat.since_water[event];
  here.worth_factor = worth_factor(heat, pass.horse, event);
  const bool is_gate = pass.event.kind != RideEvent::Kind::pass;
  here.is_served = is_gate || pass.is_met;
  const HeatBand band = here.worst_heat ? here.worst_heat->band : HeatBand::comfortable;
  here.cooling =
      cooling_at({is_gate, band, weather, ride.carried_water, Celsius{0}, body_of(at(ride.horses, pass.horse)).mass},
                 ride.cooling);
  const Celsius wbgt = here.worst_heat ? here.worst_heat->wbgt : ride.sweat.weather_unknown;
  here.drink = drink_offer(is_gate, wbgt, ride.drinks, ride.sweat);
  return here;
}

}  // namespace

RideWelfare welfare_of(const RidePlan& plan, DayHeat heat) {
  RideWelfare welfare;
  std::size_t event = 0;
  std::optional<HorseId> horse;
  for (const auto& pass : plan.passes) {
    if (horse != pass.horse) event = 0;
    horse = pass.horse;
    welfare.passes.push_back(at_pass(plan, heat, pass, event++));
  }
  for (std::uint32_t h = 0; h < plan.ride.horses.size(); ++h) {
    welfare.horses.push_back(horse_day_water(plan, HorseId{h}, welfare.passes));
  }
  welfare.along = std::move(heat.along);
  welfare.sun = sun_times(plan.survey.venue, local_midnight(plan.ride.start, plan.ride.clock));
  add_crew_heat(plan, welfare);
  return welfare;
}

std::vector<std::string> welfare_assumptions(const Ride& ride) {
  std::vector<std::string> all;
  if (ride.weather.empty()) {
    all.push_back("No weather is given: heat does not slow the horse, and water is worked out for a WBGT of " +
                  fixed(ride.sweat.weather_unknown.value, 0) +
                  " degrees. Give `weather` or `files.weather` in the ride file.");
  } else {
    all.push_back(
        "The weather is a forecast: heat slows the loops and makes meets count more by defaults of common "
        "practice; measure on the day.");
  }
  for (const auto& horse : ride.horses) {
    if (!horse.mass) {
      all.push_back("The mass of " + horse.name + " is taken as " + fixed(HorseBody{}.mass.value, 0) +
                    " kg for its water and salts; `mass_kg` sets it.");
    }
  }
  return all;
}

}  // namespace outbye
