#include "formats/elevation/hgt.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/base/random.h"

namespace outbye {
namespace {

using testing::HasSubstr;

// A tile whose heights are a function of row (from the north) and column (from the west).
template <class Height>
std::string tile_bytes(std::size_t side, const Height& height) {
  std::string bytes;
  bytes.reserve(2 * side * side);
  for (std::size_t row = 0; row < side; ++row) {
    for (std::size_t column = 0; column < side; ++column) {
      const auto h = static_cast<std::uint16_t>(static_cast<std::int16_t>(height(row, column)));
      bytes += static_cast<char>(h >> 8);
      bytes += static_cast<char>(h & 0xFF);
    }
  }
  return bytes;
}
ElevationTile tile(const std::string& bytes, const std::string& file) {
  auto result = read_hgt(bytes, file);
  EXPECT_TRUE(result) << (result ? "" : result.error().what);
  return result.value_or(ElevationTile{});
}
const std::string& flat() {
  static const std::string bytes = tile_bytes(1201, [](std::size_t, std::size_t) { return 100; });
  return bytes;
}

TEST(ReadHgt, TakesTheCornerFromTheNameInAnyCase) {
  struct Case {
    const char* file;
    int south, west;
  };
  for (const Case& c :
       {Case{"N49E011.hgt", 49, 11}, Case{"some/where/n49e011.HGT", 49, 11}, Case{"S34W071.hgt", -34, -71},
        Case{"N00W180.SRTMGL3.hgt", 0, -180}, Case{"C:\\maps\\s90e179.hgt", -90, 179}}) {
    const ElevationTile t = tile(flat(), c.file);
    EXPECT_EQ(t.south, c.south) << c.file;
    EXPECT_EQ(t.west, c.west) << c.file;
  }
}

TEST(ReadHgt, RefusesWhatIsNoTile) {
  const auto refusal = [](const std::string& bytes, const std::string& file) {
    const auto result = read_hgt(bytes, file);
    EXPECT_FALSE(result) << file;
    return result ? "" : result.error().where + ": " + result.error().what;
  };
  EXPECT_THAT(refusal(flat(), "hills.hgt"), HasSubstr("hills.hgt: does not say where it lies"));
  EXPECT_THAT(refusal(flat(), "N95E011.hgt"), HasSubstr("does not say where it lies"));
  EXPECT_THAT(refusal(flat(), "N49X011.hgt"), HasSubstr("does not say where it lies"));
  EXPECT_THAT(refusal("", "N49E011.hgt"), HasSubstr("has 0 bytes; an SRTM tile has 2884802"));
  EXPECT_THAT(refusal(flat().substr(1), "N49E011.hgt"), HasSubstr("has 2884801 bytes"));
  EXPECT_THAT(refusal("PK\x03\x04", "N49E011.hgt"), HasSubstr("compressed"));
}

// On a plane, bilinear interpolation is exact: 1 m a row southwards, 2 m a column eastwards (folded at column 2000).
TEST(ElevationSource, IsExactOnAPlaneInBothSizes) {
  for (const std::size_t side : {std::size_t{1201}, std::size_t{3601}}) {
    const double last = static_cast<double>(side - 1);
    const std::string bytes = tile_bytes(
        side, [](std::size_t row, std::size_t column) { return -400 + static_cast<int>(row + 2 * (column % 2000)); });
    const ElevationSource source = elevation_source({tile(bytes, "S02W003.hgt")});
    Rng rng{Seed{1}};
    for (int i = 0; i < 200; ++i) {
      const double row = last * uniform(rng);
      const double column = std::min(1998.0, last) * uniform(rng);
      const auto height = source({-1 - row / last, -3 + column / last});
      ASSERT_TRUE(height);
      EXPECT_NEAR(height->value, -400 + row + 2 * column, 1e-6);
    }
    EXPECT_EQ(source({-1, -3}), Metres{-400});         // north-west corner
    EXPECT_EQ(source({-2, -3}), Metres{-400 + last});  // south-west corner
    EXPECT_FALSE(source({-0.99, -3}));
    EXPECT_FALSE(source({-2.01, -3}));
    EXPECT_FALSE(source({-1.5, -1.99}));
  }
}

TEST(ElevationSource, KnowsNothingNextToAVoid) {
  const std::string bytes =
      tile_bytes(1201, [](std::size_t row, std::size_t column) { return row == 600 && column == 600 ? -32768 : 250; });
  const ElevationSource source = elevation_source({tile(bytes, "N10E010.hgt")});
  EXPECT_FALSE(source({10.5, 10.5}));
  EXPECT_FALSE(source({10.5 + 0.9 / 1200, 10.5 - 0.9 / 1200}));
  EXPECT_EQ(source({10.5 + 1.5 / 1200, 10.5}), Metres{250});
  EXPECT_NEAR(source({10.5 + 1.0 / 1200, 10.5}).value_or(Metres{}).value, 250, 1e-9);  // the void weighs nothing
}

TEST(ElevationSource, JoinsTilesAtTheirEdges) {
  const auto level = [](int height) { return tile_bytes(1201, [=](std::size_t, std::size_t) { return height; }); };
  const ElevationSource both = elevation_source({tile(level(100), "N49E011.hgt"), tile(level(200), "N50E011.hgt")});
  EXPECT_EQ(both({49.9999, 11.5}), Metres{100});
  EXPECT_EQ(both({50.0, 11.5}), Metres{200});
  EXPECT_EQ(both({50.0001, 11.5}), Metres{200});
  const ElevationSource south = elevation_source({tile(level(100), "N49E011.hgt")});
  EXPECT_EQ(south({50.0, 12.0}), Metres{100});
  EXPECT_FALSE(south({50.0001, 11.5}));
  // The seam: E179's east edge is W180's west edge.
  const ElevationSource seam = elevation_source({tile(level(7), "S17E179.hgt")});
  EXPECT_EQ(seam({-16.5, 180}), Metres{7});
  EXPECT_EQ(seam({-16.5, -180}), Metres{7});
  EXPECT_EQ(elevation_source({tile(level(9), "S17W180.hgt")})({-16.5, 180}), Metres{9});
}

TEST(ElevationSource, FallsBackOnTheNeighbourWhereTheEdgeIsVoid) {
  const auto level = [](int height) { return tile_bytes(1201, [=](std::size_t, std::size_t) { return height; }); };
  const ElevationSource source =
      elevation_source({tile(level(-32768), "N50E011.hgt"), tile(level(100), "N49E011.hgt")});
  EXPECT_EQ(source({50.0, 11.5}), Metres{100});
}

TEST(ElevationSource, IsEmptyWithoutTiles) { EXPECT_FALSE(elevation_source({})); }

}  // namespace
}  // namespace outbye
