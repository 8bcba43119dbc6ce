// A small day for tests of kit: one horse, one car, two loops, every number visible.
#pragma once

#include "core/kit/kit_facts.h"

namespace outbye {

inline Instant kit_noon() { return std::chrono::sys_days{std::chrono::year{2026} / 6 / 13} + std::chrono::hours{12}; }

// Ford and Barn on loop 1, the gate with a tap, Ford again, the finish.
inline KitFacts small_day(HeatBand band = HeatBand::comfortable, Litres pour = {4}) {
  KitFacts facts;
  facts.distance = kilometres(80);
  facts.loops = 2;
  facts.from = kit_noon() - Seconds{6 * 3600.0};
  facts.to = kit_noon() + Seconds{2 * 3600.0};
  facts.horses = {{"Juno", "A. Rider", false, Feet::shod, {}, Seconds{6 * 3600.0}}};
  facts.cars = {{"Van", kilometres(60), 5, {}}};
  facts.crew = 2;
  facts.is_crew_known = true;
  facts.has_soaked_feed = true;
  const auto stop = [&](const char* name, KitStop::Kind kind, std::uint32_t loop, double hours) {
    KitStop s;
    s.name = name;
    s.kind = kind;
    s.car = 0;
    s.loop = loop;
    s.at = facts.from + Seconds{hours * 3600.0};
    s.band = band;
    s.temperature = Celsius{20};
    s.pour = pour;
    s.pour_range = {0.5 * pour, 1.5 * pour};
    s.drink_offer = Litres{11.4};
    s.drink_taken = {Litres{0}, Litres{7.6}};
    s.has_water = kind != KitStop::Kind::pass;
    return s;
  };
  facts.stops = {stop("Ford", KitStop::Kind::pass, 1, 2), stop("Barn", KitStop::Kind::pass, 1, 3),
                 stop("Gate 1", KitStop::Kind::gate, 1, 4), stop("Ford", KitStop::Kind::pass, 2, 5.5),
                 stop("Finish", KitStop::Kind::finish, 2, 7)};
  return facts;
}

}  // namespace outbye
