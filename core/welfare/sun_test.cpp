#include "core/welfare/sun.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/base/random.h"

namespace outbye {
namespace {

using std::chrono::sys_days;
constexpr Seconds day{86400.0};
const Position london{51.5, -0.12};
const Position tromso{69.65, 18.96};
const Position mcmurdo{-77.85, 166.67};
const Position north_pole{90, 0};

Instant midnight(int year, unsigned month, unsigned of_month) {
  return sys_days{std::chrono::year{year} / std::chrono::month{month} / std::chrono::day{of_month}};
}
double height(Position place, Instant at) { return 90 - sun_position(place, at).zenith.value; }

// Meeus, Astronomical Algorithms, examples 25.a and 28.b (from memory): 13 October 1992, 0 h TD, 59 s before 0 h UTC:
// declination -7.78507 degrees, distance 0.99766, equation of time 13 min 42.7 s. So the sun stands overhead on that
// parallel at longitude 180 + 59 s - 13 min 42.7 s.
TEST(SunPosition, StandsOverheadWhereMeeusExamplesSay) {
  const Instant at = midnight(1992, 10, 13) - Seconds{59.0};
  const double longitude = 180 + (59.0 - 822.7) / 240;
  EXPECT_LT(sun_position({-7.78507, longitude}, at).zenith.value, 0.01);
  EXPECT_NEAR(sun_position({0, 0}, at).distance_au, 0.99766, 0.00001);
}

TEST(SunPosition, IsHighestInTheSouthSeenFromTheNorth) {
  const Instant noon = midnight(2026, 6, 21) + std::chrono::hours{12};
  const SunPosition sun = sun_position(london, noon);
  EXPECT_NEAR(sun.zenith.value, 51.5 - 23.44, 0.1);
  EXPECT_NEAR(sun.azimuth.value, 180, 2);
}

TEST(SunPosition, MovesFromEastToWest) {
  const Instant noon = midnight(2026, 3, 20) + std::chrono::hours{12};
  EXPECT_NEAR(sun_position(london, noon - std::chrono::hours{6}).azimuth.value, 90, 4);
  EXPECT_NEAR(sun_position(london, noon + std::chrono::hours{6}).azimuth.value, 270, 4);
}

TEST(SunPosition, IsSeenFromBothSidesOfTheAntimeridianAlike) {
  const Instant at = midnight(2026, 6, 13) + std::chrono::hours{1};
  const SunPosition west = sun_position({-17, 180}, at);
  const SunPosition east = sun_position({-17, -180}, at);
  EXPECT_NEAR(west.zenith.value, east.zenith.value, 1e-9);
  EXPECT_NEAR(west.azimuth.value, east.azimuth.value, 1e-9);
}

TEST(SunTimes, KeepTheirOrderInMiddleLatitudes) {
  const SunTimes t = sun_times(london, midnight(2026, 6, 13));
  ASSERT_TRUE(t.civil_dawn && t.sunrise && t.sunset && t.civil_dusk);
  EXPECT_LT(*t.civil_dawn, *t.sunrise);
  EXPECT_LT(*t.sunrise, *t.sunset);
  EXPECT_LT(*t.sunset, *t.civil_dusk);
}

TEST(SunTimes, PutTheSunAtItsNamedHeights) {
  Rng rng{Seed{7}};
  for (int i = 0; i < 300; ++i) {
    const double latitude = -90 + 180 * uniform(rng);
    const double longitude = -180 + 360 * uniform(rng);
    const Instant from = midnight(2026, 1, 1) + 365 * uniform(rng) * day;
    const Position place{latitude, longitude};
    const SunTimes t = sun_times(place, from);
    for (const auto& at : {t.sunrise, t.sunset}) {
      if (!at) continue;
      EXPECT_NEAR(height(place, *at), -0.833, 0.001);
      EXPECT_GE(*at, from);
      EXPECT_LE(*at, from + day);
    }
    for (const auto& at : {t.civil_dawn, t.civil_dusk}) {
      if (!at) continue;
      EXPECT_NEAR(height(place, *at), -6, 0.001);
    }
  }
}

// Nothing is missed: minute by minute the light changes only where sun_times has an event (or a second one of its
// kind).
TEST(SunTimes, AreMissingOnlyWhereTheLightDoesNotChange) {
  Rng rng{Seed{11}};
  for (int i = 0; i < 60; ++i) {
    const double latitude = 60 + 30 * uniform(rng);
    const Position place{uniform(rng) < 0.5 ? latitude : -latitude, 0};
    const Instant from = midnight(2026, 1, 1) + 365 * uniform(rng) * day;
    const SunTimes t = sun_times(place, from);
    bool rises = false, sets = false, dawns = false, dusks = false;
    for (Instant at = from; at < from + day; at += minutes(1)) {
      const Instant next = std::min<Instant>(at + minutes(1), from + day);
      rises |= height(place, at) < -0.833 && height(place, next) >= -0.833;
      sets |= height(place, at) >= -0.833 && height(place, next) < -0.833;
      dawns |= height(place, at) < -6 && height(place, next) >= -6;
      dusks |= height(place, at) >= -6 && height(place, next) < -6;
    }
    EXPECT_LE(rises, t.sunrise.has_value()) << latitude;
    EXPECT_LE(sets, t.sunset.has_value()) << latitude;
    EXPECT_LE(dawns, t.civil_dawn.has_value()) << latitude;
    EXPECT_LE(dusks, t.civil_dusk.has_value()) << latitude;
  }
}

TEST(SunTimes, AreNoneUnderTheMidnightSun) {
  const SunTimes t = sun_times(tromso, midnight(2026, 6, 21));
  EXPECT_TRUE(t.sun_stays_up);
  EXPECT_FALSE(t.sunrise || t.sunset || t.civil_dawn || t.civil_dusk);
  EXPECT_FALSE(t.twilight_all_night);
}

TEST(SunTimes, HaveTwilightAndNoSunInTromsosPolarNight) {
  const SunTimes t = sun_times(tromso, midnight(2026, 12, 21));
  EXPECT_TRUE(t.sun_stays_down);
  EXPECT_FALSE(t.sunrise || t.sunset);
  EXPECT_TRUE(t.civil_dawn && t.civil_dusk);
}

TEST(SunTimes, HaveNoTwilightInTheSouthernPolarNight) {
  const SunTimes t = sun_times(mcmurdo, midnight(2026, 6, 21));
  EXPECT_TRUE(t.sun_stays_down);
  EXPECT_FALSE(t.civil_dawn || t.civil_dusk || t.twilight_all_night);
}

TEST(SunTimes, HaveTwilightAllNightInANorthernSummer) {
  const SunTimes t = sun_times({61.5, 23.8}, midnight(2026, 6, 21) - std::chrono::hours{3});
  EXPECT_TRUE(t.sunrise && t.sunset);
  EXPECT_FALSE(t.civil_dawn || t.civil_dusk);
  EXPECT_TRUE(t.twilight_all_night);
}

TEST(SunTimes, FindTheOneSunriseOfTheYearAtThePole) {
  int rises = 0;
  for (int d = 0; d < 365; ++d) {
    const SunTimes t = sun_times(north_pole, midnight(2026, 1, 1) + d * day);
    if (t.sunrise) ++rises;
    if (!t.sunrise) continue;
    EXPECT_NEAR((*t.sunrise - midnight(2026, 3, 19)) / day, 0, 2);
  }
  EXPECT_EQ(rises, 1);
}

TEST(LightAt, ChangesAtTheTimesOfTheDay) {
  const SunTimes t = sun_times(london, midnight(2026, 6, 13));
  EXPECT_EQ(light_at(london, *t.civil_dawn - Seconds{1}), Light::dark);
  EXPECT_EQ(light_at(london, *t.civil_dawn), Light::civil_twilight);
  EXPECT_EQ(light_at(london, *t.sunrise - Seconds{1}), Light::civil_twilight);
  EXPECT_EQ(light_at(london, *t.sunrise), Light::day);
  EXPECT_EQ(light_at(london, *t.sunset), Light::civil_twilight);
  EXPECT_EQ(light_at(london, *t.civil_dusk), Light::dark);
}

}  // namespace
}  // namespace outbye
