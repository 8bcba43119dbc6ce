#include "formats/exports/place_codes.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace outbye {
namespace {

double degrees(double d, double m, double s) { return d + m / 60 + s / 3600; }

// "A guide to coordinate systems in Great Britain", Ordnance Survey, annex C: E 651 409.903, N 313 177.270.
TEST(NationalGrid, ProjectsThePublishedExampleToTheMillimetre) {
  const auto grid = transverse_mercator_osgb36({degrees(52, 39, 27.2531), degrees(1, 43, 4.5177)});
  EXPECT_NEAR(grid.easting.value, 651409.903, 0.0015);
  EXPECT_NEAR(grid.northing.value, 313177.270, 0.0015);
}

// "Transformations and OSGM15 user guide", Ordnance Survey, annex A: Caister water tower, by the exact OSTN15 shifts.
TEST(NationalGrid, IsWithinFiveMetresOfThePublishedExactTransformation) {
  const auto grid = national_grid({52.658007833, 1.716073973});
  ASSERT_TRUE(grid);
  EXPECT_NEAR(grid->easting.value, 651409.804, 5.0);
  EXPECT_NEAR(grid->northing.value, 313177.450, 5.0);
}

TEST(NationalGrid, NamesTheSquares) {
  EXPECT_EQ(grid_reference({Metres{651409.9}, Metres{313177.3}}), "TG 5140 1317");
  EXPECT_EQ(grid_reference({Metres{0}, Metres{0}}), "SV 0000 0000");
  EXPECT_EQ(grid_reference({Metres{400000}, Metres{600000}}), "NU 0000 0000");
  EXPECT_EQ(grid_reference({Metres{399999}, Metres{500009}}), "NY 9999 0000");
  EXPECT_EQ(grid_reference({Metres{447000}, Metres{1215000}}), "HP 4700 1500");
}

TEST(NationalGrid, IsNotGivenWhereItIsNotUsed) {
  EXPECT_TRUE(national_grid({54.4, -4.4}));    // Isle of Man
  EXPECT_TRUE(national_grid({49.92, -6.30}));  // Scilly
  EXPECT_FALSE(national_grid({54.6, -5.9}));   // Belfast
  EXPECT_FALSE(national_grid({50.95, 1.85}));  // Calais
  EXPECT_FALSE(national_grid({49.5, 11.0}));
  EXPECT_FALSE(national_grid({-54.0, -2.0}));
}

TEST(GeoUri, HasLatitudeFirstAndNoMinusZero) {
  EXPECT_EQ(geo_uri({54.5209876, -2.5}), "geo:54.52099,-2.50000");
  EXPECT_EQ(geo_uri({-0.000001, 0.0}), "geo:0.00000,0.00000");
}

TEST(Coordinates, SayTheHemisphere) {
  EXPECT_EQ(coordinates({54.52, -2.31}), "54.52000 N, 2.31000 W");
  EXPECT_EQ(coordinates({-33.8, 151.2}), "33.80000 S, 151.20000 E");
}

TEST(QrCode, HasItsThreeFinderPatterns) {
  const auto code = qr_code("geo:54.52099,-2.50000");
  ASSERT_TRUE(code);
  EXPECT_EQ(code->width % 4, 1U);  // 21, 25, 29 ...
  const auto dark = [&](std::size_t x, std::size_t y) { return code->dark[y * code->width + x]; };
  const std::size_t far = code->width - 7;
  for (const auto& [left, top] :
       {std::pair{std::size_t{0}, std::size_t{0}}, {far, std::size_t{0}}, {std::size_t{0}, far}}) {
    for (std::size_t i = 0; i < 7; ++i) {
      EXPECT_TRUE(dark(left + i, top) && dark(left + i, top + 6) && dark(left, top + i) && dark(left + 6, top + i));
    }
    EXPECT_FALSE(dark(left + 1, top + 1));
    EXPECT_TRUE(dark(left + 3, top + 3));
  }
}

TEST(QrCode, RefusesWhatNoCodeHolds) {
  EXPECT_FALSE(qr_code(std::string(3000, 'x')));
  EXPECT_FALSE(qr_code(""));
}

}  // namespace
}  // namespace outbye
