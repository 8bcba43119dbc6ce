#include "engine/horse_water.h"

#include <algorithm>

#include "core/base/text.h"
#include "engine/welfare.h"

namespace outbye {
namespace {

bool is_about(const RideIntake& intake, const RidePlan& plan, const PassForecast& pass) {
  if (!same_name(intake.place, pass.name) || intake.loop != pass.event.loop.value + 1) return false;
  return !pass.event.pass || intake.nth == at(plan.survey.course.passes, *pass.event.pass).nth_in_loop;
}

// Litres recorded at a pass; nothing when none were.
std::optional<Litres> recorded(const RideHorse& horse, const RidePlan& plan, const PassForecast& pass) {
  std::optional<Litres> drank;
  for (const auto& intake : horse.intakes) {
    if (intake.drank && is_about(intake, plan, pass)) drank = drank.value_or(Litres{0}) + *intake.drank;
  }
  return drank;
}

Celsius wbgt_at(const RidePlan& plan, Position place, Instant when) {
  const auto weather = weather_at(plan.ride.weather, when);
  return weather ? heat_load(*weather, place, when, plan.ride.heat).wbgt : plan.ride.sweat.weather_unknown;
}

// Riding from one place to the next, in quarters of an hour at the heat of their middles, with drinks at the water on
// the way.
class Riding {
 public:
  Riding(const RidePlan& plan, HorseWater& water) : plan_(plan), water_(water) {}

  void ride(Position place, Instant from, Instant to, LoopId loop, Metres from_along, Metres to_along) {
    Instant now = from;
    std::vector<Metres> stops;
    for (const auto& trough : plan_.ride.waters) {
      if (trough.loop == loop.value + 1 && trough.along > from_along && trough.along <= to_along) {
        stops.push_back(trough.along);
      }
    }
    std::sort(stops.begin(), stops.end());
    for (const Metres stop : stops) {
      const Instant there = from + ((stop - from_along) / (to_along - from_along)) * (to - from);
      plain(place, now, there);
      water_.expect_drink(plan_.ride.drinks.field_taken);
      now = there;
    }
    plain(place, now, to);
  }

 private:
  void plain(Position place, Instant from, Instant to) {
    constexpr Seconds quarter{900.0};
    for (Instant now = from; now < to; now += quarter) {
      const Seconds piece = std::min(quarter, to - now);
      water_.ride(piece, wbgt_at(plan_, place, now + 0.5 * piece));
    }
  }

  const RidePlan& plan_;
  HorseWater& water_;
};

Ions given(const RideHorse& horse) {
  Ions all{};
  for (const auto& intake : horse.intakes) all = all + ions_of(intake.salt, intake.potassium_chloride);
  return all;
}

}  // namespace

HorseBody body_of(const RideHorse& horse) {
  HorseBody body;
  if (horse.mass) body.mass = *horse.mass;
  body.is_acclimatised = horse.is_acclimatised;
  body.sweat_factor = horse.sweat_factor;
  return body;
}

HorseDayWater horse_day_water(const RidePlan& plan, HorseId horse, std::vector<PassWelfare>& passes) {
  const RideHorse& typed = at(plan.ride.horses, horse);
  HorseDayWater day;
  day.body = body_of(typed);
  HorseWater water(day.body, plan.ride.sweat);
  Riding riding(plan, water);
  Instant out = plan.ride.start + typed.start_after + plan.ride.start_delay.median;
  Metres along{0};
  for (std::size_t p = 0; p < plan.passes.size(); ++p) {
    const PassForecast& pass = plan.passes[p];
    if (pass.horse != horse) continue;
    const Position place = event_position(plan.survey.course, pass.event);
    riding.ride(place, out, pass.due.p50, pass.event.loop, along, pass.loop_along);
    if (pass.event.kind == RideEvent::Kind::finish) day.at_finish = water.now();
    passes[p].drank = recorded(typed, plan, pass);
    if (passes[p].drank) {
      water.drink({*passes[p].drank, *passes[p].drank});
    } else if (passes[p].is_served) {
      water.expect_drink(passes[p].drink.taken);
    }
    const bool stands = pass.event.kind == RideEvent::Kind::gate || pass.is_met;
    if (stands && pass.out.p50 > pass.due.p50) {
      water.stand(pass.out.p50 - pass.due.p50, wbgt_at(plan, place, pass.due.p50));
    }
    passes[p].water = water.now();
    out = stands ? std::max(pass.out.p50, pass.due.p50) : pass.due.p50;
    along = pass.event.kind == RideEvent::Kind::pass ? pass.loop_along : Metres{0};
  }
  day.salts = salt_balance(day.at_finish.sweat, given(typed));
  return day;
}

Warnings unused_intakes(const RidePlan& plan) {
  Warnings warnings;
  for (std::size_t h = 0; h < plan.ride.horses.size(); ++h) {
    const RideHorse& horse = plan.ride.horses[h];
    for (const auto& intake : horse.intakes) {
      const bool is_used = std::any_of(plan.passes.begin(), plan.passes.end(), [&](const PassForecast& pass) {
        return pass.horse.value == h && is_about(intake, plan, pass);
      });
      if (is_used) continue;
      warnings.push_back({"intakes of '" + horse.name + "'",
                          "name '" + intake.place + "' in loop " + std::to_string(intake.loop) +
                              ", where the horse does not pass; what it drank there is not counted"});
    }
  }
  return warnings;
}

}  // namespace outbye
