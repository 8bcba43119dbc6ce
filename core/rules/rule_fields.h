// Every rule of a level or a gate with the name it has in files and for people. Reading, writing, showing and merging
// all walk this one list, so that a new rule needs one line here (and a check, if it can be checked).
#pragma once

#include <string>
#include <string_view>

#include "core/rules/rule_book.h"

namespace outbye {

struct RuleField {
  std::string_view name;   // in files: "hold_min"; the end says the unit (km, kmh, min, kg, bpm)
  std::string_view words;  // for people: "hold"
};

// Calls visit(RuleField, pointer to member of GateRules) for each rule, in the order of the files.
template <class Visit>
constexpr void each_gate_rule(Visit&& visit) {
  visit(RuleField{"pulse_limit_bpm", "pulse limit"}, &GateRules::pulse_limit);
  visit(RuleField{"pulse_must_be_below", "pulse must be below the limit"}, &GateRules::pulse_must_be_below);
  visit(RuleField{"present_within_min", "present within"}, &GateRules::present_within);
  visit(RuleField{"present_after_min", "present not before"}, &GateRules::present_after);
  visit(RuleField{"present_at_once", "pulse counted on arrival"}, &GateRules::present_at_once);
  visit(RuleField{"attempts", "presentations"}, &GateRules::attempts);
  visit(RuleField{"present_again_within_min", "present again within"}, &GateRules::present_again_within);
  visit(RuleField{"hold_min", "hold"}, &GateRules::hold);
  visit(RuleField{"hold_from", "hold runs from"}, &GateRules::hold_from);
  visit(RuleField{"clock_stops", "riding clock stops"}, &GateRules::clock_stops);
}

// The same for the rules of a level, without those of its gates and finish.
template <class Visit>
constexpr void each_level_rule(Visit&& visit) {
  visit(RuleField{"distance_km", "distance"}, &RuleLevel::distance);
  visit(RuleField{"distance_tolerance", "tolerance of the distance"}, &RuleLevel::distance_tolerance);
  visit(RuleField{"loop_length_km", "length of a loop"}, &RuleLevel::loop_length);
  visit(RuleField{"loops", "loops"}, &RuleLevel::loops);
  visit(RuleField{"min_speed_kmh", "slowest speed"}, &RuleLevel::min_speed);
  visit(RuleField{"max_speed_kmh", "fastest speed"}, &RuleLevel::max_speed);
  visit(RuleField{"time_limit_min", "time limit"}, &RuleLevel::time_limit);
  visit(RuleField{"min_elapsed_speed_kmh", "slowest speed, holds included"}, &RuleLevel::min_elapsed_speed);
  visit(RuleField{"min_time_min", "shortest riding time"}, &RuleLevel::min_time);
  visit(RuleField{"min_rider_weight_kg", "least rider weight"}, &RuleLevel::min_rider_weight);
  visit(RuleField{"crew_at_gate", "crew in the vet gate"}, &RuleLevel::crew_at_gate);
  visit(RuleField{"people_at_inspection", "people at the inspection"}, &RuleLevel::people_at_inspection);
  visit(RuleField{"crew_needed_from_km", "crew compulsory from"}, &RuleLevel::crew_needed_from);
  visit(RuleField{"crew_anywhere", "crew may help anywhere"}, &RuleLevel::crew_anywhere);
  visit(RuleField{"dark_as_scheduled", "in the dark only as scheduled"}, &RuleLevel::dark_as_scheduled);
}

// "published", "derived", "from memory", "common practice", "set for this event".
std::string in_words(Mark mark);

// A value for people, with its unit: "40 min", "64 bpm", "80 km or more", "in-time", "yes".
std::string in_words(BeatsPerMinute pulse);
std::string in_words(Seconds duration);
std::string in_words(KmPerHour speed);
std::string in_words(Kilograms mass);
std::string in_words(Metres length);
std::string in_words(const Interval<Metres>& length);
std::string in_words(std::uint32_t count);
std::string in_words(const Interval<std::uint32_t>& count);
std::string in_words(double share);
std::string in_words(bool flag);
std::string in_words(HoldFrom from);
std::string in_words(ClockStops stops);

}  // namespace outbye
