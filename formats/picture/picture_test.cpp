#include "formats/picture/picture.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <regex>
#include <set>

#include "core/roads/road_builder.h"
#include "formats/picture/map_frame.h"
#include "formats/picture/marks.h"
#include "formats/picture/sketch.h"
#include "formats/picture/svg.h"

namespace outbye {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

struct Sketched {
  const char* what;
  PlanSketch sketch;
};
const std::vector<Sketched>& sketches() {
  static const std::vector<Sketched> all{
      {"three loops", {}},
      {"one pass", {.loops = 1, .passes_per_loop = 1}},
      {"no crew point", {.loops = 1, .passes_per_loop = 0}},
      {"no car", {.loops = 2, .passes_per_loop = 3, .cars = 0}},
      {"60 passes", {.loops = 4, .passes_per_loop = 15, .loop_length = {40000}}},
      {"two cars", {.loops = 4, .passes_per_loop = 5, .cars = 2}},
      {"two horses, long names",
       {.cars = 2, .horses = 2, .point_name = "Oberhalb der Kläranlage am alten Schützenhaus, zweiter Parkplatz"}},
      {"nine loops", {.loops = 9, .passes_per_loop = 2, .loop_length = {18000}}},
      {"across the antimeridian", {.venue = {-17.0, 179.995}}},
      {"unpleasant names", {.point_name = "Tom & \"Jerry's\" <ford> ]]> \x01\xff\xed\xa0\x80 日本"}},
  };
  return all;
}

std::vector<std::pair<std::string, std::string>> all_pictures() {
  std::vector<std::pair<std::string, std::string>> pictures;
  for (const auto& [what, sketch] : sketches()) {
    const auto plan = sketch_plan(sketch);
    pictures.emplace_back(std::string("map: ") + what, course_map_svg(plan, nullptr));
    pictures.emplace_back(std::string("chart: ") + what, time_distance_svg(plan));
  }
  return pictures;
}

struct Text {
  std::string words;
  double size;
  Box box;
};

std::string unescaped(std::string text) {
  for (const auto& [from, to] : {std::pair{"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&amp;", "&"}}) {
    for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + 1)) {
      text.replace(at, std::string(from).size(), to);
    }
  }
  return text;
}

std::vector<Text> texts_of(const std::string& svg) {
  static const std::regex pattern(
      "<text x=\"([-0-9.]+)\" y=\"([-0-9.]+)\" font-size=\"([0-9.]+)\" text-anchor=\"([a-z]+)\"([^>]*)>([^<]*)</text>");
  std::vector<Text> texts;
  for (std::sregex_iterator found(svg.begin(), svg.end(), pattern), end; found != end; ++found) {
    const auto& m = *found;
    const double x = std::stod(m[1]), y = std::stod(m[2]), size = std::stod(m[3]);
    const std::string words = unescaped(m[6]);
    // What the letters of common fonts really take is about 0.9 of the upper bound.
    const double width = 0.9 * text_width(words, size, m[5].str().find("bold") != std::string::npos);
    const double left = m[4] == "start" ? x : m[4] == "end" ? x - width : x - width / 2;
    texts.push_back({words, size, {left, y - 0.72 * size, left + width, y + 0.2 * size}});
  }
  return texts;
}

TEST(Pictures, AreWellFormedXml) {
  if (std::system("xmllint --version > /dev/null 2>&1") != 0) GTEST_SKIP() << "xmllint is not installed";
  const std::string path = std::string(OUTBYE_BUILD) + "/picture_test.svg";
  for (const auto& [what, svg] : all_pictures()) {
    std::ofstream(path, std::ios::binary) << svg;
    EXPECT_EQ(std::system(("xmllint --noout '" + path + "'").c_str()), 0) << what;
  }
}

TEST(Pictures, NeverPutOneTextOverAnother) {
  for (const auto& [what, svg] : all_pictures()) {
    const auto texts = texts_of(svg);
    EXPECT_GT(texts.size(), 10u) << what;
    for (std::size_t i = 0; i < texts.size(); ++i) {
      for (std::size_t j = i + 1; j < texts.size(); ++j) {
        EXPECT_FALSE(overlap(texts[i].box, texts[j].box))
            << what << ": '" << texts[i].words << "' and '" << texts[j].words << "' at "
            << pair({texts[i].box.left, texts[i].box.top});
      }
    }
  }
}

TEST(Pictures, KeepTextOnThePaperAndLargeEnoughToRead) {
  for (const auto& [what, svg] : all_pictures()) {
    for (const auto& text : texts_of(svg)) {
      EXPECT_GE(text.size, 9) << what << ": " << text.words;
      EXPECT_TRUE(is_inside(text.box, {4, 4, 1119, 790})) << what << ": " << text.words;
    }
  }
}

TEST(Pictures, AreTheSameBytesFromTheSamePlan) {
  const auto plan = sketch_plan({.cars = 2});
  EXPECT_EQ(course_map_svg(plan, nullptr), course_map_svg(plan, nullptr));
  EXPECT_EQ(time_distance_svg(plan), time_distance_svg(sketch_plan({.cars = 2})));
}

TEST(TimeDistance, PrintsTheOddsOfEveryMeet) {
  for (const auto& [what, sketch] : sketches()) {
    const auto plan = sketch_plan(sketch);
    const auto texts = texts_of(time_distance_svg(plan));
    const auto odds = std::count_if(texts.begin(), texts.end(), [](const Text& text) {
      return text.words.find("\u00a0%") != std::string::npos && text.words.find("%+") == std::string::npos;
    });
    EXPECT_EQ(static_cast<std::size_t>(odds), meets_of(plan).size()) << what;
  }
}

TEST(TimeDistance, SaysTheHeatInWordsAndShadesTheDark) {
  RidePlan plan = sketch_plan({});
  EXPECT_THAT(time_distance_svg(plan), Not(HasSubstr("WBGT")));  // nothing is made up without weather
  const Instant start = plan.task.horses.front().origin;
  for (int h = -3; h <= 30; h += 3) {
    WeatherHour hour;
    hour.at = start + std::chrono::hours{h};
    hour.temperature = {30};
    hour.humidity = {60};
    plan.ride.weather.push_back(hour);
  }
  EXPECT_THAT(time_distance_svg(plan), HasSubstr("WBGT 30-32<"));  // short form 30.9 (Bureau of Meteorology)
  plan.ride.weather.clear();
  plan.survey.venue = {80.0, 15.0};  // midnight sun: the ride is in June
  EXPECT_THAT(time_distance_svg(plan), Not(HasSubstr("class=\"dark\"")));
  plan.survey.venue = {-75.0, 15.0};  // polar night
  EXPECT_THAT(time_distance_svg(plan), HasSubstr("class=\"dark\""));
}

// 1123 x 794 units of 1/96 inch are A4 across (ISO 216: 297 x 210 mm), 794 x 1123 A4 upright.
TEST(SvgPage, HasTheSizeOfItsUnits) {
  EXPECT_THAT(Svg(1123, 794, "t", "d", "").finish(), HasSubstr("width=\"297mm\" height=\"210mm\""));
  EXPECT_THAT(Svg(794, 1123, "t", "d", "").finish(), HasSubstr("width=\"210mm\" height=\"297mm\""));
}

TEST(TimeDistance, NamesEveryCrewPointWhenThereIsRoom) {
  const auto svg = time_distance_svg(sketch_plan({.loops = 4, .passes_per_loop = 15, .loop_length = {40000}}));
  for (int i = 1; i <= 60; ++i) EXPECT_THAT(svg, HasSubstr(">Mill Ford " + std::to_string(i) + "<"));
}

TEST(CourseMap, NamesEveryCrewPointOnTheMapOrInTheMargin) {
  const auto svg = course_map_svg(sketch_plan({.loops = 4, .passes_per_loop = 15, .loop_length = {40000}}), nullptr);
  for (int i = 1; i <= 60; ++i) EXPECT_THAT(svg, HasSubstr(">Mill Ford " + std::to_string(i) + "<"));
}

TEST(CourseMap, DrawsRoadsByClassBehindTheCourse) {
  const auto plan = sketch_plan({});
  RoadBuilder builder;
  const std::uint32_t lane[] = {builder.add_point(Position{51.19, -1.42}), builder.add_point(Position{51.21, -1.40}),
                                builder.add_point(Position{51.22, -1.38})};
  const std::uint32_t main_road[] = {lane[1], builder.add_point(Position{51.20, -1.35})};
  const std::uint32_t far_away[] = {builder.add_point(Position{52.5, 1}), builder.add_point(Position{52.6, 1})};
  builder.add_way(1, lane, {RoadClass::unclassified, 40, 40}, 0);
  builder.add_way(2, main_road, {RoadClass::primary, 80, 80}, 0);
  builder.add_way(3, far_away, {RoadClass::track, 10, 10}, 0);
  const auto roads = builder.build();
  ASSERT_TRUE(roads.has_value());
  const auto svg = course_map_svg(plan, &*roads);
  EXPECT_THAT(svg, HasSubstr(">main road<"));
  EXPECT_THAT(svg, HasSubstr(">lane or street<"));
  EXPECT_THAT(svg, Not(HasSubstr(">track or drive<")));  // off the map
  EXPECT_LT(svg.find("class=\"road\""), svg.find("class=\"course\""));
  EXPECT_THAT(course_map_svg(plan, nullptr), Not(HasSubstr("class=\"road\"")));
}

TEST(MapFrame, KeepsShapesAcrossTheAntimeridian) {
  const Box box{0, 0, 500, 500};
  const MapFrame east({{-17, 179.99}, {-17.02, -179.99}}, box, 10);
  const MapFrame plain({{-17, 0.99}, {-17.02, 1.01}}, box, 10);
  EXPECT_NEAR(east.spot({-17.02, -179.99}).x, plain.spot({-17.02, 1.01}).x, 1e-6);
  EXPECT_NEAR(east.spot({-17, 179.99}).x, plain.spot({-17, 0.99}).x, 1e-6);
  EXPECT_LT(east.spot({-17, 179.99}).x, east.spot({-17.02, -179.99}).x);
}

TEST(MapFrame, IsTrueToScale) {
  const MapFrame frame({{51.0, -1.0}, {51.1, -1.2}}, {0, 0, 800, 700}, 20);
  const Spot a = frame.spot({51.0, -1.1}), b = frame.spot({51.1, -1.1});
  EXPECT_NEAR((a.y - b.y) / frame.units_per_metre(), 11119.5, 1.0);  // 0.1 degrees of latitude on the mean sphere
}

TEST(RoundLength, IsOneTwoOrFive) {
  EXPECT_EQ(round_length(7300), 5000);
  EXPECT_EQ(round_length(4999), 2000);
  EXPECT_EQ(round_length(1000), 1000);
  EXPECT_EQ(round_length(999), 500);
}

TEST(Beside, KeepsToTheRightOfTravel) {
  const auto line = beside({{0, 0}, {10, 0}}, 2);  // to the right on the paper, so its right hand is down
  EXPECT_EQ(line[0].y, 2);
  EXPECT_EQ(line[1].y, 2);
}

TEST(Simplified, StaysWithinItsTolerance) {
  std::vector<Spot> line;
  for (int i = 0; i <= 100; ++i) line.push_back({static_cast<double>(i), i % 2 == 0 ? 0.0 : 0.3});
  EXPECT_EQ(simplified(line, 0.5).size(), 2u);
  EXPECT_EQ(simplified(line, 0.1).size(), line.size());
}

TEST(Marks, SayTheChanceInShapeWordAndNumber) {
  EXPECT_EQ(standing_of(0.9), Standing::sure);
  EXPECT_EQ(standing_of(0.89), Standing::likely);
  EXPECT_EQ(standing_of(0.4), Standing::open);
  EXPECT_EQ(standing_of(0.1), Standing::doubtful);
  EXPECT_EQ(percent(0.932), "93\u00a0%");
  EXPECT_EQ(percent(0.999), ">99\u00a0%");
  EXPECT_EQ(percent(0.001), "<1\u00a0%");
  std::set<std::string> shapes, lines;
  for (const auto standing : {Standing::sure, Standing::likely, Standing::open, Standing::doubtful, Standing::unmet}) {
    Svg svg(10, 10, "", "", "");
    draw_mark(svg, {5, 5}, standing);
    shapes.insert(std::move(svg).finish());
  }
  EXPECT_EQ(shapes.size(), 5u);
  for (std::size_t i = 0; i < 8; ++i) lines.insert(dashes(i));
  EXPECT_EQ(lines.size(), 8u);
}

}  // namespace
}  // namespace outbye
