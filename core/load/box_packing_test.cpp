#include "core/load/box_packing.h"

#include <gtest/gtest.h>

#include "core/load/load_test_tasks.h"

namespace outbye {
namespace {

using namespace testing;

BoxPackingTask any_boxes(Rng& rng) {
  BoxPackingTask task;
  task.container = {between(rng, 50, 300), between(rng, 50, 200), between(rng, 50, 200)};
  const int kinds = between(rng, 1, 8);
  for (int k = 0; k < kinds; ++k) {
    BoxKind kind;
    kind.size = {between(rng, 10, 90), between(rng, 10, 80), between(rng, 10, 60)};
    kind.vertical = {between(rng, 0, 1) == 1, between(rng, 0, 1) == 1, true};
    kind.count = between(rng, 0, 12);
    task.kinds.push_back(kind);
  }
  return task;
}

TEST(BoxPacking, PassesTheCheckerOnAnyBoxes) {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    SCOPED_TRACE(seed);
    Rng rng(Seed{seed});
    const BoxPackingTask task = any_boxes(rng);
    const auto packing = pack_boxes(task, {}, 40);
    ASSERT_TRUE(packing);
    ASSERT_EQ(words(check_packing(task, *packing)), "");
  }
}

TEST(BoxPacking, FillsAContainerThatBoxesFillExactly) {
  BoxPackingTask task{{60, 60, 60}, {{{20, 30, 30}, {true, true, true}, 12}}};
  EXPECT_EQ(pack_boxes(task, {}, 500)->volume, 60 * 60 * 60);
}

TEST(BoxPacking, NeverGetsWorseWithMoreWork) {
  Rng rng(Seed{3});
  const BoxPackingTask task = any_boxes(rng);
  std::int64_t before = 0;
  for (const std::size_t work : {1U, 10U, 100U, 500U}) {
    const auto packing = pack_boxes(task, {}, work);
    EXPECT_GE(packing->volume, before);
    before = packing->volume;
  }
}

TEST(BoxPacking, RefusesSidesOfNothing) {
  EXPECT_FALSE(pack_boxes({{0, 10, 10}, {}}, {}, 10));
  EXPECT_FALSE(pack_boxes({{10, 10, 10}, {{{5, -5, 5}, {true, true, true}, 1}}}, {}, 10));
  EXPECT_FALSE(pack_boxes({{10, 10, 10}, {{{5, 5, 5}, {false, false, false}, 1}}}, {}, 10));
}

struct Packed {
  BoxPackingTask task{{60, 60, 60}, {{{20, 30, 30}, {false, false, true}, 12}}};
  BoxPacking packing = *pack_boxes(task, {}, 200);
};

TEST(PackingCheck, RefusesABoxThatFloats) {
  Packed p;
  p.task.container[2] = 100;
  p.packing.boxes.back().at[2] += 1;
  EXPECT_NE(words(check_packing(p.task, p.packing)).find("not wholly supported"), std::string::npos);
}
TEST(PackingCheck, RefusesABoxTurnedOver) {
  Packed p;
  std::swap(p.packing.boxes[0].size[0], p.packing.boxes[0].size[2]);
  p.packing.boxes[0].size = {30, 30, 20};
  EXPECT_NE(words(check_packing(p.task, p.packing)).find("turned as its kind may not"), std::string::npos);
}
TEST(PackingCheck, RefusesAVolumeNotPacked) {
  Packed p;
  p.packing.volume += 1;
  EXPECT_NE(words(check_packing(p.task, p.packing)).find("add up"), std::string::npos);
}
TEST(PackingCheck, RefusesOverlap) {
  Packed p;
  p.packing.boxes[1].at = p.packing.boxes[0].at;
  EXPECT_NE(words(check_packing(p.task, p.packing)).find("overlaps"), std::string::npos);
}
TEST(PackingCheck, RefusesOneMoreThanThereAre) {
  Packed p;
  p.task.kinds[0].count = static_cast<int>(p.packing.boxes.size()) - 1;
  EXPECT_NE(words(check_packing(p.task, p.packing)).find("one more"), std::string::npos);
}

}  // namespace
}  // namespace outbye
