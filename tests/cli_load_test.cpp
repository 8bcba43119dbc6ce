// The load of a car as a user sees it: outbye load.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <set>
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

json can(int count) {
  return {{"name", "Can"},  {"size_mm", {290, 245, 458}}, {"mass_kg", 26},  {"water_litres", 25},
          {"bears_kg", 26}, {"needed", {"pass"}},         {"count", count}, {"pain_if_left", 80}};
}
json kit() {
  return {
      can(2),
      {{"name", "Horse first aid"}, {"size_mm", {450, 300, 250}}, {"mass_kg", 5}, {"emergency", true}},
      {{"name", "Bucket"},
       {"size_mm", {320, 320, 350}},
       {"mass_kg", 3},
       {"may_point_up", {"height"}},
       {"needed", {"Ford"}},
       {"pain_if_left", 60}},
      {{"name", "Chair"}, {"size_mm", {900, 160, 160}}, {"mass_kg", 3.5}, {"needed", {"gate"}}, {"pain_if_left", 3}}};
}

void write_ride(const FreshFolder& folder, const json& cars, const json& items) {
  for (const char* file : {"good.json", "good.gpx", "good.osm"}) {
    std::filesystem::copy_file(test_file(file), folder / file);
  }
  json ride = json::parse(text_of(folder / "good.json"));
  ride["cars"] = cars;
  ride["helpers"] = {{{"name", "Ann"}, {"lifts", "women"}}, {{"name", "Bob"}, {"lifts", "men"}}};
  std::ofstream(folder / "ride.json") << ride.dump(1);
  std::ofstream(folder / "things.json") << json{{"version", 1}, {"items", items}}.dump(1);
}
void write_ride(const FreshFolder& folder) {
  write_ride(folder, {{{"name", "Van"}, {"boot", {{"shape", "estate"}, {"guard", true}, {"people", 2}}}}}, kit());
}

std::vector<std::string> load_words(const std::vector<std::string>& more = {}) {
  std::vector<std::string> words{"load", "ride.json", "--items", "things.json"};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

TEST(LoadCommand, ListsTheStepsWithMassReachAndCautionsIn80Columns) {
  FreshFolder folder;
  write_ride(folder);
  const auto run = run_outbye(folder, load_words());
  ASSERT_EQ(run.code, 0) << run.err;
  expect_at_most_80_columns(run.out);
  // The estate's 550 kg less a second person's 75 kg and the load's 63.5 kg (derived).
  EXPECT_THAT(run.out, AllOf(HasSubstr("step  5: "), HasSubstr("1 more riding in it 75 kg"), HasSubstr("load 64 kg"),
                             HasSubstr("412 kg left"), HasSubstr("Emergency: in reach at once: Horse first aid."),
                             HasSubstr("Lash the cans"), HasSubstr("Fit: "), HasSubstr("Middle of the mass")));
  EXPECT_THAT(run.out, Not(HasSubstr("\033")));
}

TEST(LoadCommand, PutsThingsApartInJsonThatItsSchemaAccepts) {
  FreshFolder folder;
  write_ride(folder);
  const auto run = run_outbye(folder, load_words({"--json", "--after", "1"}));
  ASSERT_EQ(run.code, 0) << run.err;
  const json answer = json::parse(run.out);
  const json& steps = answer["cars"][0]["steps"];
  ASSERT_EQ(steps.size(), 5U);
  EXPECT_EQ(answer["cars"][0]["proof"], "all_fit");
  for (std::size_t a = 0; a < steps.size(); ++a) {
    for (std::size_t b = 0; b < a; ++b) {
      bool apart = false;
      for (std::size_t axis = 0; axis < 3; ++axis) {
        const auto low = [&](std::size_t i) { return steps[i]["at_mm"][axis].get<int>(); };
        const auto high = [&](std::size_t i) { return low(i) + steps[i]["size_mm"][axis].get<int>(); };
        apart = apart || high(a) <= low(b) || high(b) <= low(a);
      }
      EXPECT_TRUE(apart) << steps[a]["item"] << " and " << steps[b]["item"];
    }
  }
  if (has_jsonschema()) {
    EXPECT_EQ(validated(folder, "load-1.json", run.out), "valid\n");
  }
}

TEST(LoadCommand, EmptiesTheCansByThePlanAfterAStop) {
  FreshFolder folder;
  write_ride(folder);
  const auto run = run_outbye(folder, load_words({"--json", "--after", "1"}));
  ASSERT_EQ(run.code, 0) << run.err;
  const json car = json::parse(run.out)["cars"][0];
  const double used = car["after"]["used_litres"];
  EXPECT_GT(used, 0.0);
  // A litre weighs a kilogram.
  EXPECT_NEAR(car["after"]["spaces"][0]["loaded_kg"].get<double>(), car["spaces"][0]["loaded_kg"].get<double>() - used,
              0.02);
}

TEST(LoadCommand, LeavesTheLeastPainfulWhenNotAllFits) {
  FreshFolder folder;
  json items = kit();
  items[0] = can(9);
  write_ride(folder, {{{"name", "Hatch"}, {"boot", {{"shape", "small hatch"}}}}}, items);
  const auto run = run_outbye(folder, load_words({"--json", "--seconds", "0.5"}));
  ASSERT_EQ(run.code, 0) << run.err;
  const json elsewhere = json::parse(run.out)["elsewhere"];
  ASSERT_FALSE(elsewhere.empty());
  EXPECT_EQ(elsewhere[0]["where"], "home");
  for (std::size_t i = 1; i < elsewhere.size(); ++i) EXPECT_LE(elsewhere[i - 1]["pain"], elsewhere[i]["pain"]);
}

TEST(LoadCommand, PutsWhatDoesNotFitIntoTheSecondCar) {
  FreshFolder folder;
  json items = kit();
  items[0] = can(9);
  write_ride(
      folder,
      {{{"name", "Hatch"}, {"boot", {{"shape", "small hatch"}}}}, {{"name", "Van"}, {"boot", {{"shape", "estate"}}}}},
      items);
  const auto run = run_outbye(folder, load_words({"--json", "--seconds", "0.5"}));
  ASSERT_EQ(run.code, 0) << run.err;
  const json answer = json::parse(run.out);
  ASSERT_FALSE(answer["elsewhere"].empty());
  std::set<std::string> in_van;
  for (const auto& step : answer["cars"][1]["steps"]) in_van.insert(step["item"].get<std::string>());
  std::size_t moved = 0;
  for (const auto& thing : answer["elsewhere"]) {
    if (thing["where"] != "other_car") continue;
    ++moved;
    EXPECT_EQ(thing["other_car"], "Van");
    EXPECT_EQ(in_van.count(thing["item"].get<std::string>()), 1U);
  }
  EXPECT_GT(moved, 0U);
}

TEST(LoadCommand, DrawsEveryStepAndLayer) {
  FreshFolder folder;
  write_ride(folder);
  const auto run = run_outbye(folder, load_words({"--pictures", "pictures"}));
  ASSERT_EQ(run.code, 0) << run.err;
  const std::string steps = text_of(folder / "pictures/load-van-steps.svg");
  EXPECT_THAT(steps, AllOf(HasSubstr("tailgate"), HasSubstr("seat-back"), HasSubstr("500 mm"), HasSubstr(">5</text>"),
                           HasSubstr("Horse first aid")));
  EXPECT_THAT(text_of(folder / "pictures/load-van-layers.svg"),
              AllOf(HasSubstr("Layer 1"), HasSubstr("500 mm"), HasSubstr("tailgate")));
  EXPECT_EQ(run_outbye(folder, load_words({"--pictures", "pictures"})).code, 2);  // nothing is replaced unasked
}

TEST(LoadCommand, SaysThatABootIsAssumedWhenNoneIsMeasured) {
  FreshFolder folder;
  write_ride(folder, {{{"name", "Van"}}}, kit());
  const auto run = run_outbye(folder, load_words());
  ASSERT_EQ(run.code, 0) << run.err;
  EXPECT_THAT(run.out, HasSubstr("not measured: a common estate is"));
}

// What is refused, with the words that say what to change.
struct BadLoad {
  std::string what;
  json boot;
  json items;
  std::vector<std::string> more;
  std::vector<std::string> must_contain;
};
class BadLoads : public testing::TestWithParam<BadLoad> {};

TEST_P(BadLoads, AreRefusedWithPlaceAndRemedy) {
  const BadLoad& bad = GetParam();
  FreshFolder folder;
  write_ride(folder, {{{"name", "Van"}, {"boot", bad.boot}}}, bad.items);
  const auto run = run_outbye(folder, load_words(bad.more));
  EXPECT_EQ(run.code, 2) << run.out;
  EXPECT_EQ(run.out, "");
  for (const auto& words : bad.must_contain) EXPECT_THAT(run.err, HasSubstr(words));
}

json thing(const json& more) {
  json item{{"name", "Box"}, {"size_mm", {300, 300, 300}}, {"mass_kg", 5}};
  item.update(more);
  return json::array({item});
}

INSTANTIATE_TEST_SUITE_P(
    Load, BadLoads,
    testing::Values(
        BadLoad{"too_big", {{"shape", "estate"}}, thing({{"size_mm", {3000, 300, 300}}}), {}, {"Box", "3000"}},
        BadLoad{
            "negative_size", {{"shape", "estate"}}, thing({{"size_mm", {-300, 300, 300}}}), {}, {"items[0].size_mm"}},
        BadLoad{"two_sides", {{"shape", "estate"}}, thing({{"size_mm", {300, 300}}}), {}, {"must have three"}},
        BadLoad{"payload_used_up", {{"shape", "small hatch"}, {"people", 7}}, kit(), {}, {"use up the payload"}},
        BadLoad{"unknown_shape", {{"shape", "estatte"}}, kit(), {}, {"did you mean 'estate'?"}},
        BadLoad{"unknown_place", {{"shape", "estate"}}, thing({{"needed", {"Forrd"}}}), {}, {"did you mean 'Ford'?"}},
        BadLoad{"unknown_field", {{"shape", "estate"}}, thing({{"mas_kg", 2}}), {}, {"did you mean 'mass_kg'?"}},
        BadLoad{"water_heavier_than_can",
                {{"shape", "estate"}},
                thing({{"water_litres", 25}}),
                {},
                {"items[0].water_litres", "1 kg a litre"}},
        BadLoad{"unknown_car", {{"shape", "estate"}}, kit(), {"--car", "Vann"}, {"did you mean 'Van'?"}},
        BadLoad{
            "unknown_stop", {{"shape", "estate"}}, kit(), {"--after", "Forrd"}, {"did you mean 'Ford'?", "Its stops"}},
        BadLoad{"no_seconds", {{"shape", "estate"}}, kit(), {"--seconds", "0"}, {"--seconds"}},
        BadLoad{"half_a_move", {{"shape", "estate"}}, kit(), {"--max-moves", "1.5"}, {"--max-moves", "whole number"}}),
    [](const auto& param) { return param.param.what; });

}  // namespace
}  // namespace outbye
