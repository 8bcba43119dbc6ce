// What a crew does with its orders on any day: how long each car waits at each stop, when it gives the next meet up,
// and where it drives then. Made from the orders and the days taken together, never from the day it is used on.
// docs/crew-plan.md tells the same in words.
#pragma once

#include <cstddef>
#include <limits>
#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/crewing/plan.h"
#include "core/crewing/value_days.h"

namespace outbye {

inline constexpr float never = std::numeric_limits<float>::infinity();

// One stop. Times are seconds, instants seconds after ValuationDays::epoch(), lengths km.
struct PolicyStop {
  PlannedStop stop;
  CarId car;
  std::size_t index{};  // in the car's orders

  // Meets.
  HorseId horse;
  std::size_t event{};
  bool stays{};  // the kit stays up from the meet before: the horse before has to go, that is all
  float open_from{-never};
  float open_to{never};
  float setup{};
  float pack{};
  float worth{};
  Expectation wait;       // for the horse, counted from when it was last met by anyone of the crew
  float leave_by{never};  // give this horse up then, for the sake of another horse
  bool is_held{};         // the horse stands only if met
  float along{};          // km
  bool passes_gate{};     // gates since this horse's meet before, or this is one: there the gap begins anew
  float first_gate{};     // km
  float last_gate{};      // km
  float gates_penalty{};  // of the gaps from gate to gate

  // Refills and rests: the whole of it; never given up.
  float duration{};

  // Driving on. Lateness at departure is counted from when the next horse was last met (`is_relative`: this car knows)
  // or from the epoch.
  std::optional<std::size_t> before;    // the car's stop before: stop of Policy::stops
  std::optional<std::size_t> next;      // stop of Policy::stops
  std::optional<std::size_t> fallback;  // likewise: where to go when later than `limit`
  float drive_next{};                   // at the limits
  float drive_fallback{};
  float fallback_setup{};  // where the kit was to stay up from the meet that is given up
  bool is_relative{};
  float limit{never};
  float hold{-never};   // not before: to wait no longer than `longest_wait` at the next meet
  float wanted{never};  // lateness that still makes the next meet with the wanted confidence
};

struct Policy {
  std::vector<PolicyStop> stops;                       // so ordered that each horse and each car goes down the list
  std::vector<std::optional<std::size_t>> first_stop;  // of each car
  std::vector<float> start;                            // of each car: when it drives off
  std::vector<float> first_drive;                      // of each car, at the limits
  struct LastGap {
    bool passes_gate{};
    float first_gate{};
    float gates_penalty{};
  };
  std::vector<LastGap> last_gaps;  // of each horse: from its last meet to the end of its day
  float interval{};                // km without penalty
  float slope{};                   // worth per km
  float part{};
};

// Errors: bad_input for orders that name what is not there, meet an event twice or a horse against the order of its
// ride; impossible where there is no way by car.
Result<Policy> make_policy(ValuationDays& days, const CrewOrders& orders);

}  // namespace outbye
