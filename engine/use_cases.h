// The only door for the command line, the server, WebAssembly and the tests: values in, values out.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/course/course.h"
#include "core/crewing/errands.h"
#include "core/crewing/plan.h"
#include "core/pace/pace.h"
#include "core/roads/drive_table.h"
#include "core/roads/road_graph.h"
#include "core/roads/route.h"
#include "engine/ride.h"

namespace outbye {

// Everything a plan is made from, already read. Roads or drive times may be missing; a plan needs one of them.
struct RideInputs {
  Ride ride;
  std::vector<GpxDocument> course_files;
  ElevationSource elevation;              // may be empty
  const RoadGraph* roads{};               // may be null; must outlive the call
  std::optional<DriveTable> drive_times;  // typed in; wins over the roads where it has an entry
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

struct RidePlan {
  Ride ride;  // as planned: defaults filled in
  CourseReport survey;
  std::vector<PlaceReport> places;  // rows of task.drives
  CrewingTask task;
  CrewPlan plan;
  ErrandPlan errands;                             // what fits into the cars' free time; Errand i is ride.errands[i]
  std::vector<PassForecast> passes;               // by horse, then in order of the ride
  std::vector<std::vector<LoopEffects>> effects;  // by horse
  std::vector<std::vector<std::optional<Route>>> routes;  // [car][stop]: the drive into it, when there are roads
  Warnings warnings;
  std::vector<std::string> assumptions;
};

struct Progress {
  std::function<void(const std::string& step, double share)> tell;  // may be empty
};

// Errors: bad_input (the ride does not fit the course or the map), impossible (which constraint to relax).
Result<RidePlan> plan_ride(const RideInputs& inputs, const Progress& progress = {});

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
  std::vector<std::string> changes;  // in sentences: meets gained and lost, chances that moved by 5 % or more
};
// Words: "stop CP3 +5min", "start +30min", "without CP5", "extra car". Errors: bad_input with the known forms.
Result<WhatIf> parse_what_if(std::string_view words);
WhatIfAnswer answer_what_if(const RideInputs& inputs, const RidePlan& plan, const WhatIf& change);

}  // namespace outbye
