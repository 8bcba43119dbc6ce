#include "core/welfare/crew_heat.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace outbye {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr WorkRate all[] = {WorkRate::rest, WorkRate::low, WorkRate::moderate, WorkRate::high, WorkRate::very_high};

// ISO 7243:2017, from memory.
TEST(CrewLimit, IsTheStandardsForPeopleUsedToHeat) {
  const double limits[] = {33, 30, 28, 26, 25};
  for (const WorkRate rate : all) EXPECT_EQ(crew_limit(rate, true).value, limits[static_cast<int>(rate)]);
}
TEST(CrewLimit, IsTheStandardsForPeopleNotUsedToHeat) {
  const double limits[] = {32, 29, 26, 23, 20};
  for (const WorkRate rate : all) EXPECT_EQ(crew_limit(rate, false).value, limits[static_cast<int>(rate)]);
}
TEST(CrewLimit, NeverRisesWithHarderWork) {
  for (std::size_t i = 0; i + 1 < std::size(all); ++i) {
    EXPECT_GT(crew_limit(all[i], true), crew_limit(all[i + 1], true));
    EXPECT_GT(crew_limit(all[i], false), crew_limit(all[i + 1], false));
  }
}

TEST(CrewHeat, NamesTheWorkThatIsOverItsLimit) {
  EXPECT_THAT(crew_heat({28.5}, true).above_limit,
              ElementsAre(WorkRate::moderate, WorkRate::high, WorkRate::very_high));
  EXPECT_THAT(crew_heat({28.5}, false).above_limit,
              ElementsAre(WorkRate::moderate, WorkRate::high, WorkRate::very_high));
  EXPECT_THAT(crew_heat({29.5}, false).above_limit.size(), 4u);
}
TEST(CrewHeat, IsNotOverALimitThatItEquals) {
  EXPECT_THAT(crew_heat({28}, true).above_limit, ElementsAre(WorkRate::high, WorkRate::very_high));
}
TEST(CrewHeat, SaysNothingOnACoolDay) {
  EXPECT_THAT(crew_heat({19.9}, false).above_limit, IsEmpty());
  EXPECT_THAT(crew_heat({19.9}, false).sentences, IsEmpty());
}
TEST(CrewHeat, SaysWhichWorkAndWhichLimit) {
  EXPECT_THAT(crew_heat({28.5}, true).sentences.front(),
              AllOf(HasSubstr("28.5"), HasSubstr("limit of 28 for moderate work"), HasSubstr("used to heat.")));
}
TEST(CrewHeat, SendsEvenTheRestingOutOfTheWorstHeat) {
  EXPECT_THAT(crew_heat({33.1}, true).sentences[1], HasSubstr("even sitting still"));
}
TEST(CrewHeat, NamesItsSourceScopeAndMark) {
  EXPECT_THAT(crew_heat({20}, true).source,
              AllOf(HasSubstr("ISO 7243:2017"), HasSubstr("from memory"), HasSubstr("people only")));
}

}  // namespace
}  // namespace outbye
