#include "core/pace/loop_clock.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>

namespace outbye {
namespace {

// Where slope or going may change, from 0 to the length of the loop, ascending, each once.
std::vector<double> breakpoints(const Loop& loop, const LoopPace& pace, Causes causes) {
  const double length = loop.length.value;
  std::vector<double> points{0.0, length};
  if (causes.hills) {
    const double step = loop.profile.step.value;
    for (std::size_t i = 1; i < loop.profile.gradient.size(); ++i) points.push_back(step * static_cast<double>(i));
  }
  if (causes.going) {
    for (const auto& section : pace.going) {
      points.push_back(section.from.value);
      points.push_back(section.to.value);
    }
  }
  for (double& point : points) point = std::clamp(point, 0.0, length);
  std::sort(points.begin(), points.end());
  points.erase(std::unique(points.begin(), points.end()), points.end());
  return points;
}

double slope_at(const Loop& loop, double along) {
  const auto& gradient = loop.profile.gradient;
  if (gradient.empty()) return 1.0;
  const auto cell = static_cast<std::size_t>(along / loop.profile.step.value);
  return slope_speed_factor(gradient[std::min(cell, gradient.size() - 1)]);
}

double going_at(const LoopPace& pace, double along) {
  for (const auto& section : pace.going) {
    if (section.from.value <= along && along < section.to.value) return section.factor;
  }
  return 1.0;
}

}  // namespace

LoopClock::LoopClock(const Loop& loop, const LoopPace& pace, Causes causes)
    : along_(breakpoints(loop, pace, causes)), elapsed_(along_.size(), 0.0) {
  const double level = 3.6 / pace.speed.value;  // seconds a metre
  for (std::size_t i = 1; i < along_.size(); ++i) {
    const double middle = 0.5 * (along_[i - 1] + along_[i]);
    double factor = 1.0;
    if (causes.hills) factor *= slope_at(loop, middle);
    if (causes.going) factor *= going_at(pace, middle);
    elapsed_[i] = elapsed_[i - 1] + (along_[i] - along_[i - 1]) * level / factor;
  }
  // Normalising keeps the average; heat comes after it, so that a hot day is slower whichever way the speed was given.
  double scale = 1.0;
  if (pace.is_average && elapsed_.back() > 0) scale = loop.length.value * level / elapsed_.back();
  if (causes.heat) scale /= pace.heat_factor;
  for (double& seconds : elapsed_) seconds *= scale;
}

Seconds LoopClock::at(Metres along) const {
  const auto above = std::upper_bound(along_.begin(), along_.end(), along.value);
  if (above == along_.begin()) return Seconds{0};
  if (above == along_.end()) return total();
  const auto i = static_cast<std::size_t>(above - along_.begin());
  const double share = (along.value - along_[i - 1]) / (along_[i] - along_[i - 1]);
  return Seconds{elapsed_[i - 1] + share * (elapsed_[i] - elapsed_[i - 1])};
}

}  // namespace outbye
