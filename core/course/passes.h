// Where a loop goes by a crew point, and how near it comes at all.
#pragma once

#include <vector>

#include "core/course/course.h"
#include "core/geo/ellipsoid.h"

namespace outbye {

// One near approach of a loop to a position.
struct Approach {
  Metres along{};
  Metres distance{};
  Position position;  // on the loop
};

// A loop prepared for many questions: segments in blocks, each inside a ball, so that most are passed over unseen.
class LoopSearch {
 public:
  // `loop` must outlive this.
  explicit LoopSearch(const Loop& loop);

  // The local minima of the distance from `position` to the loop, below `reach`, by along. Two minima are one unless
  // the distance rises by 10 m between them (a wavering track is no second pass), and, of two less than `separation` of
  // course apart, the nearer stays; of equally near ones the earlier. A loop that ends where it starts (within
  // `separation`) is round: what is near both its ends is one approach, and if equally near, the one at the end.
  std::vector<Approach> approaches(Position position, Metres reach, Metres separation) const;

  // The nearest point of all.
  Approach nearest(Position position) const;

 private:
  struct Block {
    EarthVector centre;
    double radius{};
  };
  struct Candidate {
    std::size_t segment{};
    double fraction{};
    double distance{};  // straight, m
    double along{};
  };
  static constexpr std::size_t block_size = 32;

  std::size_t segments() const { return corners_.size() - 1; }
  double least_distance(EarthVector point, std::size_t block) const;
  std::vector<Candidate> minima(EarthVector point, double reach) const;
  Approach lifted(Position position, std::size_t segment) const;

  const Loop& loop_;
  std::vector<EarthVector> corners_;
  std::vector<Block> blocks_;
};

// The point `along` the loop, 0 to its length: straight between its points.
Position point_along(const Loop& loop, Metres along);

// Every pass of every crew point, corrected where the point says so, by loop, then along, then crew point. Crew points
// without any get a warning with their distance to the nearest loop; one farther than `settings.far_crew_point` is an
// error. A correction of a pass that is not found is left out with a warning; one to beyond the loop, or past another
// pass of the same point (which would then be counted in another order), is an error.
Result<std::vector<Pass>> find_passes(const std::vector<Loop>& loops, const std::vector<CrewPoint>& crew_points,
                                      const CourseSettings& settings, Warnings& warnings);

}  // namespace outbye
