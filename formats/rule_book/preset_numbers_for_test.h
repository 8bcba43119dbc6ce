// Every number that the books of data/rules hold, with its mark and words of what was read. For the tests of this
// folder.
#pragma once

#include <vector>

#include "core/rules/rule_book.h"

namespace outbye::preset_numbers {

struct Expected {
  const char* path;
  const char* value;
  Mark mark;
  const char* source{""};  // words that its source must hold
};

struct ExpectedLevel {
  const char* book;
  const char* level;
  std::vector<Expected> rules;
};

constexpr Mark pub = Mark::published;
constexpr Mark mem = Mark::from_memory;
constexpr Mark habit = Mark::common_practice;
constexpr const char* stars = "FEI Endurance Rules, Art. 803 and 805";
constexpr const char* grooms = "FEI Endurance Rules 2019, p. 10, Art. 801.8";
constexpr const char* handlers = "FEI Endurance Rules 2019, p. 31, Art. 820.10-13";
constexpr const char* points = "FEI Endurance Rules 2020";
constexpr const char* vet_gate = "VetGate, encyclopedia article in translation (de.zxc.wiki)";
constexpr const char* islands = "Maximum heart rates and presentation times, island championships 2019";
constexpr const char* first_ride = "What to expect at your first ride";
constexpr const char* news = "Endurance News, Sept 2018";
constexpr const char* handbook = "Endurance Rider's Handbook, rev. 2017";
constexpr const char* dutch = "Dutch federation endurance rules, Art. 602 and 617";
constexpr const char* dutch_2021 = "rule changes 2021";

// What all international levels share.
inline std::vector<Expected> international(std::vector<Expected> own) {
  const std::vector<Expected> shared{{"loop_length_km", "16 to 40 km", mem},
                                     {"crew_at_gate", "5", pub, grooms},
                                     {"people_at_inspection", "3", pub, handlers},
                                     {"crew_anywhere", "no", pub, points},
                                     {"dark_as_scheduled", "yes", mem},
                                     {"gate.pulse_limit_bpm", "64 bpm", mem},
                                     {"gate.present_within_min", "15 min", mem},
                                     {"gate.attempts", "2", pub, vet_gate},
                                     {"gate.hold_min", "40 min", mem},
                                     {"gate.hold_from", "in-time", pub, vet_gate},
                                     {"gate.clock_stops", "at in-time", pub, vet_gate},
                                     {"finish.pulse_limit_bpm", "64 bpm", mem},
                                     {"finish.present_within_min", "20 min", mem},
                                     {"finish.clock_stops", "at the line", mem}};
  own.insert(own.end(), shared.begin(), shared.end());
  return own;
}

inline std::vector<Expected> star(const char* distance, const char* weight) {
  return international({{"distance_km", distance, pub, stars}, {"min_rider_weight_kg", weight, pub, stars}});
}

inline std::vector<Expected> graded(const char* distance, const char* slowest, const char* fastest) {
  return {{"distance_km", distance, habit},
          {"min_speed_kmh", slowest, habit},
          {"max_speed_kmh", fastest, habit},
          {"people_at_inspection", "2", habit, "one venue's rules"},
          {"gate.hold_min", "30 min", habit, "80 km as 2 x 40"},
          {"finish.pulse_limit_bpm", "64 bpm", habit},
          {"finish.pulse_must_be_below", "yes", habit},
          {"finish.present_within_min", "30 min", habit}};
}

inline std::vector<Expected> american(const char* distance, const char* clock, const char* last) {
  return {{"distance_km", distance, pub, handbook},
          {"min_elapsed_speed_kmh", "6.71 km/h", pub, news},
          {"crew_anywhere", "no", mem},
          {"gate.pulse_limit_bpm", "64 bpm", pub, first_ride},
          {"gate.present_within_min", "30 min", pub, first_ride},
          {"gate.hold_min", "40 min", habit, "one rider's region"},
          {"gate.hold_from", "in-time", pub, first_ride},
          {"finish.pulse_limit_bpm", "64 bpm", habit},
          {"finish.present_within_min", "30 min", pub, last},
          {"finish.clock_stops", clock, pub, news}};
}

inline std::vector<Expected> set_speed(std::vector<Expected> own) {
  const std::vector<Expected> shared{
      {"gate.present_after_min", "30 min", habit},   {"gate.hold_min", "60 min", habit},
      {"gate.hold_from", "arrival", habit},          {"gate.clock_stops", "at the line", habit},
      {"finish.present_after_min", "30 min", habit}, {"finish.clock_stops", "at the line", habit}};
  own.insert(own.end(), shared.begin(), shared.end());
  return own;
}

inline std::vector<Expected> dutch_low(const char* slowest, const char* fastest) {
  return {{"distance_km", "20 to 39 km", pub, dutch},
          {"min_speed_kmh", slowest, pub, dutch},
          {"max_speed_kmh", fastest, pub, dutch},
          {"finish.pulse_limit_bpm", "60 bpm", pub, dutch_2021},
          {"finish.present_at_once", "yes", pub, dutch_2021},
          {"finish.attempts", "2", pub, dutch_2021},
          {"finish.present_again_within_min", "10 min", pub, dutch_2021}};
}

inline std::vector<Expected> dutch_high(const char* distance, const char* slowest) {
  return {{"distance_km", distance, pub, dutch}, {"min_speed_kmh", slowest, pub, dutch}};
}

inline const std::vector<ExpectedLevel>& expected() {
  static const std::vector<ExpectedLevel> levels{
      {"international", "Novice qualifier", international({{"max_speed_kmh", "16 km/h", mem}})},
      {"international", "1*", star("100 to 119 km", "70 kg")},
      {"international", "2*", star("120 to 139 km", "70 kg")},
      {"international", "3*", star("140 to 160 km", "75 kg")},
      {"international", "2* over two days, each day", star("70 to 89 km", "70 kg")},
      {"international", "3* over two days, each day", star("90 to 100 km", "75 kg")},
      {"international", "3* over three days or more, each day", star("70 to 80 km", "75 kg")},
      {"international", "1*, young riders and juniors", star("100 to 119 km", "60 kg")},
      {"international", "2*, young riders and juniors", star("120 to 139 km", "60 kg")},
      {"international",
       "Championships 2019 (trial)",
       {{"crew_at_gate", "5", pub, grooms},
        {"people_at_inspection", "3", pub, handlers},
        {"crew_anywhere", "no", pub, points},
        {"gate.pulse_limit_bpm", "60 bpm", pub, islands},
        {"gate.present_within_min", "20 min", pub, islands},
        {"gates.1.pulse_limit_bpm", "64 bpm", pub, islands},
        {"finish.pulse_limit_bpm", "60 bpm", pub, islands},
        {"finish.present_within_min", "20 min", pub, islands}}},

      {"british",
       "Pleasure",
       {{"distance_km", "10 to 40 km", habit},
        {"distance_tolerance", "5 %", habit},
        {"min_speed_kmh", "8 km/h", habit},
        {"max_speed_kmh", "12 km/h", habit}}},
      {"british", "Novice Foundation graded", graded("20 to 29 km", "8 km/h", "15 km/h")},
      {"british", "Novice graded", graded("30 to 50 km", "8 km/h", "15 km/h")},
      {"british", "Open graded", graded("30 to 160 km", "9 km/h", "18 km/h")},
      {"british", "Advanced graded", graded("30 to 160 km", "9 km/h", "18 km/h")},
      {"british",
       "Competitive",
       {{"distance_km", "80 km or more", habit},
        {"people_at_inspection", "2", habit, "one venue's rules"},
        {"gate.pulse_limit_bpm", "64 bpm", mem},
        {"gate.present_within_min", "20 min", mem},
        {"gate.hold_min", "30 min", mem, "30 to 40 in use"},
        {"finish.pulse_limit_bpm", "64 bpm", habit},
        {"finish.pulse_must_be_below", "yes", habit},
        {"finish.present_within_min", "30 min", habit}}},
      // 15 miles at 5-8 mph, 20-50 miles at 6-10 mph, free speed from 6 mph; a mile is 1.609344 km.
      {"british",
       "Sister society, 15 miles",
       {{"distance_km", "24.14 km", habit},
        {"distance_tolerance", "10 %", habit},
        {"min_speed_kmh", "8.05 km/h", habit},
        {"max_speed_kmh", "12.87 km/h", habit}}},
      {"british",
       "Sister society, 20 to 50 miles",
       {{"distance_km", "32.19 to 80.47 km", habit},
        {"distance_tolerance", "10 %", habit},
        {"min_speed_kmh", "9.66 km/h", habit},
        {"max_speed_kmh", "16.09 km/h", habit}}},
      {"british",
       "Sister society, free speed",
       {{"distance_tolerance", "10 %", habit}, {"min_speed_kmh", "9.66 km/h", habit}}},
      {"british",
       "Scotland, pleasure",
       {{"distance_km", "15 to 29 km", habit},
        {"min_speed_kmh", "8 km/h", habit},
        {"max_speed_kmh", "11 km/h", habit}}},
      {"british",
       "Scotland, training",
       {{"min_speed_kmh", "9 km/h", habit},
        {"finish.pulse_limit_bpm", "64 bpm", habit, "48 and less without penalty"},
        {"finish.present_within_min", "30 min", habit}}},

      // 25-35 miles; from 50 miles on.
      {"american", "Limited distance", american("40.23 to 56.33 km", "at in-time", "30 min extra since 2019")},
      {"american", "Endurance", american("80.47 km or more", "at the line", news)},

      {"french", "Set speed 20 km",
       set_speed({{"distance_km", "18 to 22 km", habit},
                  {"min_speed_kmh", "10 km/h", habit},
                  {"max_speed_kmh", "12 km/h", habit}})},
      {"french", "Set speed 30 km",
       set_speed({{"distance_km", "27 to 33 km", habit},
                  {"min_speed_kmh", "10 km/h", habit},
                  {"max_speed_kmh", "12 km/h", habit}})},
      {"french", "Set speed 40 km",
       set_speed({{"distance_km", "40 km", habit},
                  {"loop_length_km", "20 to 30 km", habit},
                  {"loops", "2", habit},
                  {"min_speed_kmh", "12 km/h", habit},
                  {"max_speed_kmh", "15 km/h", habit}})},
      {"french", "Set speed 60 km",
       set_speed({{"distance_km", "60 km", habit},
                  {"loop_length_km", "20 to 30 km", habit},
                  {"loops", "2 to 3", habit},
                  {"min_speed_kmh", "12 km/h", habit},
                  {"max_speed_kmh", "15 km/h", habit}})},
      {"french",
       "Free speed 90 km",
       {{"distance_km", "90 km", habit},
        {"loop_length_km", "20 to 30 km", habit},
        {"loops", "3", habit},
        {"min_speed_kmh", "12 km/h", habit},
        {"gate.hold_min", "30 min", habit, "30 to 60 in use"},
        {"gate.clock_stops", "at in-time", habit},
        {"finish.clock_stops", "at in-time", habit}}},

      {"dutch", "Introductory", dutch_low("8 km/h", "12 km/h")},
      {"dutch", "Class I", dutch_low("9 km/h", "14 km/h")},
      {"dutch", "Class II", dutch_high("40 to 79 km", "9 km/h")},
      {"dutch", "Class III", dutch_high("80 to 119 km", "10 km/h")},
      {"dutch", "Class IV", dutch_high("120 km or more", "10 km/h")},

      {"australian",
       "Training ride",
       {{"distance_km", "40 to 60 km", habit},
        {"max_speed_kmh", "13.33 km/h", Mark::derived, "40 km in 3 h"},
        {"min_time_min", "3 h", habit, "for 40 km"},
        {"gate.pulse_limit_bpm", "55 bpm", habit},
        {"gate.present_within_min", "30 min", habit},
        {"finish.pulse_limit_bpm", "55 bpm", habit},
        {"finish.present_within_min", "30 min", habit}}},
      {"australian",
       "Novice 80 km",
       {{"distance_km", "80 km", habit},
        {"min_speed_kmh", "10 km/h", habit},
        {"max_speed_kmh", "13.33 km/h", Mark::derived, "80 km in 6 h"},
        {"min_time_min", "6 h", habit, "for 80 km"},
        {"gate.pulse_limit_bpm", "55 bpm", habit},
        {"gate.present_within_min", "30 min", habit},
        {"finish.pulse_limit_bpm", "60 bpm", mem},
        {"finish.present_within_min", "30 min", habit}}},
      {"australian",
       "Endurance",
       {{"gate.pulse_limit_bpm", "55 bpm", habit},
        {"gate.present_within_min", "30 min", habit},
        {"finish.pulse_limit_bpm", "60 bpm", mem},
        {"finish.present_within_min", "30 min", habit}}}};
  return levels;
}

}  // namespace outbye::preset_numbers
