// What a ride or a plan breaks of its rules, and what is to be asked of the officials. All that is known of the ride
// comes in as RideFacts; what is left out is not checked. The speed of the whole ride is worked out from the loops,
// with the recoveries where the book counts them as riding time.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/rules/rule_book.h"

namespace outbye {

struct LoopFacts {
  std::string name;  // "Red"; may be empty
  Metres length{};
  std::optional<KmPerHour> speed;                  // median, over the riding time
  std::optional<Interval<KmPerHour>> speed_range;  // on 8 of 10 days: 10 % and 90 % quantiles
};

// A vet gate, or the finish.
struct GateFacts {
  std::optional<Seconds> hold;           // as planned
  std::optional<Seconds> recovery;       // from arrival to in-time, median
  std::optional<double> chance_in_time;  // of the recovery ending within the presentation limit, 0..1
};

struct RideFacts {
  std::optional<Metres> length;                    // of the course
  std::vector<LoopFacts> loops;                    // in the order of riding
  std::vector<GateFacts> gates;                    // gates[0] is gate 1
  std::optional<GateFacts> finish;                 // hold not used
  std::optional<Interval<KmPerHour>> speed_range;  // of the whole ride, over the riding time: 10 % and 90 % quantiles
  std::optional<Seconds> elapsed;                  // from start to finish, holds included, median
  std::optional<Interval<Seconds>> elapsed_range;  // 10 % and 90 % quantiles
  std::optional<std::uint32_t> crew;               // people who help; 0: none
  std::optional<Kilograms> rider_weight;           // with tack, without bridle
  std::vector<std::string> meets_elsewhere;        // meets at places that are not designated crew points
  std::vector<std::string> in_the_dark;            // passes without daylight: "Ford, loop 1"
  bool horse_is_novice{};
};

struct RuleFinding {
  // breaks: against a published number or one set for the event. asks: a question for the officials, because the
  // number is weak or the book is silent. notes: to be known.
  enum class Severity { breaks, asks, notes } severity{Severity::notes};
  std::string where;         // "ride", "loop 2", "gate 1", "finish", "crew"
  std::string what;          // a sentence with both numbers
  std::optional<Mark> mark;  // of the rule behind it
  std::string source;        // of the rule behind it
  friend bool operator==(const RuleFinding&, const RuleFinding&) = default;
};

// Breaks first, then questions, then notes; the last finding always says that the rules of the day win.
std::vector<RuleFinding> check_rules(const RuleSet& rules, const RideFacts& ride);

}  // namespace outbye
