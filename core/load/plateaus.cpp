#include "core/load/plateaus.h"

#include <algorithm>

namespace outbye {
namespace {

bool holds(const Plateau& a, const Plateau& b) {
  return a.z == b.z && a.x1 <= b.x1 && a.y1 <= b.y1 && a.x2 >= b.x2 && a.y2 >= b.y2;
}

bool add_if_maximal(std::vector<Plateau>& plateaus, const Plateau& rect) {
  for (const Plateau& other : plateaus) {
    if (holds(other, rect)) return false;
  }
  std::erase_if(plateaus, [&](const Plateau& other) { return holds(rect, other); });
  plateaus.push_back(rect);
  return true;
}

}  // namespace

void cut_plateaus(std::vector<Plateau>& plateaus, const Plateau& base) {
  Plateau cut[64];
  std::size_t count = 0;
  std::size_t kept = 0;
  for (std::size_t i = 0; i < plateaus.size(); ++i) {
    const Plateau p = plateaus[i];
    const bool overlaps = p.z == base.z && p.x1 < base.x2 && base.x1 < p.x2 && p.y1 < base.y2 && base.y1 < p.y2;
    if (!overlaps) {
      plateaus[kept++] = p;
    } else if (count < 64) {
      cut[count++] = p;  // beyond 64 a space is given up, which loses some room and breaks no rule
    }
  }
  plateaus.resize(kept);
  for (std::size_t i = 0; i < count; ++i) {
    const Plateau& p = cut[i];
    Plateau part = p;
    if (p.x1 < base.x1) part.x2 = base.x1, add_if_maximal(plateaus, part);
    part = p;
    if (p.x2 > base.x2) part.x1 = base.x2, add_if_maximal(plateaus, part);
    part = p;
    if (p.y1 < base.y1) part.y2 = base.y1, add_if_maximal(plateaus, part);
    part = p;
    if (p.y2 > base.y2) part.y1 = base.y2, add_if_maximal(plateaus, part);
  }
}

void merge_plateau(std::vector<Plateau>& plateaus, const Plateau& top) {
  std::vector<Plateau> fresh{top};
  for (std::size_t f = 0; f < fresh.size() && f < 64; ++f) {
    const Plateau a = fresh[f];
    if (!add_if_maximal(plateaus, a)) continue;
    for (std::size_t i = 0; i < plateaus.size(); ++i) {
      const Plateau& q = plateaus[i];
      if (q.z != a.z || a.x1 > q.x2 || q.x1 > a.x2 || a.y1 > q.y2 || q.y1 > a.y2) continue;
      const Plateau along_x{std::min(a.x1, q.x1), std::max(a.y1, q.y1), std::max(a.x2, q.x2), std::min(a.y2, q.y2),
                            a.z};
      if (along_x.y1 < along_x.y2 && !holds(a, along_x) && !holds(q, along_x)) fresh.push_back(along_x);
      const Plateau along_y{std::max(a.x1, q.x1), std::min(a.y1, q.y1), std::min(a.x2, q.x2), std::max(a.y2, q.y2),
                            a.z};
      if (along_y.x1 < along_y.x2 && !holds(a, along_y) && !holds(q, along_y)) fresh.push_back(along_y);
    }
  }
}

}  // namespace outbye
