#include "core/kit/kit_crates.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/kit/kit_facts_for_test.h"
#include "core/kit/kit_load.h"

namespace outbye {
namespace {

// 10 x 10 x 10 cm: a litre, one kilogram.
KitItem small(const char* id, std::vector<KitNeed> needed = {KitNeed::gate}) {
  KitItem item;
  item.id = item.name = id;
  item.size = {100, 100, 100};
  item.empty = item.full = Kilograms{1};
  item.needed = std::move(needed);
  item.goes_into = {"crate"};
  return item;
}

KitItem crate(double litres, double most_kg, const char* id = "crate") {
  KitItem item;
  item.id = item.name = id;
  item.size = {400, 300, 300};
  item.empty = item.full = Kilograms{2};
  item.needed = {KitNeed::not_on_the_road};
  item.hold = KitHold{Litres{litres}, Kilograms{most_kg}, 20, false};
  return item;
}

KitItem so_many(KitItem item, double count) {
  item.count.fixed = count;
  return item;
}

KitList choose(const std::vector<KitItem>& items, const RideKit& choices = {}, const KitFacts& facts = small_day()) {
  return choose_kit({"", items}, facts, choices, kit_amounts(facts, choices.settings));
}

TEST(KitCrates, HoldAsMuchAsTheirRoom) {
  const KitList list = choose({so_many(small("bun"), 7), crate(3, 100)});
  ASSERT_EQ(list.crates.size(), 3U);
  EXPECT_EQ(list.crates[0].contents[0].count, 3U);
  EXPECT_EQ(list.crates[2].contents[0].count, 1U);
  EXPECT_EQ(find_entry(list, "crate")->count, 3U);
}

TEST(KitCrates, GetNoHeavierThanTheyMay) {
  const KitList list = choose({so_many(small("bottle"), 5), crate(100, 2)});
  ASSERT_EQ(list.crates.size(), 3U);
  for (const KitCrate& each : list.crates) EXPECT_LE(each.mass, Kilograms{2 + 2});
}

TEST(KitCrates, StayAtHomeWhenNothingGoesIntoThem) {
  const KitList list = choose({crate(10, 10)});
  EXPECT_TRUE(list.taken.empty());
  EXPECT_EQ(list.at_home.at(0).reason, "out: nothing goes into it");
}

TEST(KitCrates, LetAThingThatIsTooLongTravelByItself) {
  KitItem pole = small("pole");
  pole.size = {900, 30, 30};
  const auto pieces = load_pieces(choose({pole, small("bun"), crate(10, 10)}));
  ASSERT_EQ(pieces.size(), 2U);
  EXPECT_EQ(pieces[0].item.name, "pole");
  EXPECT_EQ(pieces[1].contents, std::vector<std::string>{"bun"});
}

TEST(KitCrates, GiveWayToTheNextOneWhenTheUserLeavesThemOut) {
  KitItem bun = small("bun");
  bun.goes_into = {"crate", "bag"};
  RideKit choices;
  EXPECT_EQ(choose({bun, crate(9, 9), crate(9, 9, "bag")}, choices).crates.at(0).item.id, "crate");
  choices.left_out = {"crate"};
  EXPECT_EQ(choose({bun, crate(9, 9), crate(9, 9, "bag")}, choices).crates.at(0).item.id, "bag");
}

TEST(KitCrates, NeverHoldThingsOfTwoCars) {
  KitFacts facts = small_day();
  facts.cars.push_back({"Estate", kilometres(40), 3, {}});
  KitItem vest = small("vest");
  vest.count.fixed = 0;
  vest.count.per_car = 2;
  const KitList list = choose({vest, crate(10, 10)}, {}, facts);
  ASSERT_EQ(list.crates.size(), 2U);
  EXPECT_NE(list.crates[0].car, list.crates[1].car);
}

// The rules of reach then hold for the crate: it comes out whenever something in it is wanted.
TEST(LoadPieces, AreNeededWhenAnythingInThemIs) {
  const KitList list = choose({small("lead rope", {KitNeed::emergency}), small("stirrup", {KitNeed::gate}),
                               small("hoof pick", {KitNeed::pass}), crate(10, 10)});
  const auto pieces = load_pieces(list);
  ASSERT_EQ(pieces.size(), 1U);
  EXPECT_TRUE(pieces[0].item.is_emergency);
  EXPECT_EQ(pieces[0].item.first_needed, 0);  // the first stop is a pass
}

TEST(LoadPieces, StayUprightWithABottleInThem) {
  KitItem bottle = small("bottle");
  bottle.is_liquid = true;
  KitItem box = crate(10, 10);
  box.vertical = {true, true, true};
  const auto pieces = load_pieces(choose({bottle, box}));
  ASSERT_EQ(pieces.size(), 1U);
  EXPECT_TRUE(pieces[0].item.is_liquid);
  EXPECT_EQ(pieces[0].item.vertical, (std::array<bool, 3>{false, false, true}));
}

TEST(LoadPieces, WeighTogetherWhatTheListWeighs) {
  const KitList list = choose({so_many(small("bun"), 7), so_many(small("bottle"), 4), small("loose"), crate(5, 100)});
  Kilograms sum{};
  for (const KitPiece& piece : load_pieces(list)) sum += piece.item.mass;
  EXPECT_DOUBLE_EQ(sum.value, list.mass.value);
}

TEST(LoadPieces, KeepAPlaceInTheCarApart) {
  KitItem pocket = crate(10, 10);
  pocket.hold->is_place = true;
  const KitList list = choose({small("plan"), pocket});
  EXPECT_EQ(find_entry(list, "crate"), nullptr);  // nothing to pack or to tick
  const auto pieces = load_pieces(list);
  ASSERT_EQ(pieces.size(), 1U);
  EXPECT_TRUE(pieces[0].is_place);
}

TEST(LoadPieces, NestBucketsNoHigherThanTheBoot) {
  KitItem bucket = small("bucket");
  bucket.goes_into.clear();
  bucket.size = {320, 320, 300};
  bucket.nests = 60;
  const KitList list = choose({so_many(bucket, 4)});
  EXPECT_EQ(load_pieces(list).size(), 1U);
  const auto low = load_pieces(list, 1, {440});
  ASSERT_EQ(low.size(), 2U);
  EXPECT_EQ(low[0].item.size.height, 420);
}

TEST(ChooseKit, CountsNoMoreCansThanTheCarsMayCarry) {
  KitItem can = small("can-10");
  can.count.amount = "carried-water";
  can.count.amount_per_item = 10;
  KitFacts facts = small_day();
  facts.cars[0].water_capacity = Litres{20};
  const KitList list = choose({can}, {}, facts);
  EXPECT_EQ(list.taken.at(0).count, 2U);
  EXPECT_THAT(list.taken[0].why_so_many, testing::HasSubstr("the cars carry 20 L at most"));
}

}  // namespace
}  // namespace outbye
