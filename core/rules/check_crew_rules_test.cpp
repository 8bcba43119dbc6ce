#include "core/rules/rules_for_test.h"

namespace outbye {
namespace {

using testing::Contains;
using testing::Field;
using testing::IsEmpty;
using testing::Not;

TEST(Crew, OfMoreThanMayGoInIsNoted) {
  auto rules = full_rules();
  auto ride = two_loops();
  rules.level.crew_at_gate = published(std::uint32_t{5});
  rules.level.people_at_inspection = published(std::uint32_t{3});
  ride.crew = 6;
  const auto found = check_rules(rules, ride);
  EXPECT_THAT(found, Contains(notes("crew", "6 people crew, at most 5 with one horse in the vet gate")));
  EXPECT_THAT(found, Contains(notes("crew", "6 people crew, at most 3 with one horse at the inspection")));
  ride.crew = 3;
  EXPECT_THAT(check_rules(rules, ride), Not(Contains(Field(&RuleFinding::where, "crew"))));
}

TEST(Crew, ThatIsCompulsoryAndMissingIsABreak) {
  auto rules = full_rules();
  auto ride = two_loops();
  ride.crew = 0;
  rules.level.crew_needed_from = published(kilometres(80));
  EXPECT_THAT(check_rules(rules, ride), Contains(breaks("crew", "no crew for 80 km, compulsory from 80 km")));
  rules.level.crew_needed_from = published(kilometres(100));
  EXPECT_THAT(broken(check_rules(rules, ride)), IsEmpty());
  rules.level.crew_needed_from.reset();
  EXPECT_THAT(check_rules(rules, ride), Contains(asks("crew", "may one ride 80 km without crew?")));
}

TEST(Crew, MeetingOutsideTheDesignatedPointsIsABreak) {
  auto rules = full_rules();
  auto ride = two_loops();
  ride.meets_elsewhere = {"Ford", "Lane end"};
  EXPECT_THAT(check_rules(rules, ride), Contains(breaks("crew", "outside the designated crew points: Ford, Lane end")));
  rules.level.crew_anywhere = published(true);
  EXPECT_THAT(broken(check_rules(rules, ride)), IsEmpty());
  rules.level.crew_anywhere.reset();
  EXPECT_THAT(check_rules(rules, ride), Contains(asks("crew", "is help allowed there?")));
}

TEST(TheDark, IsAskedAboutUnlessTheEventAllowsIt) {
  auto rules = full_rules();
  auto ride = two_loops();
  ride.in_the_dark = {"Ford, loop 1"};
  EXPECT_THAT(check_rules(rules, ride), Contains(asks("ride", "is riding in the dark allowed")));
  rules.level.dark_as_scheduled = weak(true);
  EXPECT_THAT(check_rules(rules, ride), Contains(asks("ride", "does the schedule allow riding in the dark?")));
  rules.level.dark_as_scheduled = published(false);
  EXPECT_THAT(check_rules(rules, ride), Contains(notes("ride", "passes in the dark: Ford, loop 1")));
}

}  // namespace
}  // namespace outbye
