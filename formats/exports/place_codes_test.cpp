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

TEST(Coordinates, AreToldInDegreesAndMinutesToo) {
  EXPECT_EQ(degrees_minutes({54.52, -2.31}), "54\u00b0 31.200' N, 2\u00b0 18.600' W");
  EXPECT_EQ(degrees_minutes({-33.8688, 151.2093}), "33\u00b0 52.128' S, 151\u00b0 12.558' E");
  EXPECT_EQ(degrees_minutes({53.999999, -0.000001}), "54\u00b0 00.000' N, 0\u00b0 00.000' E");  // minutes carry over
}

// Each by GeoConvert of GeographicLib 2.1.2 (-u -p 3, -m -p -1).
struct KnownUtm {
  Position place;
  double easting, northing;
  const char* mgrs;
};
class UtmAt : public testing::TestWithParam<KnownUtm> {};
TEST_P(UtmAt, IsAsGeographicLibSaysToTheMillimetre) {
  const KnownUtm& known = GetParam();
  const auto place = utm(known.place);
  ASSERT_TRUE(place);
  EXPECT_NEAR(place->easting.value, known.easting, 0.0006);
  EXPECT_NEAR(place->northing.value, known.northing, 0.0006);
  EXPECT_EQ(mgrs_reference(*place), known.mgrs);
}
INSTANTIATE_TEST_SUITE_P(
    OverTheEarth, UtmAt,
    testing::Values(KnownUtm{{33.33424, 44.40363}, 444500.203, 3688500.544, "38S MB 4450 8850"},
                    KnownUtm{{54.52, -2.31}, 544663.284, 6041598.629, "30U WF 4466 4159"},
                    KnownUtm{{60.39, 5.32}, 297230.220, 6700510.175, "32V KN 9723 0051"},   // Norway's wide zone
                    KnownUtm{{78.22, 15.64}, 514585.636, 8683001.642, "33X WG 1458 8300"},  // Svalbard
                    KnownUtm{{-33.8688, 151.2093}, 334368.634, 6250948.345, "56H LH 3436 5094"},
                    KnownUtm{{-54.8, -68.3}, 545000.053, 3927239.381, "19F EV 4500 2723"},
                    KnownUtm{{0.0001, -0.0001}, 833967.414, 11.068, "30N ZF 3396 0001"},
                    KnownUtm{{-0.0001, 179.9999}, 833967.414, 9999988.932, "60M ZE 3396 9998"},
                    KnownUtm{{61.9999, 2.9999}, 499994.762, 6874169.008, "31V DJ 9999 7416"},
                    KnownUtm{{83.99, -179.9}, 466114.670, 9327830.479, "1X DP 6611 2783"}));

TEST(Utm, EndsNearThePoles) {
  EXPECT_FALSE(utm({84.5, 0}));
  EXPECT_FALSE(utm({-80.5, 0}));
  EXPECT_TRUE(utm({-80, 180}));
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
