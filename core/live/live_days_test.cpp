#include "core/live/live_days.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "core/pace/test_course.h"

namespace outbye {
namespace {

// One loop of 24 km at 12 km/h with CP1 at 12 km (an hour) and CP2 at 18 km; only the ride-wide part varies.
struct Drawn {
  Course course = draw_course({{Metres{24000}, {Metres{12000}, Metres{18000}}}});
  HorsePace pace = usual_pace(course);
  LiveSettings settings;

  Drawn() {
    pace = certain(pace);
    pace.spread.ride = 0.1;
    settings.held_up = 0;
    settings.days = 20'000;
  }
  LivePace live() const { return *live_pace(course, pace, settings); }
  Instant minute(double m) const { return pace.start + minutes(m); }
};

// Density and distribution of the arrival at CP1 (an hour at the expected pace) by themselves.
double share_before(double minute, double sd) { return standard_normal_cdf(std::log(minute / 60.0) / sd); }

TEST(LiveDays, PutASightedPassWhereItWasSeen) {
  const Drawn drawn;
  DayEvidence evidence;
  evidence.own.push_back({0, drawn.minute(63), std::nullopt, std::nullopt, false});
  const auto odds = pass_odds(live_days(drawn.live(), evidence, Seed{1}), 0, drawn.minute(70));
  EXPECT_EQ(odds.gone, 1.0);
  EXPECT_EQ(odds.was->p10, drawn.minute(63));
  EXPECT_EQ(odds.was->p90, drawn.minute(63));
}

// log T2 / 90 min given log T1 / 60 min = r is r, exactly, when only the ride-wide part varies.
TEST(LiveDays, CarryTheWholePaceOnWhenOnlyTheRideVaries) {
  const Drawn drawn;
  DayEvidence evidence;
  evidence.own.push_back({0, drawn.minute(66), std::nullopt, std::nullopt, false});
  const auto odds = pass_odds(live_days(drawn.live(), evidence, Seed{1}), 1, drawn.minute(66));
  EXPECT_NEAR((odds.due->p10 - drawn.minute(99)).count(), 0, 0.01);
  EXPECT_NEAR((odds.due->p90 - drawn.minute(99)).count(), 0, 0.01);
}

// Two parts of equal variance, one of them gone: R | y is N(y / 2, s^2 / 2) for y = R + L with equal variances, and
// the rest of the same loop has the same R + L. On the next loop the part L is anew.
TEST(LiveDays, AgreeWithTheGaussianConditionalOnTheNextLoop) {
  Drawn drawn;
  drawn.course = draw_course({{Metres{12000}, {}}, {Metres{12000}, {Metres{6000}}}});
  drawn.pace = certain(usual_pace(drawn.course));
  drawn.pace.spread.ride = 0.08;
  drawn.pace.spread.loop = 0.08;
  DayEvidence evidence;
  const double y = 0.1;
  OwnSighting gate{0, drawn.pace.start + Seconds{3600 * std::exp(y)}, std::nullopt, drawn.minute(120), false};
  gate.in_time = std::nullopt;
  gate.out = drawn.minute(120);
  evidence.own.push_back(gate);
  const auto odds = pass_odds(live_days(drawn.live(), evidence, Seed{1}), 1, drawn.minute(120));
  // Half an hour expected; log-time N(y / 2, s^2 / 2 + s^2).
  const double sd = 0.08 * std::sqrt(1.5);
  const double error = 3.0 * 30 * 60 * sd * 1.7 / std::sqrt(20'000.0);
  const auto at = [&](double z) { return drawn.minute(120) + Seconds{1800 * std::exp(0.5 * y + z * sd)}; };
  EXPECT_NEAR((odds.due->p10 - at(-1.2815516)).count(), 0, error);
  EXPECT_NEAR((odds.due->p50 - at(0)).count(), 0, error);
  EXPECT_NEAR((odds.due->p90 - at(1.2815516)).count(), 0, error);
}

// Nobody overlooks her: after silence until now the arrival is the truncated lognormal.
TEST(LiveDays, AgreeWithTheTruncatedNormalAfterSilence) {
  const Drawn drawn;
  for (const double now : {50.0, 60.0, 68.0, 72.0}) {
    DayEvidence evidence;
    evidence.watches.push_back({0, drawn.minute(0), drawn.minute(now), 0.0});
    const auto live = live_days(drawn.live(), evidence, Seed{2});
    const auto odds = pass_odds(live, 0, drawn.minute(now));
    EXPECT_EQ(odds.gone, 0.0);
    const double below = share_before(now, 0.1);
    for (const auto& [p, found] : {std::pair{0.1, odds.due->p10}, {0.5, odds.due->p50}, {0.9, odds.due->p90}}) {
      const double exact = 60.0 * std::exp(0.1 * standard_normal_quantile(below + p * (1.0 - below)));
      // Error of a sample quantile: sqrt(p (1 - p) / n) over the density there.
      const double z = std::log(exact / 60.0) / 0.1;
      const double density = std::exp(-0.5 * z * z) / std::sqrt(2 * std::acos(-1.0)) / (0.1 * exact) / (1.0 - below);
      const double error = std::sqrt(p * (1 - p) / live.effective) / density;
      EXPECT_NEAR((found - drawn.pace.start).count() / 60.0, exact, 4 * error) << "now " << now << " p " << p;
    }
  }
}

// Chance q of overlooking: gone q F / (q F + 1 - F).
TEST(LiveDays, AgreeWithBayesAboutBeingOverlooked) {
  const Drawn drawn;
  for (const double q : {0.02, 0.05, 0.3}) {
    DayEvidence evidence;
    evidence.watches.push_back({0, drawn.minute(0), drawn.minute(64), q});
    const auto live = live_days(drawn.live(), evidence, Seed{3});
    const double f = share_before(64, 0.1);
    const double exact = q * f / (q * f + 1.0 - f);
    EXPECT_NEAR(pass_odds(live, 0, drawn.minute(64)).gone, exact, 4 * std::sqrt(exact * (1 - exact) / live.effective));
  }
}

TEST(LiveDays, LeaveABreakInTheWatchOpen) {
  const Drawn drawn;
  DayEvidence whole, with_break;
  whole.watches = {{0, drawn.minute(0), drawn.minute(64), 0.05}};
  with_break.watches = {{0, drawn.minute(0), drawn.minute(57), 0.05}, {0, drawn.minute(62), drawn.minute(64), 0.05}};
  const double seen = pass_odds(live_days(drawn.live(), whole, Seed{4}), 0, drawn.minute(64)).gone;
  const double open = pass_odds(live_days(drawn.live(), with_break, Seed{4}), 0, drawn.minute(64)).gone;
  EXPECT_GT(open, seen + 0.2);
}

// Normal prior of the log-time, normal word, both narrow enough that time and log-time are alike: precisions add.
TEST(LiveDays, WeighAWordAgainstThePriorByPrecision) {
  Drawn drawn;
  drawn.pace.spread.ride = 0.02;  // 72 s of an hour
  DayEvidence evidence;
  evidence.words.push_back({0, drawn.minute(90), drawn.minute(61), Seconds{72}, 1.0});
  const auto odds = pass_odds(live_days(drawn.live(), evidence, Seed{5}), 0, drawn.minute(90));
  EXPECT_NEAR((odds.was->p50 - drawn.minute(60.5)).count(), 0, 4);
  const double sd = (odds.was->p90 - odds.was->p10).count() / 2.5631;
  EXPECT_NEAR(sd, 72 / std::sqrt(2.0), 2.5);
}

TEST(LiveDays, LearnOneMinusTrustFromAWordThatSheHasNotPassed) {
  const Drawn drawn;
  DayEvidence evidence;
  evidence.words.push_back({0, drawn.minute(60), std::nullopt, Seconds{0}, 0.75});
  const auto live = live_days(drawn.live(), evidence, Seed{6});
  EXPECT_NEAR(pass_odds(live, 0, drawn.minute(60)).gone, 0.25 * 0.5 / (0.25 * 0.5 + 0.5), 0.01);
}

// A word nobody should trust leaves things as they were.
TEST(LiveDays, IgnoreAWordWithoutTrust) {
  const Drawn drawn;
  DayEvidence evidence;
  const double before = pass_odds(live_days(drawn.live(), evidence, Seed{7}), 0, drawn.minute(61)).gone;
  evidence.words.push_back({0, drawn.minute(60), drawn.minute(40), Seconds{60}, 0.0});
  EXPECT_NEAR(pass_odds(live_days(drawn.live(), evidence, Seed{7}), 0, drawn.minute(61)).gone, before, 1e-12);
}

// The ride-wide part s^2 with the share c of it common, riders differing by t^2 beside it: one rider's log-time y gives
// ours the mean c s^2 / (s^2 + t^2) y and the variance s^2 - c^2 s^4 / (s^2 + t^2).
TEST(LiveDays, LearnFromAnotherRiderByWhatIsShared) {
  Drawn drawn;
  drawn.settings.rider_spread = 0.05;
  drawn.settings.shared = 0.5;
  DayEvidence evidence;
  const double y = 0.2;
  evidence.riders.push_back({"17", LoopId{0}, Metres{0}, Metres{12000}, Seconds{3600 * std::exp(y)}, 0});
  const auto odds = pass_odds(live_days(drawn.live(), evidence, Seed{8}), 0, drawn.minute(0));
  const double mean = 0.5 * 0.01 / (0.01 + 0.0025) * y;
  const double sd = std::sqrt(0.01 - 0.25 * 0.0001 / 0.0125);
  const auto at = [&](double z) { return drawn.pace.start + Seconds{3600 * std::exp(mean + z * sd)}; };
  EXPECT_NEAR((odds.due->p50 - at(0)).count(), 0, 15);
  EXPECT_NEAR((odds.due->p10 - at(-1.2815516)).count(), 0, 20);
  EXPECT_NEAR((odds.due->p90 - at(1.2815516)).count(), 0, 20);
}

// Two stretches of one rider tell apart what is hers and what is the day's: her own speed cancels.
TEST(LiveDays, TakeARidersOwnSpeedFromAnEarlierStretch) {
  Drawn drawn;
  drawn.course = draw_course({{Metres{12000}, {}}, {Metres{24000}, {Metres{12000}}}});
  drawn.pace = certain(usual_pace(drawn.course));
  drawn.pace.spread.loop = 0.1;
  drawn.settings.shared = 1.0;
  drawn.settings.rider_spread = 1.0;  // nothing is known of the rider
  DayEvidence evidence;
  OwnSighting gate{0, drawn.minute(60), std::nullopt, drawn.minute(100), false};
  gate.out = drawn.minute(100);
  gate.in_time = std::nullopt;
  evidence.own.push_back(gate);
  // As fast as ours on loop 1, then 20 % slower on loop 2: loop 2 is slow for all.
  evidence.riders.push_back({"17", LoopId{0}, Metres{0}, Metres{12000}, minutes(60), 0});
  const auto without = pass_odds(live_days(drawn.live(), evidence, Seed{9}), 1, drawn.minute(100));
  evidence.riders.push_back({"17", LoopId{1}, Metres{0}, Metres{12000}, minutes(60 * std::exp(0.2)), 0});
  const auto with = pass_odds(live_days(drawn.live(), evidence, Seed{9}), 1, drawn.minute(100));
  EXPECT_NEAR((without.due->p50 - drawn.minute(160)).count(), 0, 10);
  EXPECT_NEAR((with.due->p50 - drawn.minute(100 + 60 * std::exp(0.2))).count(), 0, 30);
  EXPECT_LT((with.due->p90 - with.due->p10).count(), 0.2 * (without.due->p90 - without.due->p10).count());
}

TEST(LiveDays, NeverWidenTheWindowOfAPassThatIsSighted) {
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    Rng rng(Seed{seed});
    Drawn drawn;
    drawn.pace = usual_pace(drawn.course);
    drawn.settings = {};
    DayEvidence evidence;
    evidence.watches.push_back({0, drawn.minute(0), drawn.minute(40 + 30 * uniform(rng)), 0.05});
    const auto width = [&](std::size_t event) {
      const auto odds = pass_odds(live_days(drawn.live(), evidence, Seed{seed}), event, drawn.pace.start);
      return (odds.due->p90 - odds.due->p10).count();
    };
    const double before[] = {width(0), width(1)};
    evidence.own.push_back({0, drawn.minute(70 + 10 * uniform(rng)), std::nullopt, std::nullopt, false});
    ASSERT_EQ(width(0), 0.0);
    ASSERT_LT(width(1), before[1]);
    evidence.own.push_back({1, drawn.minute(115 + 10 * uniform(rng)), std::nullopt, std::nullopt, false});
    ASSERT_EQ(width(1), 0.0);
    ASSERT_LE(width(0), before[0]);
  }
}

TEST(LiveDays, SayWhenNothingAgreesWithWhatWasNoted) {
  const Drawn drawn;
  DayEvidence evidence;
  evidence.watches.push_back({0, drawn.minute(0), drawn.minute(600), 0.0});
  EXPECT_TRUE(live_days(drawn.live(), evidence, Seed{1}).is_contradicted);
}

TEST(LiveDays, ThinkOfAHoldUpWhenSheIsLongOverdue) {
  Drawn drawn;
  drawn.pace = usual_pace(drawn.course);
  drawn.settings = {};
  DayEvidence evidence;
  evidence.watches.push_back({0, drawn.minute(0), drawn.minute(95), 0.01});
  const auto live = live_days(drawn.live(), evidence, Seed{1});
  EXPECT_GT(live.effective, 100);
  EXPECT_LT(pass_odds(live, 0, drawn.minute(95)).gone, 0.8);
}

TEST(EqualDays, HaveTheQuantilesOfTheWeightedOnes) {
  const Drawn drawn;
  DayEvidence evidence;
  evidence.watches.push_back({0, drawn.minute(0), drawn.minute(64), 0.05});
  const auto live = live_days(drawn.live(), evidence, Seed{1});
  const HorseDays equal = equal_days(live, 4096, Seed{2});
  double gone = 0;
  for (std::size_t d = 0; d < 4096; ++d) gone += equal.base[d] <= 64 * 60 ? 1.0 / 4096 : 0.0;
  EXPECT_NEAR(gone, pass_odds(live, 0, drawn.minute(64)).gone, 3.0 * std::sqrt(0.12 * 0.88 / 4096));
}

}  // namespace
}  // namespace outbye
