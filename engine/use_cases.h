// The only door for the command line, the server, WebAssembly and the tests: values in, values out.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/base/progress.h"
#include "core/base/result.h"
#include "core/course/course.h"
#include "core/crewing/errands.h"
#include "core/crewing/plan.h"
#include "core/pace/pace.h"
#include "core/roads/drive_table.h"
#include "core/roads/road_graph.h"
#include "core/roads/route.h"
#include "core/rules/rule_check.h"
#include "core/rules/rule_set.h"
#include "core/welfare/cooling.h"
#include "core/welfare/crew_heat.h"
#include "core/welfare/drinking.h"
#include "core/welfare/electrolytes.h"
#include "core/welfare/heat_load.h"
#include "core/welfare/sun.h"
#include "engine/ride.h"

namespace outbye {

// Everything a plan is made from, already read. Roads or drive times may be missing; a plan needs one of them.
struct RideInputs {
  Ride ride;

  std::vector<GpxDocument> course_files;
  ElevationSource elevation;              // may be empty
  const RoadGraph* roads{};               // may be null; must outlive the call
  std::optional<DriveTable> drive_times;  // typed in; wins over the roads where it has an entry
  std::vector<RuleBook> rule_books;       // bundled and the user's own; needed when the ride names rules
};

// The course of a ride, with what was assumed to build it.
struct CourseReport {
  Course course;
  Position venue;
  std::vector<std::string> assumptions;
};
Result<CourseReport> survey_course(const RideInputs& inputs);

// A place cars drive to, with how it was joined to the road network.
struct PlaceReport {
  std::string name;
  Position position;
  std::optional<Metres> snap_distance;  // to the nearest drivable road; nothing without roads
  std::string road;                     // its name or class
  std::optional<Snap> snap;             // where it joins the roads
  std::string unreachable;              // why no car can reach it; empty when one can
};

// Where and when each pass of one horse happens.
struct PassForecast {
  HorseId horse;
  RideEvent event;
  std::string name;  // crew point or venue
  Metres loop_along{};
  Window due;     // arrival
  Window out;     // gates: out-time; passes: when it leaves if met; finish: as due
  bool is_met{};  // by the plan
};

// The heat at one place of the course when the horse is there (median time).
struct CourseHeat {
  LoopId loop;
  Metres along{};  // from the start of the loop
  Instant at;
  HeatLoad load;
};

// What the day asks of horse and crew at one pass, gate or finish.
struct PassWelfare {
  std::optional<HeatLoad> heat;        // at the median arrival; nothing when the weather there is not known
  std::optional<HeatLoad> worst_heat;  // the worst between due.p10 and out.p90
  Light light{Light::day};             // at the median arrival
  Light darkest{Light::day};           // between due.p10 and out.p90
  Metres since_water{};                // since start, gate, or water on the course that the horse is sure of
  double worth_factor{1.0};            // how much more it counts in the plan, from heat and distance since water
  bool is_served{};                    // met by a car, or a gate or the finish, where people and water are at hand
  CoolingAdvice cooling;               // by the worst heat; to be done where it is served
  DrinkOffer drink;                    // to be offered where it is served
  std::optional<Litres> drank;         // as recorded in the ride file
  WaterBalance water;                  // after it, with what was recorded or else is usually taken where it is served
};

// One horse's salts and water over the whole day.
struct HorseDayWater {
  HorseBody body;
  WaterBalance at_finish;  // on coming to the finish, before its drink there
  SaltBalance salts;       // over the same time, against what is recorded as given
};

struct RideWelfare {
  std::vector<PassWelfare> passes;             // one for each of RidePlan::passes, in their order
  std::vector<HorseDayWater> horses;           // by horse
  std::vector<std::vector<CourseHeat>> along;  // by horse: each 2 km of each loop; empty without weather
  SunTimes sun;                                // at the venue, for the 24 h from midnight before the start
  std::optional<CrewHeat> crew_heat;           // at the warmest time of the plan; nothing without weather
  std::optional<Celsius> crew_wbgt;            // then
  std::optional<Instant> crew_heat_at;         // when that is
};

struct RidePlan {
  Ride ride;  // as planned: defaults filled in
  CourseReport survey;
  std::vector<PlaceReport> places;  // rows of task.drives
  CrewingTask task;
  CrewPlan plan;
  ErrandPlan errands;                             // what fits into the cars' free time; Errand i is ride.errands[i]
  std::vector<PassForecast> passes;               // by horse, then in order of the ride
  std::vector<std::vector<LoopEffects>> effects;  // by horse
  RideWelfare welfare;
  std::optional<RuleSet> rules;                           // of the ride, with the event's own values
  std::vector<RuleFinding> rule_findings;                 // what the plan breaks or leaves to ask; empty without rules
  std::vector<std::vector<std::optional<Route>>> routes;  // [car][stop]: the drive into it, when there are roads
  Warnings warnings;
  std::vector<std::string> assumptions;
};

// The rules a ride names, with its own values in them; nothing when it names none. Errors: not_found for a book or
// level.
Result<std::optional<RuleSet>> ride_rules(const RideInputs& inputs);
// What the course and the ride file break of them, without a plan.
std::vector<RuleFinding> check_course_rules(const RideInputs& inputs, const CourseReport& survey, const RuleSet& rules);

// Errors: bad_input (the ride does not fit the course or the map), impossible (which constraint to relax), cancelled.
Result<RidePlan> plan_ride(const RideInputs& inputs, const Progress& progress = {});

// What one plan does and the other does not. Meets are told apart by their labels, so the rides may differ in anything.
struct MeetChange {
  std::string label;
  std::optional<double> before;  // chance of being ready; nothing: not met
  std::optional<double> after;
};
struct PlanChanges {
  double worth{};
  Metres driven{};                     // by all cars
  std::vector<MeetChange> meets;       // gained, lost, by another car, or 5 % likelier or less so; in order of the ride
  std::vector<std::string> sentences;  // of the meets, then when cars set off and the horses come in; never empty
};
PlanChanges changes_between(const RidePlan& before, const RidePlan& after);

// A change to try on a ride: "another five minutes at CP3", "start 30 minutes later", "without CP5", "a second car".
struct WhatIf {
  enum class Kind { longer_stop, later_start, without_point, extra_car } kind{};
  std::string crew_point;  // longer_stop, without_point
  Seconds by{};            // longer_stop, later_start
};
struct WhatIfAnswer {
  std::string question;
  Result<RidePlan> plan{tl::make_unexpected(Problem{})};
  double worth_change{};             // against the plan asked about
  std::vector<std::string> changes;  // PlanChanges::sentences
};
// Words: "stop CP3 +5min", "start +30min", "without CP5", "extra car". Errors: bad_input with the known forms.
Result<WhatIf> parse_what_if(std::string_view words);
WhatIfAnswer answer_what_if(const RideInputs& inputs, const RidePlan& plan, const WhatIf& change);

}  // namespace outbye
