// Every sheet of a ride that was really planned, with people, kit and a loaded car, on every paper.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "formats/kit_catalogue/kit_catalogue.h"
#include "formats/paper/page_check.h"
#include "formats/paper/sheets.h"
#include "tests/support/demo_inputs.h"
#include "tests/support/small_ride.h"

namespace outbye {
namespace {

using testing::HasSubstr;

constexpr PaperSize sizes[] = {PaperSize::a4, PaperSize::letter, PaperSize::a5, PaperSize::pocket};

PaperSettings on(PaperSize size) {
  PaperSettings settings;
  settings.size = size;
  settings.made = std::chrono::sys_days{std::chrono::year{2026} / 6 / 12};
  return settings;
}

RidePlan planned(const std::vector<std::string>& helpers) {
  RideInputs inputs = test::small_inputs();
  for (const std::string& name : helpers) {
    RideHelper helper;
    helper.name = name;
    helper.skills = {"holds horse", "first aid", "driver", "lifts with a second person", "takes a pulse", "tack"};
    inputs.ride.helpers.push_back(helper);
  }
  return *plan_ride(inputs);
}

PaperParts parts_of(const RidePlan& plan) {
  const std::vector<Sheet> wanted(std::begin(all_sheets), std::end(all_sheets));
  return work_out_parts(plan, preset_kit(), wanted, nullptr, [] { return LoadSearch{{}, 100'000}; });
}

// Nothing cut, overlapping, off the page, without glyphs, or smaller than 9 pt (pocket cards: 7 pt).
void expect_no_faults(const RidePlan& plan) {
  const PaperParts parts = parts_of(plan);
  for (const Problem& problem : parts.problems) ADD_FAILURE() << problem.where << " " << problem.what;
  ASSERT_TRUE(parts.kit && parts.load);
  for (const PaperSize size : sizes) {
    for (const Sheet sheet : all_sheets) {
      if (!fits_paper(sheet, size)) continue;
      const auto paper = lay_out(sheet, sources_of(plan, parts, nullptr), on(size));
      ASSERT_TRUE(paper) << paper.error().what;
      EXPECT_THAT(page_faults(*paper), testing::IsEmpty()) << sheet_name(sheet) << " on " << paper_name(size);
    }
  }
}

TEST(AllSheets, HaveNothingCutOrOverlapping) { expect_no_faults(planned({})); }
TEST(AllSheets, HaveNothingCutOrOverlappingWithFourHelpersOfLongNames) {
  expect_no_faults(planned({"Bartholomew Featherstonehaugh-Cholmondeley", "Ann", "\u05e2\u05d3\u05d9\u05e0\u05d4",
                            "Wilhelmina van den Berg"}));
}

std::vector<std::string> texts_of(const Paper& paper) {
  std::vector<std::string> texts;
  for (const PaperPage& page : paper.pages()) {
    for (const auto& part : page.parts) {
      if (const auto* one = std::get_if<PlacedText>(&part))
        texts.emplace_back(pango_layout_get_text(one->layout.get()));
    }
  }
  return texts;
}

struct CrewBook : ::testing::Test {
  RidePlan plan{planned({"Ann", "Bea"})};
  PaperParts parts{parts_of(plan)};
  Paper paper{*lay_out(Sheet::crew_book, sources_of(plan, parts, nullptr), on(PaperSize::a4))};
};

TEST_F(CrewBook, HasAColumnOfWorkForEachPerson) {
  const auto texts = texts_of(paper);
  const auto head = std::find(texts.begin(), texts.end(), "Ann");
  ASSERT_NE(head, texts.end());
  EXPECT_EQ(*(head + 1), "Bea");
  EXPECT_THAT(*(head + 2), testing::StartsWith("+0:00-"));
}

TEST_F(CrewBook, SaysEachCautionOfAStopOnce) {
  const std::string once = "Somebody holds the horse before you begin";
  std::size_t stops = 0;
  for (const std::string& text : texts_of(paper)) {
    if (text.rfind("Mind: ", 0) != 0) continue;
    ++stops;
    const std::size_t at = text.find(once);
    ASSERT_NE(at, std::string::npos) << text;
    EXPECT_EQ(text.find(once, at + 1), std::string::npos) << text;
  }
  EXPECT_GT(stops, 0U);
}

TEST(ListOfKit, NamesThePumpsBesideTheDrives) {
  const test::DemoInputs demo = test::demo_inputs();
  const auto plan = plan_ride(demo.inputs);
  ASSERT_TRUE(plan) << plan.error().what;
  const auto parts = work_out_parts(*plan, preset_kit(), {Sheet::kit_list}, demo.roads.get());
  ASSERT_TRUE(parts.kit);
  const auto pumps = kit_facts(*plan, demo.roads.get()).pumps;
  ASSERT_FALSE(pumps.empty());
  const auto paper = lay_out(Sheet::kit_list, sources_of(*plan, parts, demo.roads.get()), on(PaperSize::a4));
  ASSERT_TRUE(paper) << paper.error().what;
  EXPECT_THAT(texts_of(*paper), testing::Contains(HasSubstr(pumps.front().name)));
}

TEST_F(CrewBook, TakesNoMoreThanAPageAStop) {
  std::size_t stops = 0;
  for (const CarDay& day : plan.plan.days) stops += day.stops.size();
  EXPECT_LE(paper.pages().size(), stops + 8);  // glance, gates, emergency page, passes and cautions beside them
}

}  // namespace
}  // namespace outbye
