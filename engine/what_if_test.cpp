#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/small_ride.h"

namespace outbye {
namespace {

using test::small_inputs;
using ::testing::HasSubstr;

TEST(ParseWhatIf, ReadsTheFourQuestions) {
  const auto stop = parse_what_if("stop Mill Lane +5min");
  ASSERT_TRUE(stop);
  EXPECT_EQ(stop->kind, WhatIf::Kind::longer_stop);
  EXPECT_EQ(stop->crew_point, "Mill Lane");
  EXPECT_EQ(stop->by, minutes(5));
  EXPECT_EQ(parse_what_if("start +30 min")->by, minutes(30));
  EXPECT_EQ(parse_what_if("START -10")->by, minutes(-10));
  EXPECT_EQ(parse_what_if("without CP5")->crew_point, "CP5");
  EXPECT_EQ(parse_what_if("extra car")->kind, WhatIf::Kind::extra_car);
}

TEST(ParseWhatIf, SaysWhichQuestionsThereAre) {
  for (const char* words : {"", "stop", "stop CP3", "stop +5min", "start", "start CP3 +5min", "start soon", "without",
                            "extra horse", "faster", "start +2000min"}) {
    const auto read = parse_what_if(words);
    ASSERT_FALSE(read) << words;
  }
  EXPECT_THAT(parse_what_if("faster").error().what, HasSubstr("'without CP5'"));
}

class AnswerWhatIf : public ::testing::Test {
 protected:
  static WhatIfAnswer ask(std::string_view words) {
    const auto inputs = small_inputs();
    const auto plan = plan_ride(inputs);
    EXPECT_TRUE(plan);
    return answer_what_if(inputs, *plan, *parse_what_if(words));
  }
};

TEST_F(AnswerWhatIf, ShiftsEveryWindowWithTheStart) {
  const auto before = plan_ride(small_inputs());
  const auto answer = ask("start +30min");
  ASSERT_TRUE(answer.plan) << answer.plan.error().what;
  for (std::size_t i = 0; i < before->passes.size(); ++i) {
    EXPECT_NEAR((answer.plan->passes[i].due.p50 - before->passes[i].due.p50).count(), 1800, 1e-3);
  }
}

TEST_F(AnswerWhatIf, LosesNothingWithAFurtherCar) {
  const auto answer = ask("extra car");
  ASSERT_TRUE(answer.plan);
  EXPECT_EQ(answer.plan->ride.cars.size(), 2u);
  EXPECT_GE(answer.worth_change, -2 * answer.plan->plan.value.standard_error);
}

TEST_F(AnswerWhatIf, LeavesAPointOut) {
  const auto answer = ask("without Ash");
  ASSERT_TRUE(answer.plan);
  for (const auto& pass : answer.plan->passes) EXPECT_FALSE(pass.name == "Ash" && pass.is_met);
  EXPECT_LE(answer.worth_change, 1e-9);
}

TEST_F(AnswerWhatIf, HoldsTheHorseLongerAtAPoint) {
  const auto before = plan_ride(small_inputs());
  ASSERT_TRUE(before->passes[0].is_met) << "the question is idle if Ash is not met";
  const auto answer = ask("stop Ash +5min");
  ASSERT_TRUE(answer.plan);
  ASSERT_TRUE(answer.plan->passes[0].is_met);
  const double before_stand = (before->passes[0].out.p50 - before->passes[0].due.p50).count();
  const double stand = (answer.plan->passes[0].out.p50 - answer.plan->passes[0].due.p50).count();
  EXPECT_NEAR(stand - before_stand, 300, 60);
}

TEST_F(AnswerWhatIf, RefusesWhatMakesNoSense) {
  EXPECT_THAT(ask("stop Ahs +5min").plan.error().what, HasSubstr("did you mean 'Ash'?"));
  EXPECT_THAT(ask("without Venue").plan.error().what, HasSubstr("cannot be left out"));
  EXPECT_THAT(ask("stop Ash -30min").plan.error().what, HasSubstr("take off less"));
  EXPECT_FALSE(ask("stop Venue +5min").plan);
}

}  // namespace
}  // namespace outbye
