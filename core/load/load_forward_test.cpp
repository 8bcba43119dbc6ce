#include "core/load/load_forward.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "core/load/load_test_tasks.h"

namespace outbye {
namespace {

using namespace testing;

// Could this one thing be put farther forward on the floor with everything else as it stands, all rules kept?
bool could_be_farther_forward(const LoadTask& task, const Load& load, LoadItemId id, Millimetres least) {
  const LoadSearch search;
  LoadWork work{&search, 0, false};
  std::vector<Stowed> things;
  std::size_t self = 0;
  for (const LoadPlacement& p : load.placements) {
    if (p.space != LoadSpaceId{0}) continue;
    if (p.item == id) self = things.size();
    things.push_back({p.item, p.box, 0.0, 0.0, {}});
  }
  LoadRoom room = empty_room(task, LoadSpaceId{0});
  EXPECT_TRUE(stow_again(room, things, work));
  for (const LoadBox& box : places_forward(room, self, least)) {
    // In its turn, and before all others.
    for (const bool is_first : {false, true}) {
      std::vector<Stowed> moved = things;
      moved[self].box = box;
      if (is_first)
        std::rotate(moved.begin(), moved.begin() + static_cast<std::ptrdiff_t>(self),
                    moved.begin() + static_cast<std::ptrdiff_t>(self) + 1);
      LoadRoom next = empty_room(task, LoadSpaceId{0});
      if (!stow_again(next, moved, work) || !is_all_in_reach(next) || !is_front_axle_good(next)) continue;
      LoadRoom sorted = next;
      sort_for_need(sorted);
      if (is_all_in_reach(sorted)) next = sorted;
      if (quality(next) < quality(room)) return true;
    }
  }
  return false;
}

// A can of 20 L and bulky light things, of which some are needed at the first stop.
LoadTask cans_and_light_things(Rng& rng) {
  LoadTask task = boot_task(box_space({between(rng, 900, 1500), between(rng, 900, 1200), 800}, 400), {});
  for (int n = 1; n <= between(rng, 2, 5); ++n) {
    LoadItem item = thing("can " + std::to_string(n), {290, 245, 400}, 21, 26);
    item.is_liquid = true;
    item.first_needed = 0;
    task.items.push_back(item);
  }
  for (int n = 1; n <= between(rng, 3, 12); ++n) {
    LoadItem item = thing("light " + std::to_string(n),
                          {between(rng, 20, 50) * 10, between(rng, 20, 40) * 10, between(rng, 15, 35) * 10},
                          0.1 * between(rng, 5, 60), between(rng, 0, 1) * 10.0);
    if (between(rng, 0, 1) == 0) item.first_needed = between(rng, 0, 3);
    item.pain_if_left = 10.0;
    task.items.push_back(item);
  }
  return task;
}

TEST(HeavyForward, NoHeavyThingByTheTailgateCouldStandFartherForward) {
  int by_the_tailgate = 0;
  for (int seed = 1; seed <= 60; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Rng rng(Seed{static_cast<std::uint64_t>(seed)});
    const LoadTask task = seed % 2 == 0 ? any_load(rng) : cans_and_light_things(rng);
    const auto load = plan_load(task, {{}, 60'000});
    ASSERT_TRUE(load) << load.error().where << " " << load.error().what;
    EXPECT_EQ(words(check_load(task, *load)), "");
    for (const LoadPlacement& p : load->placements) {
      const LoadItem& item = at(task.items, p.item);
      if (p.space != LoadSpaceId{0} || item.mass < heavy_thing) continue;
      if (!is_by_the_tailgate(task.spaces[0], p.box)) continue;
      ++by_the_tailgate;
      EXPECT_FALSE(could_be_farther_forward(task, *load, p.item, 100)) << item.name;
    }
  }
  EXPECT_GT(by_the_tailgate, 5);  // or nothing was looked at
}

// The cans come out at the first stop, the rugs at none: still the rugs are no reason to drive with 21 kg at the back.
TEST(HeavyForward, PutsCansInFrontOfLightThings) {
  LoadTask task = boot_task(box_space({1000, 600, 800}, 300), {});
  for (int n = 1; n <= 4; ++n) {
    LoadItem item = thing("can " + std::to_string(n), {250, 290, 400}, 21, 26);
    item.is_liquid = true;
    item.first_needed = 0;
    task.items.push_back(item);
  }
  for (int n = 1; n <= 2; ++n) task.items.push_back(thing("rug " + std::to_string(n), {480, 290, 300}, 3, 10));
  const auto load = plan_load(task, {{}, 60'000});
  ASSERT_TRUE(load);
  for (const LoadPlacement& p : load->placements) {
    if (at(task.items, p.item).mass < heavy_thing) continue;
    EXPECT_LE(p.box.at.x + p.box.size.length, 500) << at(task.items, p.item).name;
    EXPECT_LE(p.moved_first.size(), 2U);
  }
}

}  // namespace
}  // namespace outbye
