#include "core/load/box_packing.h"

#include "core/load/box_search.h"

namespace outbye {
namespace {

constexpr int longest = 10'000;

Result<void> check_task(const BoxPackingTask& task) {
  for (const int length : task.container) {
    if (length < 1 || length > longest) return bad_input("container", "each side must be 1 to 10000");
  }
  if (task.kinds.size() > 100) return bad_input("boxes", "at most 100 kinds");
  for (std::size_t k = 0; k < task.kinds.size(); ++k) {
    const BoxKind& kind = task.kinds[k];
    const std::string where = "kind " + std::to_string(k + 1);
    for (const int length : kind.size) {
      if (length < 1 || length > longest) return bad_input(where, "each side must be 1 to 10000");
    }
    if (kind.count < 0 || kind.count > 1000) return bad_input(where, "the count must be 0 to 1000");
    if (!kind.vertical[0] && !kind.vertical[1] && !kind.vertical[2]) {
      return bad_input(where, "may stand on none of its sides: allow one to point up");
    }
  }
  return {};
}

}  // namespace

Result<BoxPacking> pack_boxes(const BoxPackingTask& task, const KeepGoing& keep_going, std::size_t max_completions) {
  if (const Result<void> good = check_task(task); !good) return tl::make_unexpected(good.error());
  BoxSearch search(task, BoxSearchSettings{});
  return search.run(keep_going, max_completions);
}

}  // namespace outbye
