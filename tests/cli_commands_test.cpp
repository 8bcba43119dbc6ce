// The commands as a user runs them: what they print, what they write, and what others make of it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <sstream>

#include "core/base/text.h"
#include "formats/ride_file/full_ride_for_test.h"
#include "formats/ride_file/ride_file.h"
#include "tests/run_outbye.h"
#include "tests/support/cli_answers.h"

namespace outbye {
namespace {

using nlohmann::json;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

// A ride of our own in the folder: course, map and drive times of tests/bad_input, which are good.
void copy_good_files(const FreshFolder& folder) {
  for (const char* name : {"good.gpx", "good.osm", "good-times.csv", "good.json"}) {
    std::filesystem::copy_file(test_file(name), folder / name);
  }
}

std::vector<std::string> new_ride(const std::string& drives, const std::string& file) {
  return {"new", "ride.json", "--course", "good.gpx", drives, file, "--start", "2026-06-13T07:00", "--speed", "12"};
}

TEST(NewThenPlan, AnswersFromACourseAndAMap) {
  FreshFolder folder;
  copy_good_files(folder);
  const auto made = run_outbye(folder, new_ride("--roads", "good.osm"));
  ASSERT_EQ(made.code, 0) << made.err;
  EXPECT_THAT(made.out, AllOf(HasSubstr("Wrote ride.json"), HasSubstr("Taken for granted"), HasSubstr("time zone"),
                              HasSubstr("Next: outbye plan ride.json")));
  const auto planned = run_outbye(folder, {"plan", "ride.json", "--json"});
  ASSERT_EQ(planned.code, 0) << planned.err;
  const json plan = json::parse(planned.out);
  ASSERT_FALSE(plan["passes"].empty());
  for (const auto& pass : plan["passes"]) {
    for (const char* quantile : {"p10", "p50", "p90"}) {
      const auto time = pass["due"][quantile].get<std::string>();
      EXPECT_EQ(time.size(), 25U) << time;  // 2026-06-13T07:00:00+01:00
      EXPECT_TRUE(parse_written_time(time)->offset) << time;
    }
    EXPECT_LE(pass["due"]["p10"], pass["due"]["p50"]);
    EXPECT_LE(pass["due"]["p50"], pass["due"]["p90"]);
  }
  for (const auto& assumption : json::parse(text_of(folder / "ride.json"))["assumptions"]) {
    const auto& shown = plan["assumptions"];
    EXPECT_NE(std::find(shown.begin(), shown.end(), assumption), shown.end()) << assumption;
  }
}

TEST(NewThenPlan, AnswersFromACourseAndDriveTimesTypedIn) {
  FreshFolder folder;
  copy_good_files(folder);
  ASSERT_EQ(run_outbye(folder, new_ride("--drive-times", "good-times.csv")).code, 0);
  const auto planned = run_outbye(folder, {"plan", "ride.json", "--json"});
  ASSERT_EQ(planned.code, 0) << planned.err;
  EXPECT_FALSE(json::parse(planned.out)["cars"][0]["stops"].empty());
}

TEST(NewThenPlan, SaysThatACourseAloneNeedsAMapOrDriveTimes) {
  FreshFolder folder;
  copy_good_files(folder);
  const auto made = run_outbye(folder, {"new", "ride.json", "--course", "good.gpx"});
  ASSERT_EQ(made.code, 0) << made.err;
  EXPECT_THAT(made.out, HasSubstr("no road map and no drive-time table yet"));
  const auto planned = run_outbye(folder, {"plan", "ride.json", "--json"});
  EXPECT_EQ(planned.code, 2);
  EXPECT_EQ(planned.out, "");
  EXPECT_THAT(planned.err, HasSubstr("give a road map (.osm.pbf) or a table of drive times (CSV)"));
}

TEST(New, NamesFilesRelativeToTheRideFile) {
  FreshFolder folder;
  copy_good_files(folder);
  std::filesystem::create_directory(folder / "rides");
  ASSERT_EQ(run_outbye(folder, {"new", "rides/ride.json", "--course", "good.gpx", "--roads", "good.osm"}).code, 0);
  EXPECT_EQ(json::parse(text_of(folder / "rides/ride.json"))["files"]["course"][0], "../good.gpx");
  EXPECT_EQ(run_outbye(folder, {"check", "rides/ride.json"}).code, 0);
}

TEST(New, WritesAFileThatItsSchemaAccepts) {
  if (!has_jsonschema()) GTEST_SKIP() << "python3-jsonschema is not installed";
  FreshFolder folder;
  copy_good_files(folder);
  ASSERT_EQ(run_outbye(folder, new_ride("--roads", "good.osm")).code, 0);
  EXPECT_EQ(validated(folder, "ride-1.json", text_of(folder / "ride.json")), "valid\n");
  EXPECT_EQ(validated(folder, "ride-1.json", write_ride_file(full_ride())), "valid\n");
  EXPECT_THAT(
      validated(folder, "ride-1.json", R"({"version": 1, "start": "2026-06-13T07:00", "files": {"corse": []}})"),
      HasSubstr("ValidationError"));
}

TEST(NewStepByStep, AsksAgainAfterABadAnswerAndTakesDefaults) {
  FreshFolder folder;
  copy_good_files(folder);
  // course: missing, then good; map; no heights; name; start: bad, then good; zone; speed: bad, then good; hold;
  // horse; two cars, first of one name; yes
  const auto run = run_outbye(folder, {"new", "ride.json"},
                              "nowhere.gpx\ngood.gpx\ngood.osm\n\nOur ride\nsoon\n2026-06-13T07:00\nEurope/London\n"
                              "fast\n11.5\n\n\nVan, van\nVan, Trailer\nyes\n");
  ASSERT_EQ(run.code, 0) << run.out << run.err;
  EXPECT_THAT(run.out, AllOf(HasSubstr("nowhere.gpx: no such file"), HasSubstr("give a number above 0"),
                             HasSubstr("'soon' is not a date and time"), HasSubstr("is there twice")));
  const auto ride = read_ride_file(text_of(folder / "ride.json"), "ride.json");
  ASSERT_TRUE(ride) << ride.error().what;
  EXPECT_EQ(ride->name, "Our ride");
  EXPECT_EQ(ride->default_pace.speed, KmPerHour{11.5});
  EXPECT_EQ(ride->default_pace.hold, minutes(40));
  ASSERT_EQ(ride->cars.size(), 2U);
  EXPECT_EQ(ride->cars[1].name, "Trailer");
  EXPECT_EQ(iso8601(ride->start, ride->clock), "2026-06-13T07:00:00+01:00");
}

TEST(NewStepByStep, WritesNothingAfterANo) {
  FreshFolder folder;
  copy_good_files(folder);
  const auto run = run_outbye(folder, {"new", "ride.json"}, "good.gpx\ngood.osm\n\n\n\n\n\n\n\n\nno\n");
  EXPECT_EQ(run.code, 1) << run.out << run.err;
  EXPECT_FALSE(std::filesystem::exists(folder / "ride.json"));
}

TEST(Plan, IsATableOf80ColumnsWithoutColourWhenPiped) {
  FreshFolder folder;
  copy_good_files(folder);
  const auto run = run_outbye(folder, {"plan", "good.json"});
  ASSERT_EQ(run.code, 0) << run.err;
  expect_at_most_80_columns(run.out);
  EXPECT_THAT(run.out, Not(HasSubstr("\033")));
  EXPECT_THAT(run.out,
              AllOf(HasSubstr("Saturday 13 June 2026, start 07:00"), HasSubstr("odds"), HasSubstr("Loop 1 Red"),
                    HasSubstr("What the plan is worth"), HasSubstr("The rules of the day win")));
  EXPECT_THAT(run.out, Not(HasSubstr("fit to continue")));
  EXPECT_EQ(run.err, "");
}

TEST(Plan, StaysIn80ColumnsWithLongAndForeignNames) {
  FreshFolder folder;
  copy_good_files(folder);
  std::string course = text_of(folder / "good.gpx");
  const auto rename = [&course](const std::string& was, const std::string& is) {
    course.replace(course.find(was), was.size(), is);
  };
  rename("<name>Birch<", "<name>Llanfairpwllgwyngyllgogerychwyrndrobwllllantysiliogogogoch Bridge, lower car park<");
  rename("<name>Ford<", "<name>水車小屋の前の浅瀬の駐車場と給水所の北側の入口<");
  rename("<name>Red<", "<name>Große Runde über die Hochfläche und zurück durch das Tal der tausend Mühlen<");
  std::ofstream(folder / "long.gpx") << course;
  const auto made = run_outbye(
      folder, {"new", "long.json", "--course", "long.gpx", "--roads", "good.osm", "--car",
               "The big white van with the trailer behind it", "--horse", "Søren's Æthelflæd of the Thousand Hills"});
  ASSERT_EQ(made.code, 0) << made.err;
  expect_at_most_80_columns(made.out);
  for (const auto& words : {std::vector<std::string>{"plan", "long.json", "--turns", "--what-if", "extra car"},
                            std::vector<std::string>{"check", "long.json"}}) {
    const auto run = run_outbye(folder, words);
    ASSERT_EQ(run.code, 0) << run.err;
    expect_at_most_80_columns(run.out);
  }
}

TEST(Plan, IsTheSameBytesForTheSameSeedAndOthersForAnother) {
  FreshFolder folder;
  copy_good_files(folder);
  for (const std::string form : {"--json", "--turns"}) {
    const auto first = run_outbye(folder, {"plan", "good.json", form, "--seed", "7"});
    ASSERT_EQ(first.code, 0) << first.err;
    EXPECT_EQ(run_outbye(folder, {"plan", "good.json", form, "--seed", "7"}).out, first.out);
    EXPECT_NE(run_outbye(folder, {"plan", "good.json", form, "--seed", "8"}).out, first.out);
  }
}

TEST(Plan, InJsonIsAcceptedByItsSchemaAlsoWithWhatIfs) {
  if (!has_jsonschema()) GTEST_SKIP() << "python3-jsonschema is not installed";
  FreshFolder folder;
  copy_good_files(folder);
  const auto run = run_outbye(folder, {"plan", "good.json", "--json", "--what-if", "stop Ford +5min", "--what-if",
                                       "start +30min", "--what-if", "without Birch", "--what-if", "extra car"});
  ASSERT_EQ(run.code, 0) << run.err;
  EXPECT_EQ(validated(folder, "plan-1.json", run.out), "valid\n");
  EXPECT_EQ(json::parse(run.out)["what_ifs"].size(), 4U);
  // The schema can fail: a window without its median is refused.
  json broken = json::parse(run.out);
  broken["passes"][0]["due"].erase("p50");
  EXPECT_THAT(validated(folder, "plan-1.json", broken.dump()), HasSubstr("'p50' is a required property"));
}

TEST(Plan, AnswersWhatIfsInWords) {
  FreshFolder folder;
  copy_good_files(folder);
  const auto run = run_outbye(folder, {"plan", "good.json", "--what-if", "without Birch"});
  ASSERT_EQ(run.code, 0) << run.err;
  EXPECT_THAT(run.out, AllOf(HasSubstr("What if: without Birch"), HasSubstr("points")));
}

TEST(Plan, HasColoursWhenAskedAndNeverWithNoColor) {
  FreshFolder folder;
  copy_good_files(folder);
  EXPECT_THAT(run_outbye(folder, {"plan", "good.json", "--color", "always"}).out, HasSubstr("\033[1m"));
  if (!has_program("script")) GTEST_SKIP() << "script (bsdutils) is not there to make a terminal";
  const std::string plan = std::string(OUTBYE_BUILD) + "/outbye plan good.json";
  EXPECT_THAT(run_program(folder, {"script", "-qec", plan, "/dev/null"}).out, HasSubstr("\033[1m"));
  EXPECT_THAT(run_program(folder, {"script", "-qec", "NO_COLOR=1 " + plan, "/dev/null"}).out,
              Not(HasSubstr("\033[1m")));
  EXPECT_THAT(run_program(folder, {"script", "-qec", plan + " --color never", "/dev/null"}).out,
              Not(HasSubstr("\033[1m")));
}

TEST(Export, WritesGpxThatTheSchemaAndADeviceToolAccept) {
  FreshFolder folder;
  copy_good_files(folder);
  const auto run =
      run_outbye(folder, {"export", "good.json", "--out", "meets.gpx", "--course", "--drive-tracks", "--all-points"});
  ASSERT_EQ(run.code, 0) << run.err;
  const std::string gpx = text_of(folder / "meets.gpx");
  EXPECT_THAT(gpx, AllOf(HasSubstr("<wpt "), HasSubstr("due "), HasSubstr("<rte>"), HasSubstr("<trk>")));
  const std::string schema = std::string(OUTBYE_SHARED) + "/data/reference/gpx-1.1.xsd";
  if (std::filesystem::exists(schema) && has_program("xmllint")) {
    const auto lint = run_program(folder, {"xmllint", "--noout", "--nonet", "--schema", schema, "meets.gpx"});
    EXPECT_EQ(lint.code, 0) << lint.err;
  }
  if (has_program("gpsbabel")) {
    const auto read = run_program(folder, {"gpsbabel", "-i", "gpx", "-f", "meets.gpx", "-o", "unicsv", "-F", "-"});
    EXPECT_EQ(read.code, 0) << read.err;
    EXPECT_THAT(read.out, HasSubstr("finish"));
  }
  const auto again = run_outbye(
      folder, {"export", "good.json", "--out", "meets.gpx", "--course", "--drive-tracks", "--all-points", "--force"});
  EXPECT_EQ(again.code, 0) << again.err;
  EXPECT_EQ(text_of(folder / "meets.gpx"), gpx);
}

TEST(Check, ShowsLoopsAndPassesOfACourseAlone) {
  FreshFolder folder;
  copy_good_files(folder);
  const auto run = run_outbye(folder, {"check", "good.gpx"});
  ASSERT_EQ(run.code, 0) << run.err;
  expect_at_most_80_columns(run.out);
  // Drawn as a square of 3 km with a corner at each crew point.
  EXPECT_THAT(run.out, AllOf(HasSubstr("1 Red"), HasSubstr("2 Blue"), HasSubstr("Birch"), HasSubstr("6.0")));
  const auto as_json = run_outbye(folder, {"check", "good.gpx", "--json"});
  ASSERT_EQ(as_json.code, 0);
  const json check = json::parse(as_json.out);
  EXPECT_NEAR(check["course"]["loops"][0]["length_km"].get<double>(), 12.0, 0.05);
  if (has_jsonschema()) {
    EXPECT_EQ(validated(folder, "check-1.json", as_json.out), "valid\n");
  }
}

TEST(Roads, DrivesBetweenPlacesAndComesFromTheCacheTheSecondTime) {
  FreshFolder folder;
  copy_good_files(folder);
  const auto first = run_outbye(folder, {"roads", "good.json"});
  ASSERT_EQ(first.code, 0) << first.err;
  EXPECT_THAT(first.out, HasSubstr("Imported; next time it comes from the cache"));
  EXPECT_THAT(run_outbye(folder, {"roads", "good.json"}).out, HasSubstr("Taken from the cache"));
  const auto drive = run_outbye(folder, {"roads", "good.json", "--from", "Ford", "--to", "birch", "--json"});
  ASSERT_EQ(drive.code, 0) << drive.err;
  const json answer = json::parse(drive.out);
  EXPECT_NEAR(answer["drive"]["length_km"].get<double>(), 3.0, 0.02);  // along North Road, drawn 3 km long
  if (has_jsonschema()) {
    EXPECT_EQ(validated(folder, "roads-1.json", drive.out), "valid\n");
  }
  EXPECT_THAT(run_outbye(folder, {"roads", "good.osm", "--from", "54.5,-2.5", "--to", "54.52695,-2.5"}).out,
              HasSubstr("Fell Road"));
}

TEST(Output, ThatCannotBeWrittenIsCodeOneWithAMessage) {
  if (!std::filesystem::exists("/dev/full")) GTEST_SKIP() << "no /dev/full here";
  FreshFolder folder;
  copy_good_files(folder);
  const auto run = run_program(folder, {std::string(OUTBYE_BUILD) + "/outbye", "check", "good.gpx"}, "", "/dev/full");
  EXPECT_EQ(run.code, 1);
  EXPECT_THAT(run.err, HasSubstr("standard output: cannot be written"));
}

TEST(Output, ToAReaderThatHasGoneIsNoError) {
  FreshFolder folder;
  copy_good_files(folder);
  const std::string command = "set -o pipefail; " + std::string(OUTBYE_BUILD) + "/outbye check good.gpx | true";
  const auto run = run_program(folder, {"bash", "-c", command});
  EXPECT_EQ(run.code, 0);
  EXPECT_EQ(run.err, "");
}

// A preset as JSON is a book of one's own: it validates, and shown from the file it reads the same.
TEST(Rules, ShowABookAndTakeItsJsonBackAsAFile) {
  FreshFolder folder;
  for (const std::string book : {"international", "british", "american", "french", "dutch", "australian"}) {
    const auto shown = run_outbye(folder, {"rules", book});
    ASSERT_EQ(shown.code, 0) << shown.err;
    expect_at_most_80_columns(shown.out);
    const auto as_json = run_outbye(folder, {"rules", book, "--json"});
    std::ofstream(folder / "own.json") << as_json.out;
    EXPECT_EQ(run_outbye(folder, {"rules", "--file", "own.json"}).out, shown.out);
    if (has_jsonschema()) {
      EXPECT_EQ(validated(folder, "rule-book-1.json", as_json.out), "valid\n") << book;
    }
  }
}

TEST(Rules, SayHowFarEachNumberCanBeTrustedAndThatTheRulesOfTheDayWin) {
  FreshFolder folder;
  const auto shown = run_outbye(folder, {"rules", "international", "--level", "1*"});
  ASSERT_EQ(shown.code, 0) << shown.err;
  EXPECT_THAT(shown.out, AllOf(HasSubstr("100 to 119 km     published; FEI Endurance"),
                               HasSubstr("hold                           40 min            from memory"),
                               HasSubstr("The rules of the day win"), Not(HasSubstr("120 to 139 km"))));
}

TEST(Rules, WithoutABookListThemAll) {
  FreshFolder folder;
  const auto listed = run_outbye(folder, {"rules"});
  ASSERT_EQ(listed.code, 0) << listed.err;
  expect_at_most_80_columns(listed.out);
  const auto as_json = json::parse(run_outbye(folder, {"rules", "--json"}).out);
  EXPECT_EQ(as_json["books"].size(), 6U);
  for (const auto& book : as_json["books"]) EXPECT_THAT(listed.out, HasSubstr(book["id"].get<std::string>()));
}

TEST(Help, OfEverySubcommandHasAnExampleAndFits80Columns) {
  FreshFolder folder;
  for (const std::string sub : {"", "new", "check", "plan", "heat", "kit", "day", "gate", "jobs", "load", "roads",
                                "rules", "export", "print", "pack", "completion", "manual"}) {
    std::vector<std::string> words{"--help"};
    if (!sub.empty()) words.insert(words.begin(), sub);
    const auto run = run_outbye(folder, words);
    EXPECT_EQ(run.code, 0) << sub;
    EXPECT_THAT(run.out, AllOf(HasSubstr("usage: outbye"), HasSubstr("Example: "))) << sub;
    expect_at_most_80_columns(run.out);
  }
}

TEST(Completion, InBashOffersSubcommandsOptionsAndChoices) {
  FreshFolder folder;
  const auto offered = [&](const std::string& words, int at) {
    const std::string script = "source <(" + std::string(OUTBYE_BUILD) +
                               "/outbye completion bash) || exit 1\nCOMP_WORDS=(" + words +
                               ")\nCOMP_CWORD=" + std::to_string(at) + "\n_outbye\nprintf '%s\\n' \"${COMPREPLY[@]}\"";
    return run_program(folder, {"bash", "-c", script}).out;
  };
  EXPECT_EQ(offered("outbye pl", 1), "plan\n");
  EXPECT_EQ(offered("outbye plan --wh", 2), "--what-if\n");
  EXPECT_EQ(offered("outbye plan ride.json --color al", 4), "always\n");
  EXPECT_EQ(offered("outbye completion z", 2), "zsh\n");
  std::ofstream(folder / "my ride.json") << "{}";
  EXPECT_EQ(offered("outbye plan my", 2), "my ride.json\n");
}

TEST(Completion, ForZshAndFishKnowsEverySubcommand) {
  FreshFolder folder;
  for (const std::string shell : {"zsh", "fish"}) {
    const auto run = run_outbye(folder, {"completion", shell});
    EXPECT_EQ(run.code, 0);
    for (const char* sub : {"new", "check", "plan", "heat", "kit", "day", "gate", "jobs", "load", "roads", "rules",
                            "export", "print", "pack", "completion", "manual"}) {
      EXPECT_THAT(run.out, HasSubstr(sub)) << shell;
    }
    if (has_program(shell)) {
      std::ofstream(folder / "completion") << run.out;
      EXPECT_EQ(run_program(folder, {shell, "-n", "completion"}).code, 0) << shell;
    }
  }
}

TEST(Manual, HasAPageForEverySubcommandThatTheCheckerAccepts) {
  FreshFolder folder;
  std::filesystem::create_directory(folder / "man1");
  ASSERT_EQ(run_outbye(folder, {"manual", "man1"}).code, 0);
  for (const char* page :
       {"outbye", "outbye-new", "outbye-check", "outbye-plan", "outbye-day", "outbye-serve", "outbye-roads",
        "outbye-heat", "outbye-kit", "outbye-load", "outbye-jobs", "outbye-rules", "outbye-gate", "outbye-export"}) {
    EXPECT_TRUE(std::filesystem::exists(folder / ("man1/" + std::string(page) + ".1"))) << page;
  }
  for (const auto& entry : std::filesystem::directory_iterator(folder / "man1")) {
    EXPECT_THAT(text_of(entry.path()), HasSubstr(".SH EXIT STATUS"));
    if (!has_program("mandoc")) continue;
    const auto lint = run_program(folder, {"mandoc", "-T", "lint", "-W", "warning", entry.path().string()});
    EXPECT_EQ(lint.code, 0) << lint.out << lint.err;
  }
}

}  // namespace
}  // namespace outbye
