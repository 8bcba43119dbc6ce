#include "cli/plan_table.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "core/base/text.h"
#include "formats/plan_json/small_plan_for_test.h"

namespace outbye {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

std::string table_of(const RidePlan& plan) { return plan_table(plan, {}, PlanTableOptions{}, Style{}); }

// Words with single spaces, wherever lines were broken.
std::string unwrapped(const std::string& text) {
  std::istringstream words(text);
  std::string joined;
  for (std::string word; words >> word;) joined += (joined.empty() ? "" : " ") + word;
  return joined;
}

std::size_t widest_line(const std::string& text) {
  std::istringstream lines(text);
  std::size_t widest = 0;
  for (std::string line; std::getline(lines, line);) widest = std::max(widest, display_width(line));
  return widest;
}

void expect_80_columns(const RidePlan& plan) {
  const std::string text = table_of(plan);
  EXPECT_LE(widest_line(text), 80U) << text;
}

TEST(PlanTable, StaysWithin80ColumnsWhateverTheNames) {
  RidePlan plan = small_plan();
  expect_80_columns(plan);
  const std::string long_name =
      "Llangrüffelthwaiteholm-by-the-Wörterbuchquelle 馬場馬場馬場 upper car park, second gate on the left";
  plan.ride.name = long_name;
  plan.ride.venue = long_name;
  plan.survey.course.crew_points[0].name = long_name;
  plan.survey.course.loops[0].name = long_name;
  for (auto& place : plan.places) place.name = long_name;
  for (auto& car : plan.task.cars) car.name = long_name;
  for (auto& horse : plan.ride.horses) horse.name = long_name;
  for (auto& pass : plan.passes) pass.name = long_name;
  expect_80_columns(plan);
}

TEST(PlanTable, SaysWhatARushIsWorth) {
  RidePlan plan = small_plan();
  plan.plan.days[0].stops[0].chance_ready = 0.27;
  plan.plan.days[0].stops[0].chance_there = 0.72;
  EXPECT_THAT(table_of(plan), HasSubstr("a rush: there before the horse goes on 72%, not set up"));
  for (auto& stop : plan.plan.days[0].stops) stop.chance_ready = 0.9;
  EXPECT_THAT(table_of(plan), Not(HasSubstr("a rush")));
}

TEST(PlanTable, ListsErrandsWithTheTimeToDropThemAndThoseLeftOutWithTheReason) {
  RidePlan plan = small_plan();
  plan.ride.errands.resize(2);
  plan.ride.errands[0].name = "Ice";
  plan.ride.errands[1].name = "Farrier";
  const auto at_min = [&plan](double min) { return plan.ride.start + minutes(min); };
  plan.errands.cars = {
      {CarId{0}, {{0, std::nullopt, {}, at_min(0), at_min(5), at_min(5), at_min(15), at_min(20)}}, {}, 0.5, 0.5, true}};
  plan.errands.left_out = {{1, LeftOutErrand::Reason::too_far, minutes(7), "too far: 7 min short"}};
  const std::string text = unwrapped(table_of(plan));
  EXPECT_THAT(text, HasSubstr("Ice, Van: leave 07:00, there 07:05, done 07:15."));
  EXPECT_THAT(text, HasSubstr("start by 07:20."));
  EXPECT_THAT(text, HasSubstr("Not Farrier: too far: 7 min short."));
}

TEST(PlanTable, NeverSaysThatAHorseIsFit) {
  const std::string text = in_lower_case(table_of(small_plan()));
  for (const char* never : {"is fit", "fit to", "safe to", "may go on", "can go on"}) {
    const auto found = text.find(never);
    // The one sentence that may say so denies it.
    if (found == std::string::npos) continue;
    EXPECT_THAT(text.substr(found > 60 ? found - 60 : 0, 120), HasSubstr("not judge"));
  }
  EXPECT_THAT(text, HasSubstr("vet's"));
}

}  // namespace
}  // namespace outbye
