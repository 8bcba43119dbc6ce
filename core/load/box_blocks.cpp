#include "core/load/box_blocks.h"

#include <algorithm>
#include <cmath>
#include <unordered_set>

namespace outbye {
namespace {

class Builder {
 public:
  Builder(const BoxPackingTask& task, const BlockLimits& limits) : task_(task), limits_(limits) {
    counts_.resize(task.kinds.size());
    of_height_.resize(static_cast<std::size_t>(task.container[2]) + 1);
    of_length_.resize(static_cast<std::size_t>(task.container[0]) + 1);
  }

  BoxBlocks build() {
    add_single_boxes();
    // Each block is joined with all before it; the small come first, so that a limit reached early cuts the large and
    // particular blocks, not the small and general ones.
    // Side by side go only blocks of one height, so that every block has a flat top; on each other only such of nearly
    // one footprint. Allowing steps in the top filled 0.8 % less: what stands above a step is lost.
    for (std::size_t a = 0; a < blocks_.as_made.size(); ++a) {
      const BoxBlock block = blocks_.as_made[a];
      std::vector<std::size_t>& level = of_height_[static_cast<std::size_t>(block.height)];
      std::vector<std::size_t>& alike = of_length_[static_cast<std::size_t>(block.length)];
      level.push_back(a);
      alike.push_back(a);
      for (std::size_t n = 0; n < level.size(); ++n) {
        join_along(a, level[n], 0);
        join_along(a, level[n], 1);
        if (++pairs_ > limits_.most_pairs || blocks_.as_made.size() >= limits_.most_blocks) return finish();
      }
      const int shortest = static_cast<int>(limits_.least_fill * block.length);
      const int longest = std::min(task_.container[0], static_cast<int>(block.length / limits_.least_fill) + 1);
      for (int length = shortest; length <= longest; ++length) {
        for (const std::size_t b : of_length_[static_cast<std::size_t>(length)]) {
          join_up(a, b);
          if (a != b) join_up(b, a);
          if (++pairs_ > limits_.most_pairs || blocks_.as_made.size() >= limits_.most_blocks) return finish();
        }
      }
    }
    return finish();
  }

 private:
  BoxBlocks finish() {
    for (BoxBlock& block : blocks_.as_made) {
      block.weight =
          static_cast<float>(static_cast<double>(block.volume) * std::pow(double{block.boxes * 1.0}, -limits_.gamma));
    }
    blocks_.by_weight = blocks_.as_made;
    std::stable_sort(blocks_.by_weight.begin(), blocks_.by_weight.end(),
                     [](const BoxBlock& a, const BoxBlock& b) { return a.weight > b.weight; });
    return std::move(blocks_);
  }

  void add_single_boxes() {
    for (std::size_t k = 0; k < task_.kinds.size(); ++k) {
      const BoxKind& kind = task_.kinds[k];
      if (kind.count < 1) continue;
      for (std::size_t up = 0; up < 3; ++up) {
        if (!kind.vertical[up]) continue;
        const int a = kind.size[(up + 1) % 3];
        const int b = kind.size[(up + 2) % 3];
        for (int turn = 0; turn < 2; ++turn) {
          const std::array<int, 3> size{turn == 0 ? a : b, turn == 0 ? b : a, kind.size[up]};
          if (size[0] > task_.container[0] || size[1] > task_.container[1] || size[2] > task_.container[2]) continue;
          BoxBlock block;
          set_size(block, size);
          block.boxes = 1;
          block.volume = std::int64_t{size[0]} * size[1] * size[2];
          block.top = {0, 0, block.length, block.width};
          block.first = static_cast<std::int32_t>(k);
          std::fill(counts_.begin(), counts_.end(), std::int16_t{0});
          counts_[k] = 1;
          add(block);
        }
      }
    }
  }

  static void set_size(BoxBlock& block, const std::array<int, 3>& size) {
    block.length = static_cast<std::int16_t>(size[0]);
    block.width = static_cast<std::int16_t>(size[1]);
    block.height = static_cast<std::int16_t>(size[2]);
  }

  bool fills(const BoxBlock& block) const {
    const double space = double{block.length * 1.0} * block.width * block.height;
    return static_cast<double>(block.volume) >= limits_.least_fill * space;
  }

  // Are there boxes enough for both? Leaves the sum in counts_.
  bool enough(const BoxBlock& a, const BoxBlock& b) {
    std::fill(counts_.begin(), counts_.end(), std::int16_t{0});
    for (std::int32_t u = a.uses_begin; u < a.uses_end; ++u) take(u);
    for (std::int32_t u = b.uses_begin; u < b.uses_end; ++u) {
      if (!take(u)) return false;
    }
    return true;
  }
  bool take(std::int32_t use) {
    const BlockUse& u = blocks_.uses[static_cast<std::size_t>(use)];
    std::int16_t& count = counts_[static_cast<std::size_t>(u.kind)];
    count = static_cast<std::int16_t>(count + u.count);
    return count <= task_.kinds[static_cast<std::size_t>(u.kind)].count;
  }

  // b to the far side of a along x (axis 0) or y (axis 1).
  void join_along(std::size_t first, std::size_t second, int axis) {
    const BoxBlock& a = blocks_.as_made[first];
    const BoxBlock& b = blocks_.as_made[second];
    const bool along_x = axis == 0;
    const int length = along_x ? a.length + b.length : std::max(a.length, b.length);
    const int width = along_x ? std::max(a.width, b.width) : a.width + b.width;
    if (length > task_.container[0] || width > task_.container[1]) return;
    BoxBlock block;
    set_size(block, {length, width, a.height});
    block.volume = a.volume + b.volume;
    if (!fills(block)) return;
    block.top = joined_top(a, b, along_x);
    finish_join(block, first, second, axis);
  }

  // b on the top of a.
  void join_up(std::size_t first, std::size_t second) {
    const BoxBlock& a = blocks_.as_made[first];
    const BoxBlock& b = blocks_.as_made[second];
    const int height = a.height + b.height;
    if (height > task_.container[2] || b.length > a.top.x2 - a.top.x1 || b.width > a.top.y2 - a.top.y1) return;
    BoxBlock block;
    set_size(block, {a.length, a.width, height});
    block.volume = a.volume + b.volume;
    if (!fills(block)) return;
    block.top = moved(b.top, a.top.x1, a.top.y1);
    finish_join(block, first, second, 2);
  }

  static FlatTop moved(const FlatTop& top, int x, int y) {
    return {static_cast<std::int16_t>(top.x1 + x), static_cast<std::int16_t>(top.y1 + y),
            static_cast<std::int16_t>(top.x2 + x), static_cast<std::int16_t>(top.y2 + y)};
  }
  static int area(const FlatTop& top) { return (top.x2 - top.x1) * (top.y2 - top.y1); }

  // Of tops of one height: the joined one when they meet, or the larger of the two.
  static FlatTop joined_top(const BoxBlock& a, const BoxBlock& b, bool along_x) {
    const FlatTop second = moved(b.top, along_x ? a.length : 0, along_x ? 0 : a.width);
    FlatTop best = area(a.top) >= area(second) ? a.top : second;
    FlatTop both;
    if (along_x && a.top.x2 == second.x1) {
      both = {a.top.x1, std::max(a.top.y1, second.y1), second.x2, std::min(a.top.y2, second.y2)};
    } else if (!along_x && a.top.y2 == second.y1) {
      both = {std::max(a.top.x1, second.x1), a.top.y1, std::min(a.top.x2, second.x2), second.y2};
    } else {
      return best;
    }
    return both.x1 < both.x2 && both.y1 < both.y2 && area(both) > area(best) ? both : best;
  }

  void finish_join(BoxBlock& block, std::size_t first, std::size_t second, int axis) {
    const BoxBlock& a = blocks_.as_made[first];
    const BoxBlock& b = blocks_.as_made[second];
    if (area(block.top) < limits_.least_top * block.length * block.width) return;
    if (!enough(a, b)) return;
    block.boxes = static_cast<std::int16_t>(a.boxes + b.boxes);
    block.axis = axis;
    block.first = a.made;
    block.second = b.made;
    add(block);
  }

  void add(BoxBlock block) {
    std::uint64_t key = 1469598103934665603ULL;
    const auto mix = [&key](std::int64_t value) {
      key = (key ^ static_cast<std::uint64_t>(value)) * 1099511628211ULL;
      key ^= key >> 29;
    };
    mix(block.length);
    mix(block.width);
    mix(block.height);
    mix(area(block.top));
    for (const std::int16_t count : counts_) mix(count);
    if (!seen_.insert(key).second) return;
    block.uses_begin = static_cast<std::int32_t>(blocks_.uses.size());
    for (std::size_t k = 0; k < counts_.size(); ++k) {
      if (counts_[k] > 0) blocks_.uses.push_back({static_cast<std::int16_t>(k), counts_[k]});
    }
    block.uses_end = static_cast<std::int32_t>(blocks_.uses.size());
    block.made = static_cast<std::int32_t>(blocks_.as_made.size());
    blocks_.as_made.push_back(block);
  }

  const BoxPackingTask& task_;
  const BlockLimits& limits_;
  BoxBlocks blocks_;
  std::vector<std::int16_t> counts_;
  std::vector<std::vector<std::size_t>> of_height_;
  std::vector<std::vector<std::size_t>> of_length_;
  std::size_t pairs_{};
  std::unordered_set<std::uint64_t> seen_;  // membership alone: its order reaches nothing
};

}  // namespace

BoxBlocks build_blocks(const BoxPackingTask& task, const BlockLimits& limits) { return Builder(task, limits).build(); }

void unpack_block(const BoxBlocks& blocks, std::int32_t made, std::array<int, 3> at, std::vector<PackedBox>& boxes) {
  const BoxBlock& block = blocks.as_made[static_cast<std::size_t>(made)];
  if (block.axis < 0) {
    boxes.push_back({block.first, at, {block.length, block.width, block.height}});
    return;
  }
  unpack_block(blocks, block.first, at, boxes);
  const BoxBlock& a = blocks.as_made[static_cast<std::size_t>(block.first)];
  if (block.axis == 0) at[0] += a.length;
  if (block.axis == 1) at[1] += a.width;
  if (block.axis == 2) at = {at[0] + a.top.x1, at[1] + a.top.y1, at[2] + a.height};
  unpack_block(blocks, block.second, at, boxes);
}

}  // namespace outbye
