#include <algorithm>
#include <utility>

#include "core/rules/rules_for_test.h"

namespace outbye {
namespace {

using testing::IsEmpty;

TEST(RuleCheck, FindsNothingToBreakOrAskInARideWithinFullRules) {
  EXPECT_THAT(broken(check_rules(full_rules(), two_loops())), IsEmpty());
}

TEST(RuleCheck, AlwaysEndsWithTheRulesOfTheDay) {
  for (const auto& found : {check_rules({}, {}), check_rules(full_rules(), two_loops())}) {
    ASSERT_FALSE(found.empty());
    EXPECT_THAT(found.back(), notes("ride", "the rules of the day win: schedule, briefing and officials"));
  }
}

TEST(RuleCheck, PutsBreaksBeforeQuestionsBeforeNotes) {
  auto rules = full_rules();
  rules.level.min_speed = published(KmPerHour{13});
  rules.level.finish.pulse_limit.reset();
  const auto found = check_rules(rules, two_loops());
  EXPECT_TRUE(
      std::is_sorted(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.severity < b.severity; }));
  EXPECT_EQ(found.front().severity, Severity::breaks);
}

TEST(ABrokenRule, CarriesItsMarkAndSource) {
  auto rules = full_rules();
  rules.level.min_speed = published(KmPerHour{13});
  const auto found = check_rules(rules, two_loops());
  EXPECT_EQ(found.front().mark, Mark::published);
  EXPECT_EQ(found.front().source, "Invented rules, Art. 1");
}

class AMark : public testing::TestWithParam<std::pair<Mark, Severity>> {};
TEST_P(AMark, DecidesWhetherARuleIsBrokenOrAsked) {
  auto rules = full_rules();
  rules.level.min_speed = Ruled<KmPerHour>{{13}, GetParam().first, ""};
  EXPECT_EQ(check_rules(rules, two_loops()).front().severity, GetParam().second);
}
INSTANTIATE_TEST_SUITE_P(Each, AMark,
                         testing::Values(std::pair{Mark::published, Severity::breaks},
                                         std::pair{Mark::event, Severity::breaks},
                                         std::pair{Mark::derived, Severity::asks},
                                         std::pair{Mark::from_memory, Severity::asks},
                                         std::pair{Mark::common_practice, Severity::asks}));

TEST(AQuestion, BeginsWithWhomToAsk) {
  auto rules = full_rules();
  rules.level.min_speed = weak(KmPerHour{13});
  rules.level.gate.hold.reset();
  for (const auto& found : broken(check_rules(rules, two_loops()))) {
    EXPECT_EQ(found.what.rfind("ask the officials: ", 0), 0U) << found.what;
  }
}

TEST(RuleCheck, SaysNothingOfWhatIsNotKnownOfTheRide) {
  auto rules = full_rules();
  rules.level.time_limit = published(minutes(1));
  rules.level.min_rider_weight.reset();
  EXPECT_THAT(broken(check_rules(rules, {})), IsEmpty());
}

}  // namespace
}  // namespace outbye
