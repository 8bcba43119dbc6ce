// The sheets and exports as a user makes them, and what other programs read in them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <regex>
#include <set>

#include "tests/support/cli_answers.h"

namespace outbye {
namespace {

using nlohmann::json;
using testing::HasSubstr;

void copy_good_files(const FreshFolder& folder) {
  for (const char* name : {"good.gpx", "good.osm", "good-times.csv", "good.json"}) {
    std::filesystem::copy_file(test_file(name), folder / name);
  }
  std::filesystem::create_directory(folder / "sheets");
}

// One space for any white space: lines wrap.
std::string on_one_line(const std::string& text) {
  std::string out;
  for (const char c : text) {
    const bool is_space = c == ' ' || c == '\n' || c == '\f';
    if (!is_space) out += c;
    if (is_space && !out.empty() && out.back() != ' ') out += ' ';
  }
  return out;
}

// hh:mm of an ISO 8601 time, rounded to the minute.
std::string clock_of(const std::string& iso) {
  int minutes = std::stoi(iso.substr(11, 2)) * 60 + std::stoi(iso.substr(14, 2));
  if (std::stoi(iso.substr(17, 2)) >= 30) ++minutes;
  minutes %= 24 * 60;
  const auto two = [](int n) { return (n < 10 ? "0" : "") + std::to_string(n); };
  return two(minutes / 60) + ":" + two(minutes % 60);
}

// Every time in a plan, and every name that people look for.
void collect(const json& value, const std::string& key, std::set<std::string>& times, std::set<std::string>& names) {
  static const std::regex iso("\\d{4}-\\d\\d-\\d\\dT\\d\\d:\\d\\d:\\d\\d.*");
  if (value.is_string()) {
    const auto text = value.get<std::string>();
    if (std::regex_match(text, iso)) {
      times.insert(clock_of(text));
    } else if (key == "name" || key == "rider" || key == "number" || key == "met_by" || key == "refill" ||
               key == "place") {
      if (!text.empty()) names.insert(text);
    }
  }
  if (value.is_array()) {
    for (const auto& one : value) collect(one, key, times, names);
  }
  if (value.is_object()) {
    for (const auto& [name, one] : value.items()) collect(one, name, times, names);
  }
}

TEST(FolderForTheSheets, IsMadeWhereItIsMissingAndNotItsParent) {
  FreshFolder folder;
  copy_good_files(folder);
  const auto made = run_outbye(folder, {"print", "good.json", "--out", "new", "--sheet", "rider-card"});
  EXPECT_EQ(made.code, 0) << made.err;
  EXPECT_TRUE(std::filesystem::exists(folder / "new/rider-card.pdf"));
  const auto deep = run_outbye(folder, {"print", "good.json", "--out", "none/new", "--sheet", "rider-card"});
  EXPECT_EQ(deep.code, 2);
  EXPECT_THAT(deep.err, HasSubstr("there is no folder"));
}

TEST(CrewBook, HasEveryTimeAndNameOfThePlan) {
  if (!has_program("pdftotext")) GTEST_SKIP() << "pdftotext (poppler-utils) is not there";
  FreshFolder folder;
  copy_good_files(folder);
  const auto planned = run_outbye(folder, {"plan", "good.json", "--json"});
  ASSERT_EQ(planned.code, 0) << planned.err;
  const auto made = run_outbye(folder, {"print", "good.json", "--out", "sheets", "--sheet", "crew-book"});
  ASSERT_EQ(made.code, 0) << made.err;
  const auto read = run_program(folder, {"pdftotext", "-layout", "sheets/crew-book.pdf", "-"});
  ASSERT_EQ(read.code, 0) << read.err;
  const auto flow = run_program(folder, {"pdftotext", "sheets/crew-book.pdf", "-"});
  const std::string text = on_one_line(read.out) + on_one_line(flow.out);
  std::set<std::string> times, names;
  collect(json::parse(planned.out), "", times, names);
  EXPECT_GT(times.size(), 10U);
  EXPECT_GT(names.size(), 4U);
  for (const auto& time : times) EXPECT_THAT(text, HasSubstr(time));
  for (const auto& name : names) EXPECT_THAT(text, HasSubstr(name));
}

class SheetsOn : public testing::TestWithParam<const char*> {};

TEST_P(SheetsOn, OpenWithoutComplaintWithFontsEmbeddedAndATitle) {
  if (!has_program("qpdf") || !has_program("pdffonts")) GTEST_SKIP() << "qpdf or poppler-utils is not there";
  FreshFolder folder;
  copy_good_files(folder);
  const auto made =
      run_outbye(folder, {"print", "good.json", "--out", "sheets", "--paper", GetParam(), "--mark", "third try"});
  ASSERT_EQ(made.code, 0) << made.err;
  std::size_t files = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder / "sheets")) {
    ++files;
    const std::string file = entry.path().string();
    const auto check = run_program(folder, {"qpdf", "--check", file});
    EXPECT_EQ(check.code, 0) << check.out << check.err;
    const auto info = run_program(folder, {"pdfinfo", file});
    EXPECT_EQ(info.code, 0);
    EXPECT_EQ(info.err, "");
    EXPECT_THAT(info.out, testing::ContainsRegex("Title: +[A-Z]"));
    EXPECT_THAT(info.out, testing::ContainsRegex("Tagged: +yes"));
    const std::string structure = run_program(folder, {"pdfinfo", "-struct", file}).out;
    EXPECT_THAT(structure, testing::AllOf(HasSubstr("Document"), HasSubstr("  H1"))) << file;
    if (entry.path().stem() == "crew-book") {
      EXPECT_THAT(structure, testing::AllOf(HasSubstr("  Table"), HasSubstr("    TR"), HasSubstr("      TD"))) << file;
    }
    const auto fonts = run_program(folder, {"pdffonts", file});
    std::istringstream lines(fonts.out);
    std::size_t n = 0;
    for (std::string line; std::getline(lines, line); ++n) {
      // After two lines of head: name, type, encoding, then emb sub uni.
      if (n >= 2) {
        EXPECT_THAT(line, testing::ContainsRegex(" yes yes (yes|no )"));
      }
    }
    EXPECT_GT(n, 2U);
    const auto text = on_one_line(run_program(folder, {"pdftotext", file, "-"}).out);
    const std::regex foot("Plan third try, made \\d{4}-\\d\\d-\\d\\d \\d\\d:\\d\\d · page \\d+ of (\\d+)");
    std::size_t feet = 0, pages = 0;
    for (std::sregex_iterator it(text.begin(), text.end(), foot), end; it != end; ++it) {
      ++feet;
      pages = std::stoul((*it)[1]);
    }
    EXPECT_EQ(feet, pages) << file;
    EXPECT_GT(pages, 0U);
  }
  EXPECT_EQ(files, std::string(GetParam()) == "pocket" ? 2U : 5U);
}

INSTANTIATE_TEST_SUITE_P(AllPaper, SheetsOn, testing::Values("a4", "letter", "a5", "pocket"));

TEST(Print, WritesNothingOverAFileUnlessForced) {
  FreshFolder folder;
  copy_good_files(folder);
  std::ofstream(folder / "sheets/spotter.pdf") << "mine";
  const auto run = run_outbye(folder, {"print", "good.json", "--out", "sheets"});
  EXPECT_EQ(run.code, 2);
  EXPECT_EQ(text_of(folder / "sheets/spotter.pdf"), "mine");
  EXPECT_FALSE(std::filesystem::exists(folder / "sheets/crew-book.pdf"));
  EXPECT_EQ(run_outbye(folder, {"print", "good.json", "--out", "sheets", "--sheet", "spotter", "--force"}).code, 0);
  EXPECT_EQ(text_of(folder / "sheets/spotter.pdf").substr(0, 5), "%PDF-");
}

TEST(Print, RefusesASheetThatAPocketCardHasNoRoomFor) {
  FreshFolder folder;
  copy_good_files(folder);
  const auto run =
      run_outbye(folder, {"print", "good.json", "--out", "sheets", "--paper", "pocket", "--sheet", "crew-book"});
  EXPECT_EQ(run.code, 2);
  EXPECT_THAT(run.err, HasSubstr("--paper a5"));
}

TEST(Export, IntoACalendarIsReadBackWithAnAlarmAtEachLeaveBy) {
  if (std::system("/usr/bin/python3 -c 'import icalendar' 2>/dev/null") != 0) {
    GTEST_SKIP() << "python3-icalendar is not there";
  }
  FreshFolder folder;
  copy_good_files(folder);
  ASSERT_EQ(run_outbye(folder, {"export", "good.json", "--out", "day.ics"}).code, 0);
  const auto read = run_program(
      folder, {"/usr/bin/python3", "-c",
               "import icalendar, json\n"
               "c = icalendar.Calendar.from_ical(open('day.ics','rb').read())\n"
               "e = c.walk('VEVENT')\n"
               "assert len({str(x['uid']) for x in e}) == len(e)\n"
               "assert all(x['dtend'].dt > x['dtstart'].dt for x in e)\n"
               "print(json.dumps({'events': len(e), 'alarms': sorted(a['trigger'].dt.strftime('%Y-%m-%dT%H:%M:%SZ')"
               " for x in e for a in x.walk('VALARM'))}))"});
  ASSERT_EQ(read.code, 0) << read.err;
  const json calendar = json::parse(read.out);
  // The same from the plan: a stop's leave-by is for the drive into the next stop.
  std::set<std::string> leave_bys;
  std::size_t stops = 0;
  const json plan = json::parse(run_outbye(folder, {"plan", "good.json", "--json"}).out);
  for (const auto& car : plan["cars"]) {
    const auto& all = car["stops"];
    stops += all.size();
    for (std::size_t s = 1; s < all.size(); ++s) {
      if (!all[s - 1].contains("leave_by") || all[s]["drive"]["planned_min"].get<double>() <= 0) continue;
      if (all[s]["kind"] == "meet" && all[s]["meet"] != all[s - 1]["next_meet"]) continue;
      leave_bys.insert(all[s - 1]["leave_by"].get<std::string>().substr(14, 5));  // minutes and seconds, in any zone
    }
  }
  std::set<std::string> alarms;
  for (const auto& alarm : calendar["alarms"]) alarms.insert(alarm.get<std::string>().substr(14, 5));
  EXPECT_EQ(alarms, leave_bys);
  EXPECT_FALSE(alarms.empty());
  EXPECT_GE(calendar["events"].get<std::size_t>(), stops);
}

TEST(Export, ForMapsIsReadByADeviceTool) {
  if (!has_program("gpsbabel") || !has_program("xmllint")) GTEST_SKIP() << "gpsbabel or xmllint is not there";
  FreshFolder folder;
  copy_good_files(folder);
  const json plan = json::parse(run_outbye(folder, {"plan", "good.json", "--json"}).out);
  const auto place = plan["cars"][0]["stops"][0]["place"].get<std::string>();
  for (const std::string format : {"kml", "geojson"}) {
    const std::string file = "day." + format;
    ASSERT_EQ(run_outbye(folder, {"export", "good.json", "--out", file, "--course"}).code, 0);
    const auto read = run_program(folder, {"gpsbabel", "-i", format, "-f", file, "-o", "unicsv", "-F", "-"});
    EXPECT_EQ(read.code, 0) << read.err;
    EXPECT_THAT(read.out, HasSubstr(place));
  }
  const std::string schema = std::string(OUTBYE_SOURCE) + "/tests/support/kml-2.2-subset.xsd";
  const auto lint = run_program(folder, {"xmllint", "--noout", "--nonet", "--schema", schema, "day.kml"});
  EXPECT_EQ(lint.code, 0) << lint.err;
}

TEST(Export, ForTheWatchFitsTheSchema) {
  FreshFolder folder;
  copy_good_files(folder);
  ASSERT_EQ(run_outbye(folder, {"export", "good.json", "--out", "watch.gpx", "--for", "watch"}).code, 0);
  EXPECT_THAT(text_of(folder / "watch.gpx"), HasSubstr("<time>"));
  const std::string schema = std::string(OUTBYE_SHARED) + "/data/reference/gpx-1.1.xsd";
  if (!std::filesystem::exists(schema) || !has_program("xmllint"))
    GTEST_SKIP() << "the GPX schema or xmllint is not there";
  const auto lint = run_program(folder, {"xmllint", "--noout", "--nonet", "--schema", schema, "watch.gpx"});
  EXPECT_EQ(lint.code, 0) << lint.err;
}

TEST(Export, OfTheLogIsATableInTheClockOfTheRide) {
  FreshFolder folder;
  copy_good_files(folder);
  std::ofstream(folder / "anna.log")
      << R"({"format":"outbye day log","version":1,"ride":"Bad day"})"
      << "\n"
      << R"({"id":"anna-1781331900000-0","device":"anna","noted":[1781331900000,0],"kind":"horse_in","at":"2026-06-13T06:25:00+00:00","place":"Ash"})"
      << "\n";
  std::ofstream(folder / "ben.log")
      << R"({"format":"outbye day log","version":1,"ride":"Bad day"})"
      << "\n"
      << R"({"id":"ben-1781331000000-0","device":"ben","noted":[1781331000000,0],"kind":"note","at":"2026-06-13T06:10:00+00:00","text":"gate shut"})"
      << "\n";
  const auto run =
      run_outbye(folder, {"export", "good.json", "--log", "anna.log", "--log", "ben.log", "--out", "log.csv"});
  ASSERT_EQ(run.code, 0) << run.err;
  const std::string csv = text_of(folder / "log.csv");
  EXPECT_THAT(csv, testing::ContainsRegex("2026-06-13T07:10:00\\+01:00,note,.*gate shut.*\r\n"
                                          "2026-06-13T07:25:00\\+01:00,horse_in,Ash,"));
  EXPECT_EQ(run_outbye(folder, {"export", "good.json", "--log", "anna.log", "--out", "log.kml"}).code, 2);
  EXPECT_EQ(run_outbye(folder, {"export", "good.json", "--log", "none.log", "--out", "none.csv"}).code, 2);
  EXPECT_FALSE(std::filesystem::exists(folder / "none.csv"));
}

TEST(Export, OfAMessageGoesToTheTerminal) {
  FreshFolder folder;
  copy_good_files(folder);
  const auto run = run_outbye(folder, {"export", "good.json", "--format", "text"});
  EXPECT_EQ(run.code, 0);
  EXPECT_LT(run.out.size(), 1200U);
  EXPECT_THAT(run.out, HasSubstr("Finish"));
}

TEST(Export, SaysWhichOptionsAFormatHasNoUseFor) {
  FreshFolder folder;
  copy_good_files(folder);
  const auto run = run_outbye(folder, {"export", "good.json", "--out", "day.ics", "--drive-tracks"});
  EXPECT_EQ(run.code, 2);
  EXPECT_THAT(run.err, HasSubstr("--drive-tracks"));
  EXPECT_EQ(run_outbye(folder, {"export", "good.json", "--format", "kml"}).code, 2);
}

}  // namespace
}  // namespace outbye
