// outbye kit as a user sees it: the list, one thing opened, ticks kept in the ride file.
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

// The good ride of the bad-input tests on a hot day, with a horse that does not drink at first.
json hot_ride() {
  std::ifstream in(test_file("good.json"));
  json ride = json::parse(in);
  ride["weather"] = {{{"time", "2026-06-13T06:00"}, {"temperature_c", 27}, {"humidity_pct", 75}},
                     {{"time", "2026-06-13T08:00"}, {"temperature_c", 32}, {"humidity_pct", 65}},
                     {{"time", "2026-06-13T11:00"}, {"temperature_c", 35}, {"humidity_pct", 60}}};
  ride["horses"] = {{{"name", "Juno"},
                     {"feet", "shod"},
                     {"likes",
                      {{{"drink", "nothing"}, {"to_loop", 1}},
                       {{"drink", "electrolyte"}, {"from_loop", 2}, {"electrolyte_g", 30}}}}}};
  return ride;
}

void write_ride(const FreshFolder& folder, const json& ride) {
  for (const char* file : {"good.gpx", "good.osm"}) {
    std::filesystem::copy_file(test_file(file), folder / file, std::filesystem::copy_options::overwrite_existing);
  }
  std::ofstream(folder / "ride.json") << ride.dump(1);
}

TEST(KitCommand, ListsThingsByGroupAndAmountsIn80Columns) {
  FreshFolder folder;
  write_ride(folder, hot_ride());
  const auto run = run_outbye(folder, {"kit", "ride.json", "--all"});
  ASSERT_EQ(run.code, 0) << run.err;
  expect_at_most_80_columns(run.out);
  EXPECT_THAT(run.out, AllOf(HasSubstr("Water containers"), HasSubstr("[ ]"), HasSubstr("cooling-water"),
                             HasSubstr("does not drink on loop 1"), HasSubstr("never to a horse that does not drink"),
                             HasSubstr("every stop is in daylight")));
}

TEST(KitCommand, TakesMoreWaterOnAHotDay) {
  FreshFolder folder;
  json ride = hot_ride();
  write_ride(folder, ride);
  const auto water = [&] {
    const auto run = run_outbye(folder, {"kit", "ride.json", "--json"});
    const json kit = json::parse(run.out);
    for (const auto& amount : kit["amounts"]) {
      if (amount["id"] == "cooling-water") return amount["value"].get<double>();
    }
    return -1.0;
  };
  const double hot = water();
  for (auto& hour : ride["weather"]) hour["temperature_c"] = 17;
  write_ride(folder, ride);
  const double mild = water();
  EXPECT_GE(mild, 0.0);
  EXPECT_GT(hot, mild);
}

TEST(KitCommand, AnswersInJsonThatItsSchemaAccepts) {
  if (!has_jsonschema()) GTEST_SKIP() << "python3-jsonschema is not installed";
  FreshFolder folder;
  write_ride(folder, hot_ride());
  const auto run = run_outbye(folder, {"kit", "ride.json", "--json"});
  ASSERT_EQ(run.code, 0) << run.err;
  EXPECT_EQ(validated(folder, "kit-1.json", run.out), "valid\n");
  EXPECT_EQ(validated(folder, "kit-catalogue-1.json", run_outbye(folder, {"kit", "--catalogue"}).out), "valid\n");
  EXPECT_EQ(validated(folder, "ride-1.json", text_of(folder / "ride.json")), "valid\n");
}

TEST(KitCommand, OpensAnAmountToFormulaInputsSourceAndRange) {
  FreshFolder folder;
  write_ride(folder, hot_ride());
  const auto run = run_outbye(folder, {"kit", "ride.json", "--why", "ice"});
  ASSERT_EQ(run.code, 0) << run.err;
  expect_at_most_80_columns(run.out);
  EXPECT_THAT(run.out, AllOf(HasSubstr("Formula: "), HasSubstr("Inputs:"), HasSubstr("leak of one box"),
                             HasSubstr("range "), HasSubstr("Source: ")));
  const auto thing = run_outbye(folder, {"kit", "ride.json", "--why", "Horse first-aid box"});
  EXPECT_THAT(thing.out, AllOf(HasSubstr("in: always"), HasSubstr("450 x 300 x 250 mm"), HasSubstr("not advice")));
}

TEST(KitCommand, RefusesAnUnknownNameWithTheNearest) {
  FreshFolder folder;
  write_ride(folder, hot_ride());
  const auto why = run_outbye(folder, {"kit", "ride.json", "--why", "cooling-watter"});
  EXPECT_EQ(why.code, 2);
  EXPECT_THAT(why.err, HasSubstr("did you mean 'cooling-water'?"));
  const std::string before = text_of(folder / "ride.json");
  const auto tick = run_outbye(folder, {"kit", "ride.json", "--tick", "torch", "--tick", "hoof-boots"});
  EXPECT_EQ(tick.code, 2);
  EXPECT_THAT(tick.err, HasSubstr("did you mean 'hoof-boot'?"));
  EXPECT_EQ(text_of(folder / "ride.json"), before);
}

TEST(KitTicks, StayInTheRideFileAndChangeNothingElseOfIt) {
  FreshFolder folder;
  json ride = hot_ride();
  ride["$schema"] = "ride-1.json";
  ride["kit"] = {{"containers", {{{"name", "Blue can"}, {"kind", "can"}, {"litres", 12.5}, {"count", 2}}}}};
  write_ride(folder, ride);
  const auto tick = run_outbye(folder, {"kit", "ride.json", "--tick", "Torch or head torch", "--tick", "blue can"});
  ASSERT_EQ(tick.code, 0) << tick.err;
  EXPECT_THAT(tick.out, HasSubstr("[x]"));
  json expected = ride;
  expected["kit"]["packed"] = {"torch", "blue can"};
  EXPECT_EQ(json::parse(text_of(folder / "ride.json")), expected);
  EXPECT_THAT(run_outbye(folder, {"kit", "ride.json"}).out, HasSubstr("2 ticked [x] as packed"));
  ASSERT_EQ(run_outbye(folder, {"kit", "ride.json", "--untick", "torch"}).code, 0);
  expected["kit"]["packed"] = {"blue can"};
  EXPECT_EQ(json::parse(text_of(folder / "ride.json")), expected);
}

TEST(KitFiles, OfOnesOwnReplaceAndAddThings) {
  FreshFolder folder;
  json ride = hot_ride();
  ride["files"]["kit"] = {"own.json"};
  ride["kit"] = {{"packed", {"wagon"}}};
  write_ride(folder, ride);
  std::ofstream(folder / "own.json") << R"({"version": 1, "items": [{"id": "wagon", "name": "Hand wagon",
      "group": "comfort", "why": "Far from the car.", "size_mm": [900, 500, 400], "empty_kg": 9, "needed": ["gate"]}]})";
  const auto run = run_outbye(folder, {"kit", "ride.json"});
  ASSERT_EQ(run.code, 0) << run.err;
  EXPECT_THAT(run.out, HasSubstr("[x]   1  Hand wagon"));
  std::ofstream(folder / "own.json") << R"({"version": 1, "items": [{"id": "wagon", "size_mm": [-900, 500, 400]}]})";
  const auto broken = run_outbye(folder, {"kit", "ride.json"});
  EXPECT_EQ(broken.code, 2);
  EXPECT_THAT(broken.err, AllOf(HasSubstr("own.json: items[0].size_mm[0]"), HasSubstr("is -900")));
}

TEST(KitFiles, AreRefusedWhenAThingGoesIntoACrateThatIsNotThere) {
  FreshFolder folder;
  json ride = hot_ride();
  ride["files"]["kit"] = {"own.json"};
  write_ride(folder, ride);
  std::ofstream(folder / "own.json") << R"({"version": 1, "items": [{"id": "wagon", "name": "Hand wagon",
      "group": "comfort", "why": "Far from the car.", "size_mm": [900, 500, 400], "empty_kg": 9, "needed": ["gate"],
      "goes_into": ["tack-bagg"]}]})";
  const auto run = run_outbye(folder, {"kit", "ride.json"});
  EXPECT_EQ(run.code, 2);
  EXPECT_THAT(run.err,
              AllOf(HasSubstr("own.json: items[0].goes_into[0]: 'tack-bagg'"), HasSubstr("did you mean 'tack-bag'?")));
}

TEST(KitCommand, AnswersForTheWantedShareOfDaysNotDry) {
  FreshFolder folder;
  write_ride(folder, hot_ride());
  const auto wanted = [&](const char* percent) {
    const auto run = run_outbye(folder, {"kit", "ride.json", "--json", "--not-dry", percent});
    return json::parse(run.out)["stock"][0];
  };
  EXPECT_EQ(wanted("80")["wanted"], 0.8);
  const auto carried = [](const json& stock) {
    double sum = 0.0;
    for (const auto& line : stock["carry"]) sum += line["carry"].get<double>();
    return sum;
  };
  EXPECT_LT(carried(wanted("60")), carried(wanted("99")));
  const auto refused = run_outbye(folder, {"kit", "ride.json", "--not-dry", "20"});
  EXPECT_EQ(refused.code, 2);
  EXPECT_THAT(refused.err, AllOf(HasSubstr("--not-dry"), HasSubstr("above 50")));
}

TEST(KitInTheRideFile, IsRefusedWithPathAndRemedy) {
  FreshFolder folder;
  json ride = hot_ride();
  ride["kit"] = {{"left_out", {"chairr"}},
                 {"containers", {{{"name", "Can"}, {"kind", "cans"}, {"litres", -5}}}},
                 {"settings", {{"ice_spare", -1}}}};
  write_ride(folder, ride);
  const auto run = run_outbye(folder, {"kit", "ride.json"});
  EXPECT_EQ(run.code, 2);
  EXPECT_THAT(run.err, AllOf(HasSubstr("kit.left_out[0]: 'chairr'"), HasSubstr("did you mean 'chair'?"),
                             HasSubstr("kit.containers[0].kind"), HasSubstr("kit.containers[0].litres"),
                             HasSubstr("kit.settings.ice_spare")));
}

// Whatever the day: nothing may sound like leave to go on, or like a dose.
TEST(KitCommand, NeverProposesADoseOrSaysThatAHorseIsFit) {
  FreshFolder folder;
  json ride = hot_ride();
  ride["horses"][0]["likes"] = json::array();
  write_ride(folder, ride);
  const auto run = run_outbye(folder, {"kit", "ride.json", "--why", "electrolyte"});
  ASSERT_EQ(run.code, 0) << run.err;
  EXPECT_THAT(run.out, AllOf(HasSubstr("0.0 g; range 0.0 to 0.0 g"), HasSubstr("proposes no amount"),
                             HasSubstr("never to a horse that does not drink")));
  const auto list = run_outbye(folder, {"kit", "ride.json", "--all"});
  EXPECT_THAT(list.out, AllOf(Not(HasSubstr("fit to")), Not(HasSubstr("safe to"))));
}

}  // namespace
}  // namespace outbye
