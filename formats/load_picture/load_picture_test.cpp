#include "formats/load_picture/load_picture.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <set>

#include "core/load/load_test_tasks.h"

namespace outbye {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

struct Example {
  LoadTask task;
  Load load;
};

// A van with arches, cans and crates, of which so many are loaded.
Example van(int things) {
  Example example;
  LoadSpace boot = testing::box_space({1650, 1300, 1150}, 700);
  boot.blocked = {{{560, 0, 0}, {620, 130, 260}}, {{560, 1170, 0}, {620, 130, 260}}};
  example.task = testing::boot_task(boot, {});
  for (int n = 1; n <= things; ++n) {
    LoadItem item = n % 4 == 0 ? testing::thing("Blue can " + std::to_string(n), {345, 165, 470}, 21, 30)
                               : testing::thing("Crate " + std::to_string(n), {400, 300, 320}, 4, 20);
    example.task.items.push_back(item);
  }
  auto load = plan_load(example.task, {{}, 20'000});
  EXPECT_TRUE(load && load->left.empty());
  if (load) example.load = std::move(*load);
  return example;
}

std::size_t count(const std::string& text, const std::string& words) {
  std::size_t n = 0;
  for (auto at = text.find(words); at != std::string::npos; at = text.find(words, at + 1)) ++n;
  return n;
}

std::vector<std::string> pages_of(const Example& example) {
  auto pages = load_steps_pages(example.task, example.load, LoadSpaceId{0}, "Van");
  const auto layers = load_layers_pages(example.task, example.load, LoadSpaceId{0}, "Van");
  pages.insert(pages.end(), layers.begin(), layers.end());
  return pages;
}

TEST(StepsPages, HaveAtMostTwelveStepsEach) {
  for (const auto& [things, pages] : {std::pair<int, std::size_t>{1, 1}, {12, 1}, {13, 2}, {24, 2}, {25, 3}}) {
    const Example example = van(things);
    const auto pictures = load_steps_pages(example.task, example.load, LoadSpaceId{0}, "Van");
    EXPECT_EQ(pictures.size(), pages) << things;
    for (const auto& picture : pictures)
      EXPECT_LE(count(picture, "font-weight=\"bold\">Crate") + count(picture, "font-weight=\"bold\">Blue"), 12U);
  }
}

TEST(StepsPages, NameEachThingOnce) {
  const Example example = van(17);
  std::string all;
  for (const auto& page : load_steps_pages(example.task, example.load, LoadSpaceId{0}, "Van")) all += page;
  for (const LoadItem& item : example.task.items) {
    EXPECT_EQ(count(all, "font-weight=\"bold\">" + item.name + ","), 1U) << item.name;
  }
}

TEST(LayersPages, NameEachThingOnce) {
  const Example example = van(17);
  std::string all;
  for (const auto& page : load_layers_pages(example.task, example.load, LoadSpaceId{0}, "Van")) all += page;
  for (const LoadItem& item : example.task.items) EXPECT_EQ(count(all, ">" + item.name + ","), 1U) << item.name;
}

// 9 points are 12 units of 1/96 inch.
TEST(LoadPictures, HaveNoTextBelowNinePoints) {
  for (const auto& page : pages_of(van(20))) {
    for (auto at = page.find("font-size=\""); at != std::string::npos; at = page.find("font-size=\"", at + 1)) {
      EXPECT_GE(std::atof(page.c_str() + at + 11), 12.0);
    }
    EXPECT_THAT(page, HasSubstr("font-size=\""));
  }
}

TEST(LoadPictures, ArePagesOfA4Upright) {
  for (const auto& page : pages_of(van(20))) EXPECT_THAT(page, HasSubstr("width=\"210mm\" height=\"297mm\""));
}

// Red, green and blue of each colour are within 16 of one another.
TEST(LoadPictures, AreReadableInGreyBecauseTheyAreGrey) {
  for (const auto& page : pages_of(van(20))) {
    for (auto at = page.find('#'); at != std::string::npos; at = page.find('#', at + 1)) {
      std::string digits = page.substr(at + 1, 6);
      if (digits.find_first_not_of("0123456789abcdef") != std::string::npos) continue;  // #fff
      std::set<int> parts;
      for (std::size_t part = 0; part < 3; ++part) {
        parts.insert(static_cast<int>(std::strtol(digits.substr(2 * part, 2).c_str(), nullptr, 16)));
      }
      EXPECT_LE(*parts.rbegin() - *parts.begin(), 16) << digits;
    }
  }
}

TEST(LoadPictures, HoldAllPagesInOneForAScreen) {
  const Example example = van(20);
  const std::string all = load_steps_svg(example.task, example.load, LoadSpaceId{0}, "Van");
  EXPECT_THAT(all, HasSubstr("page 1 of 2"));
  EXPECT_THAT(all, HasSubstr("page 2 of 2"));
  EXPECT_THAT(load_steps_svg(van(3).task, van(3).load, LoadSpaceId{0}, "Van"), Not(HasSubstr("page 1")));
}

TEST(LoadPictures, SayThatNothingIsLoaded) {
  const LoadTask task = testing::boot_task(testing::box_space({1000, 1000, 500}), {});
  const auto pages = load_steps_pages(task, Load{}, LoadSpaceId{0}, "Van");
  ASSERT_EQ(pages.size(), 1U);
  EXPECT_THAT(pages[0], HasSubstr("Nothing is loaded here."));
}

TEST(LoadPictures, LeaveOutARoofBoxWithNothingInIt) {
  Example example = van(6);
  LoadSpace roof = testing::box_space({1200, 700, 350}, 50);
  roof.kind = LoadSpace::Kind::roof_box;
  example.task.spaces.push_back(roof);
  example.load.balance.resize(2);
  const auto names = [&] {
    std::vector<std::string> all;
    for (const auto& picture : load_pictures(example.task, example.load, "Van", LoadPages::one_below_the_other)) {
      all.push_back(picture.kind + picture.space);
    }
    return all;
  };
  EXPECT_EQ(names(), (std::vector<std::string>{"steps", "layers"}));
  example.load.placements.back().space = LoadSpaceId{1};
  EXPECT_EQ(names(), (std::vector<std::string>{"steps", "layers", "steps-roof-box", "layers-roof-box"}));
}

}  // namespace
}  // namespace outbye
