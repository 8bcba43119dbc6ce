#include "formats/time_zone/time_zone.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <optional>
#include <string>

namespace outbye {
namespace {

using ::testing::HasSubstr;

Instant utc(std::string_view text) {
  const auto written = parse_written_time(text);
  return Instant{written->local.time_since_epoch()};
}

Result<Instant> local(std::string_view text, std::string_view zone) {
  return to_instant(parse_written_time(text).value(), zone);
}

// The changes of clocks are those of the IANA tz database (Debian tzdata): European Union summer time from the last
// Sunday of March to the last of October at 01:00 UTC; New York from the second Sunday of March, 02:00 local.
TEST(ClockForZone, KnowsSummerTimeInLondon) {
  const auto clock = clock_for_zone("Europe/London", utc("2026-06-13T06:00"));
  ASSERT_TRUE(clock.has_value());
  EXPECT_EQ(iso8601(utc("2026-06-13T06:00"), *clock), "2026-06-13T07:00:00+01:00");
  EXPECT_EQ(iso8601(utc("2026-03-29T00:59:59"), *clock), "2026-03-29T00:59:59+00:00");
  EXPECT_EQ(iso8601(utc("2026-03-29T01:00"), *clock), "2026-03-29T02:00:00+01:00");
  EXPECT_EQ(iso8601(utc("2026-10-25T01:00"), *clock), "2026-10-25T01:00:00+00:00");
}

TEST(ClockForZone, KnowsHalfHoursAndTheSouth) {
  const auto delhi = clock_for_zone("Asia/Kolkata", utc("2026-01-01T00:00"));
  ASSERT_TRUE(delhi.has_value());
  EXPECT_EQ(iso8601(utc("2026-01-01T00:00"), *delhi), "2026-01-01T05:30:00+05:30");
  const auto sydney = clock_for_zone("Australia/Sydney", utc("2026-01-01T00:00"));
  ASSERT_TRUE(sydney.has_value());
  EXPECT_EQ(iso8601(utc("2026-01-01T00:00"), *sydney), "2026-01-01T11:00:00+11:00");
  EXPECT_EQ(iso8601(utc("2026-06-13T00:00"), *sydney), "2026-06-13T10:00:00+10:00");
}

TEST(ClockForZone, ReadsPlainOffsets) {
  const auto at = utc("2026-06-13T05:00");
  for (const char* zone : {"+02:00", "+0200", "+02"}) {
    const auto clock = clock_for_zone(zone, at);
    ASSERT_TRUE(clock.has_value()) << zone;
    EXPECT_EQ(iso8601(at, *clock), "2026-06-13T07:00:00+02:00");
  }
  EXPECT_EQ(iso8601(at, clock_for_zone("-03:30", at).value()), "2026-06-13T01:30:00-03:30");
  EXPECT_EQ(iso8601(at, clock_for_zone("UTC", at).value()), "2026-06-13T05:00:00+00:00");
}

TEST(ClockForZone, NamesTheNearestZoneItKnows) {
  const auto at = utc("2026-06-13T05:00");
  const auto misspelt = clock_for_zone("Europe/Londn", at);
  ASSERT_FALSE(misspelt.has_value());
  EXPECT_EQ(misspelt.error().kind, Problem::Kind::not_found);
  EXPECT_THAT(misspelt.error().what, HasSubstr("did you mean Europe/London?"));
  EXPECT_THAT(clock_for_zone("london", at).error().what, HasSubstr("Europe/London"));
  EXPECT_THAT(clock_for_zone("+25:00", at).error().what, HasSubstr("not an offset"));
  EXPECT_THAT(clock_for_zone("  ", at).error().what, HasSubstr("is empty"));
  EXPECT_FALSE(clock_for_zone("../../etc/passwd", at).has_value());
}

TEST(ToInstant, LetsTheWrittenOffsetWin) {
  EXPECT_EQ(local("2026-06-13T07:00+02:00", "Europe/London").value(), utc("2026-06-13T05:00"));
  EXPECT_EQ(local("2026-06-13T07:00", "Europe/London").value(), utc("2026-06-13T06:00"));
  EXPECT_EQ(local("2026-12-13T07:00", "Europe/London").value(), utc("2026-12-13T07:00"));
}

TEST(ToInstant, RefusesATimeThatTheClocksSkip) {
  const auto skipped = local("2026-03-29T01:30", "Europe/London");
  ASSERT_FALSE(skipped.has_value());
  EXPECT_THAT(skipped.error().what, HasSubstr("does not exist"));
  EXPECT_THAT(skipped.error().what, HasSubstr("2026-03-29T02:30:00+01:00"));
  EXPECT_EQ(local("2026-03-29T02:00", "Europe/London").value(), utc("2026-03-29T01:00"));
  EXPECT_EQ(local("2026-03-29T00:59:59", "Europe/London").value(), utc("2026-03-29T00:59:59"));
}

TEST(ToInstant, RefusesATimeThatHappensTwice) {
  const auto twice = local("2026-10-25T01:30", "Europe/London");
  ASSERT_FALSE(twice.has_value());
  EXPECT_THAT(twice.error().where, HasSubstr("2026-10-25T01:30:00"));
  EXPECT_THAT(twice.error().what, HasSubstr("2026-10-25T01:30:00+01:00 for the first"));
  EXPECT_THAT(twice.error().what, HasSubstr("2026-10-25T01:30:00+00:00 for the second"));
  EXPECT_EQ(local("2026-10-25T02:00", "Europe/London").value(), utc("2026-10-25T02:00"));
}

TEST(ToInstant, IsTheInverseOfIso8601AllYear) {
  for (const char* zone : {"Europe/London", "America/New_York", "Australia/Lord_Howe", "Asia/Kathmandu"}) {
    const auto clock = clock_for_zone(zone, utc("2026-07-01T00:00")).value();
    for (int hour = 0; hour < 365 * 24; hour += 7) {
      const Instant at = utc("2026-01-01T00:00") + std::chrono::hours{hour};
      const auto written = parse_written_time(iso8601(at, clock)).value();
      EXPECT_EQ(to_instant(written, clock).value(), at) << zone;
      WrittenTime bare = written;
      bare.offset.reset();
      const auto read = to_instant(bare, clock);
      if (read) {
        EXPECT_EQ(*read, at) << zone << iso8601(at, clock);
      }
    }
  }
}

// Sets TZ for one test and puts it back.
class WithTz {
 public:
  explicit WithTz(const char* value) {
    if (const char* const old = std::getenv("TZ")) before_ = old;
    setenv("TZ", value, 1);
  }
  ~WithTz() {
    if (before_) {
      setenv("TZ", before_->c_str(), 1);
    } else {
      unsetenv("TZ");
    }
  }

 private:
  std::optional<std::string> before_;
};

TEST(LocalZone, FollowsTheVariableWhenItNamesAZone) {
  {
    const WithTz tz("Europe/Berlin");
    EXPECT_EQ(local_zone(), "Europe/Berlin");
  }
  {
    const WithTz tz(":/usr/share/zoneinfo/Australia/Sydney");
    EXPECT_EQ(local_zone(), "Australia/Sydney");
  }
  {
    const WithTz tz("no such place");
    EXPECT_TRUE(clock_for_zone(local_zone(), Instant{}).has_value());
  }
}

}  // namespace
}  // namespace outbye
