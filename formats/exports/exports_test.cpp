#include "formats/exports/exports.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "formats/csv/csv.h"
#include "formats/exports/plan_words.h"
#include "formats/picture/sketch.h"
#include "formats/plan_json/small_plan_for_test.h"

namespace outbye {
namespace {

using testing::AllOf;
using testing::ContainsRegex;
using testing::HasSubstr;
using testing::Not;

const Instant made = std::chrono::sys_days{std::chrono::year{2026} / 6 / 12};

RidePlan plan_with_hard_names() {
  RidePlan plan = small_plan();
  plan.ride.name = "Hollin & <Dale>, \"the\" ride; \\ ünïcode";
  plan.task.cars[0].name = "=cmd, \"Van\"";
  plan.places[1].name = "Ford; a, b\nline";
  return plan;
}

TEST(PlanWords, TellTheDayWhereItIsNotTheStarts) {
  const RidePlan plan = small_plan();  // a Saturday, one hour ahead of UTC
  EXPECT_EQ(time_words(plan.ride.start, plan), "07:00");
  EXPECT_EQ(time_words(plan.ride.start + minutes(17 * 60) - Seconds{20}, plan), "Sun 00:00");
  EXPECT_EQ(time_words(plan.ride.start + minutes(17 * 60) - Seconds{40}, plan), "23:59");
}

TEST(PlanWords, NameMeets) {
  const RidePlan plan = small_plan();
  EXPECT_EQ(meet_words(plan, MeetOptionId{0}), "Ford, loop 1");
  EXPECT_EQ(meet_words(plan, MeetOptionId{2}), "Vet gate 1, Venue");
  EXPECT_EQ(meet_words(plan, MeetOptionId{3}), "Finish, Venue");
}

Instant on_day(int hour, int minute) { return small_plan().ride.start + minutes(60 * (hour - 7) + minute); }

std::vector<std::vector<std::string>> cells_of(const std::string& csv) {
  std::vector<std::vector<std::string>> rows;
  const auto read = read_csv(csv, ',', "log.csv");
  for (const CsvRow& row : *read) {
    rows.emplace_back();
    for (const CsvCell& cell : row.cells) rows.back().push_back(cell.text);
  }
  return rows;
}

TEST(LogCsv, HasEachEntryAsItStandsAndThoseTakenBackLast) {
  DayLog log;
  const auto enter = [&log](DayEntry entry) {
    const DayEvent event =
        new_event(log, "anna", 1'781'330'400'000 + static_cast<std::int64_t>(log.events.size()), entry);
    add_event(log, event);
    return event.id;
  };
  DayEntry in;
  in.kind = DayKind::horse_in;
  in.place = "Ford";
  in.at = on_day(8, 10);
  const std::string wrong = enter(in);
  DayEntry drink;
  drink.kind = DayKind::drink;
  drink.at = on_day(7, 50);
  drink.what = "=bucket, \"blue\"";
  drink.amount = 9.5;
  drink.unit = "L";
  enter(drink);
  DayEntry note;
  note.at = on_day(7, 30);
  note.text = "two\nlines";
  const std::string gone = enter(note);
  in.at = on_day(8, 2);
  add_event(log, new_correction(log, "ben", 1'781'330'500'000, wrong, in));
  add_event(log, new_withdrawal(log, "ben", 1'781'330'600'000, gone));

  const std::string csv = log_csv(log, small_plan().ride.clock);
  const auto rows = cells_of(csv);
  ASSERT_EQ(rows.size(), 4U);
  EXPECT_EQ(rows[0][0], "at");
  EXPECT_EQ(rows[1][1], "drink");
  EXPECT_EQ(rows[1][12], "'=bucket, \"blue\"");
  EXPECT_EQ(rows[1][13], "9.5");
  EXPECT_EQ(rows[2][0], "2026-06-13T08:02:00+01:00");
  EXPECT_EQ(rows[2][2], "Ford");
  EXPECT_EQ(rows[2][18], "corrected");
  EXPECT_EQ(rows[2][19], "ben");
  EXPECT_EQ(rows[3][16], "two\nlines");
  EXPECT_EQ(rows[3][18], "withdrawn");
  for (const auto& row : rows) EXPECT_EQ(row.size(), rows[0].size());
}

TEST(LogCsv, OfAnEmptyLogIsTheHeadAlone) { EXPECT_EQ(cells_of(log_csv({}, small_plan().ride.clock)).size(), 1U); }

TEST(Kml, EscapesNamesAndHasStopsDrivesAndCourse) {
  const std::string kml = plan_kml(plan_with_hard_names(), {});
  EXPECT_THAT(kml, AllOf(HasSubstr("Hollin &amp; &lt;Dale&gt;"), HasSubstr("<name>01 Ford; a, b"),
                         HasSubstr("<LineString>"), HasSubstr("<name>Loop 1, Red</name>"),
                         HasSubstr("-2.5000000,54.5200000"), HasSubstr("<name>Crew points without a stop</name>")));
  EXPECT_THAT(plan_kml(plan_with_hard_names(), {{}, false}), Not(HasSubstr("Loop 1, Red")));
}

TEST(GeoJson, IsAFeatureCollectionWithLongitudeFirst) {
  const auto json = nlohmann::json::parse(plan_geojson(plan_with_hard_names(), {}));
  EXPECT_EQ(json["type"], "FeatureCollection");
  const auto& ford = json["features"][0];
  EXPECT_EQ(ford["geometry"]["coordinates"], nlohmann::json::parse("[-2.5, 54.52]"));
  EXPECT_EQ(ford["properties"]["due"]["p50"], "2026-06-13T07:30:00+01:00");
  EXPECT_EQ(ford["properties"]["kind"], "meet");
}

TEST(GeoJson, CutsLinesAtTheAntimeridian) {
  RidePlan plan = small_plan();
  plan.survey.course.loops[0].points = {{{10, 179}, Metres{0}, {}}, {{12, -179}, Metres{1000}, {}}};
  const auto json = nlohmann::json::parse(plan_geojson(plan, {}));
  for (const auto& feature : json["features"]) {
    if (feature["properties"]["name"] != "Loop 1, Red") continue;
    EXPECT_EQ(feature["geometry"]["type"], "MultiLineString");
    EXPECT_EQ(feature["geometry"]["coordinates"], nlohmann::json::parse("[[[179,10],[180,11]],[[-180,11],[-179,12]]]"));
    return;
  }
  FAIL() << "no loop";
}

TEST(Csv, HasARowForEachStopAndEachPassNotMet) {
  const std::string csv = plan_csv(plan_with_hard_names(), {});
  const auto rows = read_csv(csv, ',', "plan.csv");
  ASSERT_TRUE(rows);
  ASSERT_EQ(rows->size(), 1U + 3U + 2U);  // Tor and the gate are not met
  EXPECT_EQ(rows->front().cells.size(), 22U);
  EXPECT_EQ((*rows)[1].cells[1].text, "'=cmd, \"Van\"");
  EXPECT_EQ((*rows)[1].cells[3].text, "Ford; a, b\nline, loop 1");
  EXPECT_THAT(csv, ContainsRegex("\r\n$"));
}

TEST(Calendar, FoldsLinesWithoutTearingCharacters) {
  RidePlan plan = plan_with_hard_names();
  plan.places[1].name = std::string(30, 'x');
  for (int i = 0; i < 60; ++i) plan.places[1].name += "ü";
  const std::string ics = plan_calendar(plan, {}, made);
  std::size_t from = 0;
  while (from < ics.size()) {
    const std::size_t to = ics.find("\r\n", from);
    ASSERT_NE(to, std::string::npos);
    EXPECT_LE(to - from, 75U);
    EXPECT_NE(static_cast<unsigned char>(ics[from]) & 0xC0U, 0x80U);  // a continuation byte never begins a line
    if (ics[from] == ' ') {
      EXPECT_NE(static_cast<unsigned char>(ics[from + 1]) & 0xC0U, 0x80U);
    }
    from = to + 2;
  }
}

TEST(Calendar, RingsAtTheLeaveByOfEachDrive) {
  RidePlan plan = small_plan();
  plan.plan.days[0].stops[2].drive_planned = minutes(5);
  plan.plan.days[0].stops[1].leave_by = plan.ride.start + minutes(170);
  plan.plan.days[0].stops[1].next_meet = MeetOptionId{3};
  EXPECT_THAT(plan_calendar(plan, {}, made), HasSubstr("TRIGGER;VALUE=DATE-TIME:20260613T085000Z\r\n"));
}

TEST(Digest, TellsTheWholeSmallDay) {
  const std::string text = plan_digest(small_plan(), {});
  EXPECT_THAT(text, AllOf(HasSubstr("Hollin Dale, 2026-06-13, start 07:00"),
                          HasSubstr("07:30 (07:28-07:33) Ford, loop 1: go 07:00"), HasSubstr("Refill: Tap Green"),
                          HasSubstr("Finish Juno 10:15 (10:04-10:30)")));
}

TEST(Digest, StaysUnderTwelveHundredCharactersHoweverLongTheDay) {
  for (const std::size_t passes : {1U, 4U, 20U, 60U}) {
    for (const std::size_t cars : {1U, 5U}) {
      PlanSketch sketch;
      sketch.passes_per_loop = passes;
      sketch.cars = cars;
      sketch.horses = cars > 1 ? 2 : 1;
      sketch.point_name = "Pühlmühle beim sehr langen Namen am Rande der Welt";
      const std::string text = plan_digest(sketch_plan(sketch), {});
      std::size_t characters = 0;
      for (const char c : text) characters += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1 : 0;
      EXPECT_LT(characters, 1200U);
      EXPECT_GT(characters, 100U);
    }
  }
}

}  // namespace
}  // namespace outbye
