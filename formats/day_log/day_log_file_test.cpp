#include "formats/day_log/day_log_file.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/base/random.h"

namespace outbye {
namespace {

using ::testing::HasSubstr;

constexpr const char* head = R"({"format":"outbye day log","version":1,"ride":"Small"})";

DayLogReading read(const std::string& text) {
  const auto reading = read_day_log(text, "day.log");
  EXPECT_TRUE(reading) << reading.error().where << " " << reading.error().what;
  return reading.value_or(DayLogReading{});
}

std::string note(const std::string& id, const std::string& text) {
  return R"({"id":")" + id +
         R"(","device":"anna","noted":[1781330400000,0],"kind":"note","at":"2026-06-13T07:00:00+01:00","text":")" +
         text + "\"}\n";
}

// Every kind, with every field that it may have.
std::vector<DayEvent> full_events() {
  DayLog log;
  for (int k = 0; k <= static_cast<int>(DayKind::note); ++k) {
    DayEntry e;
    e.kind = static_cast<DayKind>(k);
    e.at = Instant{Seconds{1'781'330'400.0 + 60 * k}};
    e.place = "Ash \"corner\"";
    e.horse = "Brimstone";
    e.car = "Car 1";
    e.loop = 1;
    e.nth = 2;
    e.who = "Bj\xc3\xb8rn";
    e.text = "windy";
    e.photo = "a.jpg";
    if (e.kind == DayKind::number_seen) e.number = "17";
    if (e.kind == DayKind::watched) e.until = e.at + minutes(5);
    if (e.kind == DayKind::watched || e.kind == DayKind::watch_begin) e.overlook = 0.1;
    if (e.kind == DayKind::word) {
      e.seen_at = e.at - minutes(5);
      e.doubt = Seconds{90};
      e.trust = 0.75;
    }
    if (e.kind >= DayKind::drink && e.kind <= DayKind::feed) e.what = "bucket", e.amount = 2.5, e.unit = "L";
    if (e.kind == DayKind::stock_used || e.kind == DayKind::stock_filled) e.what = "water", e.amount = 20, e.unit = "L";
    if (e.kind == DayKind::pulse) e.beats = 60, e.presented = true;
    if (e.kind == DayKind::gate_outcome) e.accepted = false;
    EXPECT_TRUE(check_entry(e).empty()) << day_kind_name(e.kind) << " " << check_entry(e)[0].where;
    add_event(log, new_event(log, "anna", 1'781'330'400'000 + 1000 * k, e));
  }
  const std::string first = log.events[0].id;
  add_event(log, new_correction(log, "ben", 1'781'340'000'000, first, log.events[0].entry));
  add_event(log, new_withdrawal(log, "ben", 1'781'340'000'000, first));
  return log.events;
}

TEST(DayLogFile, ReadsBackWhatItWrites) {
  DayLogReading reading;
  reading.ride = "Small";
  reading.log = day_log_of(full_events());
  const auto back = read(write_day_log(reading));
  EXPECT_TRUE(back.unread.empty());
  EXPECT_EQ(back.ride, "Small");
  EXPECT_EQ(back.log, reading.log);
}

// Cut after bytes all over it: what was whole is there, what was cut is kept.
TEST(DayLogFile, LosesNothingWhereverItIsCut) {
  DayLogReading whole;
  whole.log = day_log_of(full_events());
  const std::string text = write_day_log(whole);
  const std::size_t first = text.find('\n') + 1;
  for (std::size_t cut = first; cut < text.size(); cut += 11) {
    const auto half = read_day_log(text.substr(0, cut), "day.log");
    ASSERT_TRUE(half) << cut;
    std::string kept = write_day_log(*half);
    // Same lines, in whatever order: nothing is missing.
    std::size_t from = first;
    while (from < cut) {
      const std::size_t end = std::min(text.find('\n', from), cut);
      const std::string line = text.substr(from, end - from);
      ASSERT_NE(kept.find(line), std::string::npos) << cut << ": " << line;
      from = end + 1;
    }
    ASSERT_LE(half->unread.size(), 1u);
  }
}

TEST(DayLogFile, SaysThatTheLastLineWasTornAndKeepsIt) {
  const std::string torn = note("b", "second").substr(0, 50);
  const auto reading = read(std::string(head) + "\n" + note("a", "first") + torn);
  EXPECT_EQ(reading.log.events.size(), 1u);
  ASSERT_EQ(reading.unread.size(), 1u);
  EXPECT_TRUE(reading.unread[0].is_torn);
  EXPECT_EQ(reading.unread[0].text, torn);
  EXPECT_THAT(reading.unread[0].problems[0].what, HasSubstr("cut off as it was written"));
}

TEST(DayLogFile, KeepsALineThatIsWrongAndReadsTheOthers) {
  const auto reading = read(std::string(head) + "\n" + note("a", "first") + "{\"id\": broken\n" + note("b", "third"));
  EXPECT_EQ(reading.log.events.size(), 2u);
  ASSERT_EQ(reading.unread.size(), 1u);
  EXPECT_EQ(reading.unread[0].number, 3u);
  EXPECT_FALSE(reading.unread[0].is_torn);
}

TEST(DayLogFile, ReadsTwoFilesPutOneAfterTheOther) {
  const std::string a = std::string(head) + "\n" + note("a", "first");
  const std::string b = std::string(head) + "\n" + note("a", "first") + note("b", "second");
  EXPECT_EQ(read(a + b).log, merged(read(a).log, read(b).log));
  EXPECT_TRUE(read(a + b).unread.empty());
}

TEST(DayLogFile, MergesUnreadLinesAsASetToo) {
  const auto a = read(std::string(head) + "\n{broken}\n" + note("a", "first"));
  const auto b = read(std::string(head) + "\n" + note("b", "second") + "{broken}\n{other}\n");
  EXPECT_EQ(write_day_log(merged(a, b)), write_day_log(merged(b, a)));
  EXPECT_EQ(write_day_log(merged(a, merged(a, b))), write_day_log(merged(a, b)));
  EXPECT_EQ(merged(a, b).unread.size(), 2u);
}

TEST(DayLogFile, RefusesAnotherKindOfFileAndAnotherVersion) {
  EXPECT_FALSE(read_day_log("", "day.log"));
  EXPECT_FALSE(read_day_log("hello\n", "day.log"));
  EXPECT_FALSE(read_day_log("{\"format\":\"gate log\",\"version\":1}\n", "day.log"));
  const auto newer = read_day_log("{\"format\":\"outbye day log\",\"version\":2}\n", "day.log");
  ASSERT_FALSE(newer);
  EXPECT_THAT(newer.error().what, HasSubstr("reads version 1"));
}

TEST(DayLogFile, WantsTimesWithTheirOffset) {
  const auto event =
      read_day_event(R"({"id":"a","device":"anna","noted":[1,0],"kind":"note","at":"2026-06-13T07:00:00","text":"x"})");
  ASSERT_FALSE(event);
  EXPECT_THAT(event.error().what, HasSubstr("with its offset"));
}

TEST(DayLogFile, NamesTheNearestFieldOfAMistypedOne) {
  const auto event = read_day_event(
      R"({"id":"a","device":"anna","noted":[1,0],"kind":"note","at":"2026-06-13T07:00:00Z","txet":"x"})");
  ASSERT_FALSE(event);
  EXPECT_THAT(event.error().what, HasSubstr("text"));
}

// Bytes changed at random: read or refused, never lost and never a crash.
TEST(DayLogFile, StandsDamage) {
  DayLogReading whole;
  whole.log = day_log_of(full_events());
  const std::string text = write_day_log(whole);
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    Rng rng(Seed{seed});
    std::string damaged = text;
    for (int i = 0; i < 5; ++i)
      damaged[uniform_below(rng, damaged.size())] = static_cast<char>(uniform_below(rng, 256));
    const auto reading = read_day_log(damaged, "day.log");
    if (!reading) continue;
    ASSERT_GE(reading->log.events.size() + reading->unread.size() + 6, whole.log.events.size()) << seed;
  }
}

}  // namespace
}  // namespace outbye
