#include <gtest/gtest.h>

#include "engine/load.h"

namespace outbye {
namespace {

KitEntry taken(const std::string& name, std::size_t count) {
  KitEntry entry;
  entry.item.id = entry.item.name = name;
  entry.item.size = {300, 300, 300};
  entry.count = count;
  return entry;
}

std::vector<RideCar> two_cars() {
  std::vector<RideCar> cars(2);
  cars[0].name = "Van";
  cars[1].name = "Estate";
  return cars;
}

TEST(BootItems, ShareWhatEachCarHasForItself) {
  KitList list;
  list.taken = {taken("triangle", 2), taken("rug", 1)};
  list.taken[0].item.count.per_car = 1.0;
  const auto things = boot_items(list, two_cars());
  ASSERT_EQ(things.size(), 3U);
  EXPECT_EQ(things[0].car, "Van");
  EXPECT_EQ(things[1].car, "Estate");
  EXPECT_EQ(things[2].car, "Van");
}

// Names that begin alike are no reason to take one thing for another.
TEST(BootItems, AreNeededWhereWhatTheyAreMadeOfIsNeeded) {
  KitList list;
  list.taken = {taken("bucket", 1), taken("bucket 2", 1)};
  list.taken[0].item.needed = {KitNeed::pass};
  list.taken[1].item.needed = {KitNeed::gate};
  const auto apart = boot_items(list, two_cars());
  ASSERT_EQ(apart.size(), 2U);
  EXPECT_TRUE(apart[0].at_passes);
  EXPECT_FALSE(apart[0].at_gates);
  EXPECT_TRUE(apart[1].at_gates);
  EXPECT_FALSE(apart[1].at_passes);
  for (auto& entry : list.taken) entry.item.nests = 60;
  const auto nested = boot_items(list, two_cars());
  ASSERT_EQ(nested.size(), 1U);
  EXPECT_TRUE(nested[0].at_passes);
  EXPECT_TRUE(nested[0].at_gates);
}

TEST(BootItems, KnowTheWaterInACan) {
  KitList list;
  list.taken = {taken("can", 1)};
  KitItem& can = list.taken[0].item;
  can.is_liquid = true;
  can.holds = Litres{10};
  can.empty = Kilograms{0.5};
  can.full = Kilograms{10.5};
  EXPECT_EQ(boot_items(list, two_cars())[0].water, Litres{10});
}

}  // namespace
}  // namespace outbye
