// outbye day as a user runs it, at fixed times.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "core/base/clock.h"
#include "formats/day_log/day_log_file.h"
#include "tests/run_outbye.h"
#include "tests/support/cli_answers.h"

namespace outbye {
namespace {

using nlohmann::json;
using testing::HasSubstr;

// The good ride with a log beside it; the first crew point of its plan is asked for.
class DayCommand : public testing::Test {
 protected:
  void SetUp() override {
    for (const char* name : {"good.gpx", "good.osm", "good-times.csv", "good.json"}) {
      std::filesystem::copy_file(test_file(name), folder_ / name);
    }
    const auto planned = run_outbye(folder_, {"plan", "good.json", "--json"});
    ASSERT_EQ(planned.code, 0) << planned.err;
    plan_ = json::parse(planned.out);
    place_ = plan_["passes"][0]["name"].get<std::string>();
    due_ = plan_["passes"][0]["due"]["p50"].get<std::string>();
  }
  DayEntry entry(DayKind kind, Seconds after_due) const {
    const auto written = parse_written_time(due_);
    DayEntry e;
    e.kind = kind;
    e.at = Instant{written->local.time_since_epoch() - *written->offset} + after_due;
    e.place = place_;
    return e;
  }
  std::string add(DayKind kind, Seconds after_due) {
    const DayEntry e = entry(kind, after_due);
    const auto event =
        new_event(log_.log, "anna", static_cast<std::int64_t>(1000 * e.at.time_since_epoch().count()), e);
    add_event(log_.log, event);
    return event.id;
  }
  ProgramRun day(Seconds after_due, std::vector<std::string> more = {}, const std::string& torn = "") {
    std::ofstream(folder_ / "day.log", std::ios::binary) << write_day_log(log_) << torn;
    std::vector<std::string> words{"day",     "good.json", "--log",
                                   "day.log", "--at",      iso8601(entry(DayKind::note, after_due).at, Clock{})};
    words.insert(words.end(), more.begin(), more.end());
    return run_outbye(folder_, words);
  }

  FreshFolder folder_;
  json plan_;
  std::string place_, due_;
  DayLogReading log_;
};

TEST_F(DayCommand, SaysWhereSheWasSeenAndWhenSheIsDue) {
  add(DayKind::horse_in, minutes(3));
  const auto run = day(minutes(4));
  ASSERT_EQ(run.code, 0) << run.err;
  EXPECT_THAT(run.out, HasSubstr("seen "));
  EXPECT_THAT(run.out, HasSubstr("due "));
  EXPECT_THAT(run.out, HasSubstr("The co-driver reads this, never the driver."));
  expect_at_most_80_columns(run.out);
}

TEST_F(DayCommand, AnswersInJsonByItsSchemaWithTheRestPlannedAnew) {
  if (!has_jsonschema()) GTEST_SKIP() << "no python3-jsonschema";
  add(DayKind::car_at, minutes(-20));
  add(DayKind::watch_begin, minutes(-19));
  const auto run = day(minutes(2), {"--json", "--rest"});
  ASSERT_EQ(run.code, 0) << run.err;
  EXPECT_EQ(validated(folder_, "day-1.json", run.out), "valid\n");
  EXPECT_TRUE(json::parse(run.out).contains("rest"));
}

TEST_F(DayCommand, WritesLogLinesByTheirSchema) {
  if (!has_jsonschema()) GTEST_SKIP() << "no python3-jsonschema";
  const std::string id = add(DayKind::watch_begin, minutes(-19));
  EXPECT_EQ(validated(folder_, "day-log-1.json", day_log_head("Small")), "valid\n");
  EXPECT_EQ(validated(folder_, "day-log-1.json", day_log_line(log_.log.events[0])), "valid\n");
  const auto correction = new_correction(log_.log, "ben", 0, id, log_.log.events[0].entry);
  EXPECT_EQ(validated(folder_, "day-log-1.json", day_log_line(correction)), "valid\n");
}

TEST_F(DayCommand, SaysThatTheLastLineWasTornAndAnswersNevertheless) {
  add(DayKind::horse_in, minutes(3));
  const auto run = day(minutes(4), {"--json"}, R"({"id":"anna-2","devi)");
  ASSERT_EQ(run.code, 0) << run.err;
  const auto answer = json::parse(run.out);
  ASSERT_EQ(answer["unread_lines"].size(), 1u);
  EXPECT_TRUE(answer["unread_lines"][0]["torn"]);
  EXPECT_TRUE(answer["passes"][0].contains("seen"));
}

TEST_F(DayCommand, KnowsAtATimeOnlyWhatWasNotedByThen) {
  add(DayKind::horse_in, minutes(3));
  EXPECT_FALSE(json::parse(day(minutes(1), {"--json"}).out)["passes"][0].contains("seen"));
}

TEST_F(DayCommand, RefusesAFileThatIsNoLog) {
  const auto run = run_outbye(folder_, {"day", "good.json", "--log", "good.gpx"});
  EXPECT_EQ(run.code, 2);
  EXPECT_EQ(run.out, "");
  EXPECT_THAT(run.err, HasSubstr("is not the first line of a day log"));
}

}  // namespace
}  // namespace outbye
