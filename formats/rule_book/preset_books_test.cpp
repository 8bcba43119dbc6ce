// Every number of the books that come with Outbye, with its mark and, where published, what was read.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cctype>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <set>

#include "core/rules/rule_check.h"
#include "core/rules/rule_fields.h"
#include "core/rules/rule_set.h"
#include "formats/rule_book/preset_numbers_for_test.h"
#include "formats/rule_book/rule_book_file.h"

namespace outbye {
namespace {

using preset_numbers::expected;
using preset_numbers::ExpectedLevel;
using testing::HasSubstr;

const RuleBook* book_of(const std::string& id) {
  for (const auto& book : preset_books()) {
    if (book.id == id) return &book;
  }
  return nullptr;
}

RuleSet preset(const std::string& book, const std::string& level) {
  const auto rules = rule_set(preset_books(), {book, level, {}});
  EXPECT_TRUE(rules) << rules.error().what;
  return rules ? *rules : RuleSet{};
}

struct Shown {
  std::string value;
  Mark mark{};
  std::string source;
};

// Every rule that is set, by the path in the file: "gate.hold_min", "gates.1.pulse_limit_bpm".
std::map<std::string, Shown> all_rules(const RuleLevel& level) {
  std::map<std::string, Shown> all;
  const auto add = [&](const std::string& path, const auto& rule) {
    if (rule) all[path] = {in_words(rule->value), rule->mark, rule->source};
  };
  each_level_rule([&](RuleField field, auto member) { add(std::string(field.name), level.*member); });
  const auto add_gate = [&](const std::string& path, const GateRules& gate) {
    each_gate_rule([&](RuleField field, auto member) { add(path + std::string(field.name), gate.*member); });
  };
  add_gate("gate.", level.gate);
  for (const auto& [number, gate] : level.gates) add_gate("gates." + std::to_string(number) + ".", gate);
  add_gate("finish.", level.finish);
  return all;
}

class APresetLevel : public testing::TestWithParam<ExpectedLevel> {};

// Each way: every expected number is there with mark and source, and there is no number that is not expected.
TEST_P(APresetLevel, HoldsExactlyTheNumbersThatAreKnownWithTheirMarks) {
  const auto& want = GetParam();
  auto rules = all_rules(preset(want.book, want.level).level);
  for (const auto& rule : want.rules) {
    const auto it = rules.find(rule.path);
    ASSERT_NE(it, rules.end()) << rule.path;
    EXPECT_EQ(it->second.value, rule.value) << rule.path;
    EXPECT_EQ(it->second.mark, rule.mark) << rule.path;
    EXPECT_THAT(it->second.source, HasSubstr(rule.source)) << rule.path;
    rules.erase(it);
  }
  for (const auto& [path, shown] : rules) ADD_FAILURE() << path << " is " << shown.value << ", which nothing expects";
}

std::string name_of(const testing::TestParamInfo<ExpectedLevel>& info) {
  std::string name = std::string(info.param.book) + "_" + info.param.level;
  for (char& c : name) {
    if (c == '*') c = 'S';
    if (std::isalnum(static_cast<unsigned char>(c)) != 0) continue;
    c = '_';
  }
  return name;
}
INSTANTIATE_TEST_SUITE_P(Of, APresetLevel, testing::ValuesIn(expected()), name_of);

TEST(PresetBooks, AreSixInTheirOrder) {
  std::vector<std::string> ids;
  for (const auto& book : preset_books()) ids.push_back(book.id);
  EXPECT_THAT(ids, testing::ElementsAre("international", "british", "american", "french", "dutch", "australian"));
}

TEST(PresetBooks, HaveEachLevelInTheTableAbove) {
  std::set<std::string> listed;
  for (const auto& level : expected()) listed.insert(std::string(level.book) + "/" + level.level);
  for (const auto& book : preset_books()) {
    for (const auto& level : book.levels) EXPECT_EQ(listed.count(book.id + "/" + level.name), 1U) << level.name;
  }
}

TEST(PresetBooks, SayWhatCouldNotBeRead) {
  for (const auto& book : preset_books()) EXPECT_FALSE(book.notes.empty()) << book.id;
  EXPECT_THAT(book_of("international")->notes.front(), HasSubstr("The current rule book could not be read"));
}

TEST(PresetBooks, StandInTheirFilesAsTheWriterWritesThem) {
  for (const auto& book : preset_books()) {
    std::ifstream in(std::string(OUTBYE_SOURCE) + "/data/rules/" + book.id + ".json", std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
    EXPECT_EQ(text, write_rule_book(book)) << book.id;
  }
}

TEST(PresetBooks, AreAllTheFilesOfTheirFolder) {
  std::size_t files = 0;
  for (const auto& entry : std::filesystem::directory_iterator(std::string(OUTBYE_SOURCE) + "/data/rules")) {
    if (entry.path().extension() == ".json") ++files;
  }
  EXPECT_EQ(files, preset_books().size());
}

TEST(PresetBooks, MarkNoNumberAsSetForAnEvent) {
  for (const auto& book : preset_books()) {
    for (const auto& level : book.levels) {
      for (const auto& [path, shown] : all_rules(level)) EXPECT_NE(shown.mark, Mark::event) << book.id << " " << path;
    }
  }
}

// Endurance News, Sept 2018: 25, 50 and 100 miles in 6, 12 and 24 h. 75 miles in 18 h and 55 miles in 13 h 12 min are
// derived from the same pace.
TEST(AmericanTimeLimit, GrowsWithTheDistance) {
  const RuleLevel level = preset("american", "Endurance").level;
  for (const auto& [miles, hours] : {std::pair{25.0, 6.0}, {50.0, 12.0}, {100.0, 24.0}, {75.0, 18.0}, {55.0, 13.2}}) {
    EXPECT_NEAR(elapsed_limit(level, Metres{1609.344 * miles})->count(), 3600.0 * hours, 1e-6) << miles;
  }
}

// 4.167 mph = 6.706 km/h (Endurance News, Sept 2018); 50 miles in 12 h are 6.7056 km/h (derived).
TEST(AmericanTimeLimit, IsTheSpeedThatWasPublished) {
  const double kmh = preset("american", "Endurance").level.min_elapsed_speed->value.value;
  EXPECT_NEAR(kmh, 6.706, 0.001);
  EXPECT_NEAR(kmh / 1.609344, 4.167, 0.001);
  EXPECT_NEAR(kmh, 50.0 * 1.609344 / 12.0, 1e-9);
}

// 40 km at 8-15 km/h are 2:40:00 to 5:00:00: the window is common practice, the times are derived.
TEST(BritishNovices, Have40KmIn2h40To5h) {
  const SpeedWindow window = speed_window(preset("british", "Novice graded").level, kilometres(40));
  EXPECT_DOUBLE_EQ(window.earliest->count(), 9600.0);
  EXPECT_DOUBLE_EQ(window.latest->count(), 18000.0);
}

TEST(InternationalTrialOf2019, Has64AtTheFirstGateAnd60Later) {
  const RuleSet rules = preset("international", "Championships 2019 (trial)");
  EXPECT_EQ(gate_rules(rules, 1).pulse_limit->value, BeatsPerMinute{64});
  EXPECT_EQ(gate_rules(rules, 2).pulse_limit->value, BeatsPerMinute{60});
  EXPECT_EQ(gate_rules(rules, 1).present_within->value, minutes(20));
}

// Art. 803 and 805 are published, the hold is from memory: one breaks, the other is asked.
TEST(InternationalRide, BreaksWhatIsPublishedAndAsksWhatIsFromMemory) {
  RideFacts ride;
  ride.length = kilometres(125);
  ride.rider_weight = Kilograms{65};
  ride.gates = {{minutes(30), std::nullopt, std::nullopt}};
  std::map<std::string, RuleFinding> found;
  for (const auto& finding : check_rules(preset("international", "1*"), ride)) found.emplace(finding.where, finding);
  EXPECT_EQ(found.at("ride").what, "the course measures 125 km, the level wants 100 to 119 km");
  EXPECT_EQ(found.at("ride").severity, RuleFinding::Severity::breaks);
  EXPECT_EQ(found.at("rider").what, "65 kg, but at least 70 kg with tack and without bridle");
  EXPECT_EQ(found.at("rider").severity, RuleFinding::Severity::breaks);
  EXPECT_EQ(found.at("gate 1").what, "ask the officials: a hold of 30 min is planned, at least 40 min is asked");
  EXPECT_EQ(found.at("gate 1").mark, Mark::from_memory);
}

TEST(NoviceLevels, AreMarkedAsSuch) {
  std::set<std::string> novices;
  for (const auto& book : preset_books()) {
    for (const auto& level : book.levels) {
      if (level.is_novice) novices.insert(book.id + "/" + level.name);
    }
  }
  EXPECT_THAT(novices, testing::ElementsAre("australian/Novice 80 km", "australian/Training ride",
                                            "british/Novice Foundation graded", "british/Novice graded",
                                            "dutch/Introductory", "international/Novice qualifier"));
}

}  // namespace
}  // namespace outbye
