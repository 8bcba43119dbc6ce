// outbye gate as a user runs it, at fixed times.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <sstream>

#include "core/base/text.h"
#include "tests/run_outbye.h"
#include "tests/support/cli_answers.h"

namespace outbye {
namespace {

using nlohmann::json;
using testing::HasSubstr;
using testing::Not;

std::vector<std::string> at_the_gate(const std::vector<std::string>& more) {
  std::vector<std::string> words{"gate",   "--arrival", "10:32",  "--limit",    "64",    "--within", "20",
                                 "--hold", "30",        "--date", "2026-06-13", "--now", "10:37"};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

std::string answer(const std::vector<std::string>& words) {
  FreshFolder folder;
  const auto run = run_outbye(folder, words);
  EXPECT_EQ(run.code, 0) << run.err;
  EXPECT_EQ(run.err, "");
  return run.out;
}

// The published example (vet gate, encyclopedia article in translation, de.zxc.wiki).
TEST(GateCommand, GivesThePublishedExample) {
  const auto text = answer(at_the_gate({"--pulse", "10:34=72", "--present", "10:36=60"}));
  EXPECT_THAT(text, HasSubstr("latest            10:52:00"));
  EXPECT_THAT(text, HasSubstr("Out-time by the clock: 11:06 (leave only after"));
}
TEST(GateCommand, SaysByWhenToPresentAndGivesARange) {
  const auto text = answer(at_the_gate({"--pulse", "10:34=92", "--pulse", "10:35=86", "--pulse", "10:36=80"}));
  EXPECT_THAT(text, HasSubstr("Present by 10:52: 15 min left."));
  EXPECT_THAT(text, HasSubstr("no promise"));
}
TEST(GateCommand, SaysWhatIsMissingForARange) {
  EXPECT_THAT(answer(at_the_gate({"--pulse", "10:34=92"})), HasSubstr("2 more readings"));
}
TEST(GateCommand, TakesARuleBookWithItsLevel) {
  const auto text = answer({"gate", "--arrival", "10:32", "--date", "2026-06-13", "--now", "11:00", "--rules", "french",
                            "--level", "Set speed 40 km"});
  EXPECT_THAT(text, HasSubstr("Present at 11:02 at the earliest."));
}
TEST(GateCommand, WarnsOfASlowRecoveryWithItsSource) {
  auto words = at_the_gate({"--in", "10:45"});
  words.insert(words.end(), {"--gate", "2"});
  for (auto& word : words) word = word == "10:37" ? "10:50" : word;
  EXPECT_THAT(answer(words), HasSubstr("PLoS ONE 2015"));
}
TEST(GateCommand, WorksTheRecoveryIndex) {
  EXPECT_THAT(answer(at_the_gate({"--in", "10:36", "--trot", "52=60"})), HasSubstr("more than 4: suspect; ask the"));
}
TEST(GateCommand, EndsWithTheVetsDecision) {
  for (const auto& words : {at_the_gate({}), std::vector<std::string>{"gate", test_file("gate-good.json")}}) {
    const auto text = answer(words);
    EXPECT_THAT(text.substr(text.size() - 130), HasSubstr("The vet's and the officials' decision is final"));
  }
}
TEST(GateCommand, NeverSpeaksOfTheHorseAsFitOrSafe) {
  for (const auto& more : {std::vector<std::string>{},
                           {"--in", "10:36"},
                           {"--in", "10:36", "--left", "10:36:30"},
                           {"--pulse", "10:36=60"},
                           {"--finish"}}) {
    const auto text = in_lower_case(answer(at_the_gate(more)));
    for (const char* word : {" fit ", "safe", "may go on", "healthy"}) EXPECT_THAT(text, Not(HasSubstr(word)));
  }
}
TEST(GateCommand, KeepsToEightyColumns) {
  for (const auto& words :
       {at_the_gate({"--pulse", "10:34=92"}), std::vector<std::string>{"gate", test_file("gate-good.json")}}) {
    std::istringstream lines(answer(words));
    for (std::string line; std::getline(lines, line);) EXPECT_LE(display_width(line), 80U) << line;
  }
}

TEST(GateLogCommand, ShowsTheDayAndTheSpeedsToCome) {
  const auto text = answer({"gate", test_file("gate-good.json")});
  EXPECT_THAT(text, HasSubstr("11.32"));  // 40 km in 3:32
  EXPECT_THAT(text, HasSubstr("On the remaining 40.0 km: at least 7.6 km/h"));
  EXPECT_THAT(text, HasSubstr("set for this event"));
}
TEST(GateLogCommand, TakesThePresentFromAnOption) {
  EXPECT_THAT(answer({"gate", test_file("gate-good.json"), "--now", "10:33"}),
              HasSubstr("Present by 10:52: 19 min left."));
}
// In every phase that the clock goes through.
TEST(GateCommand, AnswersInJsonThatItsSchemaAccepts) {
  if (!has_jsonschema()) GTEST_SKIP() << "python3-jsonschema is not installed";
  FreshFolder folder;
  const std::vector<std::string> by_book{"gate",  "--arrival", "10:32",  "--date",  "2026-06-13",     "--now",
                                         "11:00", "--rules",   "french", "--level", "Set speed 40 km"};
  for (auto words : {at_the_gate({}),
                     at_the_gate({"--pulse", "10:34=92", "--pulse", "10:35=86", "--pulse", "10:36=80"}),
                     at_the_gate({"--in", "10:36", "--trot", "52=60"}),
                     at_the_gate({"--in", "10:36", "--left", "10:36:30"}),
                     at_the_gate({"--finish"}),
                     by_book,
                     {"gate", test_file("gate-good.json")},
                     {"gate", test_file("gate-good.json"), "--now", "10:33"}}) {
    words.push_back("--json");
    const auto document = answer(words);
    EXPECT_EQ(validated(folder, "gate-1.json", document), "valid\n") << document;
  }
}

TEST(GateLogCommand, AnswersInJson) {
  const auto day = json::parse(answer({"gate", test_file("gate-good.json"), "--json"}));
  EXPECT_EQ(day["gates"][0]["out_time"], "2026-06-13T11:06:00+01:00");
  EXPECT_EQ(day["gates"][0]["phase"], "holding");
  EXPECT_EQ(day["day"]["outlook"], "open");
  EXPECT_THAT(day["last_word"].get<std::string>(), HasSubstr("decision is final"));
}
TEST(GateLogCommand, ReadsWhatItsSchemaAccepts) {
  if (std::system("/usr/bin/python3 -c 'import jsonschema' 2>/dev/null") != 0) {
    GTEST_SKIP() << "python3-jsonschema is not installed";
  }
  FreshFolder folder;
  for (const auto& [file, is_valid] :
       {std::pair<std::string, bool>{"gate-good.json", true}, {"gate-unknown.json", false}}) {
    const auto run =
        run_program(folder, {"/usr/bin/python3", "-c",
                             "import json,sys,jsonschema\n"
                             "schema=json.load(open(sys.argv[1]))\n"
                             "jsonschema.Draft202012Validator.check_schema(schema)\n"
                             "jsonschema.Draft202012Validator(schema).validate(json.load(open(sys.argv[2])))",
                             std::string(OUTBYE_SOURCE) + "/docs/schema/gate-log-1.json", test_file(file)});
    EXPECT_EQ(run.code == 0, is_valid) << file << run.err;
  }
}

}  // namespace
}  // namespace outbye
