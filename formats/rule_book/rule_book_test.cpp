#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <limits>

#include "core/rules/rule_set.h"
#include "formats/rule_book/rule_book_file.h"

namespace outbye {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::Field;
using testing::HasSubstr;
using testing::IsEmpty;

// A book with one level of the given fields.
std::string book_with(const std::string& level_fields) {
  return R"({"version": 1, "id": "moor", "name": "Moor rules", "source": "invented", "levels": [{"name": "Open")" +
         (level_fields.empty() ? "" : ", " + level_fields) + "}]}";
}

std::vector<Problem> problems_of(const std::string& text) { return check_rule_book(text, "moor.json").problems; }

auto problem_at(const std::string& where, const std::string& what) {
  return AllOf(Field(&Problem::where, where), Field(&Problem::what, HasSubstr(what)));
}

RuleLevel level_with(const std::string& fields) {
  const auto book = read_rule_book(book_with(fields), "moor.json");
  EXPECT_TRUE(book) << (book ? "" : book.error().where + ": " + book.error().what);
  return book ? book->levels.front() : RuleLevel{};
}

TEST(ARuleBook, ReadsItsHead) {
  const auto book = read_rule_book(
      R"({"version": 1, "id": "moor", "name": "Moor rules", "body": "the moor", "country": "GB", "year": 2024,
          "source": "invented", "notes": ["One.", "Two."], "levels": [{"name": "Open", "novice": true}]})",
      "moor.json");
  ASSERT_TRUE(book);
  EXPECT_EQ(book->id, "moor");
  EXPECT_EQ(book->name, "Moor rules");
  EXPECT_EQ(book->body, "the moor");
  EXPECT_EQ(book->country, "GB");
  EXPECT_EQ(book->year, 2024);
  EXPECT_EQ(book->source, "invented");
  EXPECT_THAT(book->notes, ElementsAre("One.", "Two."));
  EXPECT_TRUE(book->levels.front().is_novice);
}

TEST(ARuleBook, ReadsAValueWithMarkAndSource) {
  const auto level = level_with(R"("min_speed_kmh": {"value": 9, "mark": "published", "source": "Art. 5"})");
  EXPECT_EQ(level.min_speed, (Ruled<KmPerHour>{{9}, Mark::published, "Art. 5"}));
}

TEST(ARuleBook, IsSilentAboutWhatItLeavesOut) { EXPECT_FALSE(level_with("").min_speed); }

TEST(ARuleBook, ReadsGatesAndFinish) {
  const auto level = level_with(
      R"("gate": {"hold_min": {"value": 40, "mark": "from memory"},
                  "hold_from": {"value": "arrival", "mark": "from memory"}},
         "gates": [{"gate": 2, "hold_min": {"value": 50, "mark": "event"}}],
         "finish": {"clock_stops": {"value": "line", "mark": "from memory"}})");
  EXPECT_EQ(level.gate.hold->value, minutes(40));
  EXPECT_EQ(level.gate.hold_from->value, HoldFrom::arrival);
  EXPECT_EQ(level.gates.at(2).hold->value, minutes(50));
  EXPECT_EQ(level.gates.at(2).hold->mark, Mark::event);
  EXPECT_EQ(level.finish.clock_stops->value, ClockStops::at_line);
}

TEST(AnIntervalInABook, MayBeOneNumberAPairOrOpenAbove) {
  const auto interval = [](const std::string& value) {
    return level_with("\"distance_km\": {\"value\": " + value + ", \"mark\": \"from memory\"}").distance->value;
  };
  EXPECT_EQ(interval("40"), (Interval<Metres>{kilometres(40), kilometres(40)}));
  EXPECT_EQ(interval("[40, 80]"), (Interval<Metres>{kilometres(40), kilometres(80)}));
  EXPECT_EQ(interval("[40, null]"), (Interval<Metres>{kilometres(40), {std::numeric_limits<double>::infinity()}}));
}

TEST(ARuleBook, ComesBackTheSameAfterWriting) {
  for (const auto& book : preset_books()) {
    const std::string once = write_rule_book(book);
    const auto again = read_rule_book(once, "again");
    ASSERT_TRUE(again) << again.error().where << ": " << again.error().what;
    EXPECT_EQ(write_rule_book(*again), once);
  }
}

struct BadBook {
  const char* name;
  std::string text;
  std::string where;
  std::string what;
};
class ABadBook : public testing::TestWithParam<BadBook> {};
TEST_P(ABadBook, IsRefusedWithPlaceAndRemedy) {
  const auto& bad = GetParam();
  EXPECT_FALSE(check_rule_book(bad.text, "moor.json").book);
  EXPECT_THAT(problems_of(bad.text), testing::Contains(problem_at(bad.where, bad.what)));
}

const std::string head = R"({"version": 1, "id": "moor", "name": "Moor", "source": "s", )";
INSTANTIATE_TEST_SUITE_P(
    Case, ABadBook,
    testing::Values(
        BadBook{"Empty", "", "moor.json", "is empty; `outbye rules british --json` shows"},
        BadBook{"NotJson", "{", "moor.json, line 1, column 2", "is not JSON"},
        BadBook{"List", "[]", "moor.json", "but an object {...} is wanted"},
        BadBook{"NoVersion", "{}", "moor.json: version", "is missing"},
        BadBook{"LaterVersion", R"({"version": 2})", "moor.json: version", "is 2; this outbye reads version 1"},
        BadBook{"NoId", R"({"version": 1})", "moor.json: id", "is missing"},
        BadBook{"IdWithSpaces", R"({"version": 1, "id": "My Book"})", "moor.json: id", "small letters"},
        BadBook{"NoName", R"({"version": 1})", "moor.json: name", "is missing"},
        BadBook{"NoSource", R"({"version": 1})", "moor.json: source", "is missing"},
        BadBook{"NoLevels", R"({"version": 1})", "moor.json: levels", "is missing"},
        BadBook{"LevelsEmpty", head + R"("levels": []})", "moor.json: levels", "is empty"},
        BadBook{"LevelWithoutName", head + R"("levels": [{}]})", "moor.json: levels[0].name", "is missing"},
        BadBook{"LevelTwice", head + R"("levels": [{"name": "Open"}, {"name": "open"}]})", "moor.json: levels[1].name",
                "is there twice"},
        BadBook{"Country", head + R"("country": "gb", "levels": []})", "moor.json: country", "two capital letters"},
        BadBook{"UnknownField", book_with(R"("speed_kmh": 9)"), "moor.json: levels[0].speed_kmh", "did you mean"},
        BadBook{"PlainValue", book_with(R"("min_speed_kmh": 9)"), "moor.json: levels[0].min_speed_kmh",
                "is a value without its mark"},
        BadBook{"NoMark", book_with(R"("min_speed_kmh": {"value": 9})"), "moor.json: levels[0].min_speed_kmh.mark",
                "say how far it can be trusted"},
        BadBook{"UnknownMark", book_with(R"("min_speed_kmh": {"value": 9, "mark": "sure"})"),
                "moor.json: levels[0].min_speed_kmh.mark", "is 'sure', but must be one of \"published\""},
        BadBook{"PublishedWithoutSource", book_with(R"("min_speed_kmh": {"value": 9, "mark": "published"})"),
                "moor.json: levels[0].min_speed_kmh.source", "name what was read"},
        BadBook{"NoValue", book_with(R"("min_speed_kmh": {"mark": "from memory"})"),
                "moor.json: levels[0].min_speed_kmh.value", "is missing"},
        BadBook{"SpeedZero", book_with(R"("min_speed_kmh": {"value": 0, "mark": "from memory"})"),
                "moor.json: levels[0].min_speed_kmh.value", "must be above 0"},
        BadBook{"SpeedsSwapped", book_with(R"("min_speed_kmh": {"value": 15, "mark": "from memory"},
                             "max_speed_kmh": {"value": 8, "mark": "from memory"})"),
                "moor.json: levels[0].max_speed_kmh", "is 8 km/h, slower than min_speed_kmh (15 km/h)"},
        BadBook{"PulseTooHigh", book_with(R"("gate": {"pulse_limit_bpm": {"value": 640, "mark": "from memory"}})"),
                "moor.json: levels[0].gate.pulse_limit_bpm.value", "between 20 and 250"},
        BadBook{"IntervalSwapped", book_with(R"("distance_km": {"value": [80, 40], "mark": "from memory"})"),
                "moor.json: levels[0].distance_km.value", "put the smaller number first"},
        BadBook{"IntervalOfThree", book_with(R"("distance_km": {"value": [1, 2, 3], "mark": "from memory"})"),
                "moor.json: levels[0].distance_km.value", "has 3 entries"},
        BadBook{"HalfALoop", book_with(R"("loops": {"value": [1.5, 2], "mark": "from memory"})"),
                "moor.json: levels[0].loops.value", "is not whole"},
        BadBook{"HoldFromNowhere", book_with(R"("gate": {"hold_from": {"value": "start", "mark": "from memory"}})"),
                "moor.json: levels[0].gate.hold_from.value", "must be one of \"in-time\", \"arrival\""},
        BadBook{"NoAttempt", book_with(R"("gate": {"attempts": {"value": 0, "mark": "from memory"}})"),
                "moor.json: levels[0].gate.attempts", "presented at least once"},
        BadBook{"PresentedTooLate", book_with(R"("finish": {"present_after_min": {"value": 30, "mark": "from memory"},
                                        "present_within_min": {"value": 20, "mark": "from memory"}})"),
                "moor.json: levels[0].finish.present_after_min", "nobody could be in time"},
        BadBook{"GateWithoutNumber", book_with(R"("gates": [{}])"), "moor.json: levels[0].gates[0].gate", "is missing"},
        BadBook{"GateZero", book_with(R"("gates": [{"gate": 0}])"), "moor.json: levels[0].gates[0].gate",
                "between 1 and 100"},
        BadBook{"GateTwice", book_with(R"("gates": [{"gate": 2}, {"gate": 2}])"), "moor.json: levels[0].gates[1].gate",
                "is 2 a second time"}),
    [](const auto& bad) { return std::string(bad.param.name); });

TEST(ABadBookWithManyFaults, HasThemAllReportedAtOnce) {
  EXPECT_GE(problems_of(R"({"version": 3, "id": "A B", "levels": [{}], "more": 1})").size(), 6U);
}

// What a ride asks of a book, as it stands in a ride file under "rules".
struct ChoiceReading {
  RuleChoice choice;
  Problems problems;
};
ChoiceReading choice_of(const std::string& text) {
  ChoiceReading reading;
  const auto json = parse_json(text, "ride.json");
  JsonFields in(*json, "ride.json", "rules", reading.problems);
  read_rule_choice(in, reading.choice);
  return reading;
}

const char* const full_choice =
    R"({"book": "british", "level": "Open graded",
        "own": {"distance_km": [80, null], "min_speed_kmh": 10,
                "time_limit_min": {"value": 600, "source": "schedule"}, "crew_anywhere": false},
        "gate": {"hold_min": 40, "hold_from": "in-time"},
        "gates": [{"gate": 2, "hold_min": 50}],
        "finish": {"pulse_limit_bpm": 60}})";

TEST(ARuleChoice, TakesPlainValuesAsTheEvents) {
  const auto [choice, problems] = choice_of(full_choice);
  ASSERT_THAT(problems, IsEmpty());
  EXPECT_EQ(choice.book, "british");
  EXPECT_EQ(choice.level, "Open graded");
  EXPECT_EQ(choice.own.min_speed, (Ruled<KmPerHour>{{10}, Mark::event, ""}));
  EXPECT_EQ(choice.own.time_limit, (Ruled<Seconds>{minutes(600), Mark::event, "schedule"}));
  EXPECT_EQ(choice.own.crew_anywhere->value, false);
  EXPECT_EQ(choice.own.gate.hold_from->value, HoldFrom::in_time);
  EXPECT_EQ(choice.own.gates.at(2).hold->value, minutes(50));
  EXPECT_EQ(choice.own.finish.pulse_limit->value, BeatsPerMinute{60});
}

TEST(ARuleChoice, ComesBackTheSameAfterWriting) {
  const auto [choice, problems] = choice_of(full_choice);
  const Json written = write_rule_choice(choice);
  EXPECT_EQ(written.dump(), parse_json(full_choice, "")->dump());
  EXPECT_EQ(write_rule_choice(choice_of(written.dump()).choice).dump(), written.dump());
}

TEST(ARuleChoice, IsEmptyWhenNothingIsChosen) {
  EXPECT_EQ(write_rule_choice({}).dump(), "{}");
  EXPECT_THAT(choice_of("{}").problems, IsEmpty());
}

TEST(ARuleChoice, HasNoMarkOfItsOwn) {
  EXPECT_THAT(choice_of(R"({"own": {"min_speed_kmh": {"value": 9, "mark": "published"}}})").problems,
              ElementsAre(problem_at("ride.json: rules.own.min_speed_kmh.mark", "is not a known field")));
}

TEST(ARuleChoice, ReportsSlipsWithTheirPath) {
  EXPECT_THAT(choice_of(R"({"book": "british", "gates": [{"gate": 2, "hold_mn": 50}]})").problems,
              ElementsAre(problem_at("ride.json: rules.gates[0].hold_mn", "did you mean 'hold_min'?")));
}

TEST(ARuleChoice, WantsTheBookOfALevel) {
  EXPECT_THAT(choice_of(R"({"level": "Open"})").problems,
              ElementsAre(problem_at("ride.json: rules.book", "is missing, but a level is named")));
}

TEST(ARuleChoice, OverridesAPreset) {
  const auto [choice, problems] = choice_of(full_choice);
  const auto rules = rule_set(preset_books(), choice);
  ASSERT_TRUE(rules) << rules.error().what;
  EXPECT_EQ(gate_rules(*rules, 2).hold->value, minutes(50));
  EXPECT_THAT(rules->overridden, testing::Contains("hold at every gate: 40 min instead of 30 min (book: common "
                                                   "practice)"));
}

}  // namespace
}  // namespace outbye
