// The pace of our horse as the day has shown it so far. Log-time is Gaussian (core/pace/pace.h), so a sighting of our
// horse, which gives the riding time of a stretch, conditions it exactly; so does another rider's time over a stretch,
// by the part of the day that all riders share (going, weather).
//
// Over a stretch of expected riding time S, with weights by expected time,
//   log(riding time / S) = R + L + mean of W + half the variance of W within the stretch   (second order; the
// remainder is below 0.1 % of the time at the default spreads). A stand or a stay at a gate that nobody timed in
// between counts with its mean, and its spread as noise of the measurement.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/course/course.h"
#include "core/live/gaussian_belief.h"
#include "core/pace/pace.h"

namespace outbye {

// All are choices, no source: what crews told of, to be replaced by what a ride's own results show.
struct LiveSettings {
  double shared{0.5};         // of the variance of ride, loop and wandering: common to all riders, 0..1
  double rider_spread{0.15};  // sd of log-pace from rider to rider, beside that
  double rider_stops{0.5};    // chance that another rider stops at a pass on the way ...
  UncertainTime rider_stop{minutes(3.0), 0.35};  // ... and for how long
  double held_up{0.02};  // chance a loop that something holds her up (a shoe, the way lost); 0: never
  UncertainTime hold_up{minutes(20.0), 0.8};
  std::size_t days{2048};  // simulated at a time; more are drawn while too few agree with what was noted
};

// Our horse at an event of its day (RideEvent), as noted. At least one time is given.
struct OwnSighting {
  std::size_t event{};
  std::optional<Instant> in;       // comes to the pass, gate or finish
  std::optional<Instant> in_time;  // gates: as the officials wrote it
  std::optional<Instant> out;      // goes on
  bool is_met{};                   // a pass at which she stands
};

// Another rider's time from one place to another of a loop.
struct RiderStretch {
  std::string number;
  LoopId loop;
  Metres from{};  // along the loop
  Metres to{};    // later than from
  Seconds time{};
  std::uint32_t passes_between{};  // where that rider may have stopped, unseen
};

// What never changes during a day.
struct LivePace {
  struct LoopCells {
    double length{};           // m, of a cell
    std::vector<double> ends;  // expected seconds at the cells' ends, from 0
    UncertainTime recovery;
    double hold{};  // s
  };
  struct At {  // of an event
    std::size_t loop{};
    double along{};    // m from the start of the loop
    double seconds{};  // expected, from the start of the loop
    UncertainTime stand;
  };
  Instant start;
  UncertainTime start_delay;
  std::vector<RideEvent> events;
  std::vector<At> at;
  std::vector<LoopCells> loops;
  PaceSpread spread;
  LiveSettings settings;
};

// Errors: as simulate_days.
Result<LivePace> live_pace(const Course& course, const HorsePace& pace, const LiveSettings& settings = {});

// Where the horse was last known for certain.
struct LiveAnchor {
  std::optional<std::size_t> event;  // nothing: the start
  Instant at;
  bool has_left{};      // `at` is when it went on; false: when it came (or its in-time at a gate)
  bool is_in_time{};    // `at` is the in-time: the hold runs from then
  bool is_exact{true};  // false: the start, with its delay not known
  bool is_met{};        // stands there
  std::size_t loop{};   // on which it is, or goes out next; loops.size(): the ride is over
  double seconds{};     // expected riding time of that loop done
};

struct LiveBelief {
  GaussianBelief belief;                // R, then L + W of each cell of loops 0 .. loop, then riders' stretches
  std::vector<std::size_t> first_cell;  // part of each loop's first cell
  LiveAnchor anchor;
  std::size_t riders_used{};
};

// `own` by ascending event, each at most once, times ascending; `started` when it was noted. At most the last 40 of
// `riders` on loops up to the horse's are used.
LiveBelief believe(const LivePace& pace, std::optional<Instant> started, const std::vector<OwnSighting>& own,
                   const std::vector<RiderStretch>& riders);

// Expected seconds of a loop at a distance along it, by linear interpolation within its cells.
double expected_seconds(const LivePace& pace, std::size_t loop, double along);

}  // namespace outbye
