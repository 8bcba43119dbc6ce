// The course: loops with lengths, heights and gradients, crew points, and every pass of every crew point.
// Lengths are WGS84 geodesics in metres.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/base/index.h"
#include "core/base/result.h"
#include "core/base/units.h"
#include "core/course/track.h"
#include "core/geo/position.h"

namespace outbye {

struct CoursePoint {
  Position position;
  Metres along{};                   // from the start of the loop
  std::optional<Metres> elevation;  // from the file or the elevation source; smoothed values live in Profile
};

// Smoothed heights and gradients, one sample each `step` from the start of the loop, and one at its end: the last
// interval may be shorter. At least two samples; ceil(length / step) intervals. Where no height is known within reach,
// the sample is unknown and counts as level.
struct Profile {
  Metres step{25.0};
  std::vector<std::optional<Metres>> elevation;  // smoothed over 100 m
  std::vector<double> gradient;                  // rise over run in [i, i + 1], size elevation.size() - 1; 0 if unknown
  Metres unknown{};                              // length without heights
};

struct Loop {
  std::string name;
  std::vector<CoursePoint> points;  // at least two; along ascends strictly
  Profile profile;
  Metres length{};
  Metres climb{};    // sum of rises, 5 m threshold, over the stretches with heights
  Metres descent{};  // sum of falls, positive
};

// What someone who knows the place says of a pass: that it is here on the loop, not where it was found.
struct PassCorrection {
  LoopId loop;
  std::uint32_t nth_in_loop{1};  // of those found
  Metres along{};                // from the start of the loop
};

struct CrewPoint {
  std::string name;
  Position position;  // where the horse is met
  std::string note;
  std::vector<PassCorrection> corrections{};
};

struct Pass {
  LoopId loop;
  CrewPointId crew_point;
  Metres along{};                       // from the start of the loop to the nearest point of the course
  Metres ride_along{};                  // from the start of loop 1, all earlier loops counted in full
  Metres distance{};                    // from the crew point to the course there
  Position position;                    // on the course
  std::uint32_t nth_in_loop{1};         // 1 for the first pass of this crew point in this loop, 2 for the second ...
  std::optional<Metres> found_along{};  // where it was found, when it was corrected
};

struct Course {
  std::vector<Loop> loops;
  std::vector<CrewPoint> crew_points;
  std::vector<Pass> passes;  // by loop, then along, then crew point
  Metres length{};           // of all loops
  Warnings warnings;         // repairs made, crew points without a pass (with their distance), lengths without heights
};

// One loop as the ride wants it: the tracks it is made of, ridden one after another.
struct LoopSource {
  std::string name;
  std::vector<Track> tracks;
  bool reversed{};  // ridden against the direction of the file
};

struct CourseSettings {
  Metres pass_distance{150.0};    // a pass: a local minimum of distance below this ...
  Metres pass_separation{300.0};  // ... and this far along the course from the next
  Metres refuse_gap{1000.0};      // a hole longer than this between neighbouring points is refused, not bridged
  Metres warn_gap{250.0};         // a straight line longer than this is kept and said
  Metres far_crew_point{2000.0};  // a crew point farther than this from every loop is refused: wrong place or course
  Metres climb_threshold{5.0};
  Metres profile_step{25.0};
  Metres smoothing{100.0};
};

// Height above sea level at a position, or nothing where unknown.
using ElevationSource = std::function<std::optional<Metres>(Position)>;

// Repairs (spikes, duplicate points, reversed segments) with a warning that gives the point's number, or refuses.
// Heights come from the file and, where missing, from `elevation` (may be empty).
// Errors: bad_input with the loop and point; an empty loop; a gap over refuse_gap; a crew point over far_crew_point; a
// pass corrected to beyond its loop or past another of the same point.
Result<Course> build_course(const std::vector<LoopSource>& loops, const std::vector<CrewPoint>& crew_points,
                            const CourseSettings& settings, const ElevationSource& elevation);

}  // namespace outbye
