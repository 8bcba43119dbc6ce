#include "core/live/day_log.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "core/base/random.h"

namespace outbye {
namespace {

using ::testing::HasSubstr;

constexpr std::int64_t morning = 1'781'330'400'000;

Instant at_minute(double minute) { return Instant{Seconds{morning / 1000.0 + 60.0 * minute}}; }

DayEntry note_of(const std::string& text, double minute) {
  DayEntry entry;
  entry.kind = DayKind::note;
  entry.at = at_minute(minute);
  entry.text = text;
  return entry;
}

// Notes, corrections and withdrawals of three devices whose clocks disagree.
std::vector<DayEvent> any_events(Rng& rng, std::size_t count) {
  DayLog log;
  const char* const devices[] = {"anna", "ben", "cara"};
  for (std::size_t i = 0; i < count; ++i) {
    const std::string device = devices[uniform_below(rng, 3)];
    const auto clock = morning + static_cast<std::int64_t>(uniform_below(rng, 600'000)) - 300'000;
    const auto minute = static_cast<double>(uniform_below(rng, 20));
    const std::uint64_t act = uniform_below(rng, 4);
    if (act < 2 || log.events.empty()) {
      add_event(log, new_event(log, device, clock, note_of("n" + std::to_string(i), minute)));
    } else {
      const std::string of = log.events[uniform_below(rng, log.events.size())].id;
      add_event(log, act == 2 ? new_correction(log, device, clock, of, note_of("c" + std::to_string(i), minute))
                              : new_withdrawal(log, device, clock, of));
    }
  }
  return log.events;
}

std::string told(const StandingLog& log) {
  std::string text;
  for (const auto& e : log.entries) text += e.id + "=" + e.entry.text + ";";
  text += "|";
  for (const auto& e : log.withdrawn) text += e.id + "=" + e.entry.text + ";";
  text += "|";
  for (const auto& w : log.warnings) text += w.where + w.what + ";";
  return text;
}

TEST(DayLog, IsTheSameInWhateverOrderEventsArrive) {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    Rng rng(Seed{seed});
    auto events = any_events(rng, 30);
    const std::string expected = told(standing(day_log_of(events)));
    shuffle(events, rng);
    DayLog arrived;
    for (const auto& event : events) add_event(arrived, event);
    ASSERT_EQ(told(standing(arrived)), expected) << "seed " << seed;
  }
}

TEST(DayLog, MergesCommutativelyAssociativelyAndIdempotently) {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    Rng rng(Seed{seed});
    const auto events = any_events(rng, 30);
    DayLog part[3];
    for (const auto& event : events) {
      const std::uint64_t holders = 1 + uniform_below(rng, 7);  // of the three logs
      for (std::uint64_t k = 0; k < 3; ++k) {
        if ((holders >> k & 1u) != 0) add_event(part[k], event);
      }
    }
    const auto& [a, b, c] = part;
    ASSERT_EQ(merged(a, b), merged(b, a)) << "seed " << seed;
    ASSERT_EQ(merged(merged(a, b), c), merged(a, merged(b, c))) << "seed " << seed;
    ASSERT_EQ(merged(a, a), a) << "seed " << seed;
    ASSERT_EQ(merged(merged(a, b), c), day_log_of(events)) << "seed " << seed;
  }
}

TEST(DayLog, NeverRunsBackwardsWhenTheDevicesClockIsPutBack) {
  DayLog log;
  add_event(log, new_event(log, "anna", morning, note_of("first", 0)));
  add_event(log, new_event(log, "anna", morning - 3'600'000, note_of("second", 1)));
  EXPECT_EQ(log.events[0].entry.text, "first");
  EXPECT_EQ(log.events[1].entry.text, "second");
  EXPECT_NE(log.events[0].id, log.events[1].id);
}

TEST(DayLog, TakesTheCorrectionNotedLast) {
  DayLog log;
  add_event(log, new_event(log, "anna", morning, note_of("seventeen", 0)));
  const std::string id = log.events[0].id;
  add_event(log, new_correction(log, "ben", morning + 1000, id, note_of("eighteen", 0)));
  add_event(log, new_correction(log, "anna", morning + 2000, id, note_of("nineteen", 0)));
  EXPECT_EQ(told(standing(log)), id + "=nineteen;||");
  EXPECT_TRUE(standing(log).entries[0].is_corrected);
}

TEST(DayLog, BringsBackWhatWasThereWhenACorrectionIsWithdrawn) {
  DayLog log;
  add_event(log, new_event(log, "anna", morning, note_of("right", 0)));
  const std::string id = log.events[0].id;
  add_event(log, new_correction(log, "ben", morning + 1000, id, note_of("wrong", 0)));
  add_event(log, new_withdrawal(log, "ben", morning + 2000, log.events[1].id));
  EXPECT_EQ(told(standing(log)), id + "=right;||");
}

TEST(DayLog, KeepsWhatIsWithdrawn) {
  DayLog log;
  add_event(log, new_event(log, "anna", morning, note_of("slip", 0)));
  const std::string id = log.events[0].id;
  add_event(log, new_withdrawal(log, "anna", morning + 1000, id));
  EXPECT_EQ(told(standing(log)), "|" + id + "=slip;|");
  add_event(log, new_withdrawal(log, "anna", morning + 2000, log.events[1].id));
  EXPECT_EQ(told(standing(log)), id + "=slip;||");
}

TEST(DayLog, CountsACorrectionOnceItsEntryHasCome) {
  DayLog whole;
  add_event(whole, new_event(whole, "anna", morning, note_of("slip", 0)));
  add_event(whole, new_correction(whole, "anna", morning + 1000, whole.events[0].id, note_of("right", 0)));
  DayLog half;
  add_event(half, whole.events[1]);
  EXPECT_TRUE(standing(half).entries.empty());
  ASSERT_EQ(standing(half).warnings.size(), 1u);
  EXPECT_THAT(standing(half).warnings[0].what, HasSubstr("will count once that event has come"));
  add_event(half, whole.events[0]);
  EXPECT_EQ(standing(half).entries[0].entry.text, "right");
}

TEST(DayLog, SaysWhenOneIdWasUsedTwice) {
  DayLog log;
  DayEvent event = new_event(log, "anna", morning, note_of("one", 0));
  add_event(log, event);
  event.entry.text = "other";
  add_event(log, event);
  EXPECT_EQ(log.events.size(), 2u);
  EXPECT_EQ(standing(log).entries.size(), 1u);
  ASSERT_EQ(standing(log).warnings.size(), 1u);
  EXPECT_THAT(standing(log).warnings[0].what, HasSubstr("twice"));
}

TEST(DayEntry, HasANameForEveryKindAndBack) {
  for (int k = 0; k <= static_cast<int>(DayKind::note); ++k) {
    const auto kind = static_cast<DayKind>(k);
    EXPECT_EQ(day_kind_named(day_kind_name(kind)), kind);
  }
}

TEST(DayEntry, NeedsAndRefusesFieldsByItsKind) {
  DayEntry entry = note_of("", 0);
  ASSERT_EQ(check_entry(entry).size(), 1u);
  entry.text = "windy";
  EXPECT_TRUE(check_entry(entry).empty());
  entry.number = "17";
  ASSERT_EQ(check_entry(entry).size(), 1u);
  EXPECT_EQ(check_entry(entry)[0].where, "number");
  entry.kind = DayKind::number_seen;
  ASSERT_EQ(check_entry(entry).size(), 1u);
  EXPECT_EQ(check_entry(entry)[0].where, "place");
}

}  // namespace
}  // namespace outbye
