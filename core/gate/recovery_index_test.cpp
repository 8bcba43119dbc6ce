#include "core/gate/recovery_index.h"

#include <gtest/gtest.h>

namespace outbye {
namespace {

// More than 4 bpm is suspect: cardiac recovery index, Equine Vet J Suppl 2002 (doi 10.1111/j.2042-3306.2002.tb05400.x).
TEST(RecoveryIndex, IsSuspectAboveFourBeats) {
  EXPECT_FALSE(recovery_index({56}, {60}).is_suspect);
  EXPECT_TRUE(recovery_index({56}, {61}).is_suspect);
}
TEST(RecoveryIndex, IsNegativeWhenThePulseFalls) { EXPECT_EQ(recovery_index({60}, {56}).rise.value, -4.0); }
TEST(RecoveryIndex, SaysWhenItWasCountedAtAnotherTime) {
  EXPECT_TRUE(recovery_index({56}, {58}, Seconds{64}).warnings.empty());
  EXPECT_EQ(recovery_index({56}, {58}, Seconds{75}).warnings.size(), 1U);
}
// Above 60 at the end of the hold went with more eliminations: the same paper.
TEST(RecoveryIndex, WarnsOfAHighFirstPulse) {
  EXPECT_TRUE(recovery_index({60}, {62}).warnings.empty());
  EXPECT_EQ(recovery_index({61}, {62}).warnings.size(), 1U);
}
TEST(RecoveryIndex, DefersToTheVetWhenSuspect) {
  EXPECT_NE(recovery_index({52}, {60}).warnings.at(0).what.find("ask the vet"), std::string::npos);
}

}  // namespace
}  // namespace outbye
