// Sheets of paper from the server: of the stored ride, and of one that is only asked about.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "tests/run_outbye.h"
#include "tests/support/served.h"
#include "tests/support/store_folder.h"

namespace outbye {
namespace {

using test::Served;
using testing::HasSubstr;
using testing::StartsWith;

struct ServedSheets : ::testing::Test {
  test::StoreFolder folder;
  Served served{folder.path() / "store"};
  Json ride = Json::parse(text_of(test_file("good.json")));
  std::string at;  // of the ride

  ServedSheets() {
    const Json made = served.json("POST", "/api/v1/rides", Json{{"ride", ride}}.dump());
    at = "/api/v1/rides/" + made["id"].get<std::string>();
    for (const char* name : {"good.gpx", "good.osm", "good-times.csv"}) {
      const auto answer =
          served.ask("PUT", at + "/files/" + name, text_of(test_file(name)), "application/octet-stream");
      EXPECT_EQ(answer.status, 201) << answer.body;
    }
  }
};

TEST_F(ServedSheets, AreTheStoredRideAsPdfWithANameToSaveItUnder) {
  for (const char* sheet : {"crew-book", "rider-card", "kit-list", "boot-plan", "spotter"}) {
    const auto answer = served.ask("GET", at + "/sheets/" + sheet + "?paper=a5&mark=third");
    ASSERT_EQ(answer.status, 200) << answer.body;
    EXPECT_THAT(answer.body, StartsWith("%PDF-")) << sheet;
    EXPECT_EQ(answer.headers.at("content-type"), "application/pdf");
    EXPECT_THAT(answer.headers.at("content-disposition"), HasSubstr(std::string(sheet) + ".pdf"));
  }
}

TEST_F(ServedSheets, ShowTheRideThatIsAskedAboutAndLeaveTheStoredOneAlone) {
  Json other = ride;
  other["emergency"] = {{"contacts", {{{"name", "Ride control"}, {"phone", "07700 900199"}}}}};
  if (!has_program("pdftotext")) GTEST_SKIP() << "pdftotext (poppler-utils) is not there";
  FreshFolder out;
  const auto text = [&](const std::string& pdf) {
    std::ofstream(out / "sheet.pdf", std::ios::binary) << pdf;
    return run_program(out, {"pdftotext", "sheet.pdf", "-"}).out;
  };
  const auto asked = served.ask("POST", at + "/sheets/crew-book", Json{{"ride", other}}.dump());
  ASSERT_EQ(asked.status, 200) << asked.body;
  EXPECT_THAT(text(asked.body), HasSubstr("07700 900199"));
  EXPECT_THAT(text(served.ask("GET", at + "/sheets/crew-book").body), testing::Not(HasSubstr("07700 900199")));
}

TEST_F(ServedSheets, HaveTheirPagesAsPicturesWithWhatIsOnEach) {
  const Json answer =
      served.json("POST", at + "/engine/sheetOfRide", R"({"sheet": "crew-book", "paper": "letter"})")["value"];
  ASSERT_TRUE(answer.is_object());
  EXPECT_NEAR(answer["width_mm"].get<double>(), 215.9, 0.01);
  EXPECT_GT(answer["pages"].size(), 3U);
  EXPECT_THAT(answer["pages"].dump(), HasSubstr("Telephone and emergency"));
  for (const Json& page : answer["pages"]) EXPECT_THAT(page["svg"].get<std::string>(), HasSubstr("<svg"));
}

TEST_F(ServedSheets, AreRefusedWhereThereIsNoSuchSheetOrNoRoomForIt) {
  const auto none = served.ask("GET", at + "/sheets/crewbook");
  EXPECT_EQ(none.status, 422);
  EXPECT_THAT(none.body, HasSubstr("did you mean 'crew-book'?"));
  const auto small = served.ask("GET", at + "/sheets/spotter?paper=pocket");
  EXPECT_EQ(small.status, 422);
  EXPECT_THAT(small.body, HasSubstr("no room on a pocket card"));
  EXPECT_EQ(served.ask("GET", "/api/v1/rides/none/sheets/spotter").status, 404);
  EXPECT_EQ(served.ask("POST", at + "/sheets/spotter", R"({"paper": 4})").status, 422);
}

}  // namespace
}  // namespace outbye
