#include "core/base/clock.h"

#include <gtest/gtest.h>

namespace outbye {
namespace {

using namespace std::chrono_literals;

Instant utc(std::chrono::year_month_day date, Seconds in_day) {
  return Instant{Seconds{std::chrono::sys_days{date}.time_since_epoch()} + in_day};
}
constexpr auto june_13 = std::chrono::year{2026} / 6 / 13;

// London summer time ends on 2026-10-25 at 01:00 UTC (European Union rule, last Sunday of October).
Clock london() {
  return {
      "Europe/London",
      {{utc(std::chrono::year{2026} / 3 / 29, 3600s), 60min}, {utc(std::chrono::year{2026} / 10 / 25, 3600s), 0min}}};
}

TEST(Iso8601, CarriesTheOffset) {
  EXPECT_EQ(iso8601(utc(june_13, 6h), london()), "2026-06-13T07:00:00+01:00");
  EXPECT_EQ(iso8601(utc(june_13, 6h), Clock{}), "2026-06-13T06:00:00+00:00");
  EXPECT_EQ(iso8601(utc(june_13, 1h), Clock{"-03:30", {{Instant{}, -210min}}}), "2026-06-12T21:30:00-03:30");
}

TEST(Iso8601, CrossesTheChangeOfClocks) {
  EXPECT_EQ(iso8601(utc(std::chrono::year{2026} / 10 / 25, 59min + 59s), london()), "2026-10-25T01:59:59+01:00");
  EXPECT_EQ(iso8601(utc(std::chrono::year{2026} / 10 / 25, 1h), london()), "2026-10-25T01:00:00+00:00");
}

TEST(HoursMinutes, RoundsOnceAndRollsOverMidnight) {
  EXPECT_EQ(hours_minutes(utc(june_13, 22h + 59min + 40s), london()), "00:00");
  EXPECT_EQ(hours_minutes(utc(june_13, 22h + 59min + 20s), london()), "23:59");
  EXPECT_EQ(hours_minutes(Seconds{-430}), "-0:07");
  EXPECT_EQ(hours_minutes(Seconds{-20}), "0:00");
  EXPECT_EQ(hours_minutes(Seconds{3900}), "1:05");
}

TEST(LocalMidnight, IsOfTheLocalDayAlsoWhenTheClocksChange) {
  EXPECT_EQ(local_midnight(utc(june_13, 6h), london()), utc(june_13, -1h));
  EXPECT_EQ(local_midnight(utc(june_13, 23h), london()), utc(june_13, 23h));  // 00:00 of the 14th
  const auto change = std::chrono::year{2026} / 10 / 25;
  EXPECT_EQ(local_midnight(utc(change, 10h), london()), utc(change, -1h));
  EXPECT_EQ(local_midnight(utc(june_13, 6h), Clock{}), utc(june_13, 0h));
}

TEST(WrittenTime, ReadsOffsetsAndFractions) {
  const auto plain = parse_written_time("2026-06-13T07:00");
  ASSERT_TRUE(plain);
  EXPECT_FALSE(plain->offset);
  const auto full = parse_written_time("2026-06-13 07:00:01.25+01:15");
  ASSERT_TRUE(full);
  EXPECT_EQ(full->offset, 75min);
  EXPECT_DOUBLE_EQ((full->local - plain->local).count(), 1.25);
  EXPECT_EQ(parse_written_time("2026-06-13T07:00Z")->offset, 0min);
  EXPECT_EQ(parse_written_time("2026-06-13T07:00-0330")->offset, -210min);
}

TEST(WrittenTime, RefusesWhatIsNoTime) {
  for (const char* text :
       {"", "tomorrow", "2026-02-30T07:00", "2026-06-13", "2026-06-13T24:00", "2026-06-13T07:60", "2026-06-13T07",
        "2026-06-13T07:00 noon", "2026-06-13T07:00+1", "13/06/2026T07:00", "2026-06-13T07:00:00."}) {
    const auto read = parse_written_time(text);
    ASSERT_FALSE(read) << text;
    EXPECT_NE(read.error().what.find("write a time like"), std::string::npos);
  }
}

}  // namespace
}  // namespace outbye
