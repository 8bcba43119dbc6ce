#include "core/live/live_pace.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "core/pace/loop_clock.h"
#include "core/pace/pace_checks.h"
#include "core/pace/within_loop.h"

namespace outbye {
namespace {

constexpr double longest_cell = 2000.0;  // as in simulate_days
constexpr std::size_t most_riders = 40;

// Mean and variance of a lognormal.
double mean_of(const UncertainTime& time) { return time.median.count() * std::exp(0.5 * time.log_sd * time.log_sd); }
double variance_of(const UncertainTime& time) {
  const double mean = mean_of(time);
  return mean * mean * std::expm1(time.log_sd * time.log_sd);
}

// Part of a loop's wandering: covariance of the means over cells i and k, as a share of sd^2.
double wander_share(double cell, double length, std::size_t i, std::size_t k) {
  const double u = cell / length;
  if (i == k) return mean_variance_share(u);
  const double c = u > 0 ? -std::expm1(-u) / u : 1.0;
  const double between = static_cast<double>(i > k ? i - k - 1 : k - i - 1);
  return c * c * std::exp(-between * u);
}

// Cells of one loop with the seconds of a stretch in each.
struct Stretch {
  std::size_t loop{};
  std::vector<std::size_t> cells;
  std::vector<double> seconds;
};

Stretch stretch_of(const LivePace& pace, std::size_t loop, double from, double to) {
  Stretch stretch{loop, {}, {}};
  const auto& ends = pace.loops[loop].ends;
  for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
    const double overlap = std::min(to, ends[i + 1]) - std::max(from, ends[i]);
    if (overlap <= 0) continue;
    stretch.cells.push_back(i);
    stretch.seconds.push_back(overlap);
  }
  return stretch;
}

double total(const Stretch& stretch) {
  double sum = 0;
  for (const double s : stretch.seconds) sum += s;
  return sum;
}

// Covariance of the loop and wandering parts of two stretches' mean log-pace.
double covariance(const LivePace& pace, const Stretch& a, const Stretch& b) {
  if (a.loop != b.loop) return 0;
  const double loop = pace.spread.loop * pace.spread.loop;
  const double within = pace.spread.within * pace.spread.within;
  const double cell = pace.loops[a.loop].length;
  double sum = 0;
  for (std::size_t i = 0; i < a.cells.size(); ++i) {
    for (std::size_t k = 0; k < b.cells.size(); ++k) {
      sum += a.seconds[i] * b.seconds[k] *
             (loop + within * wander_share(cell, pace.spread.within_length.value, a.cells[i], b.cells[k]));
    }
  }
  return sum / (total(a) * total(b));
}

// Half the mean variance of the wandering within a ride over several stretches.
double curvature(const LivePace& pace, const std::vector<Stretch>& stretches) {
  const double within = pace.spread.within * pace.spread.within;
  const double loop = pace.spread.loop * pace.spread.loop;
  double sum = 0, own = 0, mean = 0;
  for (const Stretch& s : stretches) {
    const double share = total(s);
    sum += share;
    own += share * (loop + within * mean_variance_share(pace.loops[s.loop].length / pace.spread.within_length.value));
    mean += share * share * covariance(pace, s, s);
  }
  return sum > 0 ? 0.5 * (own / sum - mean / (sum * sum)) : 0.0;
}

// From one certain time to the next: riding over stretches, and what stood in between.
struct Leg {
  std::vector<Stretch> stretches;
  double stands{};  // mean seconds
  double stands_variance{};
};

class Believer {
 public:
  Believer(const LivePace& pace, std::optional<Instant> started, const std::vector<OwnSighting>& own)
      : pace_(pace), own_(own) {
    start_.at = started.value_or(pace.start);
    start_.has_left = true;
    start_.is_exact = started.has_value() || pace.start_delay.median.count() <= 0;
    result_.anchor = own.empty() ? start_ : anchor_at(own.back());
  }

  LiveBelief believe(const std::vector<RiderStretch>& riders) {
    const std::size_t last = std::min(result_.anchor.loop, pace_.loops.size() - 1);
    choose(riders, last);
    set_prior(last);
    measure_own();
    for (std::size_t r = 0; r < riders_.size(); ++r) measure_rider(r);
    result_.riders_used = riders_.size();
    return std::move(result_);
  }

 private:
  void choose(const std::vector<RiderStretch>& riders, std::size_t last) {
    for (auto r = riders.rbegin(); r != riders.rend() && riders_.size() < most_riders; ++r) {
      if (r->loop.value > last || r->time.count() <= 0) continue;
      Stretch stretch = stretch_of(pace_, r->loop.value, expected_seconds(pace_, r->loop.value, r->from.value),
                                   expected_seconds(pace_, r->loop.value, r->to.value));
      if (stretch.cells.empty() || total(stretch) < 60.0) continue;
      riders_.push_back(*r);
      stretches_.push_back(std::move(stretch));
    }
  }

  void set_prior(std::size_t last) {
    auto& first = result_.first_cell;
    std::size_t size = 1;
    for (std::size_t l = 0; l <= last; ++l) {
      first.push_back(size);
      size += pace_.loops[l].ends.size() - 1;
    }
    first_rider_ = size;
    size += riders_.size();
    GaussianBelief& b = result_.belief;
    b.mean.assign(size, 0.0);
    b.covariance.assign(size * size, 0.0);
    const auto set = [&](std::size_t i, std::size_t k, double value) {
      b.covariance[i * size + k] = value;
      b.covariance[k * size + i] = value;
    };
    const PaceSpread& s = pace_.spread;
    const double shared = pace_.settings.shared;
    set(0, 0, s.ride * s.ride);
    for (std::size_t l = 0; l <= last; ++l) {
      const std::size_t cells = pace_.loops[l].ends.size() - 1;
      for (std::size_t i = 0; i < cells; ++i) {
        for (std::size_t k = 0; k <= i; ++k) {
          set(first[l] + i, first[l] + k,
              s.loop * s.loop + s.within * s.within * wander_share(pace_.loops[l].length, s.within_length.value, i, k));
        }
      }
    }
    for (std::size_t r = 0; r < riders_.size(); ++r) {
      const std::size_t row = first_rider_ + r;
      set(row, 0, shared * s.ride * s.ride);
      const std::size_t l = stretches_[r].loop;
      for (std::size_t i = 0; i + 1 < pace_.loops[l].ends.size(); ++i) {
        set(row, first[l] + i, shared * covariance(pace_, stretches_[r], Stretch{l, {i}, {1.0}}));
      }
      for (std::size_t q = 0; q <= r; ++q) {
        const bool is_same = riders_[q].number == riders_[r].number;
        const double part = s.ride * s.ride + covariance(pace_, stretches_[r], stretches_[q]);
        const double between = is_same ? pace_.settings.rider_spread * pace_.settings.rider_spread : 0.0;
        set(row, first_rider_ + q, (is_same ? 1.0 : shared) * part + between);
      }
    }
  }

  // Rides on along the loop that `from` is on to the event `to`, or to its gate and beyond.
  Leg leg(const LiveAnchor& from, std::size_t to) const {
    Leg leg;
    const auto stand = [&leg](const UncertainTime& time) {
      leg.stands += mean_of(time);
      leg.stands_variance += variance_of(time);
    };
    if (!from.event && !from.is_exact) stand(pace_.start_delay);
    if (from.event && !from.has_left) {
      const std::size_t e = *from.event;
      if (pace_.events[e].pass) {
        if (from.is_met) stand(pace_.at[e].stand);
      } else {
        const auto& gate = pace_.loops[pace_.at[e].loop];
        if (!from.is_in_time) stand(gate.recovery);
        leg.stands += gate.hold;
      }
    }
    double done = from.seconds;
    for (std::size_t l = from.loop; l <= pace_.at[to].loop; ++l) {
      const bool is_last = l == pace_.at[to].loop;
      leg.stretches.push_back(stretch_of(pace_, l, done, is_last ? pace_.at[to].seconds : pace_.loops[l].ends.back()));
      if (!is_last) {
        stand(pace_.loops[l].recovery);
        leg.stands += pace_.loops[l].hold;
      }
      done = 0;
    }
    return leg;
  }

  LiveAnchor anchor_at(const OwnSighting& seen) const {
    const bool is_gate = !pace_.events[seen.event].pass;
    LiveAnchor anchor;
    anchor.event = seen.event;
    anchor.is_met = seen.is_met;
    anchor.has_left = seen.out.has_value();
    anchor.is_in_time = is_gate && !seen.out && seen.in_time.has_value();
    anchor.at = seen.out ? *seen.out : seen.in_time ? *seen.in_time : *seen.in;
    anchor.loop = pace_.at[seen.event].loop + (is_gate ? 1 : 0);
    anchor.seconds = is_gate ? 0.0 : pace_.at[seen.event].seconds;
    return anchor;
  }

  void measure_own() {
    LiveAnchor from = start_;
    for (const OwnSighting& seen : own_) {
      const Instant at = seen.in ? *seen.in : seen.in_time ? *seen.in_time : *seen.out;
      const bool is_gate = !pace_.events[seen.event].pass;
      Leg way = leg(from, seen.event);
      if (!seen.in) {  // stood there before the time that is known
        if (is_gate) {
          const auto& gate = pace_.loops[pace_.at[seen.event].loop];
          way.stands += mean_of(gate.recovery) + (seen.in_time ? 0.0 : gate.hold);
          way.stands_variance += variance_of(gate.recovery);
        } else if (seen.is_met) {
          way.stands += mean_of(pace_.at[seen.event].stand);
          way.stands_variance += variance_of(pace_.at[seen.event].stand);
        }
      }
      measure_leg(way, (at - from.at).count());
      from = anchor_at(seen);
    }
  }

  void measure_leg(const Leg& way, double seconds) {
    double expected = 0;
    for (const Stretch& s : way.stretches) expected += total(s);
    const double riding = seconds - way.stands;
    // Too short to say anything, or taken up by stands: nothing is learnt of the pace.
    if (expected < 60.0 || riding < 0.3 * expected) return;
    WeightedSum sum{{0}, {1.0}};
    for (const Stretch& s : way.stretches) {
      for (std::size_t i = 0; i < s.cells.size(); ++i) {
        sum.parts.push_back(result_.first_cell[s.loop] + s.cells[i]);
        sum.weights.push_back(s.seconds[i] / expected);
      }
    }
    measure(result_.belief, sum, std::log(riding / expected) - curvature(pace_, way.stretches),
            way.stands_variance / (riding * riding));
  }

  void measure_rider(std::size_t r) {
    const UncertainTime& stop = pace_.settings.rider_stop;
    const double p = pace_.settings.rider_stops;
    const double passes = riders_[r].passes_between;
    const double mean = mean_of(stop);
    const double stands = passes * p * mean;
    const double variance = passes * (p * (variance_of(stop) + mean * mean) - p * p * mean * mean);
    const double riding = riders_[r].time.count() - stands;
    const double expected = total(stretches_[r]);
    if (riding < 0.3 * expected) return;
    measure(result_.belief, {{first_rider_ + r}, {1.0}},
            std::log(riding / expected) - curvature(pace_, {stretches_[r]}), variance / (riding * riding));
  }

  const LivePace& pace_;
  const std::vector<OwnSighting>& own_;
  LiveAnchor start_;
  std::vector<RiderStretch> riders_;
  std::vector<Stretch> stretches_;
  std::size_t first_rider_{};
  LiveBelief result_;
};

}  // namespace

double expected_seconds(const LivePace& pace, std::size_t loop, double along) {
  const auto& cells = pace.loops[loop];
  const double cell = std::max(along, 0.0) / cells.length;
  const auto i = std::min(static_cast<std::size_t>(cell), cells.ends.size() - 2);
  const double share = std::min(cell - static_cast<double>(i), 1.0);
  return cells.ends[i] + share * (cells.ends[i + 1] - cells.ends[i]);
}

Result<LivePace> live_pace(const Course& course, const HorsePace& pace, const LiveSettings& settings) {
  if (auto checked = check_pace(course, pace); !checked) return tl::make_unexpected(checked.error());
  LivePace live;
  live.start = pace.start;
  live.start_delay = pace.start_delay;
  live.events = ride_events(course);
  live.spread = pace.spread;
  live.settings = settings;
  std::vector<LoopClock> clocks;
  for (std::size_t l = 0; l < course.loops.size(); ++l) {
    clocks.emplace_back(course.loops[l], pace.loops[l]);
    const double length = course.loops[l].length.value;
    const double longest = std::min(longest_cell, pace.spread.within_length.value / 3.0);
    const auto count = static_cast<std::size_t>(std::max(std::ceil(length / longest), 1.0));
    LivePace::LoopCells cells{
        length / static_cast<double>(count), {}, pace.loops[l].recovery, pace.loops[l].hold.count()};
    for (std::size_t i = 0; i < count; ++i) {
      cells.ends.push_back(clocks[l].at(Metres{cells.length * static_cast<double>(i)}).count());
    }
    cells.ends.push_back(clocks[l].total().count());
    live.loops.push_back(std::move(cells));
  }
  for (const RideEvent& event : live.events) {
    const std::size_t l = event.loop.value;
    LivePace::At where{l, course.loops[l].length.value, clocks[l].total().count(), {}};
    if (event.pass) {
      where.along = at(course.passes, *event.pass).along.value;
      where.seconds = clocks[l].at(Metres{where.along}).count();
      where.stand = at(pace.stops, *event.pass);
    }
    live.at.push_back(where);
  }
  return live;
}

LiveBelief believe(const LivePace& pace, std::optional<Instant> started, const std::vector<OwnSighting>& own,
                   const std::vector<RiderStretch>& riders) {
  return Believer(pace, started, own).believe(riders);
}

}  // namespace outbye
