#include "core/course/profile.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>

namespace outbye {
namespace {

// A stretch whose height is known throughout: corners of a polygon, with the integral of the height up to each.
struct Stretch {
  std::vector<double> along, height, integral;

  void add(Metres s, Metres h) {
    if (along.empty()) {
      integral.push_back(0);
    } else {
      integral.push_back(integral.back() + (s.value - along.back()) * (h.value + height.back()) / 2);
    }
    along.push_back(s.value);
    height.push_back(h.value);
  }
  bool covers(double s) const { return !along.empty() && along.front() <= s && s <= along.back(); }

  // The corner before s.
  std::size_t corner(double s) const {
    const auto after = std::upper_bound(along.begin(), along.end(), s);
    const auto i = static_cast<std::size_t>(after - along.begin());
    return std::min(i == 0 ? 0 : i - 1, along.size() < 2 ? 0 : along.size() - 2);
  }
  double height_at(double s) const {
    if (along.size() == 1) return height[0];
    const std::size_t i = corner(s);
    const double t = (s - along[i]) / (along[i + 1] - along[i]);
    return height[i] + t * (height[i + 1] - height[i]);
  }
  double integral_to(double s) const {
    const std::size_t i = corner(s);
    return integral[i] + (s - along[i]) * (height[i] + height_at(s)) / 2;
  }
  double mean_around(double s, double half) const {
    const double reach = std::min({half, s - along.front(), along.back() - s});
    if (reach < 0.5) return height_at(s);
    return (integral_to(s + reach) - integral_to(s - reach)) / (2 * reach);
  }
};

std::vector<Stretch> known_stretches(const std::vector<CoursePoint>& points, Metres bridge) {
  std::vector<Stretch> stretches;
  std::optional<std::size_t> last;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (!points[i].elevation) continue;
    const bool joins = last && (*last + 1 == i || points[i].along - points[*last].along <= bridge);
    if (!joins) stretches.emplace_back();
    stretches.back().add(points[i].along, *points[i].elevation);
    last = i;
  }
  return stretches;
}

}  // namespace

Profile make_profile(const std::vector<CoursePoint>& points, Metres step, Metres smoothing) {
  assert(points.size() >= 2 && step.value > 0);
  const double length = points.back().along.value;
  const auto intervals = std::max<std::size_t>(1, static_cast<std::size_t>(std::ceil(length / step.value - 1e-9)));
  const std::vector<Stretch> stretches = known_stretches(points, smoothing);
  Profile profile;
  profile.step = step;
  std::size_t next = 0;  // the first stretch that does not end before the sample
  for (std::size_t i = 0; i <= intervals; ++i) {
    const double s = std::min(static_cast<double>(i) * step.value, length);
    while (next < stretches.size() && stretches[next].along.back() < s) ++next;
    const bool is_known = next < stretches.size() && stretches[next].covers(s);
    profile.elevation.push_back(is_known ? std::optional<Metres>{{stretches[next].mean_around(s, smoothing.value / 2)}}
                                         : std::nullopt);
    if (i == 0) continue;
    const double run = s - static_cast<double>(i - 1) * step.value;
    const auto& before = profile.elevation[i - 1];
    const auto& here = profile.elevation[i];
    if (before && here && run > 0) {
      profile.gradient.push_back((*here - *before).value / run);
    } else {
      profile.gradient.push_back(0);
      profile.unknown += Metres{run};
    }
  }
  return profile;
}

Climb climb_of(const std::vector<std::optional<Metres>>& elevation, Metres threshold) {
  Climb climb;
  enum class Way { unsettled, up, down } way = Way::unsettled;
  double low = 0, high = 0;  // since the last turn; unsettled: since the start of the stretch
  const auto close = [&] {
    if (way == Way::up) climb.up += Metres{high - low};
    if (way == Way::down) climb.down += Metres{high - low};
    way = Way::unsettled;
  };
  bool inside = false;
  for (const auto& sample : elevation) {
    if (!sample) {
      close();
      inside = false;
      continue;
    }
    const double h = sample->value;
    if (!inside) {
      inside = true;
      low = high = h;
      continue;
    }
    switch (way) {
      case Way::unsettled:
        low = std::min(low, h);
        high = std::max(high, h);
        if (h - low >= threshold.value) {
          way = Way::up;
          high = h;
        } else if (high - h >= threshold.value) {
          way = Way::down;
          low = h;
        }
        break;
      case Way::up:
        high = std::max(high, h);
        if (high - h >= threshold.value) {
          climb.up += Metres{high - low};
          way = Way::down;
          low = h;
        }
        break;
      case Way::down:
        low = std::min(low, h);
        if (h - low >= threshold.value) {
          climb.down += Metres{high - low};
          way = Way::up;
          high = h;
        }
        break;
    }
  }
  close();
  return climb;
}

}  // namespace outbye
