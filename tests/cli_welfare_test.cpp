// Heat, water, light and rules as a user sees them: outbye heat, and their parts of outbye plan and check.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
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

// The good ride of the bad-input tests with weather, a horse's mass and rules of its own.
void write_warm_ride(const FreshFolder& folder) {
  for (const char* file : {"good.json", "good.gpx", "good.osm"}) {
    std::filesystem::copy_file(std::string(OUTBYE_SOURCE) + "/tests/bad_input/" + file, folder / file);
  }
  std::ifstream in(folder / "good.json");
  json ride = json::parse(in);
  ride["files"]["weather"] = "weather.csv";
  ride["horses"] = {{{"name", "Juno"},
                     {"mass_kg", 430},
                     {"intakes", {{{"place", "Ford"}, {"loop", 1}, {"drank_litres", 7}, {"salt_g", 20}}}}}};
  ride["rules"] = {{"book", "international"}, {"level", "1*"}, {"gate", {{"hold_min", 50}}}};
  std::ofstream(folder / "warm.json") << ride.dump(1);
  std::ofstream(folder / "weather.csv") << "time,temperature_c,humidity_pct,wind_kmh,cloud_pct\n"
                                           "05:00,22,80,4,10\n08:00,27,70,6,10\n11:00,33,55,8,10\n13:00,35,50,8,10\n"
                                           "16:00,36,48,8,10\n19:00,30,60,6,30\n";
}

// The formula of the Bureau of Meteorology at 32 degrees and 60 %: 33.26, "> 33" (Equestrian Australia, hot weather
// policy, 2019).
TEST(HeatCommand, ActsOnTheWorseOfTheTwoIndices) {
  FreshFolder folder;
  const auto humid = run_outbye(folder, {"heat", "--temperature", "32", "--humidity", "60", "--place", "54.1,-2.3",
                                         "--time", "2026-06-13T13:00"});
  ASSERT_EQ(humid.code, 0) << humid.err;
  expect_at_most_80_columns(humid.out);
  EXPECT_THAT(humid.out, AllOf(HasSubstr("33.3*"), HasSubstr("150"), HasSubstr("extreme"), HasSubstr("Set by WBGT")));
  // 40 degrees and 25 %: the sum says 129, "normal", where WBGT says stop.
  const auto dry = run_outbye(folder, {"heat", "--temperature", "40", "--humidity", "25", "--place", "54.1,-2.3",
                                       "--time", "2026-06-13T13:00", "--json"});
  const json answer = json::parse(dry.out);
  EXPECT_EQ(answer["hours"][0]["heat"]["band"], "extreme");
  EXPECT_EQ(answer["hours"][0]["heat"]["f_plus_rh_band"], "comfortable");
  EXPECT_NEAR(answer["hours"][0]["heat"]["wbgt_c"].get<double>(), 33.84, 0.01);
  if (has_jsonschema()) {
    EXPECT_EQ(validated(folder, "heat-1.json", dry.out), "valid\n");
  }
}

TEST(HeatCommand, TakesATableAndTellsTheLight) {
  FreshFolder folder;
  write_warm_ride(folder);
  const auto run = run_outbye(
      folder, {"heat", "weather.csv", "--place", "54.5,-2.5", "--zone", "Europe/London", "--time", "2026-06-13"});
  ASSERT_EQ(run.code, 0) << run.err;
  expect_at_most_80_columns(run.out);
  EXPECT_THAT(run.out, AllOf(HasSubstr("13 June 2026"), HasSubstr("16:00"), HasSubstr("Worst at 16:00"),
                             HasSubstr("sunrise 04:"), HasSubstr("The officials and the vets")));
  const auto of_ride = run_outbye(folder, {"heat", "warm.json"});
  ASSERT_EQ(of_ride.code, 0) << of_ride.err;
  EXPECT_THAT(of_ride.out, HasSubstr("Worst at 16:00"));
}

TEST(PlanCommand, ShowsHeatWaterLightAndRules) {
  FreshFolder folder;
  write_warm_ride(folder);
  const auto run = run_outbye(folder, {"plan", "warm.json"});
  ASSERT_EQ(run.code, 0) << run.err;
  expect_at_most_80_columns(run.out);
  EXPECT_THAT(run.out, AllOf(HasSubstr("Heat, water and light: Juno"), HasSubstr("Salts lost by then"),
                             HasSubstr("never to a horse that does not drink"), HasSubstr("Heat for the people"),
                             HasSubstr("hold at every gate: 50 min"), HasSubstr("BREAKS"),
                             HasSubstr("the rules of the day win")));
  const auto as_json = run_outbye(folder, {"plan", "warm.json", "--json"});
  const json plan = json::parse(as_json.out);
  for (const auto& pass : plan["passes"]) {
    EXPECT_TRUE(pass.contains("heat"));
    EXPECT_TRUE(pass.contains("water"));
    EXPECT_EQ(pass.contains("cooling"), pass["kind"] != "pass" || pass["is_met"].get<bool>());
  }
  EXPECT_EQ(std::count_if(plan["passes"].begin(), plan["passes"].end(),
                          [](const json& pass) { return pass.value("drank_litres", 0.0) == 7.0; }),
            1);
  EXPECT_FALSE(plan["rules"]["findings"].empty());
  if (has_jsonschema()) {
    EXPECT_EQ(validated(folder, "plan-1.json", as_json.out), "valid\n");
  }
}

// Whatever the heat: nothing may sound like leave to go on.
TEST(PlanCommand, NeverSaysThatAHorseIsFit) {
  FreshFolder folder;
  write_warm_ride(folder);
  for (const auto& words : {std::vector<std::string>{"plan", "warm.json"},
                            {"heat", "warm.json"},
                            {"check", "warm.json"},
                            {"plan", "warm.json", "--json"}}) {
    const auto run = run_outbye(folder, words);
    ASSERT_EQ(run.code, 0) << run.err;
    const std::string text = in_lower_case(run.out);
    for (const char* phrase : {"fit to continue", "fit to go", "is fit", "safe to", "good to go"}) {
      EXPECT_THAT(text, Not(HasSubstr(phrase))) << words[0];
    }
  }
}

TEST(NewCommand, TakesWeatherAndRulesAndTheHoldOfTheBook) {
  FreshFolder folder;
  write_warm_ride(folder);
  const auto made = run_outbye(
      folder, {"new", "ride.json", "--course", "good.gpx", "--roads", "good.osm", "--start", "2026-06-13T07:00",
               "--weather", "weather.csv", "--rules", "french", "--level", "Set speed 40 km"});
  ASSERT_EQ(made.code, 0) << made.err;
  EXPECT_THAT(made.out, HasSubstr("The hold of 60 min is that of"));
  std::ifstream in(folder / "ride.json");
  const json ride = json::parse(in);
  EXPECT_EQ(ride["files"]["weather"], "weather.csv");
  EXPECT_EQ(ride["rules"]["book"], "french");
  EXPECT_EQ(ride["default_pace"]["hold_min"], 60);
  const auto plan = run_outbye(folder, {"plan", "ride.json"});
  EXPECT_THAT(plan.out, AllOf(HasSubstr("Heat of the day"), HasSubstr("Rules: ")));
}

TEST(CheckCommand, TellsWhatTheCourseBreaks) {
  FreshFolder folder;
  write_warm_ride(folder);
  const auto run = run_outbye(folder, {"check", "warm.json"});
  ASSERT_EQ(run.code, 0) << run.err;
  expect_at_most_80_columns(run.out);
  EXPECT_THAT(run.out, AllOf(HasSubstr("BREAKS"), HasSubstr("the rules of the day win")));
  const auto as_json = run_outbye(folder, {"check", "warm.json", "--json"});
  EXPECT_EQ(json::parse(as_json.out)["rules"]["book"], "international");
  if (has_jsonschema()) {
    EXPECT_EQ(validated(folder, "check-1.json", as_json.out), "valid\n");
  }
}

}  // namespace
}  // namespace outbye
