#include "formats/weather/weather_csv.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "formats/time_zone/time_zone.h"

namespace outbye {
namespace {

using testing::HasSubstr;
using namespace std::chrono_literals;

const Instant noon = std::chrono::sys_days{std::chrono::year{2026} / 6 / 13} + 12h;

Result<Weather> read(std::string_view text) {
  return read_weather_csv(text, "day.csv", *clock_for_zone("Europe/London", noon), noon);
}
std::string refusal(std::string_view text) {
  const auto weather = read(text);
  return weather ? "accepted" : weather.error().where + " " + weather.error().what;
}

TEST(WeatherCsv, ReadsClockTimesAsLocalTimesOfTheDay) {
  const auto weather = read("time,temperature_c,humidity_pct\n07:00,14.5,80\n08:00,16,75\n");
  ASSERT_TRUE(weather) << weather.error().what;
  ASSERT_EQ(weather->size(), 2u);
  EXPECT_EQ(weather->front().at, noon - 6h);  // 07:00 BST
  EXPECT_EQ(weather->front().temperature, Celsius{14.5});
  EXPECT_EQ(weather->front().humidity, Percent{80});
  EXPECT_FALSE(weather->front().wind);
}

TEST(WeatherCsv, GoesOnIntoTheNextDayAfterMidnight) {
  const auto weather = read("time,temperature_c,humidity_pct\n22:00,10,80\n23:30,9,80\n00:30,8,85\n");
  ASSERT_TRUE(weather) << weather.error().what;
  EXPECT_EQ((*weather)[2].at - (*weather)[1].at, Seconds{3600});
}

TEST(WeatherCsv, ReadsEveryColumnInAnyOrderWithItsUnit) {
  const auto weather = read(
      "rain_mm;pressure_hpa;cloud_pct;radiation_wm2;wind_kmh;humidity_pct;temperature_c;time\n"
      "0,4;1008,5;25;640;18;60;21,5;2026-06-13T13:00+01:00\n");
  ASSERT_TRUE(weather) << weather.error().what;
  const WeatherHour& hour = weather->front();
  EXPECT_EQ(hour.at, noon);
  EXPECT_EQ(hour.wind, MetresPerSecond{5.0});
  EXPECT_EQ(hour.radiation, WattsPerSquareMetre{640});
  EXPECT_EQ(hour.cloud, 0.25);
  EXPECT_EQ(hour.pressure, Hectopascals{1008.5});
  EXPECT_EQ(hour.rain_mm, 0.4);
  EXPECT_EQ(hour.temperature, Celsius{21.5});
}

TEST(WeatherCsv, LeavesOutWhatIsEmptyButNeverTheTemperature) {
  const auto weather = read("time,temperature_c,humidity_pct,wind_ms,rain_mm\n07:00,14,80,,1\n");
  ASSERT_TRUE(weather) << weather.error().what;
  EXPECT_FALSE(weather->front().wind);
  EXPECT_EQ(weather->front().rain_mm, 1.0);
  EXPECT_THAT(refusal("time,temperature_c,humidity_pct\n07:00,,80\n"),
              HasSubstr("day.csv, line 2 lacks temperature_c"));
}

TEST(WeatherCsv, SaysWhereAndHowToPutItRight) {
  EXPECT_THAT(refusal(""), HasSubstr("is empty"));
  EXPECT_THAT(refusal("time,temprature_c,humidity_pct\n"), HasSubstr("did you mean temperature_c?"));
  EXPECT_THAT(refusal("time,temperature_c\n"), HasSubstr("lacks the column humidity_pct"));
  EXPECT_THAT(refusal("time,temperature_c,humidity_pct,time\n"), HasSubstr("time twice"));
  EXPECT_THAT(refusal("time,temperature_c,humidity_pct\n"), HasSubstr("no hours"));
  EXPECT_THAT(refusal("time,temperature_c,humidity_pct\n07:00,85,60\n"), HasSubstr("from -60 to 60"));
  EXPECT_THAT(refusal("time,temperature_c,humidity_pct\n07:00,15,60,3\n"), HasSubstr("4 values for 3 columns"));
  EXPECT_THAT(refusal("time,temperature_c,humidity_pct\nseven,15,60\n"), HasSubstr("write 07:00"));
  EXPECT_THAT(refusal("time,temperature_c,humidity_pct\n09:00,15,60\n08:00,15,60\n"), HasSubstr("in order of time"));
  EXPECT_THAT(refusal("time,temperature_c,humidity_pct\n07:00,nan,60\n"), HasSubstr("must be a number"));
}

}  // namespace
}  // namespace outbye
