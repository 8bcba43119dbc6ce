// outbye jobs as a user runs it.
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
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

// The good ride of the bad-input tests with people of its own.
void write_crewed_ride(const FreshFolder& folder, const json& helpers) {
  for (const char* name : {"good.gpx", "good.osm", "good.json"}) {
    std::filesystem::copy_file(test_file(name), folder / name);
  }
  json ride = json::parse(text_of(folder / "good.json"));
  if (!helpers.empty()) ride["helpers"] = helpers;
  std::ofstream(folder / "crewed.json") << ride.dump(1);
}

json two_helpers() { return {{{"name", "Ann"}}, {{"name", "Ben"}, {"lifts", "men"}}}; }
json three_helpers() { return {{{"name", "Ann"}}, {{"name", "Ben"}}, {{"name", "Cat"}, {"share", 0.5}}}; }

json jobs_of(const FreshFolder& folder) {
  const auto run = run_outbye(folder, {"jobs", "crewed.json", "--json"});
  EXPECT_EQ(run.code, 0) << run.err;
  return json::parse(run.out);
}

TEST(JobsCommand, ListsEveryMeetOfThePlan) {
  FreshFolder folder;
  write_crewed_ride(folder, two_helpers());
  const auto run = run_outbye(folder, {"jobs", "crewed.json"});
  ASSERT_EQ(run.code, 0) << run.err;
  expect_at_most_80_columns(run.out);
  EXPECT_THAT(run.out, AllOf(HasSubstr("proven"), HasSubstr("Work over the day"), HasSubstr("Ann"), HasSubstr("Ben"),
                             HasSubstr("alone behind it"), Not(HasSubstr("\033"))));
  const json plan = json::parse(run_outbye(folder, {"plan", "crewed.json", "--json"}).out);
  std::size_t meets = 0;
  for (const auto& car : plan["cars"]) {
    for (const auto& stop : car["stops"]) meets += stop["kind"] == "meet" ? 1U : 0U;
  }
  ASSERT_GT(meets, 0U);
  EXPECT_EQ(jobs_of(folder)["stops"].size(), meets);
}

TEST(JobsCommand, SaysWhoWasTakenForGrantedWhenNobodyIsNamed) {
  FreshFolder folder;
  write_crewed_ride(folder, {});
  const auto run = run_outbye(folder, {"jobs", "crewed.json"});
  ASSERT_EQ(run.code, 0) << run.err;
  EXPECT_THAT(run.out, AllOf(HasSubstr("The ride file names no helpers"), HasSubstr("Helper 1")));
}

TEST(JobsCommand, WritesJsonThatItsSchemaAccepts) {
  if (!has_jsonschema()) GTEST_SKIP() << "python3-jsonschema is not installed";
  FreshFolder folder;
  write_crewed_ride(folder, three_helpers());
  EXPECT_EQ(validated(folder, "jobs-1.json", jobs_of(folder).dump()), "valid\n");
}

TEST(JobsCommand, NobodyIsInTwoPlacesAtOnce) {
  FreshFolder folder;
  write_crewed_ride(folder, three_helpers());
  const json day = jobs_of(folder);
  ASSERT_FALSE(day["stops"].empty());
  for (const auto& stop : day["stops"]) {
    for (const auto& card : stop["cards"]) {
      int until = 0;
      if (card["who"] == "rider") continue;
      for (const auto& line : card["lines"]) {
        EXPECT_GE(line["start_s"].get<int>(), until) << stop["name"] << card["who"];
        until = line["end_s"].get<int>();
      }
    }
  }
}

TEST(JobsCommand, GivesLessWorkToWhoWantsASmallerShare) {
  FreshFolder folder;
  write_crewed_ride(folder, three_helpers());
  const json people = jobs_of(folder)["people"];
  EXPECT_LT(people[2]["work_s"], people[0]["work_s"]);
  EXPECT_LT(people[2]["work_s"], people[1]["work_s"]);
}

TEST(JobsCommand, DrawsAStopInLettersWithItsCautions) {
  FreshFolder folder;
  write_crewed_ride(folder, three_helpers());
  const json day = jobs_of(folder);
  const std::string gate = [&] {
    for (const auto& stop : day["stops"]) {
      if (stop["kind"] == "vet gate" || stop["kind"] == "finish") return stop["name"].get<std::string>();
    }
    return std::string();
  }();
  ASSERT_FALSE(gate.empty());
  const auto run = run_outbye(folder, {"jobs", "crewed.json", "--stop", gate});
  ASSERT_EQ(run.code, 0) << run.err;
  expect_at_most_80_columns(run.out);
  EXPECT_THAT(run.out, AllOf(HasSubstr("With the horse"), HasSubstr("aaa"), HasSubstr("1 col"),
                             HasSubstr("lifted by two"), HasSubstr("the vet decides"), HasSubstr("holds the horse"),
                             HasSubstr("Without Cat"), Not(HasSubstr("\033"))));
}

TEST(JobsCommand, PrintsCardsOfAPersonAndOfTheRider) {
  FreshFolder folder;
  write_crewed_ride(folder, two_helpers());
  const auto run = run_outbye(folder, {"jobs", "crewed.json", "--person", "ann", "--rider"});
  ASSERT_EQ(run.code, 0) << run.err;
  expect_at_most_80_columns(run.out);
  EXPECT_THAT(run.out, AllOf(HasSubstr("Ann"), HasSubstr("+0:00-"), HasSubstr("never alone behind the horse"),
                             HasSubstr("who gives you what"), HasSubstr("(from ")));
}

TEST(JobsCommand, TellsWhatMattersWithoutAHelperAndAllOfItOnRequest) {
  FreshFolder folder;
  write_crewed_ride(folder, two_helpers());
  const auto run = run_outbye(folder, {"jobs", "crewed.json", "--without", "Ben"});
  ASSERT_EQ(run.code, 0) << run.err;
  expect_at_most_80_columns(run.out);
  EXPECT_THAT(run.out, AllOf(HasSubstr("Without Ben"), HasSubstr("Ann takes over: "),
                             Not(HasSubstr("now Ann, instead of Ben"))));
  const auto all = run_outbye(folder, {"jobs", "crewed.json", "--without", "Ben", "--all"});
  EXPECT_THAT(all.out, HasSubstr("now Ann, instead of Ben"));
}

TEST(JobsCommand, DrawsEachStopAndKeepsFilesThatAreThere) {
  FreshFolder folder;
  write_crewed_ride(folder, three_helpers());
  std::filesystem::create_directory(folder / "jobs");
  ASSERT_EQ(run_outbye(folder, {"jobs", "crewed.json", "--svg", "jobs"}).code, 0);
  std::size_t drawings = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder / "jobs")) {
    ++drawings;
    EXPECT_THAT(text_of(entry.path()), AllOf(HasSubstr("<svg"), HasSubstr("Ann"), HasSubstr("class=\"near\"")));
  }
  EXPECT_EQ(drawings, jobs_of(folder)["stops"].size());
  const auto again = run_outbye(folder, {"jobs", "crewed.json", "--svg", "jobs"});
  EXPECT_EQ(again.code, 2);
  EXPECT_EQ(again.out, "");
}

TEST(JobsCommand, RefusesAnUnknownStopOrPersonWithTheNearest) {
  FreshFolder folder;
  write_crewed_ride(folder, two_helpers());
  const auto stop = run_outbye(folder, {"jobs", "crewed.json", "--stop", "finsh"});
  EXPECT_EQ(stop.code, 2);
  EXPECT_EQ(stop.out, "");
  EXPECT_THAT(stop.err, HasSubstr("--stop: 'finsh' is no stop of this day; did you mean 'finish'?"));
  const auto person = run_outbye(folder, {"jobs", "crewed.json", "--person", "Bem"});
  EXPECT_EQ(person.code, 2);
  EXPECT_THAT(person.err, HasSubstr("--person: 'Bem' is no helper of this day; did you mean 'Ben'?"));
  const auto without = run_outbye(folder, {"jobs", "crewed.json", "--without", "Zachariah"});
  EXPECT_EQ(without.code, 2);
  EXPECT_THAT(without.err, HasSubstr("known: Ann, Ben"));
}

TEST(JobsCommand, RefusesACrewThatCannotDoATaskAndNamesTheSkill) {
  FreshFolder folder;
  write_crewed_ride(folder, {{{"name", "Ann"}, {"skills", {"first aid"}}}});
  const auto run = run_outbye(folder, {"jobs", "crewed.json"});
  EXPECT_EQ(run.code, 2);
  EXPECT_EQ(run.out, "");
  EXPECT_THAT(run.err, AllOf(HasSubstr("helpers at "), HasSubstr("\"driver\""), HasSubstr("Ann could do it")));
}

TEST(JobsCommand, NeverSaysThatAHorseIsFit) {
  FreshFolder folder;
  write_crewed_ride(folder, two_helpers());
  for (const auto& words : {std::vector<std::string>{"jobs", "crewed.json"},
                            {"jobs", "crewed.json", "--stop", "finish", "--person", "Ann", "--rider"},
                            {"jobs", "crewed.json", "--json"}}) {
    const std::string text = in_lower_case(run_outbye(folder, words).out);
    ASSERT_FALSE(text.empty());
    for (const char* phrase : {"is fit", "fit to ", "safe to", "good to go"}) EXPECT_THAT(text, Not(HasSubstr(phrase)));
  }
}

}  // namespace
}  // namespace outbye
