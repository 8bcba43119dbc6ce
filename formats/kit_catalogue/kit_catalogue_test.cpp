#include "formats/kit_catalogue/kit_catalogue.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

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
