// The rules of a ride as data: what a body asks at each level, every number with where it comes from. A book is read
// from a file (formats/rule_book); a ride names book and level and may set any value for the event or for one gate.
// Outbye holds no rule as a constant: the rules of the day (schedule, briefing, officials) win over every book.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/base/interval.h"
#include "core/base/physical_units.h"
#include "core/base/units.h"

namespace outbye {

// How far a number can be trusted.
enum class Mark { published, derived, from_memory, common_practice, event };  // event: set by the user for this ride

template <class T>
struct Ruled {
  T value{};
  Mark mark{Mark::from_memory};
  std::string source;  // "Endurance rules 2019, Art. 820"; for an event's own value where it was said: "briefing"
  friend bool operator==(const Ruled&, const Ruled&) = default;
};
template <class T>
using Rule = std::optional<Ruled<T>>;  // nothing: the book is silent or could not be read

enum class HoldFrom { in_time, arrival };
enum class ClockStops { at_line, at_in_time };  // riding time of the loop ends here

// At a vet gate, or after the finish.
struct GateRules {
  Rule<BeatsPerMinute> pulse_limit;    // accepted at or below it
  Rule<bool> pulse_must_be_below;      // true: at the limit is too high
  Rule<Seconds> present_within;        // presentation limit, from arrival
  Rule<Seconds> present_after;         // not before this, from arrival
  Rule<bool> present_at_once;          // true: the pulse is counted on arrival, without a time to recover
  Rule<std::uint32_t> attempts;        // presentations allowed
  Rule<Seconds> present_again_within;  // from the first presentation that failed
  Rule<Seconds> hold;                  // at least
  Rule<HoldFrom> hold_from;
  Rule<ClockStops> clock_stops;
};

// Intervals of lengths and speeds may be open above: `to` is infinity (lengths) or the greatest number (counts).
struct RuleLevel {
  std::string name;                 // "1*", "Novice"
  Rule<Interval<Metres>> distance;  // of the ride, or of each day where the name says so
  Rule<double> distance_tolerance;  // share by which the course may be longer or shorter than `distance`: 0.05
  Rule<Interval<Metres>> loop_length;
  Rule<Interval<std::uint32_t>> loops;
  Rule<KmPerHour> min_speed;  // over the riding time
  Rule<KmPerHour> max_speed;
  Rule<Seconds> time_limit;  // from start to finish, holds included
  Rule<KmPerHour>
      min_elapsed_speed;   // the time limit as a speed over the elapsed time, where it grows with the distance
  Rule<Seconds> min_time;  // not faster than this
  Rule<Kilograms> min_rider_weight;          // with tack, without bridle
  Rule<std::uint32_t> crew_at_gate;          // persons with one horse in the vet gate
  Rule<std::uint32_t> people_at_inspection;  // persons with one horse while the vet looks at it
  Rule<Metres> crew_needed_from;             // crew compulsory from this distance on
  Rule<bool> crew_anywhere;                  // false: at designated points only
  Rule<bool> dark_as_scheduled;              // true: riding in the dark only where the schedule has it
  GateRules gate;                            // every vet gate
  std::map<std::uint32_t, GateRules> gates;  // 1-based: what differs at one gate
  GateRules finish;                          // the last inspection
  bool is_novice{};                          // minimum-weight and speed cautions are shown more plainly
};

struct RuleBook {
  std::string id;  // "british"
  std::string name;
  std::string body;     // who issues the rules, in general words
  std::string country;  // ISO 3166-1 alpha-2, or empty
  std::int32_t year{};  // of the latest rules read; 0: not known
  std::string source;
  std::vector<std::string> notes;  // what the numbers leave open, in sentences
  std::vector<RuleLevel> levels;
};

// What a ride asks of a book: values that are set win over the book's, each marked Mark::event.
struct RuleChoice {
  std::string book;   // id of a book
  std::string level;  // name of a level
  RuleLevel own;      // only what is set counts; `gates` for single gates; name, is_novice not used
};

// The rules of a ride: a level with the event's own values in it.
struct RuleSet {
  std::string book_id;
  std::string book_name;
  std::int32_t year{};
  std::string source;
  std::vector<std::string> notes;
  RuleLevel level;
  std::vector<std::string> overridden;  // "hold at gate 2: 50 min instead of 40 min", for people
};

}  // namespace outbye
