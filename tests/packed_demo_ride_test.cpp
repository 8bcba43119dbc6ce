// The demo's ride packed and opened again: the phone answers as the machine at home does.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/day.h"
#include "formats/day_calls/day_calls.h"
#include "formats/day_log/day_json.h"
#include "formats/packed_ride/packed_ride.h"
#include "formats/plan_json/plan_json.h"
#include "tests/support/demo_inputs.h"

namespace outbye {
namespace {

struct Demo {
  test::DemoInputs made;
  RidePlan plan;
  std::string packed;
};
const Demo& demo() {
  static const Demo* const made = [] {
    auto* all = new Demo{test::demo_inputs(), {}, {}};
    auto plan = plan_ride(all->made.inputs);
    EXPECT_TRUE(plan) << plan.error().what;
    all->plan = std::move(*plan);
    all->packed = *packed_ride(all->made.inputs, all->plan);
    return all;
  }();
  return *made;
}

Instant due(std::size_t pass, double late) { return demo().plan.passes[pass].due.p50 + minutes(late); }

// The first car waits, she comes late to the first two passes, the car drives on.
std::vector<std::string> a_log() {
  DayLog log;
  const auto add = [&log](DayKind kind, Instant at, const std::string& place) {
    DayEntry entry;
    entry.kind = kind;
    entry.at = std::chrono::floor<std::chrono::seconds>(at);
    entry.place = place;
    add_event(log, new_event(log, "anna", static_cast<std::int64_t>(1000 * at.time_since_epoch().count()), entry));
  };
  const auto& passes = demo().plan.passes;
  add(DayKind::car_at, due(0, -20), passes[0].name);
  add(DayKind::watch_begin, due(0, -15), passes[0].name);
  add(DayKind::horse_in, due(0, 7), passes[0].name);
  add(DayKind::horse_out, due(0, 10), passes[0].name);
  add(DayKind::watch_end, due(0, 10), "");
  add(DayKind::car_left, due(0, 13), passes[0].name);
  add(DayKind::horse_in, due(1, 9), passes[1].name);
  std::vector<std::string> lines;
  for (const DayEvent& event : log.events) lines.push_back(day_log_line(event));
  return lines;
}

TEST(PackedDemoRide, AnswersTheDayAsThePlanItWasPackedFrom) {
  DaySession session;
  const Json opened = Json::parse(day_call(session, "open", "{\"packed\":" + demo().packed + "}"));
  ASSERT_TRUE(opened.contains("names")) << opened.dump();
  const auto model = day_model(demo().plan);
  ASSERT_TRUE(model);
  const auto lines = a_log();
  std::string text = day_log_head(demo().plan.ride.name);
  for (const auto& line : lines) text += line;
  const auto reading = read_day_log(text, "log");
  ASSERT_TRUE(reading);
  for (const Instant now : {due(0, -30), due(0, 5), due(0, 12), due(1, 10), due(3, 0)}) {
    const Instant second = std::chrono::floor<std::chrono::seconds>(now);
    const Json reply =
        Json::parse(day_call(session, "answer", Json{{"log", lines}, {"now", iso8601(second, Clock{})}}.dump()));
    const DayAnswer answer = day_answer(demo().plan, *model, reading->log, second);
    EXPECT_EQ(reply, day_json(demo().plan, answer, {}, reading->unread)) << iso8601(second, Clock{});
  }
}

TEST(PackedDemoRide, PlansTheRestOfTheDayAlike) {
  DaySession session;
  day_call(session, "open", "{\"packed\":" + demo().packed + "}");
  const Instant now = std::chrono::floor<std::chrono::seconds>(due(1, 10));
  const auto lines = a_log();
  const Json reply =
      Json::parse(day_call(session, "rest", Json{{"log", lines}, {"now", iso8601(now, Clock{})}}.dump()));
  std::string text = day_log_head("");
  for (const auto& line : lines) text += line;
  const DayAnswer answer = day_answer(demo().plan, *day_model(demo().plan), read_day_log(text, "log")->log, now);
  const std::optional<Result<RestOfDay>> rest = plan_rest(demo().plan, answer, 1024);
  EXPECT_EQ(reply["rest"], day_json(demo().plan, answer, rest, {})["rest"]);
}

TEST(PackedDemoRide, BringsBackThePlanWithItsTurns) {
  const auto opened = open_packed_ride(demo().packed);
  ASSERT_TRUE(opened) << opened.error().where << " " << opened.error().what;
  const std::string plan = write_plan_json(*opened, {});
  EXPECT_EQ(plan, write_plan_json(demo().plan, {}));
  EXPECT_THAT(plan, testing::HasSubstr("\"turns\""));
}

}  // namespace
}  // namespace outbye
