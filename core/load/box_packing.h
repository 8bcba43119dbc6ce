// How much of a box can be filled with smaller ones: the published container-loading problem, each base wholly
// supported. Volume alone counts: no mass, no order. Whole units of length (the published sets are in centimetres).
//
// Method: blocks of boxes are built beforehand; a beam places one block at a time on a plateau of what lies there
// already, values each partial load by completing it greedily, and starts again with twice the work until time is up.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/load/load_plan.h"

namespace outbye {

struct BoxKind {
  std::array<int, 3> size{};                       // each 1..10,000
  std::array<bool, 3> vertical{true, true, true};  // which of them may point up
  int count{1};                                    // 0..1000
};

struct BoxPackingTask {
  std::array<int, 3> container{};  // length, width, height, each 1..10,000
  std::vector<BoxKind> kinds;      // 0..100
};

struct PackedBox {
  int kind{};
  std::array<int, 3> at{};
  std::array<int, 3> size{};  // as it stands
};

struct BoxPacking {
  std::vector<PackedBox> boxes;  // bottom up: each stands on ones before it
  std::int64_t volume{};         // of the boxes packed
  std::size_t completions{};     // greedy completions tried
  int beam{};                    // the widest beam that was finished
};

// Errors: bad_input for sizes and counts out of range, or a kind that may not stand on any side.
Result<BoxPacking> pack_boxes(const BoxPackingTask& task, const KeepGoing& keep_going,
                              std::size_t max_completions = 1'000'000);

// Every rule broken: outside, overlapping, not wholly supported, turned as it may not be, more than there are, volume
// not as claimed. Shares no code with the search.
std::vector<Problem> check_packing(const BoxPackingTask& task, const BoxPacking& packing);

}  // namespace outbye
