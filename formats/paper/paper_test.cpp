#include "formats/paper/paper.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "formats/exports/plan_words.h"
#include "formats/paper/climbs.h"
#include "formats/paper/page_check.h"
#include "formats/paper/pdf_marks.h"
#include "formats/paper/sheets.h"
#include "formats/picture/sketch.h"
#include "formats/plan_json/small_plan_for_test.h"

namespace outbye {
namespace {

using testing::HasSubstr;

PaperSettings on(PaperSize size) {
  PaperSettings settings;
  settings.size = size;
  settings.made = std::chrono::sys_days{std::chrono::year{2026} / 6 / 12};
  return settings;
}

constexpr PaperSize sizes[] = {PaperSize::a4, PaperSize::letter, PaperSize::a5, PaperSize::pocket};
constexpr Sheet plan_sheets[] = {Sheet::crew_book, Sheet::rider_card, Sheet::spotter};

// All sheets that need the plan alone, on all paper they fit.
void expect_no_faults(const RidePlan& plan) {
  for (const PaperSize size : sizes) {
    for (const Sheet sheet : plan_sheets) {
      if (!fits_paper(sheet, size)) continue;
      const auto paper = lay_out(sheet, {plan}, on(size));
      ASSERT_TRUE(paper) << paper.error().what;
      EXPECT_THAT(page_faults(*paper), testing::IsEmpty()) << sheet_name(sheet) << " on " << paper_name(size);
    }
  }
}

RidePlan sketch(std::size_t passes, std::size_t cars, const std::string& name = "Mill Ford") {
  PlanSketch wanted;
  wanted.loops = 1;
  wanted.passes_per_loop = passes;
  wanted.cars = cars;
  wanted.point_name = name;
  return sketch_plan(wanted);
}

TEST(Sheets, HaveNothingCutOrOverlappingOnASmallDay) { expect_no_faults(small_plan()); }
TEST(Sheets, HaveNothingCutOrOverlappingWithOnePass) { expect_no_faults(sketch(1, 1)); }
TEST(Sheets, HaveNothingCutOrOverlappingWithSixtyPasses) { expect_no_faults(sketch(60, 2)); }
TEST(Sheets, HaveNothingCutOrOverlappingWithLongNames) {
  expect_no_faults(sketch(4, 1, "Upper Farthingdale Crossroads by the Old Toll House beyond the Second Cattle Grid"));
}
TEST(Sheets, HaveNothingCutOrOverlappingWithANameThatIsOneLongWord) {
  expect_no_faults(sketch(3, 1, std::string(90, 'w')));
}
TEST(Sheets, HaveNothingCutOrOverlappingWithNamesFromRightToLeft) {
  expect_no_faults(sketch(4, 1, "מעבר הנחל העליון"));
  expect_no_faults(sketch(4, 1, "مخاضة الطاحونة القديمة"));
}

std::string said_on(const Paper& paper) {
  std::string said;
  for (const PaperPage& page : paper.pages()) {
    for (const auto& part : page.parts) {
      if (const auto* one = std::get_if<PlacedText>(&part)) {
        said += pango_layout_get_text(one->layout.get()) + std::string("|");
      }
    }
  }
  return said;
}

std::string crew_book_of(const RidePlan& plan) {
  return said_on(*lay_out(Sheet::crew_book, {plan}, on(PaperSize::a4)));
}

TEST(EmergencyPage, HasTheNumbersThatWereTypedInAndRoomForTheOthers) {
  RidePlan plan = small_plan();
  EXPECT_THAT(crew_book_of(plan), HasSubstr("Emergency number: 999 or 112 (from memory"));
  plan.ride.emergency.number = "112";
  plan.ride.emergency.meeting_point = "the church";
  plan.ride.emergency.contacts = {{"ride vet", "07700 900112", "by text"}};
  plan.ride.emergency.places = {
      {"General", RideHelpPlace::Kind::hospital, "01632 960111", "High Street", Position{54.6, -2.6}, ""}};
  plan.ride.horses.resize(1);
  plan.ride.horses[0].rider = "A. Rider";
  plan.ride.horses[0].rider_phone = "07700 900101";
  const std::string said = crew_book_of(plan);
  EXPECT_THAT(said, HasSubstr("Emergency number: 112|"));
  EXPECT_THAT(said, HasSubstr("ride vet|07700 900112 (by text)|"));
  EXPECT_THAT(said, testing::Not(HasSubstr("Ride vet|")));  // once
  EXPECT_THAT(said, HasSubstr("Farrier|"));
  EXPECT_THAT(said, HasSubstr("A. Rider|07700 900101|"));
  EXPECT_THAT(said, HasSubstr("Hospital: General, 01632 960111, High Street, 54.60000 N, 2.60000 W, grid NY 61"));
  EXPECT_THAT(said, HasSubstr("horse hospital: name, number, road"));
  EXPECT_THAT(said, HasSubstr("meets the ambulance and opens gates: the church."));
}

TEST(EmergencyPage, TellsPlacesByTheNationalGridWhereThereIsOneElseByMgrs) {
  RidePlan plan = small_plan();
  EXPECT_THAT(crew_book_of(plan), testing::AllOf(HasSubstr("National grid|"), HasSubstr("54\u00b0 30.000' N, 2")));
  for (PlaceReport& place : plan.places) place.position = {60.39, 5.32};
  EXPECT_THAT(crew_book_of(plan), testing::AllOf(HasSubstr("Grid (MGRS)|"), HasSubstr("32V KN 9723 0051")));
}

TEST(PageCheck, SeesTextOffThePageOverOtherTextAndTooSmall) {
  Paper paper(PaperSize::a4, "ride", "sheet", "foot");
  TextLook look = paper.look();
  paper.put(paper.typesetter().layout("one", look, 0), {100, 100}, look);
  paper.put(paper.typesetter().layout("two", look, 0), {102, 101}, look);
  paper.put(paper.typesetter().layout("far", look, 0), {590, 300}, look);
  look.size = 6;
  paper.put(paper.typesetter().layout("tiny", look, 0), {100, 500}, look);
  const auto faults = page_faults(paper);
  ASSERT_EQ(faults.size(), 3U);
  EXPECT_THAT(faults[0], HasSubstr("covers 'one'"));
  EXPECT_THAT(faults[1], HasSubstr("off the page"));
  EXPECT_THAT(faults[2], HasSubstr("6.0 pt"));
}

TEST(Page, GoesOnOverleafWithAParagraphLongerThanThePage) {
  Paper paper(PaperSize::a5, "ride", "sheet", "foot");
  std::string text;
  for (int i = 0; i < 2000; ++i) text += "word" + std::to_string(i) + " ";
  paper.text(text);
  paper.finish();
  EXPECT_GT(paper.pages().size(), 2U);
  EXPECT_THAT(page_faults(paper), testing::IsEmpty());
  std::string said;
  for (const PaperPage& page : paper.pages()) {
    for (const auto& part : page.parts) {
      if (const auto* one = std::get_if<PlacedText>(&part)) said += pango_layout_get_text(one->layout.get());
    }
  }
  EXPECT_THAT(said, HasSubstr("word0 "));
  EXPECT_THAT(said, HasSubstr("word1999"));
}

TEST(Page, KeepsTogetherWhatFitsOnOnePage) {
  Paper paper(PaperSize::a4, "ride", "sheet", "foot");
  paper.picture(paper.page_room() - 60, [](const Box&) {});
  paper.keep_together([&] {
    for (int i = 0; i < 10; ++i) paper.text("line");
  });
  ASSERT_EQ(paper.pages().size(), 2U);
  EXPECT_EQ(paper.pages()[1].parts.size(), 10U);
}

TEST(Page, NamesEachTimeWhereATableFindsNoRoomForColumns) {
  Paper paper(PaperSize::pocket, "ride", "sheet", "foot");
  Table table;
  table.columns = {{"Where", false},  {"Leave", true},    {"Leave by", true},
                   {"From-to", true}, {"To know", false}, {"To do", false}};
  table.rows = {{"Ford",
                 "07:00",
                 {"07:30", true},
                 "many more words than there is room for beside all of that",
                 "and again as many words, or some more even"}};
  paper.table(table);
  std::string said;
  for (const auto& part : paper.pages()[0].parts) {
    if (const auto* one = std::get_if<PlacedText>(&part)) {
      said += pango_layout_get_text(one->layout.get()) + std::string("|");
    }
  }
  EXPECT_THAT(said, HasSubstr("Ford  Leave by 07:30|"));
  EXPECT_THAT(said, HasSubstr("Leave: 07:00"));
}

TEST(Pdf, IsTheSameBytesForTheSamePlan) {
  const RidePlan plan = small_plan();
  const auto one = sheet_pdf(Sheet::crew_book, {plan}, on(PaperSize::a4));
  const auto two = sheet_pdf(Sheet::crew_book, {plan}, on(PaperSize::a4));
  ASSERT_TRUE(one && two);
  EXPECT_EQ(*one, *two);
  EXPECT_EQ(one->substr(0, 5), "%PDF-");
}

TEST(MarkedPdf, AddsToTheFileAndChangesNothingInIt) {
  const auto pdf = sheet_pdf(Sheet::rider_card, {small_plan()}, on(PaperSize::a4));
  ASSERT_TRUE(pdf);
  const std::size_t first_end = pdf->find("%%EOF");
  EXPECT_THAT(pdf->substr(first_end),
              testing::AllOf(HasSubstr("/MarkInfo << /Marked true >>"), HasSubstr("/Lang (en-GB)"), HasSubstr("/Prev "),
                             testing::EndsWith("%%EOF\n")));
  EXPECT_EQ(marked_pdf("%PDF-1.5 of somebody else", "en-GB"), "%PDF-1.5 of somebody else");
}

TEST(SheetPages, AreAsManyAsThePdfHasAndSayWhatIsOnThem) {
  const RidePlan plan = small_plan();
  const auto pages = sheet_pages(Sheet::crew_book, {plan}, on(PaperSize::a5));
  ASSERT_TRUE(pages);
  const auto paper = lay_out(Sheet::crew_book, {plan}, on(PaperSize::a5));
  ASSERT_TRUE(paper);
  EXPECT_EQ(pages->pages.size(), paper->pages().size());
  EXPECT_NEAR(pages->width_mm, 148, 0.01);
  EXPECT_NEAR(pages->height_mm, 210, 0.01);
  std::vector<std::string> headings;
  for (const SheetPage& page : pages->pages) {
    EXPECT_THAT(page.svg, testing::AllOf(testing::StartsWith("<?xml"), HasSubstr("<svg"), HasSubstr("</svg>")));
    EXPECT_THAT(page.svg, testing::Not(HasSubstr("<script")));
    headings.insert(headings.end(), page.headings.begin(), page.headings.end());
  }
  EXPECT_THAT(headings, testing::Contains("Telephone and emergency"));
}

TEST(PlanMark, ChangesWithThePlan) {
  RidePlan plan = small_plan();
  const std::string before = plan_mark(plan);
  EXPECT_EQ(plan_mark(small_plan()), before);
  EXPECT_EQ(before.size(), 6U);
  plan.plan.days[0].stops[0].depart += minutes(1);
  EXPECT_NE(plan_mark(plan), before);
}

TEST(Sheets, RefuseACrewBookOnAPocketCard) {
  const auto pdf = sheet_pdf(Sheet::crew_book, {small_plan()}, on(PaperSize::pocket));
  ASSERT_FALSE(pdf);
  EXPECT_THAT(pdf.error().what, HasSubstr("use a5"));
}

TEST(Sheets, SayWhatTheyCannotDoWithout) {
  const RidePlan plan = small_plan();
  EXPECT_FALSE(sheet_pdf(Sheet::kit_list, {plan}, on(PaperSize::a4)));
  EXPECT_FALSE(sheet_pdf(Sheet::boot_plan, {plan}, on(PaperSize::a4)));
}

TEST(SheetFiles, AreThoseThatCanBeMadeFromWhatThereIs) {
  const RidePlan plan = small_plan();
  const auto names = [](const Result<std::vector<SheetFile>>& files) {
    std::vector<std::string> all;
    for (const SheetFile& file : *files) all.push_back(file.name + " " + file.bytes.substr(0, 5));
    return all;
  };
  EXPECT_THAT(names(sheet_files({plan}, on(PaperSize::a4))),
              testing::ElementsAre("crew-book.pdf %PDF-", "rider-card.pdf %PDF-", "spotter.pdf %PDF-"));
  EXPECT_THAT(names(sheet_files({plan}, on(PaperSize::pocket))), testing::ElementsAre("rider-card.pdf %PDF-"));
}

TEST(Sheets, NameTheNearestWhenMistyped) {
  EXPECT_THAT(parse_sheet("crewbook").error().what, HasSubstr("did you mean 'crew-book'?"));
  EXPECT_THAT(parse_paper("a6").error().what, HasSubstr("did you mean 'a4'?"));
}

Loop loop_with(const std::vector<double>& heights) {
  Loop loop;
  for (const double height : heights) loop.profile.elevation.emplace_back(Metres{height});
  loop.profile.step = Metres{100};
  loop.length = Metres{100.0 * static_cast<double>(heights.size() - 1)};
  return loop;
}

TEST(Climbs, AreFromTheirFootToTheirTop) {
  const auto climbs = climbs_of(loop_with({100, 100, 120, 150, 145, 160, 140, 100, 130, 100}));
  ASSERT_EQ(climbs.size(), 1U);
  EXPECT_EQ(climbs[0].from, Metres{100});
  EXPECT_EQ(climbs[0].to, Metres{500});
  EXPECT_EQ(climbs[0].rise, Metres{60});
}

TEST(Climbs, AreFewerWhereOnlyLongOnesCount) {
  const Loop loop = loop_with({0, 50, 0, 80, 0});
  EXPECT_EQ(climbs_of(loop).size(), 2U);
  EXPECT_EQ(climbs_of(loop, Metres{60}).size(), 1U);
}

}  // namespace
}  // namespace outbye
