#include "formats/kit_catalogue/kit_catalogue.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "core/kit/kit_facts_for_test.h"
#include "core/kit/kit_load.h"

namespace outbye {
namespace {

using testing::AllOf;
using testing::HasSubstr;

std::string with_item(const std::string& fields) {
  return R"({"version": 1, "items": [{"id": "x", "name": "X", "group": "papers", "why": "So.", "size_mm": [1, 2, 3],
          "empty_kg": 1, "needed": ["gate"])" +
         fields + "}]}";
}

std::string refusal(const std::string& text) {
  const auto reading = check_kit_catalogue(text, "own.json");
  if (reading.catalogue) return "accepted";
  return reading.problems.front().where + " " + reading.problems.front().what;
}

TEST(PresetKit, HasSomethingInEveryGroup) {
  std::set<KitGroup> groups;
  for (const auto& item : preset_kit().items) groups.insert(item.group);
  EXPECT_EQ(groups.size(), kit_group_count);
}

TEST(PresetKit, SaysOfEachThingWhyItIsThereAndWhereItsSizeComesFrom) {
  for (const auto& item : preset_kit().items) {
    EXPECT_THAT(item.why, HasSubstr(".")) << item.id;
    EXPECT_FALSE(item.source.empty()) << item.id;
    EXPECT_FALSE(item.needed.empty()) << item.id;
  }
}

TEST(PresetKit, CallsFirstAidAChecklistAndNotAdvice) {
  for (const char* id : {"horse-aid", "human-aid"}) {
    const KitItem* item = find_kit_item(preset_kit(), id);
    ASSERT_NE(item, nullptr);
    EXPECT_FALSE(item->contents.empty());
    EXPECT_THAT(item->contents_note, AllOf(HasSubstr("agree with"), HasSubstr("not advice")));
  }
}

TEST(PresetKit, HasACrateForEachThingThatGoesIntoOne) {
  for (const auto& item : preset_kit().items) {
    for (const auto& id : item.goes_into) {
      const KitItem* crate = find_kit_item(preset_kit(), id);
      ASSERT_NE(crate, nullptr) << item.id << " into " << id;
      ASSERT_TRUE(crate->hold) << id;
      EXPECT_LE(1e-6 * item.size.length * item.size.width * item.size.height, crate->hold->room.value) << item.id;
      EXPECT_LE(item.full, crate->hold->most) << item.id;
    }
  }
}

// The room given is for boxes, so it is less than the crate's outside.
TEST(PresetKit, GivesNoCrateMoreRoomThanItsOutside) {
  for (const auto& item : preset_kit().items) {
    if (!item.hold || item.hold->is_place) continue;
    EXPECT_LT(item.hold->room.value, 1e-6 * item.size.length * item.size.width * item.size.height) << item.id;
  }
}

// A crew of three on a hot day of 80 km: what a person loads is cans, crates and bags, not sandwiches.
TEST(PresetKit, MakesSomeThirtyThingsToLoadForACrewOfThree) {
  KitFacts facts = small_day(HeatBand::hazardous, Litres{16});
  facts.crew = 3;
  facts.horses[0].feet.reset();
  const RideKit choices;
  const KitList list = choose_kit(preset_kit(), facts, choices, kit_amounts(facts, choices.settings));
  const auto pieces = load_pieces(list);
  const auto loaded =
      std::count_if(pieces.begin(), pieces.end(), [](const KitPiece& piece) { return !piece.is_place; });
  EXPECT_GE(loaded, 15);
  EXPECT_LE(loaded, 35);
}

// 230 x 190 x 310 mm, 0.5 and 10.5 kg (from memory); 10 L of water and the can.
TEST(PresetKit, WeighsAFullCanAsItsWaterAndItself) {
  const KitItem* can = find_kit_item(preset_kit(), "can-10");
  ASSERT_NE(can, nullptr);
  EXPECT_EQ(can->size, (LoadSize{230, 190, 310}));
  EXPECT_DOUBLE_EQ(can->full.value, can->empty.value + can->holds->value);
}

TEST(KitCatalogue, ComesBackAsItWasWritten) {
  const auto again = check_kit_catalogue(write_kit_catalogue(preset_kit()), "again.json");
  ASSERT_TRUE(again.catalogue);
  EXPECT_EQ(again.catalogue->items, preset_kit().items);
}

TEST(KitCatalogue, RefusesWhatIsWrongWithItsPathAndARemedy) {
  EXPECT_EQ(refusal(with_item("")), "accepted");
  EXPECT_THAT(refusal(with_item(R"(, "wheigt": 3)")), HasSubstr("items[0].wheigt"));
  EXPECT_THAT(refusal(with_item(R"(, "full_kg": 0.5)")), HasSubstr("is less than empty_kg"));
  EXPECT_THAT(refusal(with_item(R"(, "pain": -1)")), HasSubstr("between 0 and 1000"));
  EXPECT_THAT(refusal(with_item(R"(, "bears_kg": -5)")), HasSubstr("items[0].bears_kg"));
  EXPECT_THAT(refusal(with_item(R"(, "count": {"amount": "icee", "in_each": 2})")), HasSubstr("did you mean 'ice'?"));
  EXPECT_THAT(refusal(with_item(R"(, "count": {"amount": "ice"})")), HasSubstr("how much of ice goes into each"));
  EXPECT_THAT(refusal(with_item(R"(, "liquid": true, "orientations": ["width"])")), HasSubstr("[\"height\"] alone"));
  EXPECT_THAT(refusal(with_item(R"(, "when": [{"dusk": true}])")), HasSubstr("items[0].when[0].dusk"));
}

TEST(KitCatalogue, RefusesCratesThatCannotBe) {
  EXPECT_EQ(refusal(with_item(R"(, "takes": {"litres": 20})")), "accepted");
  EXPECT_THAT(refusal(with_item(R"(, "takes": {"litres": -1})")), HasSubstr("items[0].takes.litres"));
  EXPECT_THAT(refusal(with_item(R"(, "takes": {})")), HasSubstr("room for the boxes"));
  EXPECT_THAT(refusal(with_item(R"(, "takes": {"litres": 2}, "goes_into": ["x"])")), HasSubstr("in another"));
}

TEST(KitCatalogue, RefusesNegativeSizesAndUnknownGroups) {
  std::string text = with_item("");
  text.replace(text.find("[1, 2, 3]"), 9, "[1, -2, 3]");
  EXPECT_THAT(refusal(text), AllOf(HasSubstr("items[0].size_mm[1]"), HasSubstr("is -2")));
  text = with_item("");
  text.replace(text.find("\"papers\""), 8, "\"paper\"");
  EXPECT_THAT(refusal(text), HasSubstr("did you mean 'papers'?"));
}

}  // namespace
}  // namespace outbye
