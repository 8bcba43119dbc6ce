#include "formats/picture/labels.h"

#include <algorithm>
#include <cmath>

namespace outbye {

void Labels::avoid(const std::vector<Spot>& line) {
  constexpr double apart = 4.0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double length = std::hypot(line[i].x - line[i - 1].x, line[i].y - line[i - 1].y);
    const auto pieces = static_cast<int>(std::ceil(length / apart));
    for (int k = 0; k < pieces; ++k) {
      const double share = k / static_cast<double>(pieces);
      avoided_.push_back(
          {line[i - 1].x + share * (line[i].x - line[i - 1].x), line[i - 1].y + share * (line[i].y - line[i - 1].y)});
    }
  }
}

bool Labels::is_free(const Box& box) const {
  if (!is_inside(box, frame_)) return false;
  return std::none_of(taken_.begin(), taken_.end(), [&](const Box& other) { return overlap(box, other); });
}

double Labels::crossings(const Box& box) const {
  return static_cast<double>(std::count_if(avoided_.begin(), avoided_.end(), [&](Spot at) {
    return at.x > box.left && at.x < box.right && at.y > box.top && at.y < box.bottom;
  }));
}

std::optional<PlacedLabel> Labels::place(Spot mark, double width, double height, double gap, double reach) {
  // Right first, as people look there; then round the mark.
  constexpr Spot sides[] = {{1, 0}, {1, -1}, {1, 1}, {-1, 0}, {-1, -1}, {-1, 1}, {0, -1}, {0, 1}};
  std::optional<Box> best;
  double best_cost = 0;
  bool is_far = false;
  for (double away = gap; away <= reach; away = away * 1.35 + 2.0) {
    for (std::size_t s = 0; s < std::size(sides); ++s) {
      const Spot side = sides[s];
      const double diagonal = side.x != 0 && side.y != 0 ? 0.75 : 1.0;
      const double x = mark.x + side.x * (away * diagonal + width / 2);
      const double y = mark.y + side.y * (away * diagonal + height / 2);
      const Box box{x - width / 2, y - height / 2, x + width / 2, y + height / 2};
      if (!is_free(box)) continue;
      const double cost = (away - gap) + 6.0 * crossings(box) + 0.3 * static_cast<double>(s);
      if (best && cost >= best_cost) continue;
      best = box;
      best_cost = cost;
      is_far = away > gap + 8.0;
    }
    if (best && best_cost <= away - gap) break;  // nothing farther out is better
  }
  if (!best) return std::nullopt;
  take(*best);
  return PlacedLabel{*best, is_far};
}

std::vector<double> spread_out(std::vector<double> wanted, double pitch, double low, double high) {
  if (wanted.empty()) return wanted;
  // Groups that touch move as one, centred on what their members want.
  struct Group {
    double sum;  // of wanted - offset in the group
    std::size_t count;
    double first() const { return sum / static_cast<double>(count); }
  };
  std::vector<Group> groups;
  for (const double at : wanted) {
    groups.push_back({at, 1});
    while (groups.size() > 1) {
      Group& last = groups.back();
      Group& before = groups[groups.size() - 2];
      const double offset = pitch * static_cast<double>(before.count);
      if (before.first() + offset <= last.first()) break;
      before.sum += last.sum - offset * static_cast<double>(last.count);
      before.count += last.count;
      groups.pop_back();
    }
  }
  std::vector<double> placed;
  for (const Group& group : groups) {
    for (std::size_t k = 0; k < group.count; ++k) placed.push_back(group.first() + pitch * static_cast<double>(k));
  }
  double limit = high;
  for (std::size_t i = placed.size(); i-- > 0;) {
    placed[i] = std::min(placed[i], limit);
    limit = placed[i] - pitch;
  }
  limit = low;
  for (double& at : placed) {
    at = std::max(at, limit);
    limit = at + pitch;
  }
  return placed;
}

}  // namespace outbye
