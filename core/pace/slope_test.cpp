#include <gtest/gtest.h>

#include "core/pace/pace.h"

namespace outbye {
namespace {

// Equine Vet J Suppl 34 (2002) 397-401; the digits are arithmetic on its two formulas (FACTS C5 and T4).
TEST(CostOfTransport, IsThePublishedFit) {
  EXPECT_NEAR(cost_of_transport(0.10), 0.2791, 1e-4);
  EXPECT_NEAR(cost_of_transport(-0.10), 0.04752, 1e-4);
  EXPECT_NEAR(cost_of_transport(-0.30), 0.1463, 1e-4);
  EXPECT_NEAR(cost_of_transport(-0.20), 0.0833, 1e-4);
  EXPECT_NEAR(cost_of_transport(-0.05), 0.0661, 1e-4);
  EXPECT_NEAR(cost_of_transport(0.00), 0.1230, 1e-12);
  EXPECT_NEAR(cost_of_transport(0.05), 0.2011, 1e-4);
  EXPECT_NEAR(cost_of_transport(0.20), 0.4352, 1e-4);
  EXPECT_NEAR(cost_of_transport(0.02), 0.1542, 1e-4);
  EXPECT_NEAR(cost_of_transport(-0.02), 0.0950, 1e-4);
}

TEST(CostOfTransport, IsCheapestAtAboutMinusTenAndAHalfPercent) {  // FACTS 5.2
  double cheapest = 0;
  for (double g = -0.30; g <= 0; g += 0.001) {
    if (cost_of_transport(g) < cost_of_transport(cheapest)) cheapest = g;
  }
  EXPECT_NEAR(cheapest, -0.105, 0.001);
  EXPECT_NEAR(cost_of_transport(cheapest), 0.0474, 1e-4);
}

TEST(CostOfTransport, KeepsItsEndValueBeyondThirtyPercent) {
  EXPECT_EQ(cost_of_transport(0.45), cost_of_transport(0.30));
  EXPECT_EQ(cost_of_transport(-0.45), cost_of_transport(-0.30));
}

TEST(SlopeSpeedFactor, IsEqualEffortUphill) {  // FACTS 5.2: 0.80, 0.61, 0.44
  EXPECT_EQ(slope_speed_factor(0), 1.0);
  EXPECT_NEAR(slope_speed_factor(0.02), 0.80, 0.005);
  EXPECT_NEAR(slope_speed_factor(0.05), 0.61, 0.005);
  EXPECT_NEAR(slope_speed_factor(0.10), 0.44, 0.005);
}

TEST(SlopeSpeedFactor, IsCappedDownhillAndSlowWhereDescendingCostsMore) {
  EXPECT_EQ(slope_speed_factor(-0.02), 1.05);
  EXPECT_EQ(slope_speed_factor(-0.10), 1.05);
  EXPECT_NEAR(slope_speed_factor(-0.30), 0.1230 / 0.1463, 1e-3);
  for (double g = -0.40; g <= 0.40; g += 0.01) {
    EXPECT_GT(slope_speed_factor(g), 0.2);
    EXPECT_LE(slope_speed_factor(g), 1.05);
  }
}

TEST(SlopeSpeedFactor, NeverRisesWithASteeperClimb) {
  for (double g = 0; g < 0.30; g += 0.005) EXPECT_LT(slope_speed_factor(g + 0.005), slope_speed_factor(g));
}

}  // namespace
}  // namespace outbye
