// A partial load of whole blocks, as the search for the volume problem keeps it.
#pragma once

#include <cstdint>
#include <vector>

#include "core/load/box_blocks.h"
#include "core/load/plateaus.h"

namespace outbye {

struct PlacedBlock {
  std::int16_t x1{};
  std::int16_t y1{};
  std::int16_t z1{};
  std::int16_t x2{};
  std::int16_t y2{};
  std::int16_t z2{};
  std::int32_t made{};  // the block's number as made
};

struct BoxState {
  std::vector<Plateau> plateaus;
  std::vector<PlacedBlock> placed;
  std::vector<std::int16_t> left;  // boxes of each kind
  std::int64_t volume{};
};

BoxState empty_state(const BoxPackingTask& task);

// Puts a block on a plateau at (x, y), which must hold it, and renews the plateaus. `lowest` is the least height of any
// box: a top nearer than that to the ceiling is not kept.
void place_block(BoxState& state, const BoxBlocks& blocks, const BoxBlock& block, int x, int y, int z, int ceiling,
                 int lowest);

}  // namespace outbye
