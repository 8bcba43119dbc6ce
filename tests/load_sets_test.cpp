// The published container-loading sets, a few problems with little work: the fill that the search must not fall below.
#include <gtest/gtest.h>

#include <string>

#include "core/load/box_packing.h"
#include "core/load/load_test_tasks.h"
#include "tests/support/box_sets.h"

namespace outbye {
namespace {

TEST(PublishedSets, AreFilledToNinetyPerCentOnAverageWithSixtyCompletions) {
  double sum = 0.0;
  for (int set = 1; set <= 7; ++set) {
    const auto tasks =
        read_box_set(std::string(OUTBYE_SHARED) + "/data/bench/container/BR" + std::to_string(set) + ".txt");
    if (tasks.empty()) GTEST_SKIP() << "no published sets in " << OUTBYE_SHARED;
    const BoxPackingTask& task = tasks.front();
    const auto packing = pack_boxes(task, {}, 60);
    ASSERT_TRUE(packing);
    EXPECT_EQ(testing::words(check_packing(task, *packing)), "");
    sum += static_cast<double>(packing->volume) / (1.0 * task.container[0] * task.container[1] * task.container[2]);
  }
  EXPECT_GE(sum / 7.0, 0.90);
}

}  // namespace
}  // namespace outbye
