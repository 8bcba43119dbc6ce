#include <algorithm>

#include "core/pace/pace.h"

namespace outbye {
namespace {

constexpr double steepest = 0.30;        // the published fit ends here
constexpr double downhill_limit = 1.05;  // safety and limbs set the downhill speed, not the cost of transport

}  // namespace

double cost_of_transport(double gradient) {
  const double g = std::clamp(gradient, -steepest, steepest);
  if (g >= 0) return 0.123 + 1.561 * g;
  return 0.123 + g * (1.591 + g * (9.762 + g * 14.0));
}

double slope_speed_factor(double gradient) {
  return std::min(cost_of_transport(0) / cost_of_transport(gradient), downhill_limit);
}

}  // namespace outbye
