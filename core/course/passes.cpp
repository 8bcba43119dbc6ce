#include "core/course/passes.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <set>
#include <span>
#include <utility>

#include "core/base/text.h"
#include "core/course/line_repair.h"
#include "core/course/words.h"
#include "core/geo/geodesic.h"
#include "core/geo/nearest.h"

namespace outbye {
namespace {

constexpr double prominence = 10;  // m

double norm(EarthVector v) { return std::sqrt(dot(v, v)); }

}  // namespace

LoopSearch::LoopSearch(const Loop& loop) : loop_(loop) {
  corners_.reserve(loop.points.size());
  for (const CoursePoint& p : loop.points) corners_.push_back(earth_vector(p.position));
  for (std::size_t from = 0; from < segments(); from += block_size) {
    const std::size_t to = std::min(from + block_size, segments());
    EarthVector sum;
    for (std::size_t i = from; i <= to; ++i) sum = sum + corners_[i];
    Block block{(1.0 / static_cast<double>(to - from + 1)) * sum, 0};
    for (std::size_t i = from; i <= to; ++i) block.radius = std::max(block.radius, norm(corners_[i] - block.centre));
    blocks_.push_back(block);
  }
}

double LoopSearch::least_distance(EarthVector point, std::size_t block) const {
  return norm(point - blocks_[block].centre) - blocks_[block].radius;
}

// Walks along the loop where it is within reach and tells a low from a high by a rise of `prominence`.
std::vector<LoopSearch::Candidate> LoopSearch::minima(EarthVector point, double reach) const {
  std::vector<Candidate> found;
  const double limit = reach + prominence;  // beyond it, any minimum within reach has risen enough
  bool descending = true;                   // looking for a low
  Candidate low;
  double high = 0;
  bool any = false;  // `low` is set
  const auto end_stretch = [&] {
    if (descending && any && low.distance <= reach) found.push_back(low);
    descending = true;
    any = false;
  };
  const auto meet = [&](const Candidate& here) {
    if (descending) {
      if (!any || here.distance < low.distance) {
        low = here;
        any = true;
      } else if (here.distance >= low.distance + prominence) {
        if (low.distance <= reach) found.push_back(low);
        descending = false;
        high = here.distance;
      }
    } else if (here.distance > high) {
      high = here.distance;
    } else if (here.distance <= high - prominence) {
      descending = true;
      low = here;
    }
  };
  for (std::size_t b = 0; b < blocks_.size(); ++b) {
    if (least_distance(point, b) > limit) {
      end_stretch();
      continue;
    }
    const std::size_t to = std::min((b + 1) * block_size, segments());
    for (std::size_t i = b * block_size; i < to; ++i) {
      const double t = nearest_fraction(point, corners_[i], corners_[i + 1]);
      const double distance = norm(point - (corners_[i] + t * (corners_[i + 1] - corners_[i])));
      if (distance > limit) {
        end_stretch();
        continue;
      }
      const double from = loop_.points[i].along.value;
      const double length = loop_.points[i + 1].along.value - from;
      if (i == 0 || t > 0) meet({i, t, distance, from + t * length});
      if (t < 1) meet({i, 1.0, norm(point - corners_[i + 1]), from + length});
    }
  }
  end_stretch();
  return found;
}

Approach LoopSearch::lifted(Position position, std::size_t segment) const {
  const CoursePoint& from = loop_.points[segment];
  const CoursePoint& to = loop_.points[segment + 1];
  const NearestPoint nearest = nearest_on_segment(position, from.position, to.position);
  return {from.along + nearest.fraction * (to.along - from.along), nearest.distance, nearest.position};
}

std::vector<Approach> LoopSearch::approaches(Position position, Metres reach, Metres separation) const {
  std::vector<Candidate> candidates = minima(earth_vector(position), reach.value);
  const double length = loop_.length.value;
  const bool is_round = norm(corners_.front() - corners_.back()) < separation.value;
  // At the venue itself the horse is met when it comes in, not as it leaves.
  if (is_round && candidates.size() > 1 && candidates.front().along < 1 && candidates.back().along > length - 1 &&
      std::abs(candidates.front().distance - candidates.back().distance) < 1) {
    candidates.erase(candidates.begin());
  }
  std::stable_sort(candidates.begin(), candidates.end(),
                   [](const Candidate& a, const Candidate& b) { return a.distance < b.distance; });
  std::set<double> kept;
  std::vector<Candidate> accepted;
  const auto is_free = [&](double from, double to) {
    const auto next = kept.upper_bound(from);
    return next == kept.end() || *next >= to;
  };
  for (const Candidate& c : candidates) {
    const double s = c.along, d = separation.value;
    if (!is_free(s - d, s + d)) continue;
    if (is_round && (!is_free(s - d + length, s + d + length) || !is_free(s - d - length, s + d - length))) continue;
    kept.insert(s);
    accepted.push_back(c);
  }
  std::sort(accepted.begin(), accepted.end(), [](const Candidate& a, const Candidate& b) { return a.along < b.along; });
  std::vector<Approach> result;
  result.reserve(accepted.size());
  for (const Candidate& c : accepted) result.push_back(lifted(position, c.segment));
  return result;
}

Approach LoopSearch::nearest(Position position) const {
  const EarthVector point = earth_vector(position);
  std::size_t best = 0;
  double least = squared_distance(point, corners_[0], corners_[1]);
  for (std::size_t b = 0; b < blocks_.size(); ++b) {
    const double bound = least_distance(point, b);
    if (bound > 0 && bound * bound > least) continue;
    const std::size_t to = std::min((b + 1) * block_size, segments());
    for (std::size_t i = b * block_size; i < to; ++i) {
      const double distance = squared_distance(point, corners_[i], corners_[i + 1]);
      if (distance < least) {
        least = distance;
        best = i;
      }
    }
  }
  Approach approach = lifted(position, best);
  // The straight way through the Earth is no measure of how wrong a faraway place is.
  if (approach.distance > Metres{5000}) approach.distance = geodesic_distance(position, approach.position);
  return approach;
}

Position point_along(const Loop& loop, Metres along) {
  const auto after = std::upper_bound(loop.points.begin() + 1, loop.points.end() - 1, along,
                                      [](Metres s, const CoursePoint& p) { return s < p.along; });
  const CoursePoint& from = *(after - 1);
  const double t = std::clamp((along - from.along).value / (after->along - from.along).value, 0.0, 1.0);
  const EarthVector a = earth_vector(from.position), b = earth_vector(after->position);
  return position_at(a + t * (b - a));
}

namespace {

// What to say of a crew point that no loop passes.
struct Miss {
  std::size_t loop{};
  Approach approach;
};

std::string numbered(std::uint32_t nth) { return "pass " + std::to_string(nth); }

// Moves the passes of one crew point to where its corrections say. `passes` are those of that point, by loop and along.
Result<void> correct(std::span<Pass> passes, const CrewPoint& point, const std::vector<Loop>& loops,
                     const CourseSettings& settings, Warnings& warnings) {
  const std::string where = "crew point '" + point.name + "'";
  for (const PassCorrection& correction : point.corrections) {
    if (correction.loop.value >= loops.size()) {
      warnings.push_back({where, "has a corrected pass in loop " + std::to_string(correction.loop.value + 1) +
                                     ", but the course has " + std::to_string(loops.size()) + "; it is left out"});
      continue;
    }
    const Loop& loop = loops[correction.loop.value];
    const auto pass = std::find_if(passes.begin(), passes.end(), [&](const Pass& p) {
      return p.loop == correction.loop && p.nth_in_loop == correction.nth_in_loop;
    });
    if (pass == passes.end()) {
      warnings.push_back({where, "is not passed so often in " + loop_name(loop.name) + ": the correction of " +
                                     numbered(correction.nth_in_loop) + " is left out"});
      continue;
    }
    const std::string what = numbered(correction.nth_in_loop) + " in " + loop_name(loop.name);
    if (!(correction.along >= Metres{0} && correction.along <= loop.length)) {
      return bad_input(where, "has " + what + " corrected to " + fixed(in_kilometres(correction.along), 2) +
                                  " km, but the loop is " + fixed(in_kilometres(loop.length), 2) +
                                  " km long: put it on the loop");
    }
    pass->found_along = pass->along;
    pass->ride_along = pass->ride_along - pass->along + correction.along;
    pass->along = correction.along;
    pass->position = point_along(loop, correction.along);
    pass->distance = geodesic_distance(point.position, pass->position);
    if (pass->distance > settings.far_crew_point) {
      warnings.push_back(
          {where, "is " + in_words(pass->distance) + " from where " + what + " was corrected to; is that right?"});
    }
  }
  for (std::size_t i = 0; i + 1 < passes.size(); ++i) {
    if (passes[i].loop != passes[i + 1].loop || passes[i].along < passes[i + 1].along) continue;
    return bad_input(where, "has " + numbered(passes[i].nth_in_loop) + " and " + numbered(passes[i + 1].nth_in_loop) +
                                " in " + loop_name(loops[passes[i].loop.value].name) +
                                " corrected to where their order changes: put the first before the second");
  }
  return {};
}

std::string told(const Miss& miss, const std::vector<Loop>& loops, const CourseSettings& settings) {
  return "is " + in_words(miss.approach.distance) + " from the course, nearest to " + loop_name(loops[miss.loop].name) +
         " at " + fixed(in_kilometres(miss.approach.along), 2) + " km (a pass needs " +
         in_words(settings.pass_distance) + ")";
}

}  // namespace

Result<std::vector<Pass>> find_passes(const std::vector<Loop>& loops, const std::vector<CrewPoint>& crew_points,
                                      const CourseSettings& settings, Warnings& warnings) {
  std::vector<LoopSearch> searches;
  searches.reserve(loops.size());
  for (const Loop& loop : loops) searches.emplace_back(loop);
  std::vector<Pass> passes;
  for (std::size_t c = 0; c < crew_points.size(); ++c) {
    const Position position = crew_points[c].position;
    const std::size_t before = passes.size();
    Metres ridden{};
    for (std::size_t l = 0; l < loops.size(); ++l) {
      std::uint32_t nth = 0;
      for (const Approach& a : searches[l].approaches(position, settings.pass_distance, settings.pass_separation)) {
        passes.push_back({LoopId{static_cast<std::uint32_t>(l)},
                          CrewPointId{static_cast<std::uint32_t>(c)},
                          a.along,
                          ridden + a.along,
                          a.distance,
                          a.position,
                          ++nth,
                          {}});
      }
      ridden += loops[l].length;
    }
    const auto moved = correct(std::span(passes).subspan(before), crew_points[c], loops, settings, warnings);
    if (!moved) return tl::make_unexpected(moved.error());
    if (passes.size() > before) continue;
    Miss miss;
    for (std::size_t l = 0; l < loops.size(); ++l) {
      const Approach approach = searches[l].nearest(position);
      if (l == 0 || approach.distance < miss.approach.distance) miss = {l, approach};
    }
    const std::string where = "crew point '" + crew_points[c].name + "'";
    if (miss.approach.distance > settings.far_crew_point) {
      return bad_input(where, told(miss, loops, settings) +
                                  ": correct its position, remove it, or check that this is the right course");
    }
    warnings.push_back({where, told(miss, loops, settings) + ": it is never passed and will not be used"});
  }
  std::sort(passes.begin(), passes.end(), [](const Pass& a, const Pass& b) {
    if (a.loop != b.loop) return a.loop < b.loop;
    if (a.along != b.along) return a.along < b.along;
    return a.crew_point < b.crew_point;
  });
  return passes;
}

}  // namespace outbye
