#include "formats/new_ride/guess_zone.h"

#include <gtest/gtest.h>

namespace outbye {
namespace {

constexpr const char* table =
    "# a comment\n"
    "GB\t+513030-0000731\tEurope/London\n"
    "DE\t+5230+01322\tEurope/Berlin\tmost of Germany\n"
    "DE\t+4742+00841\tEurope/Busingen\tBusingen\n"
    "US\t+340308-1181434\tAmerica/Los_Angeles\tPacific\n";

TEST(ZoneGuess, IsTheZoneOfTheNearestCity) {
  const auto rutland = nearest_zone({52.66, -0.64}, table);
  ASSERT_TRUE(rutland);
  EXPECT_EQ(rutland->zone, "Europe/London");
  EXPECT_EQ(rutland->country, "GB");
  EXPECT_NEAR(rutland->distance.value, 133'000, 2'000);  // by GeodSolve 132.8 km
  EXPECT_EQ(nearest_zone({49.9, 11.6}, table)->zone, "Europe/Berlin");
  EXPECT_EQ(nearest_zone({36.9, -116.8}, table)->zone, "America/Los_Angeles");
}

TEST(ZoneGuess, KeepsToACountryThatIsKnown) {
  EXPECT_EQ(nearest_zone({52.66, -0.64}, table, "DE")->zone, "Europe/Berlin");
  EXPECT_FALSE(nearest_zone({52.66, -0.64}, table, "FR"));
  EXPECT_EQ(nearest_zone({49.4, 8.7}, table, "DE")->zone, "Europe/Berlin");  // though Busingen is nearer
}

TEST(ZoneGuess, IsNothingWithoutATable) { EXPECT_FALSE(nearest_zone({0, 0}, "# nothing\n\nXX\n")); }

}  // namespace
}  // namespace outbye
