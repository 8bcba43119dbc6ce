#include <cassert>
#include <cstddef>
#include <utility>

#include "core/course/course.h"
#include "core/course/heights.h"
#include "core/course/line_repair.h"
#include "core/course/passes.h"
#include "core/course/profile.h"
#include "core/course/words.h"
#include "core/geo/geodesic.h"

namespace outbye {
namespace {

Result<Loop> build_loop(const LoopSource& source, const CourseSettings& settings, const ElevationSource& elevation,
                        Warnings& warnings) {
  Result<std::vector<LinePoint>> line = repaired_line(source, settings, warnings);
  if (!line) return tl::make_unexpected(std::move(line.error()));
  std::vector<Metres> along{Metres{0}};
  along.reserve(line->size());
  for (std::size_t i = 0; i + 1 < line->size(); ++i) {
    along.push_back(along.back() + geodesic_distance((*line)[i].position, (*line)[i + 1].position));
  }
  repair_heights(*line, along, source, elevation, warnings);

  Loop loop;
  loop.name = source.name;
  loop.points.reserve(line->size());
  for (std::size_t i = 0; i < line->size(); ++i) {
    loop.points.push_back({(*line)[i].position, along[i], (*line)[i].elevation});
  }
  loop.length = along.back();
  loop.profile = make_profile(loop.points, settings.profile_step, settings.smoothing);
  const Climb climb = climb_of(loop.profile.elevation, settings.climb_threshold);
  loop.climb = climb.up;
  loop.descent = climb.down;
  // Half a per cent may be missing at the ends without a word.
  if (loop.profile.unknown.value > std::max(settings.profile_step.value, 0.005 * loop.length.value)) {
    warnings.push_back({loop_name(loop.name), "has no heights over " + in_words(loop.profile.unknown) + " of " +
                                                  in_words(loop.length) + "; counted as level there"});
  }
  return loop;
}

// The horse cannot fly from the end of one loop to the start of the next; the plan goes on as if it could.
void check_joins(const std::vector<Loop>& loops, const CourseSettings& settings, Warnings& warnings) {
  for (std::size_t i = 0; i + 1 < loops.size(); ++i) {
    const Metres gap = geodesic_distance(loops[i].points.back().position, loops[i + 1].points.front().position);
    if (gap <= settings.warn_gap) continue;
    warnings.push_back({loop_name(loops[i + 1].name), "starts " + in_words(gap) + " from where " +
                                                          loop_name(loops[i].name) + " ends; that way is not counted"});
  }
}

}  // namespace

Result<Course> build_course(const std::vector<LoopSource>& loops, const std::vector<CrewPoint>& crew_points,
                            const CourseSettings& settings, const ElevationSource& elevation) {
  if (loops.empty()) return bad_input("course", "has no loop: name a course file with at least one track or route");
  if (!(settings.profile_step >= Metres{1})) return bad_input("course settings", "profile step must be at least 1 m");
  Course course;
  for (const LoopSource& source : loops) {
    Result<Loop> loop = build_loop(source, settings, elevation, course.warnings);
    if (!loop) return tl::make_unexpected(std::move(loop.error()));
    course.length += loop->length;
    course.loops.push_back(std::move(*loop));
  }
  check_joins(course.loops, settings, course.warnings);
  course.crew_points = crew_points;
  Result<std::vector<Pass>> passes = find_passes(course.loops, crew_points, settings, course.warnings);
  if (!passes) return tl::make_unexpected(std::move(passes.error()));
  course.passes = std::move(*passes);
  return course;
}

}  // namespace outbye
