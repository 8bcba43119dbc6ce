// Odds and windows of weighed days.
#include <algorithm>
#include <cmath>

#include "core/live/live_days.h"

namespace outbye {
namespace {

// Weighted quantiles of the same values: each value stands at the middle of its weight, linear in between. Values are
// put into buckets first and only the bucket in question is sorted, so that a quantile costs a few passes.
class Quantiles {
 public:
  Quantiles(std::span<const double> values, std::span<const double> weights) : values_(values), weights_(weights) {
    for (std::size_t i = 0; i < values.size(); ++i) {
      if (weights[i] <= 0) continue;
      low_ = sum_ > 0 ? std::min(low_, values[i]) : values[i];
      high_ = sum_ > 0 ? std::max(high_, values[i]) : values[i];
      sum_ += weights[i];
    }
    if (!(sum_ > 0) || !(high_ > low_)) return;
    scale_ = static_cast<double>(buckets) / (high_ - low_);
    of_bucket_.assign(buckets, 0.0);
    for (std::size_t i = 0; i < values.size(); ++i) {
      if (weights[i] > 0) of_bucket_[bucket(values[i])] += weights[i];
    }
  }

  bool is_empty() const { return !(sum_ > 0); }

  double at(double p) const {
    if (!(high_ > low_)) return low_;
    const double wanted = p * sum_;
    double reached = 0;
    std::size_t b = 0;
    while (b + 1 < buckets && reached + of_bucket_[b] < wanted) reached += of_bucket_[b++];
    // The value before, should the quantile lie between two buckets.
    std::optional<std::size_t> before;
    for (std::size_t k = b; k > 0 && !before; --k) {
      if (of_bucket_[k - 1] > 0) before = greatest_of(k - 1);
    }
    double last = before ? values_[*before] : low_;
    double last_at = before ? reached - 0.5 * weights_[*before] : 0.0;
    bool is_first = !before;
    for (; b < buckets; ++b) {
      if (of_bucket_[b] <= 0) continue;
      for (const std::size_t i : sorted(b)) {
        const double here = reached + 0.5 * weights_[i];
        if (here >= wanted) {
          return is_first ? values_[i] : last + (values_[i] - last) * (wanted - last_at) / (here - last_at);
        }
        reached += weights_[i];
        last = values_[i];
        last_at = here;
        is_first = false;
      }
    }
    return last;
  }

 private:
  static constexpr std::size_t buckets = 256;

  std::size_t bucket(double value) const {
    return std::min(static_cast<std::size_t>((value - low_) * scale_), buckets - 1);
  }
  std::vector<std::size_t> members(std::size_t b) const {
    std::vector<std::size_t> all;
    for (std::size_t i = 0; i < values_.size(); ++i) {
      if (weights_[i] > 0 && bucket(values_[i]) == b) all.push_back(i);
    }
    return all;
  }
  std::size_t greatest_of(std::size_t b) const {
    const auto all = members(b);
    return *std::max_element(all.begin(), all.end(),
                             [&](std::size_t i, std::size_t k) { return values_[i] < values_[k]; });
  }
  std::vector<std::size_t> sorted(std::size_t b) const {
    auto all = members(b);
    std::sort(all.begin(), all.end(), [&](std::size_t i, std::size_t k) {
      return values_[i] < values_[k] || (values_[i] == values_[k] && i < k);
    });
    return all;
  }

  std::span<const double> values_, weights_;
  double low_{}, high_{}, sum_{}, scale_{};
  std::vector<double> of_bucket_;
};

std::span<const double> column(const std::vector<double>& columns, std::size_t event, std::size_t days) {
  return {columns.data() + event * days, days};
}

}  // namespace

std::optional<double> weighted_quantile(std::span<const double> values, std::span<const double> weights, double p) {
  const Quantiles quantiles(values, weights);
  if (quantiles.is_empty()) return std::nullopt;
  return quantiles.at(p);
}

double chance_gone(const LiveDays& live, std::size_t event, Instant now) {
  const double by = (now - live.days.origin).count();
  const auto arrival = column(live.days.base, event, live.days.days);
  double gone = 0, all = 0;
  for (std::size_t d = 0; d < arrival.size(); ++d) {
    if (arrival[d] <= by) gone += live.weight[d];
    all += live.weight[d];
  }
  return gone / all;
}

PassOdds pass_odds(const LiveDays& live, std::span<const double> arrival, Instant now) {
  const double by = (now - live.days.origin).count();
  std::vector<double> gone(arrival.size(), 0.0), to_come(arrival.size(), 0.0);
  double has_gone = 0, is_to_come = 0;
  for (std::size_t d = 0; d < arrival.size(); ++d) {
    const bool is_gone = arrival[d] <= by;
    (is_gone ? gone : to_come)[d] = live.weight[d];
    (is_gone ? has_gone : is_to_come) += live.weight[d];
  }
  PassOdds odds;
  odds.gone = has_gone / (has_gone + is_to_come);
  const auto window = [&](const std::vector<double>& weights) {
    const Quantiles quantiles(arrival, weights);
    const auto instant = [&](double p) { return live.days.origin + Seconds{quantiles.at(p)}; };
    return Window{instant(0.1), instant(0.5), instant(0.9)};
  };
  if (odds.gone < 0.999) odds.due = window(to_come);
  if (odds.gone > 0.001) odds.was = window(gone);
  return odds;
}

PassOdds pass_odds(const LiveDays& live, std::size_t event, Instant now) {
  return pass_odds(live, column(live.days.base, event, live.days.days), now);
}

double chance_of_coming_after(const LiveDays& live, std::size_t event, Instant now) {
  const double by = (now - live.days.origin).count();
  const auto arrival = column(live.unweighed.empty() ? live.days.base : live.unweighed, event, live.days.days);
  double chance = 0;
  for (std::size_t d = 0; d < arrival.size(); ++d) {
    if (arrival[d] > by) chance += live.prior[d];
  }
  return chance;
}

HorseDays equal_days(const LiveDays& live, std::size_t count, Seed seed) {
  Rng rng(seed);
  const double mark = uniform(rng);
  std::vector<std::size_t> chosen;
  chosen.reserve(count);
  double reached = 0;
  std::size_t d = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const double wanted = (static_cast<double>(i) + mark) / static_cast<double>(count);
    while (d + 1 < live.weight.size() && reached + live.weight[d] < wanted) reached += live.weight[d++];
    chosen.push_back(d);
  }
  // So that the first days are no worse a sample than all of them.
  shuffle(chosen, rng);
  HorseDays days{live.days.origin, count, live.days.events, {}, {}, {}};
  const std::size_t from = live.days.days;
  for (std::size_t e = 0; e < days.events.size(); ++e) {
    for (const std::size_t c : chosen) {
      days.base.push_back(live.days.base[e * from + c]);
      days.stand.push_back(live.days.stand[e * from + c]);
      days.in_time.push_back(live.days.in_time[e * from + c]);
    }
  }
  return days;
}

}  // namespace outbye
