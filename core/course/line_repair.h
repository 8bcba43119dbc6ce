// One loop's line from its tracks: segments joined, turned round where they run the wrong way, stray and repeated
// points taken out, gaps bridged or refused. Every repair is said, with the number of the point in its track.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/course/course.h"
#include "core/geo/ellipsoid.h"

namespace outbye {

struct LinePoint {
  Position position;
  EarthVector vector;  // of the position: repairs measure straight lines, which is quick
  std::optional<Metres> elevation;
  std::optional<Instant> time;
  std::uint32_t track{};   // index into LoopSource::tracks
  std::uint32_t number{};  // TrackPoint::number
  std::uint32_t piece{};   // counts the segments of the loop
};

// "loop 'Red'"
std::string loop_name(const std::string& name);
// "loop 'Red', track point 214 of red.gpx"; with the track's name where the loop is made of several.
std::string point_name(const LoopSource& loop, const LinePoint& point);

// At least two points, neighbours at least 0.1 m apart, in the order they are ridden.
// Errors: bad_input for fewer than two different points, or a gap over `settings.refuse_gap`.
Result<std::vector<LinePoint>> repaired_line(const LoopSource& loop, const CourseSettings& settings,
                                             Warnings& warnings);

}  // namespace outbye
