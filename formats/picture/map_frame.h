// Puts the ground on the paper: north up, true to scale at the middle of the map (an equirectangular projection there;
// off by 0.1 % at the edge of a map of 60 km), and works across the antimeridian.
#pragma once

#include <vector>

#include "core/base/units.h"
#include "core/geo/position.h"
#include "formats/picture/svg.h"

namespace outbye {

class MapFrame {
 public:
  // Fits the positions into the box with a margin. No position: a map of 1 km around (0, 0).
  MapFrame(const std::vector<Position>& positions, Box box, double margin);
  Spot spot(Position position) const;
  double units_per_metre() const { return scale_; }

 private:
  double middle_latitude_{};
  double middle_longitude_{};
  double shrink_{1};  // cosine of the middle latitude
  double scale_{1};
  Spot middle_;
};

// Drops points that move the line by less than `tolerance` (Douglas and Peucker, 1973). Ends stay.
std::vector<Spot> simplified(const std::vector<Spot>& line, double tolerance);
// The indices of those that stay.
std::vector<std::size_t> kept_when_simplified(const std::vector<Spot>& line, double tolerance);

// The line moved to its right by `distance`, so that loops on one trail, and both ways of an out-and-back, stay apart.
std::vector<Spot> beside(const std::vector<Spot>& line, double distance);

// 1, 2 or 5 times a power of ten, at most `longest`.
double round_length(double longest);

}  // namespace outbye
