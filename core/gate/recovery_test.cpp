#include "core/gate/recovery.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/base/random.h"
#include "core/base/text.h"

namespace outbye {
namespace {

constexpr Instant arrival{Seconds{1'781'343'120.0}};
constexpr BeatsPerMinute limit{64.0};

RecoveryCurve curve_of(double at_arrival, double resting, double tau = 455.0) {
  return {{at_arrival}, {resting}, Seconds{tau}};
}

double minutes_to(double from, double to, double resting) {
  return in_minutes(*time_to_pulse(curve_of(from, resting), {to}));
}

std::vector<PulseReading> noisy_readings(const RecoveryCurve& curve, std::size_t n, Seconds first, Seconds apart,
                                         double error, Rng& rng) {
  std::vector<PulseReading> readings;
  for (std::size_t i = 0; i < n; ++i) {
    const Seconds t = first + static_cast<double>(i) * apart;
    const double noise = error * standard_normal(rng);
    readings.push_back({arrival + t, {pulse_at(curve, t).value + noise}});
  }
  return readings;
}

// Derived from the published time constant of 455 s (Biomed Sci Instrum 28, 1992, 151-156).
TEST(RecoveryCurve, Takes543SecondsFrom110To64) {
  EXPECT_NEAR(time_to_pulse(curve_of(110, 44), {64})->count(), 543, 0.5);
}
TEST(RecoveryCurve, Takes645SecondsFrom110To60) {
  EXPECT_NEAR(time_to_pulse(curve_of(110, 44), {60})->count(), 645, 0.5);
}
// The same derivation at resting rates of 40, 44 and 48, rounded to 0.1 min.
TEST(RecoveryCurve, TakesTheDerivedMinutesToTheLimit) {
  struct Row {
    double from, to, minutes[3];
  };
  const Row rows[] = {
      {110, 64, {8.1, 9.1, 10.3}}, {90, 64, {5.6, 6.3, 7.3}}, {80, 60, {5.3, 6.2, 7.4}}, {130, 64, {10.0, 11.1, 12.4}}};
  const double resting[] = {40, 44, 48};
  for (const auto& row : rows) {
    for (int i = 0; i < 3; ++i) {
      EXPECT_NEAR(minutes_to(row.from, row.to, resting[i]), row.minutes[i], 0.051) << row.from << " " << resting[i];
    }
  }
}

// The same paper: 15 s over the first 55 s, then 455 s; what the fast part still holds then is under 3 %.
TEST(RecoveryCurve, FollowsThePublishedPonyOnceItsFastPartIsOver) {
  const auto pony = [](double t) { return 54.0 + 60.0 * std::exp(-t / 15.0) + 95.0 * std::exp(-t / 455.0); };
  std::vector<PulseReading> readings;
  for (double t = 15.0; t <= 315.0; t += 20.0) readings.push_back({arrival + Seconds{t}, {pony(t)}});
  const RecoveryPrior prior{.resting = {54.0}};
  const auto forecast = forecast_recovery(arrival, readings, {80.0}, std::nullopt, prior);
  EXPECT_EQ(forecast.readings_too_early, 2U);
  const double truth = 455.0 * std::log(95.0 / 26.0);
  EXPECT_NEAR((*forecast.p50 - arrival).count(), truth, 30.0);
}

TEST(RecoveryCurve, IsThereAtOnceBelowTheLimit) { EXPECT_EQ(*time_to_pulse(curve_of(60, 44), limit), Seconds{0}); }
TEST(RecoveryCurve, NeverComesBelowItsRestingRate) { EXPECT_FALSE(time_to_pulse(curve_of(100, 66), limit)); }

TEST(RecoveryCurve, PulseAtTheTimeToAPulseIsThatPulse) {
  Rng rng{Seed{3}};
  for (int i = 0; i < 200; ++i) {
    const double from = 80.0 + 80.0 * uniform(rng);
    const double resting = 38.0 + 20.0 * uniform(rng);
    const auto curve = curve_of(from, resting, 200.0 + 600.0 * uniform(rng));
    EXPECT_NEAR(pulse_at(curve, *time_to_pulse(curve, {64.0})).value, 64.0, 1e-9);
  }
}

struct Coverage {
  double inside{};
  double below{};  // came before the 10 % quantile
  double above{};  // came after the 90 % quantile
  double width_min{};
};

// Horses drawn from the prior, with arrival pulses that a gate sees; readings as a crew takes them.
Coverage coverage(std::size_t readings, double error, int draws) {
  Coverage result;
  Rng rng{Seed{2026}};
  int with_range = 0;
  for (int i = 0; i < draws; ++i) {
    const double tau = lognormal(rng, 455.0, 0.35);
    const double resting = 44.0 + 3.12 * standard_normal(rng);
    const double from = 85.0 + 60.0 * uniform(rng);
    const auto curve = curve_of(from, resting, tau);
    const auto taken = noisy_readings(curve, readings, Seconds{60}, Seconds{45}, error, rng);
    const auto forecast =
        forecast_recovery(arrival, taken, limit, std::nullopt, {.counting_error = BeatsPerMinute{error}});
    const auto time = time_to_pulse(curve, limit);
    const Instant truth = time ? arrival + *time : Instant::max();
    if (truth < forecast.p10.value_or(Instant::max())) {
      result.below += 1;
    } else if (forecast.p90 && truth > *forecast.p90) {
      result.above += 1;
    } else {
      result.inside += 1;
    }
    if (forecast.p90) {
      ++with_range;
      result.width_min += in_minutes(*forecast.p90 - *forecast.p10);
    }
  }
  result.inside /= draws;
  result.below /= draws;
  result.above /= draws;
  result.width_min /= with_range;
  return result;
}

void expect_eighty_percent(const Coverage& c, const std::string& name) {
  testing::Test::RecordProperty(name + "_inside", fixed(c.inside, 4));
  testing::Test::RecordProperty(name + "_width_min", fixed(c.width_min, 2));
  // 2000 draws: the standard error of a share of 0.8 is 0.009.
  EXPECT_NEAR(c.inside, 0.8, 0.03) << name;
  EXPECT_NEAR(c.below, 0.1, 0.025) << name;
  EXPECT_NEAR(c.above, 0.1, 0.025) << name;
}

TEST(RecoveryForecast, HoldsEightInTenWithThreeReadings) { expect_eighty_percent(coverage(3, 3.0, 2000), "three"); }
TEST(RecoveryForecast, HoldsEightInTenWithSixReadings) { expect_eighty_percent(coverage(6, 3.0, 2000), "six"); }
TEST(RecoveryForecast, HoldsEightInTenWithTwoBeatsOfError) { expect_eighty_percent(coverage(4, 2.0, 2000), "two bpm"); }
TEST(RecoveryForecast, HoldsEightInTenWithFourBeatsOfError) {
  expect_eighty_percent(coverage(4, 4.0, 2000), "four bpm");
}
TEST(RecoveryForecast, HoldsEightInTenWithOneReading) { expect_eighty_percent(coverage(1, 3.0, 2000), "one"); }

TEST(RecoveryForecast, NarrowsWithMoreReadings) {
  EXPECT_LT(coverage(8, 3.0, 300).width_min, 0.75 * coverage(2, 3.0, 300).width_min);
}

TEST(RecoveryForecast, RecoversTheCurveFromManyReadings) {
  Rng rng{Seed{5}};
  const auto truth = curve_of(120, 43, 380);
  const auto readings = noisy_readings(truth, 30, Seconds{60}, Seconds{30}, 2.0, rng);
  const auto forecast = forecast_recovery(arrival, readings, limit, std::nullopt, {.counting_error = {2.0}});
  EXPECT_NEAR(forecast.curve.at_arrival.value, 120, 4);
  EXPECT_NEAR(forecast.curve.resting.value, 43, 3);
  EXPECT_NEAR(forecast.curve.tau.count(), 380, 40);
}

TEST(RecoveryForecast, IsNotPulledFarByOneSlipOfCounting) {
  const auto truth = curve_of(110, 44);
  std::vector<PulseReading> readings;
  for (double t = 60; t <= 360; t += 60) readings.push_back({arrival + Seconds{t}, pulse_at(truth, Seconds{t})});
  const auto clean = forecast_recovery(arrival, readings, limit, std::nullopt);
  readings[3].pulse.value += 24.0;  // counted over 20 s, taken for 15 s
  const auto slipped = forecast_recovery(arrival, readings, limit, std::nullopt);
  EXPECT_LT(std::abs((*slipped.p50 - *clean.p50).count()), 45.0);
}

TEST(RecoveryForecast, SaysWhatIsMissingBelowThreeReadings) {
  const auto none = forecast_recovery(arrival, {}, limit, std::nullopt);
  EXPECT_EQ(none.basis, RecoveryBasis::nothing);
  EXPECT_FALSE(none.p10 || none.p50 || none.p90);
  ASSERT_EQ(none.missing.size(), 1U);
  EXPECT_EQ(none.missing[0].substr(0, 15), "3 more readings");
  const auto two =
      forecast_recovery(arrival, {{arrival + minutes(2), {90}}, {arrival + minutes(3), {84}}}, limit, std::nullopt);
  EXPECT_EQ(two.basis, RecoveryBasis::rough);
  EXPECT_EQ(two.missing.at(0).substr(0, 14), "1 more reading");
}

TEST(RecoveryForecast, LeavesReadingsOfTheFastPartOut) {
  const std::vector<PulseReading> slow{
      {arrival + minutes(1), {92}}, {arrival + minutes(2), {84}}, {arrival + minutes(3), {79}}};
  auto with_fast = slow;
  with_fast.push_back({arrival + Seconds{20}, {150}});
  const auto plain = forecast_recovery(arrival, slow, limit, std::nullopt);
  const auto fast = forecast_recovery(arrival, with_fast, limit, std::nullopt);
  EXPECT_EQ(fast.readings_too_early, 1U);
  EXPECT_EQ(*fast.p50, *plain.p50);
}

TEST(RecoveryForecast, MayEndWithNotWithinTwoHours) {
  std::vector<PulseReading> readings;
  for (double t = 120; t <= 1500; t += 60) readings.push_back({arrival + Seconds{t}, {72.0}});
  const auto forecast =
      forecast_recovery(arrival, readings, {56.0}, arrival + minutes(20), {.resting = {66.0}, .resting_sd = {2.0}});
  EXPECT_FALSE(forecast.p90);
  EXPECT_LT(*forecast.chance_in_time, 0.05);
}

TEST(RecoveryForecast, QuantilesAreInOrder) {
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    Rng rng{Seed{seed}};
    const double from = 70.0 + 90.0 * uniform(rng);
    const auto readings = noisy_readings(curve_of(from, 44), 1 + seed % 6, Seconds{60}, Seconds{40}, 4.0, rng);
    const auto forecast = forecast_recovery(arrival, readings, limit, std::nullopt);
    EXPECT_LE(*forecast.p10, *forecast.p50) << seed;
    EXPECT_LE(*forecast.p50, forecast.p90.value_or(Instant::max())) << seed;
    EXPECT_GE(*forecast.p10, arrival) << seed;
  }
}

TEST(RecoveryForecast, AHigherLimitIsNeverMetLater) {
  for (std::uint64_t seed = 1; seed <= 50; ++seed) {
    Rng rng{Seed{seed}};
    const auto readings = noisy_readings(curve_of(115, 44), 4, Seconds{60}, Seconds{45}, 3.0, rng);
    Instant before = Instant::max();
    for (double bpm = 54.0; bpm <= 80.0; bpm += 2.0) {
      const auto forecast = forecast_recovery(arrival, readings, {bpm}, std::nullopt);
      const Instant p50 = forecast.p50.value_or(Instant::max());
      EXPECT_LE(p50, before) << seed << " " << bpm;
      before = p50;
    }
  }
}

TEST(RecoveryForecast, AHigherPulseThroughoutIsNeverMetEarlier) {
  for (std::uint64_t seed = 1; seed <= 50; ++seed) {
    Rng rng{Seed{seed}};
    auto readings = noisy_readings(curve_of(95, 44), 4, Seconds{60}, Seconds{45}, 3.0, rng);
    Instant before = arrival;
    for (int rise = 0; rise < 12; ++rise) {
      const Instant p50 = forecast_recovery(arrival, readings, limit, std::nullopt).p50.value_or(Instant::max());
      EXPECT_GE(p50, before - Seconds{1.0}) << seed << " " << rise;  // a grid moves with the readings: its error
      before = p50;
      for (auto& reading : readings) reading.pulse.value += 2.0;
    }
  }
}

TEST(RecoveryForecast, DoesNotDependOnTheOrderOfReadings) {
  std::vector<PulseReading> readings{
      {arrival + minutes(3), {80}}, {arrival + minutes(1), {95}}, {arrival + minutes(2), {86}}};
  const auto one = forecast_recovery(arrival, readings, limit, std::nullopt);
  std::reverse(readings.begin(), readings.end());
  EXPECT_EQ(*forecast_recovery(arrival, readings, limit, std::nullopt).p90, *one.p90);
}

TEST(RecoveryForecast, HasNoRangeForReadingsThatAreNoPulse) {
  std::vector<PulseReading> readings(40, {arrival + minutes(5), {1e9}});
  EXPECT_EQ(forecast_recovery(arrival, readings, limit, std::nullopt).basis, RecoveryBasis::nothing);
}

}  // namespace
}  // namespace outbye
