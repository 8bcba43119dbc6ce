// The checker of packings, from the definition: it knows nothing of blocks or plateaus.
#include <algorithm>

#include "core/load/box_packing.h"

namespace outbye {
namespace {

std::string box_name(std::size_t b) { return "box " + std::to_string(b + 1); }

bool overlap_flat(const PackedBox& a, const PackedBox& b) {
  return a.at[0] < b.at[0] + b.size[0] && b.at[0] < a.at[0] + a.size[0] && a.at[1] < b.at[1] + b.size[1] &&
         b.at[1] < a.at[1] + a.size[1];
}
bool overlap(const PackedBox& a, const PackedBox& b) {
  return overlap_flat(a, b) && a.at[2] < b.at[2] + b.size[2] && b.at[2] < a.at[2] + a.size[2];
}

bool may_stand_so(const BoxKind& kind, const PackedBox& box) {
  for (std::size_t up = 0; up < 3; ++up) {
    const int a = kind.size[(up + 1) % 3];
    const int b = kind.size[(up + 2) % 3];
    if (kind.vertical[up] && box.size[2] == kind.size[up] &&
        ((box.size[0] == a && box.size[1] == b) || (box.size[0] == b && box.size[1] == a))) {
      return true;
    }
  }
  return false;
}

// The area under a box that boxes reaching exactly its base hold up; they do not overlap, so areas add.
std::int64_t supported_area(const std::vector<PackedBox>& boxes, const PackedBox& box) {
  std::int64_t area = 0;
  for (const PackedBox& under : boxes) {
    if (under.at[2] + under.size[2] != box.at[2] || !overlap_flat(under, box)) continue;
    std::int64_t part = 1;
    for (std::size_t a = 0; a < 2; ++a) {
      part *= std::min(under.at[a] + under.size[a], box.at[a] + box.size[a]) - std::max(under.at[a], box.at[a]);
    }
    area += part;
  }
  return area;
}

}  // namespace

std::vector<Problem> check_packing(const BoxPackingTask& task, const BoxPacking& packing) {
  std::vector<Problem> reasons;
  const auto refuse = [&](std::string where, std::string what) {
    reasons.push_back({Problem::Kind::impossible, std::move(where), std::move(what)});
  };
  std::vector<int> used(task.kinds.size(), 0);
  std::int64_t volume = 0;
  for (std::size_t b = 0; b < packing.boxes.size(); ++b) {
    const PackedBox& box = packing.boxes[b];
    if (box.kind < 0 || static_cast<std::size_t>(box.kind) >= task.kinds.size()) {
      refuse(box_name(b), "is of a kind that is not there");
      return reasons;
    }
    const BoxKind& kind = task.kinds[static_cast<std::size_t>(box.kind)];
    if (++used[static_cast<std::size_t>(box.kind)] == kind.count + 1) {
      refuse(box_name(b), "is one more of its kind than there are");
    }
    volume += std::int64_t{box.size[0]} * box.size[1] * box.size[2];
    if (!may_stand_so(kind, box)) refuse(box_name(b), "is turned as its kind may not stand");
    for (std::size_t a = 0; a < 3; ++a) {
      if (box.at[a] < 0 || box.at[a] + box.size[a] > task.container[a]) refuse(box_name(b), "sticks out");
    }
    for (std::size_t c = 0; c < b; ++c) {
      if (overlap(box, packing.boxes[c])) refuse(box_name(b), "overlaps " + box_name(c));
    }
    if (box.at[2] > 0 && supported_area(packing.boxes, box) != std::int64_t{box.size[0]} * box.size[1]) {
      refuse(box_name(b), "is not wholly supported");
    }
  }
  if (volume != packing.volume) refuse("volume", "is not what the boxes add up to");
  return reasons;
}

}  // namespace outbye
