// The published container-loading sets, a few problems with little work: the fill that the search must not fall below.
#include <gtest/gtest.h>

#include <fstream>
#include <string>

#include "core/load/box_packing.h"
#include "core/load/load_test_tasks.h"

namespace outbye {
namespace {

// Sets BR1 to BR7 of Bischoff and Ratcliff, Omega 23(4), 1995, in the OR-Library's format.
bool read_first(const std::string& path, BoxPackingTask& task) {
  std::ifstream file(path);
  long skipped = 0;
  std::size_t kinds = 0;
  file >> skipped >> skipped >> skipped >> task.container[0] >> task.container[1] >> task.container[2] >> kinds;
  for (std::size_t k = 0; file && k < kinds; ++k) {
    BoxKind kind;
    file >> skipped;
    for (std::size_t a = 0; a < 3; ++a) {
      int up = 0;
      file >> kind.size[a] >> up;
      kind.vertical[a] = up != 0;
    }
    file >> kind.count;
    task.kinds.push_back(kind);
  }
  return static_cast<bool>(file);
}

TEST(PublishedSets, AreFilledToNinetyPerCentOnAverageWithSixtyCompletions) {
  double sum = 0.0;
  for (int set = 1; set <= 7; ++set) {
    BoxPackingTask task;
    if (!read_first(std::string(OUTBYE_SHARED) + "/data/bench/container/BR" + std::to_string(set) + ".txt", task)) {
      GTEST_SKIP() << "no published sets in " << OUTBYE_SHARED;
    }
    const auto packing = pack_boxes(task, {}, 60);
    ASSERT_TRUE(packing);
    EXPECT_EQ(testing::words(check_packing(task, *packing)), "");
    sum += static_cast<double>(packing->volume) / (1.0 * task.container[0] * task.container[1] * task.container[2]);
  }
  EXPECT_GE(sum / 7.0, 0.90);
}

}  // namespace
}  // namespace outbye
