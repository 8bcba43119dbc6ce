#include "engine/welfare.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/rules/rule_set.h"
#include "tests/support/small_ride.h"

namespace outbye {
namespace {

using test::small_inputs;
using ::testing::Contains;
using ::testing::HasSubstr;

// The same weather all day: so warm, in sun and a light wind.
Weather steady(Instant start, double temperature, double humidity) {
  Weather weather;
  for (int h = -12; h <= 36; h += 3) {
    WeatherHour hour;
    hour.at = start + Seconds{3600.0 * h};
    hour.temperature = {temperature};
    hour.humidity = {humidity};
    hour.wind = MetresPerSecond{2};
    hour.cloud = 0.2;
    weather.push_back(hour);
  }
  return weather;
}

RidePlan plan_of(const RideInputs& inputs) {
  auto plan = plan_ride(inputs);
  EXPECT_TRUE(plan) << plan.error().where << ": " << plan.error().what;
  return plan ? std::move(*plan) : RidePlan{};
}

RideInputs in_weather(double temperature, double humidity) {
  RideInputs inputs = small_inputs();
  inputs.ride.weather = steady(inputs.ride.start, temperature, humidity);
  return inputs;
}

TEST(Heat, SlowsTheHorseAndSaysByHowMuch) {
  const RidePlan cool = plan_of(in_weather(12, 50));
  const RidePlan hot = plan_of(in_weather(36, 60));
  EXPECT_GT(hot.passes.back().due.p50 - hot.ride.start, cool.passes.back().due.p50 - cool.ride.start);
  EXPECT_GT(hot.effects[0][0].heat, minutes(5));
  EXPECT_EQ(cool.effects[0][0].heat, Seconds{0});
  auto told = in_weather(36, 60);
  told.ride.heat_slows = false;
  EXPECT_EQ(plan_of(told).effects[0][0].heat, Seconds{0});
}

TEST(Heat, IsWorkedAtEveryPassAndAlongTheCourse) {
  const RidePlan hot = plan_of(in_weather(36, 60));
  ASSERT_EQ(hot.welfare.passes.size(), hot.passes.size());
  for (const auto& pass : hot.welfare.passes) {
    ASSERT_TRUE(pass.heat);
    ASSERT_TRUE(pass.worst_heat);
    EXPECT_GE(pass.worst_heat->band, pass.heat->band);
    EXPECT_GT(pass.worth_factor, 1.0);
  }
  ASSERT_EQ(hot.welfare.along.size(), 1u);
  EXPECT_GE(hot.welfare.along[0].size(), 20u);  // each 2 km of 40
  ASSERT_TRUE(hot.welfare.crew_heat);
  EXPECT_FALSE(hot.welfare.crew_heat->sentences.empty());
}

TEST(Heat, IsNotInventedWhereTheWeatherIsNotKnown) {
  const RidePlan plan = plan_of(small_inputs());
  EXPECT_FALSE(plan.welfare.passes[0].heat);
  EXPECT_FALSE(plan.welfare.crew_heat);
  EXPECT_THAT(plan.assumptions, Contains(HasSubstr("No weather is given")));
}

TEST(Worth, RisesWithTheDistanceSinceWater) {
  const RidePlan plan = plan_of(small_inputs());
  const auto& near = plan.welfare.passes[0];  // about 5 km into loop 1
  const auto& far = plan.welfare.passes[1];   // about 15 km
  EXPECT_LT(near.since_water, far.since_water);
  EXPECT_LT(near.worth_factor, far.worth_factor);
  EXPECT_DOUBLE_EQ(plan.task.options[1].worth, far.worth_factor);
  RideInputs watered = small_inputs();
  watered.ride.waters = {{"Trough", 1, far.since_water - Metres{1000}}};
  const RidePlan with_trough = plan_of(watered);
  EXPECT_NEAR(with_trough.welfare.passes[1].since_water.value, 1000, 1);
  EXPECT_LT(with_trough.welfare.passes[1].worth_factor, far.worth_factor);
}

TEST(Worth, OfAWishIsTakenAsItIs) {
  RideInputs inputs = in_weather(36, 60);
  PassWish wish;
  wish.crew_point = "Ash";
  wish.worth = 1.5;
  inputs.ride.wishes = {wish};
  EXPECT_DOUBLE_EQ(plan_of(inputs).task.options[0].worth, 1.5);
}

TEST(HorseWater, FallsShortByLessWhenMoreIsDrunk) {
  RideInputs dry = small_inputs();
  dry.ride.horses = {{"Juno", "", "", {}, {}}};
  dry.ride.horses[0].intakes = {{"Ash", 1, 1, Litres{0}, {}, {}}, {"Venue", 1, 1, Litres{2}, {}, {}}};
  RideInputs wet = dry;
  wet.ride.horses[0].intakes[1].drank = Litres{14};
  const RidePlan with_little = plan_of(dry);
  const RidePlan with_much = plan_of(wet);
  EXPECT_LT(with_much.welfare.horses[0].at_finish.deficit.to, with_little.welfare.horses[0].at_finish.deficit.to);
  EXPECT_EQ(with_much.welfare.passes[2].drank, Litres{14});
  EXPECT_EQ(with_much.welfare.passes[0].drank, Litres{0});
}

TEST(HorseWater, CountsEveryMinuteOfRidingAtTheRateOfTheDay) {
  const RidePlan plan = plan_of(in_weather(12, 50));  // the lowest band: 4 L/h for 450 kg
  Seconds riding{0};
  for (const auto& effect : plan.effects[0]) riding += effect.riding - effect.stops;
  const double standing = plan.ride.sweat.standing;
  Seconds stood{0};
  for (const auto& pass : plan.passes) {
    if (pass.event.kind == RideEvent::Kind::gate || (pass.is_met && pass.event.kind == RideEvent::Kind::pass)) {
      stood += pass.out.p50 - pass.due.p50;
    }
  }
  const double expected = 4.0 * (riding.count() + standing * stood.count()) / 3600.0;
  EXPECT_NEAR(plan.welfare.horses[0].at_finish.sweat.middle.value, expected, 0.02 * expected);
}

TEST(Intakes, AtAPlaceThatIsNotPassedAreSaidAndNotLost) {
  RideInputs inputs = small_inputs();
  inputs.ride.horses = {{"Juno", "", "", {}, {}}};
  inputs.ride.horses[0].intakes = {{"Ash", 2, 1, Litres{5}, {}, {}}};  // Ash is on loop 1 alone
  EXPECT_THAT(plan_of(inputs).warnings,
              Contains(testing::Field(&Warning::what, HasSubstr("'Ash' in loop 2, where the horse does not pass"))));
}

TEST(Salts, GivenAreCountedAndNeverShownWithoutCautions) {
  RideInputs inputs = small_inputs();
  inputs.ride.horses = {{"Juno", "", "", {}, {}}};
  inputs.ride.horses[0].intakes = {{"Venue", 1, 1, {}, Grams{30}, Grams{10}}};
  const RidePlan plan = plan_of(inputs);
  const SaltBalance& salts = plan.welfare.horses[0].salts;
  EXPECT_NEAR((salts.given.sodium + salts.given.chloride + salts.given.potassium).value, 40, 1e-9);
  EXPECT_GT(salts.cautions.size(), 0u);
}

// A ride into the evening at 54.9 N in December: dark before five.
TEST(Light, IsToldAtEveryPass) {
  RideInputs inputs = small_inputs();
  inputs.ride.start = std::chrono::sys_days{std::chrono::year{2026} / 12 / 12} + std::chrono::hours{13};
  const RidePlan plan = plan_of(inputs);
  EXPECT_EQ(plan.welfare.passes.front().light, Light::day);
  EXPECT_EQ(plan.welfare.passes.back().light, Light::dark);
  ASSERT_TRUE(plan.welfare.sun.sunset);
  EXPECT_LT(*plan.welfare.sun.sunset, plan.passes.back().due.p50);
}

TEST(Rules, AreCheckedAgainstThePlan) {
  RideInputs inputs = small_inputs();
  RuleChoice& choice = inputs.ride.rules.emplace();
  choice.own.gate.hold = Ruled<Seconds>{minutes(55), Mark::event, "briefing"};
  choice.own.gate.present_within = Ruled<Seconds>{minutes(20), Mark::event, "briefing"};
  choice.own.max_speed = Ruled<KmPerHour>{{8}, Mark::event, "briefing"};
  const RidePlan plan = plan_of(inputs);
  ASSERT_TRUE(plan.rules);
  const auto breaks = [&plan](std::string_view where) {
    return std::count_if(plan.rule_findings.begin(), plan.rule_findings.end(), [where](const RuleFinding& finding) {
      return finding.severity == RuleFinding::Severity::breaks && finding.where == where;
    });
  };
  EXPECT_EQ(breaks("gate 1"), 1);  // 40 min planned, 55 asked
  EXPECT_EQ(breaks("ride"), 1);    // faster than 8 km/h
  EXPECT_THAT(plan.rule_findings.back().what, HasSubstr("rules of the day win"));
}

TEST(Rules, OfABookThatIsNotThereAreRefused) {
  RideInputs inputs = small_inputs();
  inputs.ride.rules.emplace().book = "lunar";
  EXPECT_FALSE(plan_ride(inputs));
}

}  // namespace
}  // namespace outbye
