#include "formats/gate_log/gate_log.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "formats/gate_log/time_on_day.h"
#include "formats/json_text/json_text.h"
#include "formats/rule_book/rule_book_file.h"
#include "formats/time_zone/time_zone.h"

namespace outbye {
namespace {

using testing::HasSubstr;

const char* const day_text = R"({
  "format": "gate log", "version": 1, "name": "Invented ride", "date": "2026-06-13", "time_zone": "Europe/London",
  "rules": {"book": "british", "level": "Open graded", "gates": [{"gate": 1, "hold_min": 35}]},
  "rider_weight_kg": 72,
  "loops": [
    {"name": "Red", "length_km": 40, "out": "07:00", "arrival": "10:32",
     "pulses": [{"at": "10:34", "bpm": 72}, {"at": "10:36", "bpm": 60, "presented": true, "accepted": true}]},
    {"name": "Blue", "length_km": 40}
  ]
})";

GateLogReading read(const std::string& text) { return read_gate_log(text, "day.json", preset_books()); }

// The text with one piece replaced.
std::string with(const std::string& old_piece, const std::string& new_piece) {
  std::string text = day_text;
  const auto at = text.find(old_piece);
  EXPECT_NE(at, std::string::npos) << old_piece;
  return text.replace(at, old_piece.size(), new_piece);
}

void expect_problem(const std::string& text, const std::string& where, const std::string& what) {
  const auto reading = read(text);
  EXPECT_FALSE(reading.log);
  ASSERT_FALSE(reading.problems.empty());
  EXPECT_THAT(reading.problems[0].where, HasSubstr(where));
  EXPECT_THAT(reading.problems[0].what, HasSubstr(what));
}

Instant london(const std::string& text) {
  return *to_instant(*parse_written_time("2026-06-13T" + text), "Europe/London");
}

TEST(GateLogFile, GivesTheDayWithTheRulesOfEachGate) {
  const auto reading = read(day_text);
  ASSERT_TRUE(reading.log) << reading.problems[0].where << " " << reading.problems[0].what;
  const auto& loops = reading.log->day.loops;
  ASSERT_EQ(loops.size(), 2U);
  EXPECT_EQ(loops[0].gate.arrival, london("10:32"));
  EXPECT_EQ(loops[0].gate.pulses.size(), 2U);
  EXPECT_EQ(loops[0].gate.pulses[1].accepted, true);
  EXPECT_EQ(loops[0].rules.hold->value, minutes(35));
  EXPECT_FALSE(loops[1].rules.hold);  // the finish
  EXPECT_EQ(reading.log->day.rider_weight->value, 72.0);
}

TEST(GateLogFile, PutsASlipRightByALaterEntry) {
  const auto reading = read(with(R"("pulses": [{"at": "10:34", "bpm": 72},)",
                                 R"("corrections": [{"arrival": "10:33"}, {"arrival": "10:33:20"}],
         "pulses": [{"at": "10:34", "bpm": 72}, {"corrects": "10:34", "at": "10:35", "bpm": 70},)"));
  ASSERT_TRUE(reading.log);
  const auto& gate = reading.log->day.loops[0].gate;
  EXPECT_EQ(gate.arrival, london("10:33:20"));
  ASSERT_EQ(gate.pulses.size(), 2U);
  EXPECT_EQ(gate.pulses[0].at, london("10:35"));
}
TEST(GateLogFile, StrikesAPulseOut) {
  const auto reading =
      read(with(R"({"at": "10:34", "bpm": 72},)", R"({"at": "10:34", "bpm": 72}, {"corrects": "10:34"},)"));
  ASSERT_TRUE(reading.log);
  EXPECT_EQ(reading.log->day.loops[0].gate.pulses.size(), 1U);
}
TEST(GateLogFile, TakesAcceptedAsPresented) {
  const auto reading = read(with(R"("presented": true, "accepted": true)", R"("accepted": true)"));
  ASSERT_TRUE(reading.log);
  EXPECT_TRUE(reading.log->day.loops[0].gate.pulses[1].presented);
}
TEST(GateLogFile, TakesFullTimesAcrossMidnight) {
  const auto reading =
      read(with(R"("out": "07:00", "arrival": "10:32")",
                R"("out": "22:00", "arrival": "2026-06-14T01:10:00+01:00", "in": "2026-06-14T01:20")"));
  ASSERT_TRUE(reading.log) << reading.problems[0].what;
  const auto& loop = reading.log->day.loops[0];
  EXPECT_EQ(*loop.gate.arrival - *loop.out, minutes(190));
}
TEST(GateLogFile, WorksWithoutABook) {
  const auto reading = read(with(R"("book": "british", "level": "Open graded",)", ""));
  ASSERT_TRUE(reading.log) << reading.problems[0].what;
  EXPECT_EQ(reading.log->day.loops[0].rules.hold->value, minutes(35));
}

TEST(GateLogFile, RefusesAnotherFormat) { expect_problem(with("gate log", "ride"), "day.json: format", "gate log"); }
TEST(GateLogFile, RefusesANewerVersion) { expect_problem(with("\"version\": 1", "\"version\": 2"), "version", "is 2"); }
TEST(GateLogFile, RefusesAPulseThatIsNone) {
  expect_problem(with("\"bpm\": 72", "\"bpm\": 720"), "day.json: loops[0].pulses[0].bpm", "between 20 and 260");
}
TEST(GateLogFile, RefusesAnUnknownFieldWithTheNearest) {
  expect_problem(with("\"arrival\"", "\"arival\""), "loops[0].arival", "did you mean 'arrival'?");
}
TEST(GateLogFile, RefusesAnUnknownBook) {
  expect_problem(with("\"british\"", "\"britsh\""), "day.json: rules.book", "did you mean 'british'?");
}
TEST(GateLogFile, RefusesAnArrivalBeforeGoingOut) {
  expect_problem(with("\"10:32\"", "\"06:32\""), "day.json: loop 1", "after midnight, write the date");
}
TEST(GateLogFile, RefusesATimeThatIsNone) { expect_problem(with("\"10:32\"", "\"10:72\""), "loops[0].arrival", ""); }
TEST(GateLogFile, ReportsAMissingDateOnce) {
  const auto reading = read(with(R"("date": "2026-06-13",)", ""));
  ASSERT_EQ(reading.problems.size(), 1U);
  EXPECT_THAT(reading.problems[0].where, HasSubstr("date"));
}
TEST(GateLogFile, RefusesACorrectionOfNothing) {
  expect_problem(with(R"({"at": "10:34", "bpm": 72},)", R"({"corrects": "10:31", "at": "10:34", "bpm": 72},)"),
                 "pulses[0].corrects", "names no pulse");
}
TEST(GateLogFile, RefusesAcceptedOfAPulseNotPresented) {
  expect_problem(with(R"("presented": true, "accepted")", R"("presented": false, "accepted")"), "accepted",
                 "not presented");
}
TEST(GateLogFile, RefusesADayWithoutLoops) {
  const auto text = std::string(day_text);
  expect_problem(text.substr(0, text.find("\"loops\"")) + "\"loops\": []}", "day.json: loops", "at least one");
}
TEST(GateLogFile, NeverCrashesOnACutFile) {
  const std::string text = day_text;
  for (std::size_t n = 0; n + 1 < text.size(); ++n) EXPECT_FALSE(read(text.substr(0, n)).log) << n;
}

TEST(TimeOnDay, TakesAClockTimeOnTheDay) {
  const auto clock = clock_for_zone("Europe/London", london("12:00"));
  EXPECT_EQ(*time_on_day("9:05", "2026-06-13", *clock), london("09:05"));
  EXPECT_EQ(*time_on_day("10:32:15", "2026-06-13", *clock), london("10:32:15"));
  EXPECT_FALSE(time_on_day("10:32", "", *clock));
  EXPECT_FALSE(time_on_day("half past ten", "2026-06-13", *clock));
}

}  // namespace
}  // namespace outbye
