#include "core/gate/recovery.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "core/base/random.h"

namespace outbye {
namespace {

// The fast part of the published curve is over after this.
constexpr Seconds fast_part{55.0};
constexpr std::size_t readings_wanted = 3;
constexpr std::size_t readings_at_most = 40;
constexpr Seconds horizon = minutes(120.0);

// The grid: resting rates and time constants are each equally likely under the prior, so they need no weights; the
// pulse at arrival is uniform over what a pulse on arrival can be, on a grid about what the readings say.
constexpr std::size_t resting_points = 15;
constexpr std::size_t tau_points = 31;
constexpr std::size_t arrival_points = 41;
constexpr double arrival_lowest = 40.0;
constexpr double arrival_highest = 220.0;
constexpr double arrival_half_width = 5.0;  // in standard deviations

// Student's t with 5 degrees of freedom: a single slip of counting does not pull the curve after it. Its scale is
// chosen so that near the middle it weighs a reading as the normal with that standard deviation would: the information
// of t is (n + 1) / ((n + 3) s^2).
constexpr double degrees = 5.0;
constexpr double scale_of_sd = 0.8660254037844386;  // sqrt(6 / 8)

double middle_of(std::size_t i, std::size_t n) {
  return standard_normal_quantile((static_cast<double>(i) + 0.5) / static_cast<double>(n));
}

// A reading as seconds after arrival and beats a minute.
struct Point {
  double t{};
  double pulse{};
};

struct Usable {
  std::vector<Point> points;
  std::size_t too_early{};
};

Usable usable_points(Instant arrival, const std::vector<PulseReading>& readings) {
  Usable usable;
  for (const auto& reading : readings) {
    const Seconds t = reading.at - arrival;
    if (t < Seconds{0.0} || t > horizon) continue;
    if (t < fast_part) {
      ++usable.too_early;
    } else {
      usable.points.push_back({t.count(), reading.pulse.value});
    }
  }
  std::sort(usable.points.begin(), usable.points.end(),
            [](Point a, Point b) { return a.t != b.t ? a.t < b.t : a.pulse < b.pulse; });
  if (usable.points.size() > readings_at_most) {
    usable.points.erase(usable.points.begin(), usable.points.end() - static_cast<std::ptrdiff_t>(readings_at_most));
  }
  return usable;
}

// Weight over the time to the limit, in bins; what never comes or comes late is kept apart.
class TimeWeights {
 public:
  void add(const std::optional<Seconds>& time, double weight) {
    all_ += weight;
    if (!time || *time >= horizon) return;
    bins_[static_cast<std::size_t>(time->count() / bin_width)] += weight;
  }

  // Linear inside a bin.
  std::optional<Seconds> quantile(double p) const {
    double below = 0.0;
    for (std::size_t i = 0; i < bins_.size(); ++i) {
      if (below + bins_[i] >= p * all_ && bins_[i] > 0.0) {
        return Seconds{bin_width * (static_cast<double>(i) + (p * all_ - below) / bins_[i])};
      }
      below += bins_[i];
    }
    return std::nullopt;
  }

  double share_until(Seconds time) const {
    const double position = std::clamp(time / horizon, 0.0, 1.0) * static_cast<double>(bins_.size());
    const auto whole = std::min(static_cast<std::size_t>(position), bins_.size());
    double below = std::accumulate(bins_.begin(), bins_.begin() + static_cast<std::ptrdiff_t>(whole), 0.0);
    if (whole < bins_.size()) below += (position - static_cast<double>(whole)) * bins_[whole];
    return below / all_;
  }

 private:
  static constexpr double bin_width = 5.0;
  std::array<double, 1440> bins_{};  // two hours
  double all_{};
};

// For one resting rate and time constant, the curve is a straight line in H_0: least squares says where to look.
struct ArrivalGrid {
  double from{};
  double step{};
};
ArrivalGrid arrival_grid(const std::vector<double>& decay, const std::vector<Point>& points, double resting,
                         double sd) {
  double squares = 0.0;
  double products = 0.0;
  for (std::size_t k = 0; k < points.size(); ++k) {
    squares += decay[k] * decay[k];
    products += decay[k] * (points[k].pulse - resting);
  }
  const double half = arrival_half_width * sd / std::sqrt(squares);
  const double centre = resting + products / squares;
  const double from = std::clamp(centre - half, arrival_lowest, arrival_highest);
  const double to = std::clamp(centre + half, arrival_lowest, arrival_highest);
  return {from, (to - from) / static_cast<double>(arrival_points - 1)};
}

struct Sums {
  double weight{};
  double at_arrival{};
  double resting{};
  double tau{};
};

}  // namespace

BeatsPerMinute pulse_at(const RecoveryCurve& curve, Seconds after_arrival) {
  return curve.resting + (curve.at_arrival - curve.resting) * std::exp(-(after_arrival / curve.tau));
}

std::optional<Seconds> time_to_pulse(const RecoveryCurve& curve, BeatsPerMinute pulse) {
  if (curve.at_arrival <= pulse) return Seconds{0.0};
  if (curve.resting >= pulse) return std::nullopt;
  return curve.tau * std::log((curve.at_arrival - curve.resting) / (pulse - curve.resting));
}

RecoveryForecast forecast_recovery(Instant arrival, const std::vector<PulseReading>& readings, BeatsPerMinute limit,
                                   std::optional<Instant> latest_presentation, const RecoveryPrior& prior) {
  const Usable usable = usable_points(arrival, readings);
  const auto& points = usable.points;
  RecoveryForecast forecast;
  forecast.readings_used = points.size();
  forecast.readings_too_early = usable.too_early;
  if (points.size() < readings_wanted) {
    const auto wanted = readings_wanted - points.size();
    forecast.missing.push_back(std::to_string(wanted) + (wanted == 1 ? " more reading" : " more readings") +
                               ", 30 to 60 s apart: a curve needs three");
  }
  if (usable.too_early > 0) {
    forecast.missing.push_back("readings in the first 55 s after arrival are left out: the pulse then falls faster");
  }
  if (points.empty()) return forecast;

  TimeWeights times;
  Sums sums;
  std::vector<double> decay(points.size());
  const double scale = scale_of_sd * prior.counting_error.value;
  const double per_square = 1.0 / (degrees * scale * scale);
  for (std::size_t i = 0; i < tau_points; ++i) {
    const Seconds tau = prior.tau * std::exp(prior.tau_log_sd * middle_of(i, tau_points));
    for (std::size_t k = 0; k < points.size(); ++k) decay[k] = std::exp(-points[k].t / tau.count());
    for (std::size_t j = 0; j < resting_points; ++j) {
      const double resting = prior.resting.value + prior.resting_sd.value * middle_of(j, resting_points);
      const ArrivalGrid grid = arrival_grid(decay, points, resting, prior.counting_error.value);
      for (std::size_t a = 0; a < arrival_points; ++a) {
        const double at_arrival = grid.from + grid.step * static_cast<double>(a);
        double weight = grid.step;
        for (std::size_t k = 0; k < points.size(); ++k) {
          const double off = points[k].pulse - (resting + (at_arrival - resting) * decay[k]);
          const double tail = 1.0 / (1.0 + off * off * per_square);
          weight *= tail * tail * tail;  // exponent -(n + 1) / 2
        }
        times.add(time_to_pulse({{at_arrival}, {resting}, tau}, limit), weight);
        sums.weight += weight;
        sums.at_arrival += weight * at_arrival;
        sums.resting += weight * resting;
        sums.tau += weight * tau.count();
      }
    }
  }
  // Readings that no pulse could give (all far above what a heart does) leave no weight.
  if (!(sums.weight > 0.0)) {
    forecast.missing.push_back("readings that fit a recovery: these do not");
    return forecast;
  }
  forecast.basis = points.size() < readings_wanted ? RecoveryBasis::rough : RecoveryBasis::fitted;
  forecast.curve = {{sums.at_arrival / sums.weight}, {sums.resting / sums.weight}, Seconds{sums.tau / sums.weight}};
  const auto instant = [&](double p) -> std::optional<Instant> {
    const auto time = times.quantile(p);
    return time ? std::optional(arrival + *time) : std::nullopt;
  };
  forecast.p10 = instant(0.1);
  forecast.p50 = instant(0.5);
  forecast.p90 = instant(0.9);
  if (latest_presentation) forecast.chance_in_time = times.share_until(*latest_presentation - arrival);
  return forecast;
}

}  // namespace outbye
