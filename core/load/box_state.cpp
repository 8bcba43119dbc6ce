#include "core/load/box_state.h"

#include <algorithm>

namespace outbye {

BoxState empty_state(const BoxPackingTask& task) {
  BoxState state;
  state.plateaus.push_back(
      {0, 0, static_cast<std::int16_t>(task.container[0]), static_cast<std::int16_t>(task.container[1]), 0});
  for (const BoxKind& kind : task.kinds) state.left.push_back(static_cast<std::int16_t>(kind.count));
  return state;
}

void place_block(BoxState& state, const BoxBlocks& blocks, const BoxBlock& block, int x, int y, int z, int ceiling,
                 int lowest) {
  const auto s = [](int value) { return static_cast<std::int16_t>(value); };
  cut_plateaus(state.plateaus, {s(x), s(y), s(x + block.length), s(y + block.width), s(z)});
  state.placed.push_back({s(x), s(y), s(z), s(x + block.length), s(y + block.width), s(z + block.height), block.made});
  for (std::int32_t u = block.uses_begin; u < block.uses_end; ++u) {
    const BlockUse& use = blocks.uses[static_cast<std::size_t>(u)];
    std::int16_t& left = state.left[static_cast<std::size_t>(use.kind)];
    left = s(left - use.count);
  }
  state.volume += block.volume;
  const int top = z + block.height;
  if (ceiling - top < lowest) return;
  merge_plateau(state.plateaus,
                {s(x + block.top.x1), s(y + block.top.y1), s(x + block.top.x2), s(y + block.top.y2), s(top)});
}

}  // namespace outbye
