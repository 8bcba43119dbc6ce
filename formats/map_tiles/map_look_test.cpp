#include "formats/map_tiles/map_look.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace outbye {
namespace {

using Some = std::vector<Tag>;

// "roads: class=path name=Back Lane", or "-".
std::string told(const std::optional<MapLook>& look) {
  if (!look) return "-";
  std::string text(layer_name(look->layer));
  for (const auto& [key, value] : look->attributes) {
    const auto* words = std::get_if<std::string>(&value);
    text += " " + std::string(key) + "=" + (words ? *words : std::to_string(std::get<std::int64_t>(value)));
  }
  return text;
}

TEST(LineLook, TellsRoadsByClassWithNameAndLevel) {
  EXPECT_EQ(told(line_look(Some{{"highway", "primary"}, {"ref", "A66"}, {"bridge", "yes"}})),
            "roads class=primary ref=A66 level=1");
  EXPECT_EQ(told(line_look(Some{{"highway", "residential"}, {"name", "Back Lane"}, {"access", "private"}})),
            "roads class=minor name=Back Lane private=1");
  EXPECT_EQ(told(line_look(Some{{"highway", "proposed"}})), "-");
}

TEST(LineLook, TakesAPathForHorsesForABridleway) {
  EXPECT_EQ(told(line_look(Some{{"highway", "path"}, {"horse", "designated"}})), "roads class=bridleway");
  EXPECT_EQ(told(line_look(Some{{"highway", "path"}, {"horse", "no"}})), "roads class=path");
}

TEST(LineLook, LeavesOutWhatRunsUnderGroundOrIsGone) {
  EXPECT_EQ(told(line_look(Some{{"waterway", "stream"}, {"tunnel", "culvert"}})), "-");
  EXPECT_EQ(told(line_look(Some{{"railway", "abandoned"}})), "-");
}

TEST(AreaLook, TellsWaterWoodsAndBuiltUpGround) {
  EXPECT_EQ(told(area_look(Some{{"natural", "water"}, {"name", "Tarn"}})), "water name=Tarn");
  EXPECT_EQ(told(area_look(Some{{"landuse", "forest"}})), "land class=wood");
  EXPECT_EQ(told(area_look(Some{{"landuse", "industrial"}})), "land class=built_up");
  EXPECT_EQ(told(area_look(Some{{"building", "no"}})), "-");
}

TEST(PointLook, MarksPeaksWithTheirHeightAndNoOther) {
  EXPECT_EQ(told(point_look(Some{{"natural", "peak"}, {"name", "Pike"}, {"ele", "978.5"}})),
            "points class=peak name=Pike metres=978");
  EXPECT_EQ(told(point_look(Some{{"natural", "peak"}, {"ele", "high"}})), "points class=peak");
}

TEST(PointLook, LeavesOutWaterThatNobodyMayDrinkAndPrivateParking) {
  EXPECT_EQ(told(point_look(Some{{"man_made", "water_tap"}})), "points class=water");
  EXPECT_EQ(told(point_look(Some{{"man_made", "water_tap"}, {"drinking_water", "no"}})), "-");
  EXPECT_EQ(told(point_look(Some{{"natural", "spring"}})), "-");
  EXPECT_EQ(told(point_look(Some{{"amenity", "parking"}, {"access", "private"}})), "-");
}

TEST(PointLook, CutsALongNameAtAWholeCharacter) {
  std::string name;
  for (int i = 0; i < 150; ++i) name += "\xc3\xa9";  // é
  const auto look = point_look(Some{{"place", "town"}, {"name", name}});
  ASSERT_TRUE(look);
  EXPECT_EQ(std::get<std::string>(look->attributes[1].second), name.substr(0, 200));
  const auto odd = point_look(Some{{"place", "town"}, {"name", "x" + name}});
  EXPECT_EQ(std::get<std::string>(odd->attributes[1].second).size(), 199u);
}

TEST(PointLook, NamesPlacesOrLeavesThemOut) {
  EXPECT_EQ(told(point_look(Some{{"place", "hamlet"}, {"name", "Thwaite"}})), "places class=hamlet name=Thwaite");
  EXPECT_EQ(told(point_look(Some{{"place", "hamlet"}})), "-");
}

}  // namespace
}  // namespace outbye
