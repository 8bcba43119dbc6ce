#include "formats/day_calls/day_calls.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "formats/day_log/day_log_file.h"
#include "formats/packed_ride/packed_ride.h"
#include "tests/support/small_ride.h"

namespace outbye {
namespace {

using ::testing::HasSubstr;

const std::string folder = OUTBYE_SOURCE "/tests/wasm/";

// The small ride with few points, a horse with a number, and a second car.
std::string packed_small_ride() {
  RideInputs inputs = test::small_inputs();
  Ride& ride = inputs.ride;
  ride.course_files = {"small.gpx"};
  ride.clock = {"Europe/London", {{ride.start - Seconds{86400.0 * 70}, std::chrono::minutes{60}}}};
  ride.days = 256;
  ride.horses.push_back({"Brimstone", "Ann", "5", Seconds{0}, std::nullopt});
  ride.cars.resize(2);
  ride.cars[0].name = "Van";
  ride.cars[1].name = "Estate";
  inputs.course_files[0].tracks = {test::round_loop("East", Metres{3200}, true, 24),
                                   test::round_loop("West", Metres{3200}, false, 24)};
  const auto plan = plan_ride(inputs);
  EXPECT_TRUE(plan) << plan.error().what;
  return *packed_ride(inputs, *plan);
}

Json called(DaySession& session, const char* name, const Json& request) {
  return Json::parse(day_call(session, name, request.dump()));
}
DaySession opened() {
  DaySession session;
  called(session, "open", {{"packed", Json::parse(packed_small_ride())}});
  EXPECT_TRUE(session.ride);
  return session;
}

std::string file_text(const std::string& name) {
  std::ifstream file(folder + name, std::ios::binary);
  EXPECT_TRUE(file) << folder + name;
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

// What of a golden an answer does not have, or has otherwise; empty: nothing. The rules are written in the golden.
std::string differs(const Json& golden, const Json& actual, const std::string& where, const Json& tolerance) {
  if (golden.is_object()) {
    if (!actual.is_object()) return where + " is no object";
    for (const auto& [name, value] : golden.items()) {
      if (!actual.contains(name)) return where + "." + name + " is missing";
      if (auto found = differs(value, actual[name], where + "." + name, tolerance); !found.empty()) return found;
    }
    return "";
  }
  if (golden.is_array()) {
    if (!actual.is_array() || actual.size() < golden.size()) return where + " is too short a list";
    if (!where.ends_with("by_waiting") && actual.size() != golden.size()) return where + " has another length";
    for (std::size_t i = 0; i < golden.size(); ++i) {
      auto found = differs(golden[i], actual[i], where + "[" + std::to_string(i) + "]", tolerance);
      if (!found.empty()) return found;
    }
    return "";
  }
  const std::string both = ": " + actual.dump() + ", golden " + golden.dump();
  if (golden.is_number() && actual.is_number()) {
    const double off = std::fabs(golden.get<double>() - actual.get<double>());
    return off <= tolerance["number"].get<double>() ? "" : where + both;
  }
  if (golden.is_string() && actual.is_string()) {
    const auto a = parse_written_time(golden.get<std::string>()), b = parse_written_time(actual.get<std::string>());
    if (a && b && a->offset == b->offset) {
      const double off = std::fabs((a->local - b->local).count());
      return off <= tolerance["seconds"].get<double>() ? "" : where + both;
    }
  }
  return golden == actual ? "" : where + both;
}

// What a golden keeps of a reply: of the plan what makes it this plan, of the picture its beginning.
Json trimmed(Json reply) {
  if (reply.contains("plan")) {
    Json plan = reply["plan"];
    reply["plan"] = {{"format", plan["format"]}, {"value", plan["value"]}, {"passes", Json::array()}};
    for (const Json& pass : plan["passes"]) {
      reply["plan"]["passes"].push_back({{"name", pass["name"]}, {"due", pass["due"]}, {"is_met", pass["is_met"]}});
    }
  }
  if (reply.contains("cars")) {
    for (Json& car : reply["cars"]) {
      if (car["by_waiting"].size() > 3) car["by_waiting"].erase(car["by_waiting"].begin() + 3, car["by_waiting"].end());
    }
  }
  return reply;
}

// With OUTBYE_GOLDENS=write the packed ride and every reply are written anew.
TEST(DayCall, AnswersAsInTheGoldens) {
  const char* const mode = std::getenv("OUTBYE_GOLDENS");
  const bool writes = mode != nullptr && std::string(mode) == "write";
  if (writes) std::ofstream(folder + "small.packed.json", std::ios::binary) << packed_small_ride();
  Json golden = Json::parse(file_text("day_calls.golden.json"));
  const Json packed = Json::parse(file_text("small.packed.json"));
  ASSERT_GE(golden["calls"].size(), 5u);
  DaySession session;
  for (Json& one : golden["calls"]) {
    Json request = one["request"];
    if (one["name"] == "open") request["packed"] = packed;
    const Json reply = called(session, one["name"].get<std::string>().c_str(), request);
    if (writes) one["reply"] = trimmed(reply);
    EXPECT_EQ(differs(one["reply"], reply, one["about"], golden["tolerance"]), "");
  }
  if (writes) std::ofstream(folder + "day_calls.golden.json", std::ios::binary) << pretty_json(golden);
}

TEST(DayCall, SaysThatNoRideIsOpen) {
  DaySession session;
  const Json reply = called(session, "answer", {{"log", Json::array()}, {"now", "2026-06-13T07:30:00Z"}});
  EXPECT_EQ(reply["problem"]["kind"], "not_found");
  EXPECT_THAT(reply["problem"]["what"].get<std::string>(), HasSubstr("open the packed ride first"));
}

TEST(DayCall, ForgetsTheRideBeforeWhenTheNextIsRefused) {
  DaySession session = opened();
  EXPECT_TRUE(called(session, "open", {{"packed", Json::object()}}).contains("problem"));
  EXPECT_FALSE(session.ride);
}

TEST(DayCall, NamesWhatIsWrongWithARequest) {
  DaySession session = opened();
  const auto said = [&session](const char* name, const std::string& request) {
    const Json reply = Json::parse(day_call(session, name, request));
    return reply.contains("problem") ? reply["problem"].dump() : "";
  };
  EXPECT_THAT(said("answer", "{"), HasSubstr("is not JSON"));
  EXPECT_THAT(said("answer", "[]"), HasSubstr("is asked with an object"));
  EXPECT_THAT(said("answer", R"({"now": "2026-06-13T07:30:00Z"})"), HasSubstr("is not a list of lines"));
  EXPECT_THAT(said("answer", R"({"log": [1], "now": "2026-06-13T07:30:00Z"})"), HasSubstr("log[0]"));
  EXPECT_THAT(said("answer", R"({"log": [], "now": "noon"})"), HasSubstr("\"where\":\"now\""));
  EXPECT_THAT(said("answer", R"({"log": []})"), HasSubstr("is missing"));
  EXPECT_THAT(said("open", "{}"), HasSubstr("no field 'packed'"));
  EXPECT_THAT(said("fly", "{}"), HasSubstr("is no call"));
}

TEST(DayCall, TakesALogWithOrWithoutItsHead) {
  DaySession session = opened();
  const std::string line =
      R"({"id":"a-1","device":"a","noted":[1781332500000,0],"kind":"horse_in","at":"2026-06-13T06:35:00Z","place":"Ash"})";
  const Json bare{{"log", {line}}, {"now", "2026-06-13T06:36:00Z"}};
  const Json headed{{"log", {day_log_head("Small ride"), line + "\n"}}, {"now", "2026-06-13T06:36:00Z"}};
  const Json reply = called(session, "answer", bare);
  EXPECT_EQ(reply["passes"][0].value("seen", ""), "2026-06-13T07:35:00+01:00");
  EXPECT_EQ(reply, called(session, "answer", headed));
}

TEST(DayCall, NumbersLinesThatCannotBeReadAsTheyWereGiven) {
  DaySession session = opened();
  const Json reply = called(session, "answer", {{"log", {"", "{torn"}}, {"now", "2026-06-13T06:36:00Z"}});
  ASSERT_EQ(reply["unread_lines"].size(), 1u);
  EXPECT_EQ(reply["unread_lines"][0]["line"], 2);
}

}  // namespace
}  // namespace outbye
