#include "formats/osm/map_country.h"

#include <gtest/gtest.h>

#include <fstream>

namespace outbye {
namespace {

namespace fs = std::filesystem;

TEST(MapCountry, IsTheOneTheMapsOfRealPlacesName) {
  const fs::path maps = fs::path(OUTBYE_SHARED) / "data/real/osm";
  if (!fs::exists(maps)) GTEST_SKIP() << "no reference maps beside the repository";
  EXPECT_EQ(map_country({maps / "north-bayreuth.osm.pbf"}), "DE");
  EXPECT_EQ(map_country({maps / "heidelberg.osm.pbf"}), "DE");
  EXPECT_EQ(map_country({maps / "rutland.osm.pbf"}), "GB");
  EXPECT_EQ(map_country({maps / "krems.osm.pbf"}), "AT");
  EXPECT_EQ(map_country({maps / "beatty.osm.pbf"}), "US");
}

TEST(MapCountry, IsNothingWhenTheMapIsSilent) {
  const fs::path file = fs::temp_directory_path() / "outbye_silent_map.osm";
  std::ofstream(file) << "<osm version='0.6'><node id='1' version='1' lat='1' lon='1'>"
                         "<tag k='addr:country' v='somewhere'/><tag k='maxspeed' v='30 mph'/></node></osm>";
  EXPECT_FALSE(map_country({file}));
  EXPECT_FALSE(map_country({"no such file.osm"}));
  fs::remove(file);
}

}  // namespace
}  // namespace outbye
