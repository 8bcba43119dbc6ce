#include "core/welfare/weather.h"

#include <gtest/gtest.h>

#include <limits>

namespace outbye {
namespace {

constexpr Seconds hour{3600.0};
const Instant noon = std::chrono::sys_days{std::chrono::June / 13 / 2026} + std::chrono::hours{12};

WeatherHour at_hour(double hours_after_noon, double temperature, double humidity = 50) {
  WeatherHour h;
  h.at = noon + hours_after_noon * hour;
  h.temperature = {temperature};
  h.humidity = {humidity};
  return h;
}

TEST(CheckWeather, TakesAnEmptyTable) { EXPECT_TRUE(check_weather({})); }

TEST(CheckWeather, TakesTheEndsOfEveryRange) {
  WeatherHour low = at_hour(0, -60, 0);
  low.wind = MetresPerSecond{0};
  low.radiation = WattsPerSquareMetre{0};
  low.cloud = 0.0;
  low.pressure = Hectopascals{500};
  low.rain_mm = 0.0;
  WeatherHour high = at_hour(1, 60, 100);
  high.wind = MetresPerSecond{60};
  high.radiation = WattsPerSquareMetre{1500};
  high.cloud = 1.0;
  high.pressure = Hectopascals{1100};
  high.rain_mm = 300.0;
  EXPECT_TRUE(check_weather({low, high}));
}

// One field out of range at a time, in the second hour: what the message must name.
void expect_refused(const WeatherHour& odd, const std::string& field) {
  const auto checked = check_weather({at_hour(0, 20), odd});
  ASSERT_FALSE(checked) << field;
  EXPECT_EQ(checked.error().kind, Problem::Kind::bad_input);
  EXPECT_EQ(checked.error().where, "weather, hour 2");
  EXPECT_EQ(checked.error().what.substr(0, field.size()), field);
}

TEST(CheckWeather, NamesTheHourAndTheFieldOutOfRange) {
  expect_refused(at_hour(1, 60.1), "temperature");
  expect_refused(at_hour(1, 20, -0.1), "humidity");
  WeatherHour h = at_hour(1, 20);
  h.wind = MetresPerSecond{-1};
  expect_refused(h, "wind");
  h = at_hour(1, 20);
  h.radiation = WattsPerSquareMetre{1501};
  expect_refused(h, "radiation");
  h = at_hour(1, 20);
  h.cloud = 8.0;  // eighths, not a share
  expect_refused(h, "cloud");
  h = at_hour(1, 20);
  h.pressure = Hectopascals{101325};  // pascals
  expect_refused(h, "pressure");
  h = at_hour(1, 20);
  h.rain_mm = 301.0;
  expect_refused(h, "rain");
}

TEST(CheckWeather, RefusesWhatIsNotANumber) {
  expect_refused(at_hour(1, std::numeric_limits<double>::quiet_NaN()), "temperature");
}

TEST(CheckWeather, RefusesATimeGivenTwice) {
  const auto checked = check_weather({at_hour(0, 20), at_hour(0, 21)});
  ASSERT_FALSE(checked);
  EXPECT_EQ(checked.error().what, "has the time of the hour before it");
}

TEST(CheckWeather, RefusesHoursOutOfOrder) {
  const auto checked = check_weather({at_hour(1, 20), at_hour(0, 21)});
  ASSERT_FALSE(checked);
  EXPECT_EQ(checked.error().where, "weather, hour 2");
}

TEST(WeatherAt, IsTheHoursOwnOnTheHour) {
  const auto w = weather_at({at_hour(0, 20), at_hour(1, 30), at_hour(2, 10)}, noon + hour);
  ASSERT_TRUE(w);
  EXPECT_EQ(w->temperature.value, 30);
}

TEST(WeatherAt, IsLinearBetweenHours) {
  const auto w = weather_at({at_hour(0, 20, 40), at_hour(1, 30, 80)}, noon + 0.25 * hour);
  ASSERT_TRUE(w);
  EXPECT_DOUBLE_EQ(w->temperature.value, 22.5);
  EXPECT_DOUBLE_EQ(w->humidity.value, 50);
  EXPECT_EQ(w->at, noon + 0.25 * hour);
}

TEST(WeatherAt, LacksAFieldThatEitherHourLacks) {
  WeatherHour windy = at_hour(0, 20);
  windy.wind = MetresPerSecond{3};
  const auto w = weather_at({windy, at_hour(1, 20)}, noon + 0.5 * hour);
  ASSERT_TRUE(w);
  EXPECT_FALSE(w->wind);
}

TEST(WeatherAt, KeepsTheRainOfTheHour) {
  WeatherHour wet = at_hour(0, 20);
  wet.rain_mm = 4.0;
  WeatherHour dry = at_hour(1, 20);
  dry.rain_mm = 0.0;
  EXPECT_EQ(weather_at({wet, dry}, noon + 0.9 * hour).value().rain_mm, 4.0);
  EXPECT_EQ(weather_at({wet, dry}, noon + hour).value().rain_mm, 0.0);
}

TEST(WeatherAt, SaysNothingOfRainBeforeTheTableOrAnHourAfterAReading) {
  WeatherHour wet = at_hour(0, 20);
  wet.rain_mm = 4.0;
  EXPECT_FALSE(weather_at({wet}, noon - 0.5 * hour).value().rain_mm);
  EXPECT_FALSE(weather_at({wet, at_hour(2, 20)}, noon + 1.5 * hour).value().rain_mm);
}

TEST(WeatherAt, ReachesAnHourBeyondTheTableAndNoFurther) {
  const Weather table{at_hour(0, 20), at_hour(1, 30)};
  EXPECT_EQ(weather_at(table, noon - hour).value().temperature.value, 20);
  EXPECT_EQ(weather_at(table, noon + 2 * hour).value().temperature.value, 30);
  EXPECT_FALSE(weather_at(table, noon - 1.01 * hour));
  EXPECT_FALSE(weather_at(table, noon + 2.01 * hour));
}

TEST(WeatherAt, BridgesThreeHoursAndNoMore) {
  EXPECT_TRUE(weather_at({at_hour(0, 20), at_hour(3, 30)}, noon + 1.5 * hour));
  const Weather gap{at_hour(0, 20), at_hour(3.5, 30)};
  EXPECT_FALSE(weather_at(gap, noon + 1.5 * hour));
  EXPECT_EQ(weather_at(gap, noon).value().temperature.value, 20);
  EXPECT_EQ(weather_at(gap, noon + 3.5 * hour).value().temperature.value, 30);
}

TEST(WeatherAt, IsNothingWithoutATable) { EXPECT_FALSE(weather_at({}, noon)); }

}  // namespace
}  // namespace outbye
