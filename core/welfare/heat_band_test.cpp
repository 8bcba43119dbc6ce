#include "core/welfare/heat_band.h"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

namespace outbye {
namespace {

constexpr HeatBand all[] = {HeatBand::comfortable,      HeatBand::discomfort, HeatBand::precautions,
                            HeatBand::more_precautions, HeatBand::hazardous,  HeatBand::extreme};

// 25: "Optimising performance in a challenging climate"; 28: common practice; 30 and 32: from memory; above 33:
// Equestrian Australia, hot weather policy, 4 February 2019.
TEST(BandOfWbgt, ChangesAtItsLimits) {
  EXPECT_EQ(band_of_wbgt({24.99}), HeatBand::comfortable);
  EXPECT_EQ(band_of_wbgt({25}), HeatBand::discomfort);
  EXPECT_EQ(band_of_wbgt({27.99}), HeatBand::discomfort);
  EXPECT_EQ(band_of_wbgt({28}), HeatBand::precautions);
  EXPECT_EQ(band_of_wbgt({30}), HeatBand::more_precautions);
  EXPECT_EQ(band_of_wbgt({32}), HeatBand::hazardous);
  EXPECT_EQ(band_of_wbgt({33}), HeatBand::hazardous);
  EXPECT_EQ(band_of_wbgt({33.01}), HeatBand::extreme);
}

// Limits 130, 150, 180: "Heat alert clarification and recommendations".
TEST(BandOfSum, ChangesAtItsLimits) {
  EXPECT_EQ(band_of_sum(129.9), HeatBand::comfortable);
  EXPECT_EQ(band_of_sum(130), HeatBand::discomfort);
  EXPECT_EQ(band_of_sum(150), HeatBand::more_precautions);
  EXPECT_EQ(band_of_sum(180), HeatBand::more_precautions);
  EXPECT_EQ(band_of_sum(180.1), HeatBand::extreme);
}

TEST(BandOfWbgt, NeverFallsAsWbgtRises) {
  for (double w = -40; w < 60; w += 0.01) EXPECT_LE(band_of_wbgt({w}), band_of_wbgt({w + 0.01}));
}
TEST(BandOfSum, NeverFallsAsTheSumRises) {
  for (double s = -80; s < 250; s += 0.1) EXPECT_LE(band_of_sum(s), band_of_sum(s + 0.1));
}

TEST(Advice, HasANameOfItsOwnAndASourceForEveryBand) {
  std::set<std::string> names;
  for (const HeatBand band : all) {
    const HeatAdvice a = advice(band);
    EXPECT_TRUE(names.insert(a.name).second);
    EXPECT_FALSE(a.do_now.empty());
    EXPECT_NE(a.source.find("limit"), std::string::npos);
  }
}
TEST(Advice, SpeaksInSentences) {
  for (const HeatBand band : all) {
    for (const std::string& sentence : advice(band).do_now) EXPECT_EQ(sentence.back(), '.') << sentence;
  }
}
// What a crew is never told, in any band.
TEST(Advice, NeverSaysThatAHorseIsFitOrSafe) {
  for (const HeatBand band : all) {
    for (const std::string& sentence : advice(band).do_now) {
      for (const char* word : {"fit ", "safe", "may go on", "may continue"}) {
        EXPECT_EQ(sentence.find(word), std::string::npos) << sentence;
      }
    }
  }
}
TEST(Advice, SendsToOfficialsAndVetWhereItIsExtreme) {
  std::string said;
  for (const std::string& sentence : advice(HeatBand::extreme).do_now) said += sentence;
  EXPECT_NE(said.find("officials to stop"), std::string::npos);
  EXPECT_NE(said.find("Ask a vet"), std::string::npos);
}

TEST(HeatSettings, NeverRaiseSpeedInAWorseBand) {
  for (std::size_t i = 0; i + 1 < heat_band_count; ++i)
    EXPECT_GE(heat_speed_factor(all[i]), heat_speed_factor(all[i + 1]));
  EXPECT_EQ(heat_speed_factor(HeatBand::comfortable), 1.0);
  EXPECT_GT(heat_speed_factor(HeatBand::extreme), 0.0);
}
TEST(HeatSettings, NeverLowerTheWeightOfAMeetInAWorseBand) {
  for (std::size_t i = 0; i + 1 < heat_band_count; ++i) EXPECT_LE(weight_factor(all[i]), weight_factor(all[i + 1]));
  EXPECT_EQ(weight_factor(HeatBand::comfortable), 1.0);
}
TEST(HeatSettings, AreTheCallersToChange) {
  HeatSettings own;
  own.speed_factor[5] = 0.5;
  own.weight_factor[5] = 3;
  EXPECT_EQ(heat_speed_factor(HeatBand::extreme, own), 0.5);
  EXPECT_EQ(weight_factor(HeatBand::extreme, own), 3);
}

}  // namespace
}  // namespace outbye
