// The ride as a person describes it: one event day with its course, people, horses, cars and settings. Read from the
// ride file (formats/ride_file.h) or made by `outbye new`; every default is a visible assumption.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/clock.h"
#include "core/base/interval.h"
#include "core/base/units.h"
#include "core/course/course.h"
#include "core/crewing/crewing_task.h"
#include "core/geo/position.h"
#include "core/kit/ride_kit.h"
#include "core/pace/pace.h"
#include "core/rules/rule_book.h"
#include "core/welfare/cooling.h"
#include "core/welfare/drinking.h"
#include "core/welfare/heat_band.h"
#include "core/welfare/sweat.h"
#include "core/welfare/weather.h"
#include "engine/ride_boot.h"

namespace outbye {

struct RideLoop {
  std::string name;
  std::vector<std::string> tracks;  // names of tracks in the course files; empty: the next track in order
  bool reversed{};
  LoopPace pace;
};

struct RideHazard {
  std::string what;                  // "barbed wire left of the gate"
  std::optional<Position> position;  // nothing: at the point
};

// A picture among the files of the ride.
struct RidePhoto {
  std::string file;
  std::string alt;  // what it shows, for who cannot see it
};

struct RideCrewPoint {
  std::string name;
  std::optional<Position> position;  // where the horse is met; nothing: the waypoint of that name in the course files
  std::optional<Position> parking;   // where the car stands; nothing: where the horse is met
  std::string note;
  bool is_closed{};                     // crews are not allowed
  std::vector<Interval<Instant>> open;  // empty: all day
  std::optional<Seconds> setup;         // instead of the crew's
  std::optional<Seconds> pack;
  bool has_water{};                    // a tap to refill from
  std::string approach{};              // how a car gets there
  std::vector<RideHazard> hazards{};   // to horse, people or car
  std::vector<std::string> allowed{};  // what may be done there, as the organiser says
  std::string recce{};                 // what was seen there beforehand
  std::vector<RidePhoto> photos{};
  std::vector<PassCorrection> corrections{};  // of passes found in the wrong place
};

// What the user says about one pass or all passes of a point: the more specific of two wins.
struct PassWish {
  std::string crew_point;             // or the venue's name for gates and finish
  std::optional<std::uint32_t> loop;  // 1-based; nothing: every loop
  std::optional<std::uint32_t> nth;   // 1-based within the loop; nothing: every pass
  std::optional<std::string> horse;   // nothing: every horse
  std::optional<MeetOption::Demand> demand;
  std::optional<double> worth;
  std::optional<Seconds> stop;  // how long the horse stands when met (median)
  std::optional<Litres> water;
  std::optional<std::string> car;
};

struct RideCar {
  std::string name;
  std::optional<std::string> start;   // crew point or venue; nothing: the venue
  std::optional<Instant> ready_from;  // nothing: an hour before the start
  std::optional<std::string> end;
  std::optional<Instant> back_by;
  Litres water_capacity{};                // 0: not limited
  Metres fuel_range{};                    // range on a full tank; 0: not limited
  double fuel_reserve{0.25};              // share of the range never planned on (common practice, no source)
  Seconds longest_driving{minutes(120)};  // Highway Code rule 91
  Seconds break_length{minutes(15)};
  std::optional<RideBoot> boot{};  // nothing: not measured yet
};

// What a horse drank and was given at one place, once it is known: typed in afterwards, or as planned.
struct RideIntake {
  std::string place;      // crew point, or the venue for start, gates and finish
  std::uint32_t loop{1};  // 1-based; at the venue the gate that ends it
  std::uint32_t nth{1};   // 1-based pass within the loop
  std::optional<Litres> drank{};
  Grams salt{};                // NaCl
  Grams potassium_chloride{};  // KCl
};

struct RideHorse {
  std::string name;
  std::string rider;
  std::string number;
  Seconds start_after{};                         // after the ride's start: the slot in an interval start
  std::optional<std::vector<KmPerHour>> speeds;  // one a loop, instead of the loops' own
  std::optional<Kilograms> mass{};               // of the horse; nothing: 450 kg is assumed
  std::optional<Kilograms> rider_weight{};       // with tack, without bridle: for the minimum weight
  bool is_acclimatised{};                        // three weeks of work in the heat
  bool is_novice{};
  double sweat_factor{1.0};  // of the usual sweat rate, from what is known of this horse
  std::vector<RideIntake> intakes{};
  std::vector<HorseLike> likes{};  // what it drinks, loop by loop
  std::optional<Feet> feet{};      // shod, booted or barefoot; nothing: not said
  std::string rider_phone{};       // as typed in
};

// Water on the course that the horse can drink without a crew: a trough, a ford, the organiser's tub.
struct RideWater {
  std::string name;
  std::uint32_t loop{1};  // 1-based
  Metres along{};         // from the start of the loop
};

// A person of the crew.
struct RideHelper {
  std::string name;
  std::vector<std::string> skills;      // of the usual ones (core/jobs/stop_task.h); a file without the field: all
  std::vector<std::string> own_skills;  // names that no usual task asks for
  double share{1.0};                    // of the work wanted, against the others'; > 0, at most 10
  LiftFilter lifts{LiftFilter::women};  // a guideline and no limit: the person decides
  std::optional<std::string> car;       // rides in this car; nothing: in the first
  std::string phone{};                  // as typed in
};

// Whom to call when something has happened. Every number is typed in by people; none is filled in.
struct RideContact {
  std::string name;  // "Ride control", "Ride vet", "Dr Hill"
  std::string phone;
  std::string note;
};
struct RideHelpPlace {
  std::string name;
  enum class Kind { hospital, vet, other } kind{Kind::hospital};
  std::string phone;
  std::string address;
  std::optional<Position> position;
  std::string note;
};
struct RideEmergency {
  std::string number;         // of the emergency services there; empty: the usual one of the country, to be checked
  std::string meeting_point;  // where an ambulance or a vet is met and led in from
  std::string note;
  std::vector<RideContact> contacts;
  std::vector<RideHelpPlace> places;  // the nearest hospital and horse hospital
};

struct RideErrand {  // an optional stop in free time: ice, a farrier, a shop
  std::string name;
  Position position;
  Seconds duration{minutes(10)};
  double worth{0.5};
  std::vector<Interval<Instant>> open;
  bool has_ice{};  // ice is sold there, whatever its name
};

struct RideRefill {  // a tap or pump apart from crew points
  std::string name;
  Position position;
  bool water{};
  bool fuel{};
  Seconds duration{minutes(10)};
  std::vector<Interval<Instant>> open;
};

struct Ride {
  int version{1};
  std::string name;
  Instant start;
  Clock clock;
  std::string country{"GB"};               // ISO 3166-1 alpha-2: default speed limits and side of the road
  std::string venue{"Venue"};              // name of the waypoint that is start, finish and vet gate
  std::optional<Position> venue_position;  // nothing: the waypoint of that name, or the start of loop 1
  std::vector<RideLoop> loops;             // empty: one loop a track, in order
  std::vector<RideCrewPoint> crew_points;  // empty: every waypoint but the venue
  std::vector<PassWish> wishes;
  std::vector<RideHorse> horses;  // empty: one
  std::vector<RideCar> cars;      // empty: one
  std::vector<RideRefill> refills;
  std::vector<RideErrand> errands;
  Weather weather;  // typed in or from `weather_file`; empty: heat is not worked out
  HeatSettings heat;
  bool heat_slows{true};  // loops are ridden slower in heat; a loop's own heat_factor counts on top
  // How much more a meet counts when the horse comes to it a whole water interval after the last sure water (common
  // practice, no source).
  double worth_of_water{0.25};
  SweatSettings sweat;
  DrinkSettings drinks;
  CoolingSettings cooling;
  Celsius carried_water{18.0};  // in the cans when it is poured
  std::vector<RideWater> waters;
  std::optional<RuleChoice> rules;
  std::optional<std::uint32_t> crew;  // persons with the horse at a gate
  std::vector<RideHelper> helpers;    // empty: `crew` of all work, or two
  RideEmergency emergency;
  LoopPace default_pace;                 // for loops not listed
  UncertainTime stop{minutes(3), 0.35};  // how long the horse stands when met (common practice, no source)
  UncertainTime start_delay{Seconds{0}, 0.0};
  PaceSpread spread;
  Seconds setup{minutes(4)};
  Seconds pack{minutes(3)};
  Litres water_per_meet{};  // from the car's stock
  double gate_worth{3.0};   // a pass is worth 1
  double finish_worth{2.0};
  CrewingSettings crewing;
  CourseSettings course;
  Metres snap_limit{250.0};  // a place farther from a drivable road is refused
  bool ferries{};
  std::size_t days{4096};  // simulated
  Seed seed{1};
  // Files, relative to the ride file.
  std::vector<std::string> course_files;
  std::vector<std::string> road_files;
  std::vector<std::string> elevation_files;
  std::optional<std::string> drive_times_file;
  std::optional<std::string> weather_file;
  RideKit kit;                           // containers, own things, what is packed
  std::vector<std::string> kit_files;    // catalogues of the user's own, beside the bundled one
  std::vector<std::string> rule_files;   // books of the user's own, beside the bundled ones
  std::vector<std::string> assumptions;  // what was taken for granted, in sentences; shown with every plan
};

}  // namespace outbye
