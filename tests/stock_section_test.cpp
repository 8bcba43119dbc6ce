// The water and ice of a planned day, from the plan to what is shown.
#include "cli/stock_section.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "core/base/text.h"
#include "engine/stock.h"
#include "formats/answer_json/answer_json.h"
#include "tests/support/small_ride.h"

namespace outbye {
namespace {

using test::own;
using test::small_inputs;
using ::testing::HasSubstr;
using ::testing::Not;

// One day of `temperature` throughout.
RideInputs on_a_day_of(double temperature) {
  RideInputs inputs = small_inputs();
  inputs.ride.days = 256;
  inputs.ride.kit.containers = {own(OwnContainer::Kind::can, "drinking can", 20, 2),
                                own(OwnContainer::Kind::can, "cooling can", 20, 2),
                                own(OwnContainer::Kind::cool_box, "cool box", 25, 1)};
  for (int hour = 0; hour <= 12; ++hour) {
    WeatherHour weather;
    weather.at = inputs.ride.start + minutes(60.0 * hour);
    weather.temperature = Celsius{temperature};
    weather.humidity = Percent{60.0};
    inputs.ride.weather.push_back(weather);
  }
  return inputs;
}

// Heat does not change the orders here, so that the two days differ by what the horse takes alone.
std::vector<CarStock> stocks_on(double temperature) {
  RideInputs inputs = on_a_day_of(temperature);
  inputs.ride.heat_slows = false;
  const auto plan = plan_ride(inputs);
  EXPECT_TRUE(plan) << plan.error().where << " " << plan.error().what;
  return *stock_of(*plan);
}

Portion carry_of(const CarStock& stock, StockKind kind) {
  for (const CarryLine& line : stock.answer.carry) {
    if (line.kind == kind) return line.carry;
  }
  return {0};
}

TEST(StockOfADay, NeedsMoreOfEverythingOnAHotDay) {
  const auto mild = stocks_on(15);
  const auto hot = stocks_on(33);
  ASSERT_EQ(mild.size(), hot.size());
  EXPECT_GE(carry_of(hot[0], StockKind::drinking), carry_of(mild[0], StockKind::drinking));
  EXPECT_GT(carry_of(hot[0], StockKind::cooling), carry_of(mild[0], StockKind::cooling));
  EXPECT_GT(carry_of(hot[0], StockKind::ice), carry_of(mild[0], StockKind::ice));
}

TEST(StockOfADay, LosesNoMillilitreOnThePlansDays) {
  const auto stocks = stocks_on(33);
  for (std::size_t d = 0; d < 256; ++d) {
    const WaterLedger w = simulate_stock_day(stocks[0].task, d)->water;
    ASSERT_EQ((w.start + w.filled).value, (w.drunk + w.poured + w.spilt + w.left).value) << "day " << d;
  }
}

TEST(StockOfADay, IsShownIn80Columns) {
  const auto stocks = stocks_on(33);
  std::istringstream lines(stock_sections(stocks, Style{}));
  for (std::string line; std::getline(lines, line);) EXPECT_LE(display_width(line), 80U) << line;
}

TEST(StockOfADay, SaysInWordsWhenThereIsNotEnough) {
  RideInputs inputs = on_a_day_of(33);
  inputs.ride.kit.containers = {own(OwnContainer::Kind::can, "small can", 5, 1)};
  const auto stocks = *stock_of(*plan_ride(inputs));
  const std::string text = stock_sections(stocks, Style{});
  EXPECT_THAT(text, HasSubstr("NOT ENOUGH"));
  EXPECT_THAT(text, HasSubstr("Add room for"));
  EXPECT_THAT(text, Not(HasSubstr("Could stay at home")));
}

TEST(StockOfADay, SaysInWhichOrderToRefill) {
  const std::string text = stock_sections(stocks_on(33), Style{});
  const auto drinking = text.find("  drinking can 1: ");
  const auto cooling = text.find("  cooling can 1: ");
  ASSERT_NE(drinking, std::string::npos) << text;
  ASSERT_NE(cooling, std::string::npos) << text;
  EXPECT_LT(drinking, cooling);
}

TEST(StockOfADay, IsTheSameInJson) {
  const auto stocks = stocks_on(33);
  const Json json = stock_json(stocks);
  ASSERT_EQ(json.size(), 1U);
  EXPECT_EQ(json[0]["stops"].size(), stocks[0].answer.stops.size());
  EXPECT_EQ(json[0]["holds"], stocks[0].answer.holds);
  EXPECT_EQ(json[0]["refills"].size(), stocks[0].answer.refills.size());
  for (const char* field : {"car", "wanted", "chance", "days", "carry", "buy", "leave_at_home", "mean_litres"}) {
    EXPECT_TRUE(json[0].contains(field)) << field;
  }
}

}  // namespace
}  // namespace outbye
