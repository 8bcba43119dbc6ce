#include "core/kit/choose_kit.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/kit/kit_facts_for_test.h"
#include "core/kit/kit_load.h"
#include "core/load/load_input.h"

namespace outbye {
namespace {

using testing::Contains;
using testing::HasSubstr;

KitItem thing(const char* id, KitGroup group = KitGroup::horse) {
  KitItem item;
  item.id = id;
  item.name = id;
  item.group = group;
  item.needed = {KitNeed::gate};
  item.empty = item.full = Kilograms{2};
  return item;
}

KitList choose(const std::vector<KitItem>& items, const KitFacts& facts, const RideKit& choices = {}) {
  return choose_kit({"", items}, facts, choices, kit_amounts(facts, choices.settings));
}

TEST(ChooseKit, LeavesAThingForTheDarkAtHomeInDaylightAndSaysWhy) {
  KitItem lamp = thing("lamp");
  lamp.when = {KitCondition{}};
  lamp.when[0].dark = true;
  KitFacts facts = small_day();
  EXPECT_EQ(choose({lamp}, facts).at_home.at(0).reason, "out: every stop is in daylight");
  facts.stops[4].is_dark = true;
  EXPECT_EQ(choose({lamp}, facts).taken.at(0).reason, "in: a stop may be without daylight");
}

TEST(ChooseKit, TakesAThingWhenAnyOfItsConditionsHolds) {
  KitItem rug = thing("rug");
  rug.when.resize(2);
  rug.when[0].cold = true;
  rug.when[1].distance_km_from = 80;
  EXPECT_EQ(choose({rug}, small_day()).taken.size(), 1U);
  rug.when[1].distance_km_from = 81;
  const KitList list = choose({rug}, small_day());
  EXPECT_EQ(list.at_home.at(0).reason,
            "out: no stop is cold to the horse; the ride is 80 km, it comes along from 81 km");
}

TEST(ChooseKit, NeedsEveryPartOfOneCondition) {
  KitItem saddle = thing("saddle");
  saddle.when.resize(1);
  saddle.when[0].distance_km_from = 50;
  saddle.when[0].horses_from = 2;
  EXPECT_TRUE(choose({saddle}, small_day()).taken.empty());
}

TEST(ChooseKit, TakesThingsForAllFeetWhenNothingIsSaid) {
  KitItem shoes = thing("shoes");
  shoes.when.resize(1);
  shoes.when[0].feet = Feet::barefoot;
  KitFacts facts = small_day();
  EXPECT_TRUE(choose({shoes}, facts).taken.empty());
  facts.horses[0].feet.reset();
  const KitList list = choose({shoes}, facts);
  EXPECT_EQ(list.taken.size(), 1U);
  EXPECT_THAT(list.notes, Contains(HasSubstr("shod, booted or barefoot is not said")));
}

TEST(ChooseKit, CountsByPeopleAndHorses) {
  KitItem vest = thing("vest");
  vest.count = {};
  vest.count.fixed = 0;
  vest.count.per_person = 1;
  EXPECT_EQ(choose({vest}, small_day()).taken.at(0).count, 3U);  // two of the crew and the rider
}

// 36 L between two taps: four cans.
TEST(ChooseKit, CountsCansByTheWaterToCarry) {
  KitItem can = thing("can", KitGroup::water_containers);
  can.holds = Litres{10};
  can.count.amount = "carried-water";
  can.count.amount_per_item = 10;
  const KitEntry entry = choose({can}, small_day()).taken.at(0);
  EXPECT_EQ(entry.count, 4U);
  EXPECT_EQ(entry.mass, Kilograms{8});
}

TEST(ChooseKit, LetsOwnCansStandInAndSaysWhenTheyHoldTooLittle) {
  KitItem can = thing("can", KitGroup::water_containers);
  can.holds = Litres{10};
  RideKit mine;
  mine.containers = {{OwnContainer::Kind::can, "blue can", Litres{5}, 2, true, {}}};
  const KitList list = choose({can}, small_day(), mine);
  EXPECT_EQ(list.taken.at(0).item.name, "blue can");
  EXPECT_THAT(list.at_home.at(0).reason, HasSubstr("your own can stands in"));
  EXPECT_THAT(list.notes, Contains(HasSubstr("Your cans hold 10 L, but between two taps 36 L are wanted")));
}

TEST(ChooseKit, DoesAsTheUserSays) {
  KitItem lamp = thing("lamp");
  lamp.when.resize(1);
  lamp.when[0].dark = true;
  RideKit mine;
  mine.taken_anyway = {"lamp"};
  mine.left_out = {"chair"};
  mine.packed = {"LAMP"};
  const KitList list = choose({lamp, thing("chair")}, small_day(), mine);
  EXPECT_THAT(list.taken.at(0).reason, HasSubstr("you take it anyway"));
  EXPECT_TRUE(list.taken.at(0).is_packed);
  EXPECT_EQ(list.at_home.at(0).reason, "out: you left it out");
}

TEST(ChooseKit, KnowsTheFirstStopThatNeedsAThing) {
  const KitEntry entry = choose({thing("hay")}, small_day()).taken.at(0);
  EXPECT_EQ(entry.first_stop, 2U);
  EXPECT_EQ(entry.times_needed, 1U);
}

TEST(OwnItems, ReplaceThoseOfTheSameId) {
  KitItem mine = thing("hay");
  mine.name = "My hay";
  const KitCatalogue both = with_own_items({"", {thing("hay"), thing("rug")}}, {mine, thing("wagon")});
  ASSERT_EQ(both.items.size(), 3U);
  EXPECT_EQ(both.items[0].name, "My hay");
  EXPECT_EQ(both.items[2].id, "wagon");
}

TEST(KitNames, AreRefusedWithTheNearest) {
  RideKit mine;
  mine.packed = {"hay", "hai"};
  const auto problems = unknown_kit_names({"", {thing("hay")}}, mine);
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_EQ(problems[0].where, "kit.packed[1]");
  EXPECT_THAT(problems[0].what, HasSubstr("did you mean 'hay'?"));
}

// Nested 60 mm each: three buckets of 300 mm make a stack of 420 mm (from memory).
TEST(LoadPieces, NestBucketsOfOneSize) {
  KitItem plain = thing("plain", KitGroup::buckets);
  plain.size = {320, 320, 300};
  plain.nests = 60;
  KitItem spare = plain;
  spare.id = spare.name = "spare";
  plain.count.fixed = 2;
  const auto pieces = load_pieces(choose({plain, spare}, small_day()));
  ASSERT_EQ(pieces.size(), 1U);
  EXPECT_EQ(pieces[0].item.size.height, 420);
  EXPECT_EQ(pieces[0].item.mass, Kilograms{6});
  EXPECT_EQ(pieces[0].entries, (std::vector<std::size_t>{0, 0, 1}));
}

TEST(LoadPieces, AreOnePieceEachAndAcceptedByTheLoader) {
  KitItem can = thing("can", KitGroup::water_containers);
  can.is_liquid = true;
  can.count.fixed = 3;
  KitItem aid = thing("aid");
  aid.needed = {KitNeed::emergency};
  aid.must_come = true;
  LoadTask task;
  for (auto& piece : load_pieces(choose({can, aid}, small_day()))) task.items.push_back(std::move(piece.item));
  ASSERT_EQ(task.items.size(), 4U);
  EXPECT_EQ(task.items[2].name, "can 3");
  EXPECT_TRUE(task.items[3].is_emergency);
  EXPECT_FALSE(task.items[3].pain_if_left);
  LoadSpace boot;
  boot.size = {1000, 1000, 500};
  boot.payload = Kilograms{400};
  task.spaces = {boot};
  EXPECT_TRUE(check_load_task(task));
}

OwnContainer own_can(const char* name, std::uint32_t count, std::optional<std::string> car = std::nullopt) {
  OwnContainer can;
  can.name = name;
  can.count = count;
  can.car = std::move(car);
  return can;
}

TEST(DealContainers, LeavesThoseOfANamedCarWithIt) {
  using Rows = std::vector<std::vector<std::size_t>>;
  const std::vector<DealtCar> cars{{"Van"}, {"Estate"}};
  EXPECT_EQ(deal_containers({own_can("blue", 2, "estate"), own_can("grey", 3)}, cars), (Rows{{1, 1}, {0, 1, 0}}));
}

TEST(DealContainers, GivesNoneToACarThatTakesNoPart) {
  const std::vector<DealtCar> cars{{"Van", false}, {"Estate", true}};
  EXPECT_EQ(deal_containers({own_can("grey", 3)}, cars)[0], (std::vector<std::size_t>{1, 1, 1}));
}

TEST(ChooseKit, PutsContainersOfANamedCarIntoItsBoot) {
  KitFacts facts = small_day();
  facts.cars.push_back({"Estate", kilometres(60), 5, {}});
  RideKit choices;
  choices.containers = {own_can("Grey can", 2, "Estate")};
  for (const KitPiece& piece : load_pieces(choose({}, facts, choices), 2)) EXPECT_EQ(piece.car, 1U) << piece.item.name;
}

TEST(UnknownCrates, AreRefusedWithTheNearest) {
  KitItem crate = thing("food-crate");
  crate.hold.emplace();
  KitItem bread = thing("bread");
  bread.goes_into = {"food-crate", "food-crat"};
  RideKit choices;
  choices.own_items = {bread};
  const auto problems = unknown_kit_names({"", {crate, thing("chair")}}, choices);
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_EQ(problems[0].where, "kit.own_items[0].goes_into[1]");
  EXPECT_THAT(problems[0].what, HasSubstr("did you mean 'food-crate'?"));
}

TEST(UnknownCrates, SayWhatMakesAThingACrate) {
  KitItem bread = thing("bread");
  bread.goes_into = {"chair"};
  const auto problems = unknown_crates({bread}, {thing("chair"), bread}, "items");
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_THAT(problems[0].what, HasSubstr("give it \"takes\""));
}

TEST(OwnCoolBox, WeighsWhatItsIceDoes) {
  RideKit choices;
  OwnContainer box = own_can("Blue box", 1);
  box.kind = OwnContainer::Kind::cool_box;
  box.holds = Litres{30};
  choices.containers = {box};
  const KitList list = choose({}, small_day(), choices);
  // 0.6 kg of ice a litre: 18 kg, and less than 6 kg of box.
  EXPECT_GT(list.taken.at(0).mass.value, 18.0);
  EXPECT_LT(list.taken.at(0).mass.value, 24.0);
}

}  // namespace
}  // namespace outbye
