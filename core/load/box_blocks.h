// Blocks of boxes, built once before the search: boxes of one kind in rows, and joins of such blocks with little waste.
#pragma once

#include <cstdint>
#include <vector>

#include "core/load/box_packing.h"

namespace outbye {

// A flat rectangle, in the block's or the container's coordinates.
struct FlatTop {
  std::int16_t x1{};
  std::int16_t y1{};
  std::int16_t x2{};
  std::int16_t y2{};
};

struct BoxBlock {
  std::int16_t length{};
  std::int16_t width{};
  std::int16_t height{};
  std::int16_t boxes{};
  float weight{};             // volume x boxes ^ -gamma: what the search ranks by before it looks at the place
  std::int32_t uses_begin{};  // into BoxBlocks::uses
  std::int32_t uses_end{};
  std::int64_t volume{};  // of the boxes in it
  FlatTop top;            // where more can stand, at `height`; the whole of it unless tops differ
  // How it is made: a box (axis -1: first = kind), or `first` and `second` joined along an axis.
  std::int32_t axis{-1};
  std::int32_t first{};
  std::int32_t second{};
  std::int32_t made{};  // its number as made: what first and second refer to
};

struct BlockUse {
  std::int16_t kind{};
  std::int16_t count{};
};

struct BoxBlocks {
  std::vector<BoxBlock> by_weight;  // greatest first
  std::vector<BoxBlock> as_made;
  std::vector<BlockUse> uses;
};

struct BlockLimits {
  std::size_t most_blocks{10'000};
  std::size_t most_pairs{3'000'000};  // joins looked at
  double least_fill{0.98};
  double gamma{0.2};
  double least_top{0.98};
};

BoxBlocks build_blocks(const BoxPackingTask& task, const BlockLimits& limits);

// The boxes of a block put at a place, bottom up.
void unpack_block(const BoxBlocks& blocks, std::int32_t made, std::array<int, 3> at, std::vector<PackedBox>& boxes);

}  // namespace outbye
