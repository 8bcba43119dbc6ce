#include "core/rules/rule_set.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <limits>

#include "core/rules/rule_fields.h"

namespace outbye {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

template <class T>
Rule<T> from_memory(T value) {
  return Ruled<T>{value, Mark::from_memory, ""};
}
template <class T>
Rule<T> own(T value, const std::string& source = "") {
  return Ruled<T>{value, Mark::event, source};
}

// One level with holds of 40 min, 50 min at gate 3.
std::vector<RuleBook> one_book() {
  RuleLevel level;
  level.name = "Open";
  level.min_speed = from_memory(KmPerHour{9});
  level.gate.hold = from_memory(minutes(40));
  level.gate.pulse_limit = from_memory(BeatsPerMinute{64});
  level.gates[3].hold = from_memory(minutes(50));
  level.finish.pulse_limit = from_memory(BeatsPerMinute{60});
  RuleLevel other;
  other.name = "Novice";
  return {{"moor", "Moor rules", "", "", 2020, "invented", {"a note"}, {level, other}}};
}

RuleChoice open_level() { return {"moor", "Open", {}}; }

TEST(RuleSetOfARide, IsTheLevelOfTheBookWhenNothingIsOverridden) {
  const auto rules = rule_set(one_book(), open_level());
  ASSERT_TRUE(rules);
  EXPECT_EQ(rules->book_id, "moor");
  EXPECT_EQ(rules->year, 2020);
  EXPECT_EQ(rules->level.name, "Open");
  EXPECT_THAT(rules->notes, ElementsAre("a note"));
  EXPECT_TRUE(rules->overridden.empty());
}

TEST(RuleSetOfARide, TakesNamesInAnyCase) { EXPECT_TRUE(rule_set(one_book(), {"MOOR", "open", {}})); }

TEST(RuleSetOfARide, TakesTheFirstWordOfALevelWhereItIsTheOnlyOne) {
  auto books = one_book();
  books[0].levels[1].name = "Novice graded";
  EXPECT_TRUE(rule_set(books, {"moor", "novice", {}}));
  EXPECT_FALSE(rule_set(books, {"moor", "nov", {}}));  // part of a word is a slip of the pen
  books[0].levels[0].name = "Novice free";
  EXPECT_FALSE(rule_set(books, {"moor", "novice", {}}));
}

TEST(RuleSetOfARide, NamesTheNearestBookWhenThereIsNone) {
  const auto rules = rule_set(one_book(), {"mor", "Open", {}});
  ASSERT_FALSE(rules);
  EXPECT_EQ(rules.error().kind, Problem::Kind::not_found);
  EXPECT_EQ(rules.error().where, "rules.book");
  EXPECT_THAT(rules.error().what, HasSubstr("did you mean 'moor'?"));
}

TEST(RuleSetOfARide, ListsTheBooksWhenNoneIsNear) {
  const auto rules = rule_set(one_book(), {"pentathlon", "Open", {}});
  ASSERT_FALSE(rules);
  EXPECT_THAT(rules.error().what, HasSubstr("there are 'moor'"));
}

TEST(RuleSetOfARide, NamesTheNearestLevelWhenThereIsNone) {
  const auto rules = rule_set(one_book(), {"moor", "Opne", {}});
  ASSERT_FALSE(rules);
  EXPECT_EQ(rules.error().where, "rules.level");
  EXPECT_THAT(rules.error().what, HasSubstr("did you mean 'Open'?"));
}

TEST(RuleSetOfARide, WantsALevelOfABookWithSeveral) {
  const auto rules = rule_set(one_book(), {"moor", "", {}});
  ASSERT_FALSE(rules);
  EXPECT_EQ(rules.error().kind, Problem::Kind::bad_input);
  EXPECT_THAT(rules.error().what, HasSubstr("'Open', 'Novice'"));
}

TEST(RuleSetOfARide, TakesTheOnlyLevelOfABookUnasked) {
  auto books = one_book();
  books[0].levels.pop_back();
  const auto rules = rule_set(books, {"moor", "", {}});
  ASSERT_TRUE(rules);
  EXPECT_EQ(rules->level.name, "Open");
}

TEST(RuleSetOfARide, IsTheEventsValuesAloneWithoutABook) {
  RuleChoice choice;
  choice.own.gate.hold = own(minutes(35));
  const auto rules = rule_set(one_book(), choice);
  ASSERT_TRUE(rules);
  EXPECT_EQ(gate_rules(*rules, 1).hold->value, minutes(35));
  EXPECT_FALSE(rules->level.min_speed);
  EXPECT_THAT(rules->overridden, ElementsAre("hold at every gate: 35 min (the book is silent)"));
}

TEST(AnOverride, WinsAndIsMarkedAsTheEvents) {
  auto choice = open_level();
  choice.own.min_speed = Ruled<KmPerHour>{{10}, Mark::published, "briefing"};
  const auto rules = rule_set(one_book(), choice);
  ASSERT_TRUE(rules);
  EXPECT_EQ(rules->level.min_speed, (Ruled<KmPerHour>{{10}, Mark::event, "briefing"}));
}

TEST(AnOverride, ShowsWithBothNumbersAndTheMarkOfTheBook) {
  auto choice = open_level();
  choice.own.min_speed = own(KmPerHour{10}, "briefing");
  choice.own.gates[2].hold = own(minutes(50));
  choice.own.finish.pulse_limit = own(BeatsPerMinute{56});
  const auto rules = rule_set(one_book(), choice);
  ASSERT_TRUE(rules);
  EXPECT_THAT(rules->overridden,
              ElementsAre("slowest speed: 10 km/h instead of 9 km/h (book: from memory; said in: briefing)",
                          "hold at gate 2: 50 min instead of 40 min (book: from memory)",
                          "pulse limit at the finish: 56 bpm instead of 60 bpm (book: from memory)"));
}

TEST(AnOverride, ThatConfirmsTheBookSaysSo) {
  auto choice = open_level();
  choice.own.gates[1].hold = own(minutes(40));
  const auto rules = rule_set(one_book(), choice);
  ASSERT_TRUE(rules);
  EXPECT_THAT(rules->overridden, ElementsAre("hold at gate 1: 40 min as in the book (book: from memory)"));
  EXPECT_EQ(gate_rules(*rules, 1).hold->mark, Mark::event);
}

TEST(AnOverride, OfOneGateLeavesTheOtherGatesAndItsOtherRules) {
  auto choice = open_level();
  choice.own.gates[2].hold = own(minutes(55));
  const auto rules = rule_set(one_book(), choice);
  ASSERT_TRUE(rules);
  EXPECT_EQ(gate_rules(*rules, 1).hold->value, minutes(40));
  EXPECT_EQ(gate_rules(*rules, 2).hold->value, minutes(55));
  EXPECT_EQ(gate_rules(*rules, 2).pulse_limit->value, BeatsPerMinute{64});
  EXPECT_EQ(gate_rules(*rules, 3).hold->value, minutes(50));
}

TEST(AnOverride, OfEveryGateReplacesWhatTheBookSaysOfOne) {
  auto choice = open_level();
  choice.own.gate.hold = own(minutes(30));
  const auto rules = rule_set(one_book(), choice);
  ASSERT_TRUE(rules);
  EXPECT_EQ(gate_rules(*rules, 3).hold->value, minutes(30));
}

TEST(AnOverride, OfOneGateWinsOverThatOfEveryGate) {
  auto choice = open_level();
  choice.own.gate.hold = own(minutes(30));
  choice.own.gates[3].hold = own(minutes(60));
  const auto rules = rule_set(one_book(), choice);
  ASSERT_TRUE(rules);
  EXPECT_EQ(gate_rules(*rules, 2).hold->value, minutes(30));
  EXPECT_EQ(gate_rules(*rules, 3).hold->value, minutes(60));
  EXPECT_THAT(rules->overridden[1], "hold at gate 3: 60 min instead of 30 min (book: set for this event)");
}

TEST(AnOverride, ThatContradictsTheBookIsRefusedWithBothNumbers) {
  auto choice = open_level();
  choice.own.max_speed = own(KmPerHour{8});
  const auto rules = rule_set(one_book(), choice);
  ASSERT_FALSE(rules);
  EXPECT_EQ(rules.error().kind, Problem::Kind::bad_input);
  EXPECT_EQ(rules.error().what,
            "the slowest speed (9 km/h, from memory) is above the fastest (8 km/h, set for this event); set both");
}

TEST(AnOverride, ThatEndsPresentingBeforeItBeginsIsRefused) {
  auto books = one_book();
  books[0].levels[0].gate.present_after = from_memory(minutes(30));
  auto choice = open_level();
  choice.own.gates[2].present_within = own(minutes(20));
  const auto rules = rule_set(books, choice);
  ASSERT_FALSE(rules);
  EXPECT_THAT(rules.error().what, HasSubstr("presenting at gate 2 begins (30 min, from memory) after its end (20 min"));
}

TEST(RulesOfTheFinish, DoNotComeFromTheGates) {
  const auto rules = rule_set(one_book(), open_level());
  ASSERT_TRUE(rules);
  EXPECT_EQ(finish_rules(*rules).pulse_limit->value, BeatsPerMinute{60});
  EXPECT_FALSE(finish_rules(*rules).hold);
}

// Windows as times; all of them derived: t = d / v.
struct WindowCase {
  double km, slowest, fastest;
  int earliest, latest;  // s
};
class SpeedWindowAsTimes : public testing::TestWithParam<WindowCase> {};

TEST_P(SpeedWindowAsTimes, IsDistanceOverSpeedToTheSecond) {
  const auto& c = GetParam();
  RuleLevel level;
  level.min_speed = from_memory(KmPerHour{c.slowest});
  level.max_speed = from_memory(KmPerHour{c.fastest});
  const SpeedWindow window = speed_window(level, kilometres(c.km));
  EXPECT_NEAR(window.earliest->count(), c.earliest, 1e-6);
  EXPECT_NEAR(window.latest->count(), c.latest, 1e-6);
}

constexpr int at(int h, int min, int s) { return 3600 * h + 60 * min + s; }
INSTANTIATE_TEST_SUITE_P(
    Derived, SpeedWindowAsTimes,
    testing::Values(WindowCase{20, 8, 12, at(1, 40, 0), at(2, 30, 0)},
                    WindowCase{30, 10, 12, at(2, 30, 0), at(3, 0, 0)},
                    WindowCase{40, 12, 15, at(2, 40, 0), at(3, 20, 0)},
                    WindowCase{40, 8, 15, at(2, 40, 0), at(5, 0, 0)},  // window: common practice, British novices
                    WindowCase{50, 8, 15, at(3, 20, 0), at(6, 15, 0)}, WindowCase{60, 12, 15, at(4, 0, 0), at(5, 0, 0)},
                    WindowCase{80, 9, 18, at(4, 26, 40), at(8, 53, 20)},
                    WindowCase{160, 9, 18, at(8, 53, 20), at(17, 46, 40)}));

TEST(SpeedWindow, IsOpenWhereThereIsNoSpeed) {
  RuleLevel level;
  level.min_speed = from_memory(KmPerHour{9});
  EXPECT_FALSE(speed_window(level, kilometres(40)).earliest);
  EXPECT_TRUE(speed_window(level, kilometres(40)).latest);
}

TEST(ElapsedLimit, IsTheEarlierOfTimeAndSpeed) {
  RuleLevel level;
  EXPECT_FALSE(elapsed_limit(level, kilometres(80)));
  level.min_elapsed_speed = from_memory(KmPerHour{8});
  EXPECT_EQ(*elapsed_limit(level, kilometres(80)), minutes(600));
  level.time_limit = from_memory(minutes(540));
  EXPECT_EQ(*elapsed_limit(level, kilometres(80)), minutes(540));
  level.time_limit = from_memory(minutes(720));
  EXPECT_EQ(*elapsed_limit(level, kilometres(80)), minutes(600));
}

TEST(WordsOfRules, AreShortAndHaveTheirUnit) {
  EXPECT_EQ(in_words(minutes(40)), "40 min");
  EXPECT_EQ(in_words(minutes(19.5)), "19.5 min");
  EXPECT_EQ(in_words(minutes(792)), "13 h 12 min");
  EXPECT_EQ(in_words(minutes(720)), "12 h");
  EXPECT_EQ(in_words(KmPerHour{6.7056}), "6.71 km/h");
  EXPECT_EQ(in_words(Interval<Metres>{kilometres(100), kilometres(119)}), "100 to 119 km");
  EXPECT_EQ(in_words(Interval<Metres>{kilometres(80), {std::numeric_limits<double>::infinity()}}), "80 km or more");
  EXPECT_EQ(in_words(Interval<std::uint32_t>{2, 3}), "2 to 3");
  EXPECT_EQ(in_words(0.05), "5 %");
}

}  // namespace
}  // namespace outbye
