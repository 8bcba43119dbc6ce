// The search behind pack_boxes: what it may be told, and its parts for the bench.
#pragma once

#include <unordered_map>

#include "core/load/box_blocks.h"
#include "core/load/box_state.h"

namespace outbye {

struct BoxSearchSettings {
  double contact_power{4.0};
  double loss_power{1.0};
  double contact_slack{0.04};  // a gap up to this share of the block's own measure still counts as contact
  double height_weight{1.0};   // of z in the distance of a plateau's corner from the container's
  double beam_growth{1.41421356};
  BlockLimits blocks;
};

// Longest lengths that the sides of the kinds still there add up to.
struct ReachableLengths {
  std::vector<std::int16_t> flat;  // [length]: the longest sum <= length of sides that may lie flat
  std::vector<std::int16_t> up;    // of sides that may stand up
};

struct Expansion {
  float score{};
  std::int32_t block{};  // index in BoxBlocks::by_weight
  std::int16_t x{};
  std::int16_t y{};
  std::int16_t z{};
};

class BoxSearch {
 public:
  BoxSearch(const BoxPackingTask& task, const BoxSearchSettings& settings);

  std::size_t block_count() const { return blocks_.as_made.size(); }
  Result<BoxPacking> run(const KeepGoing& keep_going, std::size_t max_completions);

 private:
  struct Node {
    BoxState state;
    std::vector<std::int32_t> alive;  // blocks that there are boxes for, in order of weight
    std::int64_t completed{};         // volume when completed greedily
  };

  bool run_beam(int beam);
  // The best `most` blocks for the plateau nearest a corner of the container; plateaus that nothing fits are marked.
  // Drops from `alive` what it sees and there are no boxes for. Empty: the load is complete.
  void expand(BoxState& state, std::vector<std::int32_t>& alive, std::size_t most, std::vector<Expansion>& best);
  bool pick_plateau(const BoxState& state, std::size_t& index) const;
  void score_blocks(const BoxState& state, const Plateau& place, std::vector<std::int32_t>& alive, std::size_t most,
                    std::vector<Expansion>& best);
  std::int64_t complete(const BoxState& from, const std::vector<std::int32_t>& alive);
  const ReachableLengths& reachable(const BoxState& state);
  bool is_available(const BoxState& state, const BoxBlock& block) const;
  void put(BoxState& state, const Expansion& move) const;
  void keep_if_better(const BoxState& state);

  const BoxPackingTask& task_;
  BoxSearchSettings settings_;
  BoxBlocks blocks_;
  int lowest_{};                                                 // least height of a box
  std::unordered_map<std::string, ReachableLengths> reachable_;  // by kinds that are left; looked up only
  const KeepGoing* keep_going_{};
  std::size_t completions_{};
  std::size_t max_completions_{};
  BoxState best_;
  std::int64_t all_volume_{};
  // Scratch, to spare allocations.
  BoxState work_;
  std::vector<std::int32_t> work_alive_;
  std::vector<Expansion> work_best_;
  std::vector<PlacedBlock> near_[4];
  std::string key_;
};

}  // namespace outbye
