// When the horse is where, as a distribution: what is assumed of speed, slope, going, heat, stops and gates, and the
// simulated days drawn from it. Sources: slope from the cost of transport (Equine Vet J Suppl 34, 2002, 397-401);
// between-loop variation of finishers 4.1 % (pacing over 160 km, conference 2018); the rest are editable defaults
// (common practice, no source). docs/pace.md has the formulas and what they were checked against.
//
// The time over a piece of course is  length / (speed x slope x going x heat) x exp(R + L + W):  R one draw a ride, L
// one a loop, W wandering within the loop. All three have mean 0, so the *median* of a riding time is its expected time
// and the mean is up to exp(half the variance) later: 0.6 % at the defaults. Stops and recoveries are lognormal, also
// by their median; a sum of many stops therefore has a median a little above the sum of their medians.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/index.h"
#include "core/base/random.h"
#include "core/base/result.h"
#include "core/base/units.h"
#include "core/course/course.h"

namespace outbye {

// A lognormal duration: median >= 0, log_sd 0..2. log_sd 0 makes it exact, a median of 0 makes it 0.
struct UncertainTime {
  Seconds median{};
  double log_sd{};
};

struct GoingSection {
  Metres from{};       // along the loop; sections of a loop must not overlap
  Metres to{};         // later than from; may end up to 500 m after the loop (round kilometres)
  double factor{1.0};  // of speed, (0, 1.5]
  std::string what;    // "deep sand"
};

struct LoopPace {
  KmPerHour speed{12.0};  // (0, 40]
  // true: the average over the loop in cool weather, kept exactly by normalising; hills and going only move time about
  // within the loop.
  // false: the speed on level, hard going; hills and going make the loop slower.
  bool is_average{true};
  double heat_factor{1.0};  // of speed, (0, 1.2]; slows the loop whichever way the speed is given
  std::vector<GoingSection> going;
  UncertainTime recovery{minutes(6.0), 0.35};  // arrival to in-time at the gate that ends the loop; 0..2 h
  Seconds hold{minutes(40.0)};                 // from in-time to out-time, 0..6 h; the last loop's is not used
};

// Each 0..1, as a share of the time.
struct PaceSpread {
  double ride{0.08};             // sd of log-time, one draw a ride
  double loop{0.041};            // sd of log-time, one draw a loop
  double within{0.06};           // stationary sd of the Ornstein-Uhlenbeck part of log-pace within a loop
  Metres within_length{6000.0};  // its correlation length, 0.5..1000 km
};

struct HorsePace {
  Instant start;  // when this horse starts loop 1; for an interval start its own slot
  UncertainTime start_delay{Seconds{0}, 0.0};
  std::vector<LoopPace> loops;       // one a loop of the course
  std::vector<UncertainTime> stops;  // one a pass of the course: how long the horse stands there if it is met
  PaceSpread spread;
};

// What happens to a horse in its day, in order: for each loop its passes, then the gate that ends it (the finish for
// the last loop).
struct RideEvent {
  enum class Kind { pass, gate, finish } kind{Kind::pass};
  LoopId loop;
  std::optional<PassId> pass;  // for Kind::pass
  Metres ride_along{};
};

std::vector<RideEvent> ride_events(const Course& course);

// Simulated days of one horse. Columns are stored event by event: value of event e on day d at [e * days + d].
// Times are seconds after `origin`. All days use the same draws whatever is met, so plans are compared fairly. Riding
// draws depend on the seed and the loops alone, not on the crew points, and day 17 is the same day however many are
// drawn.
struct HorseDays {
  Instant origin;  // HorsePace::start
  std::size_t days{};
  std::vector<RideEvent> events;
  std::vector<double> base;   // arrival if the horse stopped at no pass; gates' recovery and hold are in it
  std::vector<double> stand;  // how long the horse stands: at a pass if met, at a gate recovery + hold, at the finish 0
  std::vector<double> in_time;  // recovery part of `stand` at gates and finish (arrival to in-time); 0 at passes
};

// Arrival times (same layout) when the horse stops at the passes marked in `is_met` (one flag an event; gates and the
// finish ignored). The horse leaves event e on day d at arrivals[e * days + d] + stand[e * days + d].
std::vector<double> arrivals(const HorseDays& days, const std::vector<bool>& is_met);

// `days` 1..1,000,000. Give each horse its own seed. Errors: bad_input for speeds, factors, times and spreads out of
// range and sizes that do not match the course; impossible for a loop that would take more than two days.
Result<HorseDays> simulate_days(const Course& course, const HorsePace& pace, std::size_t days, Seed seed);

// The 10, 50 and 90 % quantiles of an arrival over the simulated days, linear between neighbouring days.
struct Window {
  Instant p10;
  Instant p50;
  Instant p90;
};
Window window_of(const HorseDays& days, const std::vector<double>& arrivals, std::size_t event);

// Medians without chance: every spread set to 0. One arrival an event. Errors as simulate_days.
Result<std::vector<Instant>> expected_arrivals(const Course& course, const HorsePace& pace,
                                               const std::vector<bool>& is_met);

// How much each cause adds to the expected riding time of a loop, against level hard going, cool, no stops.
// With an average speed, hills and going add nothing to the loop as a whole; `hills_within` says how far they move
// the worst-placed pass of the loop (positive: later than even speed would have it). The causes add up:
// riding = length / speed + hills + going + heat + stops.
struct LoopEffects {
  LoopId loop;
  Seconds riding{};  // expected from out-time to arrival, all in
  Seconds hills{};
  Seconds going{};
  Seconds heat{};
  Seconds stops{};
  Seconds gate{};  // recovery + hold after the loop; the last loop's recovery alone
  Seconds hills_within{};
};
Result<std::vector<LoopEffects>> pace_effects(const Course& course, const HorsePace& pace,
                                              const std::vector<bool>& is_met);

// For people, in whole minutes: "Hills cost loop 2 eleven minutes, going four and stops nine."
std::string describe(const LoopEffects& effects, const std::string& loop_name);

// Speed factor of a gradient (rise over run): the flat cost of transport over that of the gradient, so that uphill is
// ridden at equal effort; downhill capped at 1.05, because safety and limbs set that speed and because the published
// cost (0.39 x flat at -10 %) is milder than one measured on a treadmill (0.55 x). Range -0.30..0.30, beyond which the
// end value is used.
double slope_speed_factor(double gradient);
// Oxygen cost of transport in ml O2 per kg and metre of path, gradient in -0.30..0.30 (clamped). Modelling the oxygen
// cost of transport in competitions over ground of variable slope, Equine Vet J Suppl 34 (2002) 397-401.
double cost_of_transport(double gradient);

}  // namespace outbye
