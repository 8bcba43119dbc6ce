#include <gtest/gtest.h>

#include <algorithm>

#include "core/load/load_plan.h"
#include "core/load/load_test_tasks.h"

namespace outbye {
namespace {

using namespace testing;

// A good load of three things in a row and one on top, to be spoilt in each test.
struct Spoilt {
  LoadTask task;
  Load load;
};
Spoilt good_load() {
  LoadTask task = boot_task(box_space({900, 600, 700}, 100.0),
                            {can("can"), thing("box", {300, 300, 300}, 8, 10), thing("bag", {300, 300, 200}, 4, 0),
                             thing("kit", {300, 300, 200}, 3, 5)});
  task.items[3].is_emergency = true;
  auto load = plan_load(task);
  return {task, std::move(*load)};
}
LoadPlacement& placed(Load& load, std::uint32_t item) {
  return *std::find_if(load.placements.begin(), load.placements.end(),
                       [&](const LoadPlacement& p) { return p.item.value == item; });
}
bool says(const Spoilt& s, const std::string& what) {
  const auto reasons = check_load(s.task, s.load);
  return std::any_of(reasons.begin(), reasons.end(),
                     [&](const Problem& p) { return p.what.find(what) != std::string::npos; });
}

TEST(LoadCheck, AcceptsTheGoodLoad) {
  const Spoilt s = good_load();
  EXPECT_EQ(words(check_load(s.task, s.load)), "");
}

TEST(LoadCheck, RefusesAThingThatFloats) {
  Spoilt s = good_load();
  placed(s.load, 1).box.at.z += 1;
  EXPECT_TRUE(says(s, "not wholly supported"));
}

TEST(LoadCheck, RefusesOverlap) {
  Spoilt s = good_load();
  placed(s.load, 1).box.at = placed(s.load, 0).box.at;
  EXPECT_TRUE(says(s, "overlaps"));
}

TEST(LoadCheck, RefusesAThingThroughTheWall) {
  Spoilt s = good_load();
  placed(s.load, 0).box.at.y = -1;
  EXPECT_TRUE(says(s, "sticks out"));
}

TEST(LoadCheck, RefusesALyingCan) {
  Spoilt s = good_load();
  placed(s.load, 0).box.size = {458, 245, 290};
  EXPECT_TRUE(says(s, "not upright"));
}

TEST(LoadCheck, RefusesMassOnWhatBearsNothing) {
  Spoilt s = good_load();
  placed(s.load, 1).box = {{600, 300, 200}, {300, 300, 300}};
  placed(s.load, 2).box = {{600, 300, 0}, {300, 300, 200}};
  EXPECT_TRUE(says(s, "may bear nothing"));
}

TEST(LoadCheck, RefusesMoreThanAThingBears) {
  Spoilt s = good_load();
  s.task.items[1].bears = Kilograms{3.9};
  placed(s.load, 1).box = {{600, 300, 0}, {300, 300, 300}};
  placed(s.load, 2).box = {{600, 300, 300}, {300, 300, 200}};
  EXPECT_TRUE(says(s, "bears more than it may"));
}

TEST(LoadCheck, RefusesMoreThanThePayload) {
  Spoilt s = good_load();
  s.task.spaces[0].payload = Kilograms{40.0};
  EXPECT_TRUE(says(s, "beyond its payload"));
}

TEST(LoadCheck, RefusesAnOverloadedRearAxle) {
  Spoilt s = good_load();
  s.task.spaces[0].axles = LoadAxles{};
  s.task.spaces[0].axles->rear_left_over = Kilograms{10.0};
  EXPECT_TRUE(says(s, "rear axle"));
}

TEST(LoadCheck, RefusesTheKitBehindSomething) {
  Spoilt s = good_load();
  placed(s.load, 3).moved_first = {LoadItemId{0}};
  EXPECT_TRUE(says(s, "something must be moved"));
}

TEST(LoadCheck, RefusesAWayThatDoesNotWork) {
  Spoilt s = good_load();
  placed(s.load, 3).box.at = {0, 0, 0};  // against the seat-back, and nothing said to be moved
  placed(s.load, 1).box.at = {300, 0, 0};
  placed(s.load, 1).box.size = {300, 300, 300};
  placed(s.load, 2).box.at = {0, 0, 200};
  EXPECT_TRUE(says(s, "still in the way"));
}

TEST(LoadCheck, RefusesAHardThingAboveTheCover) {
  Spoilt s = good_load();
  s.task.spaces[0].cover_height = 300;
  EXPECT_TRUE(says(s, "loose behind people"));
}

TEST(LoadCheck, RefusesAThingForgotten) {
  Spoilt s = good_load();
  s.load.placements.pop_back();
  EXPECT_TRUE(says(s, "neither loaded nor left"));
}

TEST(LoadCheck, RefusesAThingTwice) {
  Spoilt s = good_load();
  s.load.placements.push_back(s.load.placements.back());
  EXPECT_TRUE(says(s, "is there twice"));
}

TEST(LoadCheck, RefusesAFalseBalance) {
  Spoilt s = good_load();
  s.load.balance[0].centre.z += 5;
  EXPECT_TRUE(says(s, "another balance"));
}

TEST(LoadCheck, RefusesAnOrderThatLoadsTheTopFirst) {
  Spoilt s = good_load();
  placed(s.load, 1).box = {{600, 300, 0}, {300, 300, 300}};
  placed(s.load, 2).box = {{600, 300, 300}, {300, 300, 200}};
  std::stable_sort(s.load.placements.begin(), s.load.placements.end(),
                   [](const auto& a, const auto& b) { return a.box.at.z > b.box.at.z; });
  EXPECT_TRUE(says(s, "which it stands on"));
}

TEST(LoadCheck, RefusesEveryRandomShiftIntoOthersOrOffSupport) {
  int shifts = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    SCOPED_TRACE(seed);
    Rng rng(Seed{seed});
    const LoadTask task = any_load(rng, 16);
    auto load = plan_load(task, {{}, 30'000});
    ASSERT_TRUE(load);
    if (load->placements.empty()) continue;
    const std::size_t i = static_cast<std::size_t>(uniform_below(rng, load->placements.size()));
    load->placements[i].box.at.z += 1;  // off what it stands on, whatever that is
    EXPECT_FALSE(check_load(task, *load).empty());
    ++shifts;
  }
  EXPECT_GT(shifts, 30);
}

}  // namespace
}  // namespace outbye
