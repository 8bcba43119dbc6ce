#include "engine/day.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "core/base/text.h"
#include "tests/support/small_day.h"

namespace outbye {
namespace {

using test::all_troubles;
using test::all_words;
using test::outlook;
using test::Small;
using test::small_inputs;
using ::testing::Contains;
using ::testing::HasSubstr;

TEST(DayAnswer, IsThePlanBeforeAnythingIsNoted) {
  const Small day;
  const auto answer = day.answer(0);
  for (std::size_t i = 0; i < answer.passes.size(); ++i) {
    const auto& due = answer.passes[i].odds.due;
    ASSERT_TRUE(due);
    // What may hold her up makes the late side later; the medians stay within some minutes.
    EXPECT_NEAR((due->p50 - Small::plan().passes[i].due.p50).count(), 0, 240) << answer.passes[i].label;
  }
  EXPECT_TRUE(answer.state.troubles.empty()) << all_troubles(answer.state);
}

TEST(DayAnswer, MovesTheRestOfTheDayWithASighting) {
  Small day;
  day.add(DayKind::horse_in, 35, "Ash");  // ten minutes late
  const auto answer = day.answer(36);
  EXPECT_EQ(outlook(answer, "Ash loop 1").seen, Small::minute(35));
  EXPECT_GT(outlook(answer, "Birch loop 1").odds.due->p50, Small::plan().passes[1].due.p50 + minutes(10));
}

TEST(DayAnswer, SaysWaitWhileSheIsDueAndWhenToAskAgain) {
  Small day;
  day.add(DayKind::car_at, 5, "Ash");
  day.add(DayKind::watch_begin, 10, "Ash");
  const auto answer = day.answer(24);
  const auto& car = answer.cars.front();
  ASSERT_FALSE(car.advice.ways.empty());
  EXPECT_EQ(car.advice.ways[car.advice.best].kind, WayOn::Kind::wait);
  EXPECT_THAT(car.headline, HasSubstr("Wait here until"));
  EXPECT_THAT(car.sentences, Contains(HasSubstr("Ask again at")));
  EXPECT_THAT(car.why, Contains(HasSubstr("anna watched Ash from 06:10 to now")));
}

TEST(DayAnswer, NamesTheNextAndWhenToLeaveOnceSheHasGoneBy) {
  Small day;
  day.add(DayKind::car_at, 30, "Ash");
  DayEntry word = day.entry(DayKind::word, 31, "Ash");
  word.seen_at = Small::minute(26);
  word.doubt = Seconds{60};
  word.trust = 0.95;
  day.add(word);
  const auto answer = day.answer(34);
  EXPECT_GT(outlook(answer, "Ash loop 1").odds.gone, 0.9);
  EXPECT_THAT(answer.cars.front().headline, HasSubstr("Birch loop 1; leave by 06:5"));
  EXPECT_THAT(answer.cars.front().why, Contains(HasSubstr("Word that she passed Ash loop 1 about 06:26")));
}

// Ten minutes before the next is due, and she has surely gone by.
TEST(DayAnswer, SaysDriveOnNowWhenTheNextIsPressing) {
  Small day;
  day.add(DayKind::car_at, 30, "Ash");
  DayEntry word = day.entry(DayKind::word, 31, "Ash");
  word.seen_at = Small::minute(26);
  word.doubt = Seconds{60};
  word.trust = 0.95;
  day.add(word);
  EXPECT_EQ(day.answer(64).cars.front().headline, "Drive on to Birch loop 1 now.");
}

TEST(DayAnswer, NamesTheRiderThatWasBehindHer) {
  Small day;
  day.add(DayKind::horse_in, 25, "Ash");
  day.number("17", 28, "Ash");
  day.number("17", 79, "Birch");
  day.add(DayKind::car_at, 60, "Birch");
  const auto answer = day.answer(80);
  EXPECT_THAT(answer.cars.front().why,
              Contains("Number 17 was 3 minutes behind her at Ash and passed Birch at 07:19."));
  EXPECT_EQ(answer.days[0].riders_used, 1u);
}

TEST(DayAnswer, CountsOurOwnNumberAsASighting) {
  Small day;
  day.number("5", 25, "Ash");
  EXPECT_EQ(outlook(day.answer(30), "Ash loop 1").seen, Small::minute(25));
  EXPECT_TRUE(day.state(30).riders.empty());
}

TEST(DayAnswer, IsTheSameInWhateverOrderEventsArrive) {
  Small day;
  day.add(DayKind::car_at, 5, "Ash");
  day.add(DayKind::watch_begin, 10, "Ash");
  day.number("17", 24, "Ash");
  day.add(DayKind::break_begin, 26);
  day.add(DayKind::break_end, 29);
  const std::string id = day.number("18", 30, "Ash");
  add_event(day.log, new_correction(day.log, "ben", Small::clock(31), id, [&] {
              auto e = day.entry(DayKind::number_seen, 30, "Ash");
              e.number = "19";
              return e;
            }()));
  day.number("17", 74, "Birch");
  const auto expected = day.answer(76);
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    Rng rng(Seed{seed});
    auto events = day.log.events;
    shuffle(events, rng);
    Small other;
    for (const auto& event : events) add_event(other.log, event);
    const auto found = other.answer(76);
    ASSERT_EQ(found.days[0].weight, expected.days[0].weight);
    ASSERT_EQ(all_words(found), all_words(expected));
    ASSERT_EQ(all_troubles(found.state), all_troubles(expected.state));
  }
}

TEST(DayState, SaysATimeStillToComeAndUsesItThen) {
  Small day;
  DayEvent event = new_event(day.log, "anna", Small::clock(20), day.entry(DayKind::horse_in, 80, "Ash"));
  add_event(day.log, event);
  EXPECT_THAT(all_troubles(day.state(21)), HasSubstr(event.id + ": is said to be at 07:20:00, which is still to come"));
  EXPECT_TRUE(day.state(21).horses[0].seen.empty());
  EXPECT_EQ(day.state(81).horses[0].seen.size(), 1u);
}

TEST(DayState, LeavesOutTheSightingThatCannotBeAndNamesBoth) {
  Small day;
  day.add(DayKind::horse_in, 25, "Ash");
  const std::string slip = day.add(DayKind::horse_in, 28, "Birch");
  const auto state = day.state(40);
  ASSERT_EQ(state.horses[0].seen.size(), 1u);
  EXPECT_EQ(state.horses[0].seen[0].event, 0u);
  EXPECT_THAT(all_troubles(state), HasSubstr(slip + ": has her at Birch loop 1 at 06:28:00, which cannot be together "
                                                    "with Ash loop 1 at 06:25:00"));
}

TEST(DayState, IsRightAgainOnceTheSlipIsWithdrawn) {
  Small day;
  day.add(DayKind::horse_in, 25, "Ash");
  const std::string slip = day.add(DayKind::horse_in, 28, "Birch");
  add_event(day.log, new_withdrawal(day.log, "anna", Small::clock(41), slip));
  EXPECT_EQ(all_troubles(day.state(42)), "");
}

TEST(DayState, TakesTheLaterNoteOfTwoTimesForOnePass) {
  Small day;
  const std::string first = day.add(DayKind::horse_in, 25, "Ash");
  day.add(DayKind::horse_in, 29, "Ash");
  const auto state = day.state(40);
  EXPECT_EQ(state.horses[0].seen[0].in, Small::minute(29));
  EXPECT_THAT(all_troubles(state), HasSubstr(first + ": Ash loop 1 is noted at 06:25:00 and at 06:29:00"));
}

TEST(DayState, DoubtsANumberThatWouldHaveFlown) {
  Small day;
  day.number("17", 28, "Ash");
  const std::string slip = day.number("17", 30, "Birch");
  const auto state = day.state(40);
  EXPECT_THAT(all_troubles(state), HasSubstr(slip + ": number 17 would have come from Ash"));
  EXPECT_TRUE(state.stretches.empty());
}

// Ours is 57; a 56 that nobody else saw comes when ours is due.
TEST(DayState, DoubtsANumberOneFigureOffOursWhenSheIsDue) {
  RideInputs inputs = small_inputs();
  inputs.ride.horses.push_back({"Brimstone", "Ann", "57", Seconds{0}, std::nullopt});
  const auto plan = plan_ride(inputs);
  ASSERT_TRUE(plan);
  const auto troubles = [&](const std::string& number, double minute) {
    Small day;
    day.number(number, minute, "Ash");
    return all_troubles(day_state(*plan, day.log, Small::minute(minute + 1)));
  };
  EXPECT_THAT(troubles("56", 26), HasSubstr("number 56 is one figure off ours, 57"));
  EXPECT_EQ(troubles("23", 26), "");  // another rider
  EXPECT_EQ(troubles("56", 70), "");  // long after her
  EXPECT_EQ(troubles("57", 26), "");  // ours
}

TEST(DayState, DoubtsANumberThatIsTwoTypedAsOne) {
  Small day;
  day.number("17123", 26, "Ash");
  EXPECT_THAT(all_troubles(day.state(27)), HasSubstr("were two typed as one?"));
}

TEST(DayState, NamesTheNearestPlaceAndKeepsTheEntry) {
  Small day;
  const std::string slip = day.add(DayKind::horse_in, 25, "Ahs");
  EXPECT_THAT(all_troubles(day.state(30)),
              HasSubstr(slip + ": 'Ahs' is not a place of this ride; did you mean 'Ash'?"));
  EXPECT_EQ(day.log.events.size(), 1u);
}

TEST(DayState, TakesBreaksOutOfTheWatch) {
  Small day;
  day.add(DayKind::watch_begin, 10, "Ash");
  day.add(DayKind::break_begin, 15);
  day.add(DayKind::break_end, 18);
  const auto watches = day.state(30).watches;
  ASSERT_EQ(watches.size(), 2u);
  EXPECT_EQ(watches[0].to, Small::minute(15));
  EXPECT_EQ(watches[1].from, Small::minute(18));
  EXPECT_TRUE(watches[1].is_going_on);
}

TEST(DayState, KeepsTheGateWithItsPulsesAndOutTime) {
  Small day;
  day.add(DayKind::horse_in, 105, "Venue");
  DayEntry pulse = day.entry(DayKind::pulse, 108);
  pulse.beats = 60;
  pulse.presented = true;
  day.add(pulse);
  day.add(DayKind::gate_in_time, 110);
  day.add(DayKind::gate_out, 151);
  const auto state = day.state(152);
  const GateVisit& gate = state.horses[0].gates[0];
  EXPECT_EQ(gate.arrival, Small::minute(105));
  EXPECT_EQ(gate.in_time, Small::minute(110));
  EXPECT_EQ(gate.left, Small::minute(151));
  ASSERT_EQ(gate.pulses.size(), 1u);
  const auto answer = day.answer(152);
  EXPECT_EQ(answer.days[0].anchor.at, Small::minute(151));
  EXPECT_EQ(answer.days[0].anchor.loop, 1u);
}

TEST(DayState, SumsUpStock) {
  Small day;
  DayEntry used = day.entry(DayKind::stock_used, 20);
  used.what = "water";
  used.amount = 12.5;
  used.unit = "L";
  day.add(used);
  used.at = Small::minute(30);
  day.add(used);
  const auto stock = day.state(40).stock;
  ASSERT_EQ(stock.size(), 1u);
  EXPECT_EQ(stock[0].used, 25.0);
}

TEST(KnownBy, LeavesOutWhatWasNotedLater) {
  Small day;
  day.add(DayKind::horse_in, 25, "Ash");
  day.add(DayKind::horse_in, 75, "Birch");
  EXPECT_EQ(known_by(day.log, Small::minute(30)).events.size(), 1u);
}

TEST(PlanRest, LeavesOutWhatHasGoneByAndStartsWhereTheCarIs) {
  Small day;
  day.add(DayKind::horse_in, 25, "Ash");
  day.add(DayKind::horse_out, 28, "Ash");
  day.add(DayKind::car_at, 10, "Ash");
  const auto answer = day.answer(30);
  const auto rest = plan_rest(Small::plan(), answer, 256);
  ASSERT_TRUE(rest) << rest.error().what;
  EXPECT_EQ(rest->task.cars[0].start.value, 1u);
  EXPECT_EQ(rest->task.cars[0].ready_from, Small::minute(30));
  ASSERT_FALSE(rest->plan.days[0].stops.empty());
  for (const auto& stop : rest->plan.days[0].stops) {
    EXPECT_GE(stop.depart, Small::minute(30));
    if (!stop.stop.option) continue;
    EXPECT_NE(at(rest->task.options, *stop.stop.option).label, "Ash loop 1");
  }
}

// Twice as slow as planned on loop 1: the plan must follow her.
TEST(PlanRest, FollowsAHorseThatIsLate) {
  Small day;
  day.add(DayKind::horse_in, 45, "Ash");
  day.add(DayKind::horse_out, 48, "Ash");
  const auto rest = plan_rest(Small::plan(), day.answer(50), 256);
  ASSERT_TRUE(rest) << rest.error().what;
  for (const auto& stop : rest->plan.days[0].stops) {
    if (stop.stop.option && at(rest->task.options, *stop.stop.option).label == "Birch loop 1") {
      EXPECT_GT(stop.due.p50, Small::plan().passes[1].due.p50 + minutes(15));
    }
  }
}

TEST(DayWords, NeverSpeakOfTheHorseAsFitOrSafe) {
  Small day;
  day.add(DayKind::car_at, 5, "Ash");
  day.add(DayKind::watch_begin, 10, "Ash");
  day.number("17", 24, "Ash");
  for (const double m : {5.0, 20.0, 30.0, 40.0, 60.0, 200.0}) {
    const std::string words = in_lower_case(all_words(day.answer(m)));
    for (const char* word : {" fit ", "fit to", " safe", "healthy", "sound"}) {
      EXPECT_EQ(words.find(word), std::string::npos) << words;
    }
  }
}

TEST(OddsWords, AreTensInTheMiddleAndHundredsAtTheEnds) {
  EXPECT_EQ(odds_words(0.001), "less than 1 in 100");
  EXPECT_EQ(odds_words(0.034), "3 in 100");
  EXPECT_EQ(odds_words(0.71), "7 in 10");
  EXPECT_EQ(odds_words(0.97), "97 in 100");
  EXPECT_EQ(odds_words(0.999), "more than 99 in 100");
}

}  // namespace
}  // namespace outbye
