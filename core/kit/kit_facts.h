// What kit and amounts need to know of the planned day. Filled by the engine from a plan (engine/kit.h).
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/clock.h"
#include "core/base/interval.h"
#include "core/base/physical_units.h"
#include "core/base/units.h"
#include "core/kit/ride_kit.h"
#include "core/welfare/heat_band.h"

namespace outbye {

// A pass, gate or finish where a horse is served.
struct KitStop {
  enum class Kind { pass, gate, finish } kind{Kind::pass};
  std::string name;
  std::size_t horse{};             // row of KitFacts::horses
  std::optional<std::size_t> car;  // row of KitFacts::cars; nothing: people and water are there anyway
  std::uint32_t loop{1};           // 1-based
  Instant at;                      // median arrival
  std::optional<HeatBand> band;    // the worst there; nothing: weather not known
  std::optional<Celsius> temperature;
  Litres pour{};
  Interval<Litres> pour_range{};  // what the band below and the band above would pour
  Kilograms ice{};
  Litres drink_offer{};            // have this much ready
  Interval<Litres> drink_taken{};  // as usually taken
  bool is_cold{};
  bool is_dark{};          // at some likely time of the stop it is not daylight
  bool refilled_before{};  // the car fills up on its way here
  bool has_water{};        // a tap: water need not be brought
};

struct KitHorse {
  std::string name;
  std::string rider;
  bool is_novice{};
  std::optional<Feet> feet;  // nothing: not said
  std::vector<HorseLike> likes;
  Seconds ridden{};  // start to finish without holds
};

struct KitCar {
  std::string name;
  Metres driven{};
  std::size_t stops{};
  Litres water_capacity{};  // by the ride file; 0: not limited
};

// A cool box that is at hand.
struct KitBox {
  std::string name;
  double leak_w_per_k{1.0};
  Kilograms ice{};      // that it takes
  std::string leak_is;  // where the leak comes from: "measured: 0.9 kg of ice melted in 8.0 h at 22 degrees"
};

// Where fuel can be had. `car` and what follows are of pumps beside a drive.
struct KitPump {
  std::string name;
  bool is_marked{};                // in the ride; else of the map
  std::optional<std::size_t> car;  // row of KitFacts::cars; nothing: no car drives past within reach
  Metres off{};                    // from the drive, as the crow flies
  Metres driven{};                 // since the car set out
  Instant at;                      // about then
  std::string drive_to;            // the stop that the drive leads to
};

struct KitFacts {
  Clock clock;        // for times in words
  Metres distance{};  // of the ride
  std::uint32_t loops{1};
  Instant from;                // the first car is ready
  Instant to;                  // the last stop is over
  std::vector<KitStop> stops;  // in order of time
  std::vector<KitHorse> horses;
  std::vector<KitCar> cars;
  bool night_camp{};
  bool has_soaked_feed{};
  std::uint32_t crew{1};                                  // persons
  bool is_crew_known{};                                   // else assumed
  std::vector<std::pair<Instant, Celsius>> temperatures;  // hour by hour, by time; empty: not known
  std::vector<KitPump> pumps;                             // by car, in order of time; then those of no car
  std::vector<KitBox> boxes;                              // of one's own, the tightest first
};

Seconds hours_out(const KitFacts& facts);                   // from..to
std::optional<HeatBand> worst_band(const KitFacts& facts);  // of any stop; nothing: weather not known
// Warm and damp enough that wet feed spoils within hours and people drink more: from "discomfort" (WBGT 25) up at any
// stop, or not known.
bool may_be_hot(const KitFacts& facts);
std::string stop_words(const KitStop& stop, const KitFacts& facts);  // "Juno at Ford, loop 2, 10:42"

}  // namespace outbye
