// A packed ride as a user makes it, with a small made-up page and engine: what is in it, and that it is there whole or
// not at all. What the real page makes of it is walked through in tests/web.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/resource.h>

#include <set>

#include "formats/pack/packed_files.h"
#include "formats/packed_ride/packed_ride.h"
#include "tests/support/cli_answers.h"

namespace outbye {
namespace {

using nlohmann::json;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsSupersetOf;
using ::testing::Not;
namespace fs = std::filesystem;

class Packing : public testing::Test {
 protected:
  Packing() {
    for (const char* name : {"good.gpx", "good.osm", "good-times.csv", "good.json"}) {
      fs::copy_file(test_file(name), folder / name);
    }
    write("page/index.html",
          "<!doctype html><html><head><meta charset=\"utf-8\"><title>Day</title>"
          "<link rel=\"manifest\" href=\"manifest.webmanifest\"><link rel=\"icon\" href=\"icons/icon-192.png\">"
          "<script type=\"module\" src=\"./day.js\"></script><link rel=\"stylesheet\" href=\"./day.css\"></head>"
          "<body><div id=\"page\"></div></body></html>");
    write("page/day.js", "document.title = '</script>';");
    write("page/day.css", "body { color: black }");
    write("page/sw.js", "self;");
    write("engine/outbye_day.js", "var Engine;");
    write("engine/outbye_day.wasm", std::string("\0asm\1\0\0\0", 8));
  }

  void write(const std::string& name, const std::string& text) {
    fs::create_directories(fs::path(folder / name).parent_path());
    std::ofstream(folder / name, std::ios::binary) << text;
  }
  ProgramRun pack(std::vector<std::string> more, const std::string& ride = "good.json") {
    std::vector<std::string> words{"pack", ride, "--page", "page", "--engine", "engine"};
    words.insert(words.end(), more.begin(), more.end());
    return run_outbye(folder, words);
  }
  // Everything in a folder, "sheets/crew-book.pdf".
  std::set<std::string> names_in(const std::string& name) const {
    std::set<std::string> names;
    for (const auto& one : fs::recursive_directory_iterator(folder / name)) {
      if (one.is_regular_file()) names.insert(one.path().lexically_relative(folder / name).generic_string());
    }
    return names;
  }
  // What lies beside: a part that was left behind shows here.
  std::set<std::string> names_here() const {
    std::set<std::string> names;
    for (const auto& one : fs::directory_iterator(folder.here())) names.insert(one.path().filename().string());
    return names;
  }

  FreshFolder folder;
};

TEST_F(Packing, MakesAFolderWithAllThatAPhoneNeeds) {
  const auto run = pack({"--out", "day"});
  ASSERT_EQ(run.code, 0) << run.err;
  EXPECT_THAT(names_in("day"),
              IsSupersetOf({"index.html", "day.js", "day.css", "sw.js", "ride.json", "page.json", "files.json",
                            "manifest.webmanifest", "outbye_day.js", "outbye_day.wasm", "day.ics", "icons/icon-192.png",
                            "icons/icon-512.png", "icons/touch-180.png", "sheets/crew-book.pdf",
                            "sheets/rider-card.pdf", "sheets/kit-list.pdf"}));
  EXPECT_THAT(run.out, HasSubstr("Wrote day: "));
  EXPECT_THAT(run.out, HasSubstr(" kB (ride "));
}

TEST_F(Packing, ListsEveryFileAsItIs) {
  ASSERT_EQ(pack({"--out", "day"}).code, 0);
  std::set<std::string> listed{"files.json"};
  const auto files = json::parse(text_of(folder / "day/files.json"));
  for (const auto& file : files["files"]) {
    const std::string name = file["file"];
    listed.insert(name);
    const std::string bytes = text_of(folder / ("day/" + name));
    EXPECT_EQ(file["bytes"], bytes.size()) << name;
    EXPECT_EQ(file["sha256"], sha256(bytes)) << name;
  }
  EXPECT_EQ(listed, names_in("day"));
}

TEST_F(Packing, HoldsThePlanThatWasMadeAndItsSheetsName) {
  ASSERT_EQ(pack({"--out", "day"}).code, 0);
  const auto opened = open_packed_ride(text_of(folder / "day/ride.json"));
  ASSERT_TRUE(opened) << opened.error().what;
  const auto planned = json::parse(run_outbye(folder, {"plan", "good.json", "--json"}).out);
  EXPECT_NEAR(opened->plan.value.worth, planned["value"]["worth_points"].get<double>(), 1e-3);
  const auto page = json::parse(text_of(folder / "day/page.json"));
  ASSERT_FALSE(page["sheets"].empty());
  for (const auto& sheet : page["sheets"]) {
    const std::string bytes = text_of(folder / ("day/" + sheet["file"].get<std::string>()));
    EXPECT_EQ(bytes.substr(0, 5), "%PDF-");
    EXPECT_EQ(sheet["bytes"], bytes.size());
  }
  EXPECT_THAT(text_of(folder / "day/day.ics"), HasSubstr("BEGIN:VALARM"));
}

TEST_F(Packing, WritesWhatItsSchemasSay) {
  if (!has_jsonschema()) GTEST_SKIP() << "python3-jsonschema is not there";
  const auto run = pack({"--out", "day", "--single-file", "day.html", "--json"});
  ASSERT_EQ(run.code, 0) << run.err;
  EXPECT_EQ(validated(folder, "pack-1.json", run.out), "valid\n");
  EXPECT_EQ(validated(folder, "page-1.json", text_of(folder / "day/page.json")), "valid\n");
  EXPECT_EQ(validated(folder, "packed-files-1.json", text_of(folder / "day/files.json")), "valid\n");
}

TEST_F(Packing, DrawsMapsThatXmlReadersTake) {
  if (!has_program("xmllint")) GTEST_SKIP() << "xmllint (libxml2-utils) is not there";
  ASSERT_EQ(pack({"--out", "day"}).code, 0);
  const auto page = json::parse(text_of(folder / "day/page.json"));
  ASSERT_EQ(page["maps"].size(), page["places"].size() + 1);
  for (std::size_t m = 0; m < page["maps"].size(); ++m) {
    write("map.svg", page["maps"][m]["svg"]);
    const auto read = run_program(folder, {"xmllint", "--noout", folder / "map.svg"});
    EXPECT_EQ(read.code, 0) << read.err;
  }
}

TEST_F(Packing, PutsAllOfItIntoOneFile) {
  const auto run = pack({"--single-file", "day.html"});
  ASSERT_EQ(run.code, 0) << run.err;
  const std::string html = text_of(folder / "day.html");
  const auto element = [&](const std::string& id) {
    const auto from = html.find('>', html.find(" id=\"" + id + "\"")) + 1;
    return html.substr(from, html.find("</script>", from) - from);
  };
  const auto page = json::parse(element("outbye-page"));
  EXPECT_EQ(page["format"], "outbye page");
  EXPECT_THAT(page["sheets"][0]["file"].get<std::string>(), HasSubstr("data:application/pdf;base64,"));
  EXPECT_TRUE(open_packed_ride(element("outbye-ride")));
  EXPECT_EQ(element("outbye-wasm"), base64(std::string("\0asm\1\0\0\0", 8)));
  EXPECT_EQ(element("outbye-engine"), "var Engine;");
  EXPECT_THAT(html, Not(HasSubstr("src=\"./")));
  EXPECT_FALSE(fs::exists(folder / "day"));
}

TEST_F(Packing, TakesPhotosAlongAndSaysWhichAreNotThere) {
  auto ride = json::parse(text_of(folder / "good.json"));
  ride["crew_points"] = json::array({{{"name", "Ford"}}, {{"name", "Birch"}}});
  ride["crew_points"][0]["photos"] = json::array(
      {{{"file", "pictures/Ford No 1.jpg"}, {"alt", "the ford"}}, {{"file", "lost.jpg"}, {"alt", "the gate"}}});
  write("with-photos.json", ride.dump());
  write("pictures/Ford No 1.jpg", "JPEG");
  const auto run = pack({"--out", "day"}, "with-photos.json");
  ASSERT_EQ(run.code, 0) << run.err;
  EXPECT_EQ(text_of(folder / "day/photos/1-ford-no-1.jpg"), "JPEG");
  EXPECT_THAT(run.err, HasSubstr("lost.jpg"));
}

TEST_F(Packing, LeavesAFolderThatIsThereAsItIs) {
  write("day/mine.txt", "mine");
  const auto run = pack({"--out", "day"});
  EXPECT_EQ(run.code, 2);
  EXPECT_THAT(run.err, HasSubstr("is already there"));
  const auto forced = pack({"--out", "day", "--force"});
  EXPECT_EQ(forced.code, 2);
  EXPECT_THAT(forced.err, HasSubstr("is a folder of other things"));
  EXPECT_EQ(names_in("day"), std::set<std::string>{"mine.txt"});
}

TEST_F(Packing, WithForceReplacesItsOwnFilesAndKeepsTheOthers) {
  ASSERT_EQ(pack({"--out", "day"}).code, 0);
  const auto before = names_here();
  write("day/mine.txt", "mine");
  write("day/more/mine.txt", "more");
  fs::rename(folder / "page/day.css", folder / "page/look.css");
  const auto html = text_of(folder / "page/index.html");
  write("page/index.html", html.substr(0, html.find("day.css")) + "look.css" + html.substr(html.find("day.css") + 7));
  EXPECT_EQ(pack({"--out", "day"}).code, 2);
  const auto run = pack({"--out", "day", "--force"});
  ASSERT_EQ(run.code, 0) << run.err;
  const auto names = names_in("day");
  EXPECT_THAT(names, Contains("look.css"));
  EXPECT_THAT(names, Not(Contains("day.css")));
  EXPECT_EQ(text_of(folder / "day/mine.txt"), "mine");
  EXPECT_EQ(text_of(folder / "day/more/mine.txt"), "more");
  EXPECT_EQ(names_here(), before);
}

TEST_F(Packing, WithForceStillTakesTheNameOfNoOtherFile) {
  ASSERT_EQ(pack({"--out", "day"}).code, 0);
  write("day/extra.js", "mine");
  write("page/extra.js", "theirs");
  const auto run = pack({"--out", "day", "--force"});
  EXPECT_EQ(run.code, 2);
  EXPECT_THAT(run.err, HasSubstr("extra.js"));
  EXPECT_EQ(text_of(folder / "day/extra.js"), "mine");
}

TEST_F(Packing, LeavesNothingBehindWhenTheDiskIsFull) {
  const auto before = names_here();
  // No file may grow beyond 20 kB: the sheets do.
  const auto run = run_program(folder, {"sh", "-c",
                                        "ulimit -f 40; trap '' XFSZ; exec " + std::string(OUTBYE_BUILD) +
                                            "/outbye pack good.json --page page --engine engine --out day"});
  EXPECT_EQ(run.code, 1) << run.err;
  EXPECT_THAT(run.err, HasSubstr("nothing was changed"));
  EXPECT_EQ(names_here(), before);
}

TEST_F(Packing, SaysHowAMissingPageOrEngineIsBuilt) {
  fs::remove_all(folder / "page");
  const auto page = pack({"--out", "day"});
  EXPECT_EQ(page.code, 2);
  EXPECT_THAT(page.err, HasSubstr("./run web"));
  write("page/index.html", "<html><head></head><body></body></html>");
  fs::remove(folder / "engine/outbye_day.wasm");
  const auto engine = pack({"--out", "day"});
  EXPECT_EQ(engine.code, 2);
  EXPECT_THAT(engine.err, HasSubstr("./run wasm"));
  write("engine/outbye_day.wasm", "text");
  EXPECT_THAT(pack({"--out", "day"}).err, HasSubstr("is no WebAssembly"));
  EXPECT_FALSE(fs::exists(folder / "day"));
}

struct BadInput {
  std::vector<std::string> words;
  const char* says;
};

TEST_F(Packing, RefusesBadInputAndWritesNothing) {
  write("file", "");
  const auto before = names_here();
  const std::vector<BadInput> all = {
      {{}, "needs --out"},
      {{"--out", ""}, "needs --out"},
      {{"--out", "file"}, "is a file"},
      {{"--out", "no/where/day"}, "there is no folder"},
      {{"--single-file", "page"}, "is a folder"},
      {{"--single-file", "file"}, "already there"},
      {{"--out", "day", "--outt", "x"}, "did you mean '--out'?"},
  };
  for (const BadInput& one : all) {
    const auto run = pack(one.words);
    EXPECT_EQ(run.code, 2) << run.err;
    EXPECT_THAT(run.err, HasSubstr(one.says));
    EXPECT_EQ(run.out, "");
  }
  for (const char* ride : {"nowhere.json", "good.gpx"}) {
    EXPECT_EQ(pack({"--out", "day"}, ride).code, 2);
  }
  EXPECT_EQ(names_here(), before);
}

TEST_F(Packing, RefusesASingleFileOfAPageInSeveralScriptsAndMakesNoFolderEither) {
  write("page/day.js", "import{a}from\"./other.js\";a()");
  const auto run = pack({"--out", "day", "--single-file", "day.html"});
  EXPECT_EQ(run.code, 2);
  EXPECT_THAT(run.err, HasSubstr("imports another"));
  EXPECT_FALSE(fs::exists(folder / "day"));
  EXPECT_FALSE(fs::exists(folder / "day.html"));
}

}  // namespace
}  // namespace outbye
